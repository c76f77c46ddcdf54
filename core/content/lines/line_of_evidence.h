// A line of evidence: one independent answer to question A, as a time for the planned mix at normal pace, compared
// with the limit on the log scale.
#pragma once

#include "core/estimate.h"
#include "core/quantity.h"

#include <cstdint>
#include <vector>

namespace docket {

enum class Line : std::uint8_t { standard, settled, restudy };

/// A level against the limit: what is printed beside every line.
struct LineAgainstLimit {
  Seconds margin{}, margin_low{}, margin_high{}; ///< limit - T, positive: below the limit; at 1 - alpha
  double p_fits = 0;                             ///< P(T <= limit) of this line alone
};

/// What the decision needs of a line. u(ln T) splits into the random part `se` with its degrees of freedom and the
/// systematic rest; u2 holds both.
struct LineLevel {
  Seconds time{};                ///< T, with the allowance on it where the standard holds it
  double u = 0;                  ///< u(ln T) [1]
  double se = 0;                 ///< random part of u [1]; 0 where there is none
  double df = 0;                 ///< of `se`; infinite where se is 0 or not estimated
  double u_as_agreed = 0;        ///< u with the standard's level and pace taken as agreed by both sides
  bool identical_values = false; ///< se is 0 because every value is the same
  LineAgainstLimit against;      ///< set once the limit is known
  std::vector<Reason> leans;     ///< why rows 2, 4 and 5 must hold without this line too; empty: it does not lean
};

LineAgainstLimit compare_with_limit(const LineLevel& level, Seconds limit, double confidence);

} // namespace docket
