// How sure the level of one practice curve is at one own cycle: its profile, computed at a few levels and read between.
//
// Model     signed root r(x) of the profile deviance over phi, x = ln level; P(level <= e^x) = normal cdf of r(x)
// Source    profile likelihood: Venzon & Moolgavkar 1988, Applied Statistics 37, 87-94 (page numbers from memory);
//           rising cubic between the levels: Fritsch & Carlson 1980, SIAM Journal on Numerical Analysis 17, 238-246
// Method    levels outward from the fitted one, about 0.8 apart in r, until |r| passes 3.6 or the level is out of reach
// Spread    where r stops short of a quantile, the interval has no end on that side
// Checked   tests/core/adaptation/level_profile_test.cpp: against the profile itself, closed form for a constant
#pragma once

#include "core/adaptation/practice_curve.h"

#include <vector>

namespace docket {

struct LevelProfile {
  std::vector<double> ln_level; ///< [ln s], rising
  std::vector<double> root;     ///< [1], not falling
  std::vector<double> slope;    ///< of the cubic at each level

  /// P(level <= seconds), seconds > 0. Outside the levels: as far as the profile goes, no further.
  double probability_within(double seconds) const;
};

/// `cycle` may be infinite, for the floor; then not for a power, which has none.
LevelProfile profile_level(const CurveData& data, const CurveFit& fit, double cycle, double phi);

} // namespace docket
