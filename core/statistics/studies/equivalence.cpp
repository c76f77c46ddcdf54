#include "core/statistics/studies/equivalence.h"

#include <algorithm>
#include <cassert>

namespace docket {
namespace {

/// Of a true value at or below the bound, when it was seen `above` it.
double p_not_above(double above, double u, double df) {
  if (u == 0) return above > 0 ? 0 : 1;
  return student_t_cdf(-above / u, df);
}

} // namespace

EquivalenceTest test_equivalence(double difference, double u, double df, double margin, double alpha) {
  assert(u >= 0 && df > 0 && margin > 0);
  assert(alpha > 0 && alpha < 0.5);
  const double half = u > 0 ? -student_t_quantile(alpha, df) * u : 0;
  EquivalenceTest test{.p_lower = p_not_above(difference + margin, u, df),
                       .p_upper = p_not_above(margin - difference, u, df),
                       .interval = {.low = difference - half, .high = difference + half}};
  test.equivalent = std::max(test.p_lower, test.p_upper) < alpha;
  return test;
}

} // namespace docket
