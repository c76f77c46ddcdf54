#include "core/statistics/uncertainty.h"

#include <cassert>
#include <cmath>
#include <limits>

namespace docket {

double combined_uncertainty(std::span<const UncertaintyPart> parts) {
  double squares = 0;
  for (const UncertaintyPart& part : parts) {
    assert(part.u >= 0);
    squares += part.u * part.u;
  }
  return std::sqrt(squares);
}

double effective_degrees_of_freedom(std::span<const UncertaintyPart> parts) {
  const double combined = combined_uncertainty(parts);
  constexpr double infinity = std::numeric_limits<double>::infinity();
  if (combined == 0) return infinity;
  double sum = 0; // Of shares, so that small units don't underflow.
  for (const UncertaintyPart& part : parts) {
    assert(part.df > 0);
    const double share = part.u / combined;
    sum += share * share * share * share / part.df;
  }
  return sum > 0 ? 1 / sum : infinity;
}

} // namespace docket
