// The linear part of a practice curve at one shape: floor and falling parts, none below 0, one linear condition held or none.
//
// Model     ln y = ln m(n) + e,  m(n) = c + sum of a_j g_j(n; shape), c >= 0, a_j >= 0; a cycle that was helped or cut short
//           says ln y or more
// Source    separable least squares: Golub & Pereyra 1973, SIAM Journal on Numerical Analysis 10, 413-432; lower bounds:
//           censored normal likelihood: Wolynetz 1979, Applied Statistics 28, 195-206 (AS 139), here by Newton's method on
//           the curve and the maximising spread in turn
// Method    Gauss-Newton on the logarithm within each face (which of c, a_1, a_2 are 0), best face taken
// Assumes   errors of one size on the logarithm
// Checked   tests/core/adaptation/practice_curve_test.cpp (R: lm, nls, optim, survreg)
#pragma once

#include "core/adaptation/practice_curve.h"

#include <array>
#include <optional>
#include <vector>

namespace docket {

using CurveVector = std::array<double, 3>; ///< of c, a_1, a_2; a_j at the first cycle

/// v . (c, a_1, a_2) = t.
struct CurveCondition {
  CurveVector v{};
  double t = 0;
};

/// How many falling parts and shapes a model has, and whether it has a floor.
struct CurveParts {
  int falling = 0;
  bool floor = true;
  /// Bits of c, a_1, a_2 that may be above 0.
  unsigned faces() const { return (floor ? 1U : 0U) | (falling > 0 ? 2U : 0U) | (falling > 1 ? 4U : 0U); }
};
CurveParts parts_of(CurveModel model);

/// g_j(n; shape), 1 at `first` and falling; 0 for infinite n.
double falling_part(CurveModel model, double shape, double n, double first);

/// d g / d ln shape.
double falling_part_slope(CurveModel model, double shape, double n, double first);

/// 1, g_1, g_2 at own cycle n; 0 for what the model does not have.
CurveVector column_at(CurveModel model, const std::array<double, 2>& shape, double n, double first);
/// The same from ln shape.
CurveVector column_of(CurveModel model, const std::array<double, 2>& ln_shape, double n, double first);

/// The best linear part at one shape.
struct LinearSolution {
  CurveVector beta{}; ///< [s]
  double sigma = 0;
  unsigned face = 0;
  double cost = 0; ///< -2 log likelihood, less N (ln 2 pi + 1); infinite where nothing is feasible
  /// Of (sum of squares)/2 at beta: what curves it, and what still pulls at parts that are at 0.
  std::array<CurveVector, 3> curvature{};
  CurveVector pull{};
};

/// Where the best is expected: the face it lies on (bits of what is above 0; 0: not known), and about where.
struct LinearStart {
  unsigned face = 0;
  CurveVector beta{};
  double sigma = 0;
};

/// 0, d g_1 / d ln shape_1, d g_2 / d ln shape_2.
CurveVector column_slope_of(CurveModel model, const std::array<double, 2>& ln_shape, double n, double first);

/// ln(1 - Phi(z)) and its hazard phi(z) / (1 - Phi(z)), for lower bounds z SDs above the curve.
struct Beyond {
  double ln_p = 0, hazard = 0;
};
Beyond beyond(double z);

LinearSolution solve_linear_part(const CurveData& data, CurveModel model, const std::array<double, 2>& ln_shape,
                                 const std::optional<CurveCondition>& held = {}, const LinearStart& near = {});

} // namespace docket
