// Independent parts of an uncertainty, put together.
//
// Model     u_c^2 = sum u_i^2;  nu_eff = u_c^4 / sum(u_i^4 / nu_i)
// Source    JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2 (10) and G.4.1 (G.2b), the
//           Welch-Satterthwaite formula
// Method    as it stands; sensitivity coefficients are already in u_i
// Spread    nu_eff is itself approximate; JCGM 100 truncates it downwards, this function does not
// Assumes   independent parts
// Checked   tests/core/statistics/uncertainty_test.cpp: JCGM 100:2008, H.1 (end gauge)
#pragma once

#include <span>

namespace docket {

/// A standard uncertainty and how well it is known.
struct UncertaintyPart {
  double u = 0;  ///< >= 0
  double df = 0; ///< > 0; +infinity for a part that is taken as known (systematic).
};

/// Root of the sum of squares; 0 without a part.
double combined_uncertainty(std::span<const UncertaintyPart> parts);

/// Not rounded. +infinity if every part with u > 0 has infinitely many, or no part has u > 0.
double effective_degrees_of_freedom(std::span<const UncertaintyPart> parts);

} // namespace docket
