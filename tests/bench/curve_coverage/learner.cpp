#include "tests/bench/curve_coverage/learner.h"

#include "core/statistics/distributions.h"
#include "core/statistics/random.h"
#include "tests/bench/cycles.h"
#include "tests/core/made_case.h"

#include <algorithm>
#include <cmath>

namespace docket::bench {

namespace {

/// Addresses of the draws of one learner.
enum Purpose : std::uint64_t { cycle_spread = 1, who_is_helped };

constexpr std::int64_t least_days = 5;  // a short record is spread over them
constexpr double moments_apart = 0.5;   // SD of the moment at which help comes, in sigma
constexpr double hours_a_cycle = 0.025; // 90 s: a shift without a pause of six hours
constexpr double standard_s = 50;       // of no use to question B

/// Help that comes at a moment of its own: the moment, where the cycle takes longer.
void help_when_late(LoggedCycle& cycle, const LearnerShape& shape, double w, double normal) {
  const double at = std::hypot(1, moments_apart) * normal_quantile(1 - shape.helped) + moments_apart * normal;
  if (w <= shape.sigma * at) return;
  help(cycle, 1 - std::exp(shape.sigma * at - w));
}

} // namespace

Case simulate_learner(const LearnerShape& shape, const TrueCurve& curve, std::uint64_t seed, std::uint64_t stream,
                      std::uint64_t run) {
  const Draws draws(Draws(seed).below(~std::uint64_t{0}, stream, run, 0));
  Case c = made::one_element_case(limit_of_learners.count(), standard_s);
  c.operators = {made::trained("K1", shape.before)};
  c.operators[0].trained = YesNo::no;
  c.facts.complainants = {"K1"};
  c.facts.cycles_per_shift = shape.cycles_per_shift;
  const std::int64_t a_day = std::min(shape.cycles_per_shift, (shape.cycles + least_days - 1) / least_days);
  Spread spread{shape.sigma, shape.lag1};
  for (std::int64_t i = 0; i < shape.cycles; ++i) {
    const std::int64_t day = i / a_day, of_day = i % a_day;
    const auto block = static_cast<std::uint64_t>(day), at = static_cast<std::uint64_t>(of_day);
    const double w = spread.next(draws.normal(cycle_spread, block, at), of_day == 0);
    const double level = curve.level(static_cast<double>(shape.before + i + 1));
    const double seconds = level * std::exp(w - shape.sigma * shape.sigma / 2);
    LoggedCycle cycle = made::logged(
        0, made::at(static_cast<int>(day), 6 + hours_a_cycle * static_cast<double>(of_day)), seconds, i + 2);
    if (shape.helped > 0) {
      const double normal = draws.normal(who_is_helped, block, at);
      if (shape.help == HelpComes::when_late)
        help_when_late(cycle, shape, w, normal);
      else if (is_helped(shape.helped, w / shape.sigma, normal))
        help(cycle, helped_takes);
    }
    c.cycle_log.push_back(cycle);
  }
  return c;
}

} // namespace docket::bench
