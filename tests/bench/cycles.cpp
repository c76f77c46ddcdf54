#include "tests/bench/cycles.h"

#include "core/statistics/distributions.h"

#include <cmath>

namespace docket::bench {

double Spread::next(double normal, bool first_of_day) {
  w = first_of_day ? within * normal : lag1 * w + std::sqrt(1 - lag1 * lag1) * within * normal;
  return w;
}

bool is_helped(double share, double w, double normal) {
  const double other = std::sqrt(1 - help_follows_time * help_follows_time);
  return share > 0 && help_follows_time * w + other * normal > normal_quantile(1 - share);
}

void help(LoggedCycle& cycle, double share) {
  cycle.marks.set(Mark::helped);
  cycle.helped = share * cycle.cycle;
  cycle.helped_given = true;
  cycle.cycle -= cycle.helped;
}

} // namespace docket::bench
