#include "core/statistics/conformity.h"

#include "core/statistics/distributions.h"

#include <cassert>

namespace docket {

double probability_within(double limit, double value, double u, double df) {
  assert(u >= 0 && df > 0);
  if (u == 0) return value <= limit ? 1 : 0;
  return student_t_cdf((limit - value) / u, df);
}

} // namespace docket
