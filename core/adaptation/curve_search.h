// The search behind the practice curves: for a given shape the curve is linear in its floor and its falling parts, and that
// part is solved exactly; the shape is searched over its whole range, by rule and not by chance.
//
// Model     ln y = ln m(n) + e,  m(n) = c + sum of a_j g_j(n; shape), c >= 0, a_j >= 0; a cycle that was helped or cut short
//           says ln y or more
// Source    separable least squares: Golub & Pereyra 1973, SIAM Journal on Numerical Analysis 10, 413-432; lower bounds:
//           censored normal likelihood, by expectation and maximisation: Dempster, Laird & Rubin 1977, Journal of the Royal
//           Statistical Society B 39, 1-38, and Wolynetz 1979, Applied Statistics 28, 195-206 (AS 139); two shapes: Nelder &
//           Mead 1965, Computer Journal 7, 308-313
// Method    Gauss-Newton on the logarithm within each face (which of c, a_1, a_2 are 0), best face taken; one linear
//           condition v . (c, a_1, a_2) = t can be held, which is how levels and improvements are profiled
// Assumes   errors of one size on the logarithm
// Checked   tests/core/adaptation/practice_curve_test.cpp (R: lm, nls, optim, survreg)
#pragma once

#include "core/adaptation/practice_curve.h"

#include <array>
#include <optional>
#include <vector>

namespace docket {

/// v . (c, a_1, a_2) = t.
struct CurveCondition {
  std::array<double, 3> v{};
  double t = 0;
};

/// The best linear part at one shape, or over all shapes.
struct CurveSolution {
  std::array<double, 3> beta{};     ///< c, a_1, a_2 [s]; a_j at the first cycle
  std::array<double, 2> ln_shape{}; ///< of the first and, for two phases, the second part
  double sigma = 0;
  double cost = 0; ///< -2 log likelihood, less N (ln 2 pi + 1); infinite where nothing is feasible
};

/// How many falling parts and shapes a model has, and whether it has a floor.
struct CurveParts {
  int falling = 0;
  bool floor = true;
};
CurveParts parts_of(CurveModel model);

/// g_j(n; shape), 1 at `first` and falling; 0 for infinite n.
double falling_part(CurveModel model, double shape, double n, double first);

class CurveSearch {
public:
  CurveSearch(const CurveData& data, CurveModel model);

  /// Free: over all shapes, finely.
  CurveSolution best() const;
  /// With m(cycle) = level held; `near` is a shape worth trying beside the grid.
  CurveSolution best_with_level(double cycle, double level, const CurveFit& near) const;
  /// With m(to) = ratio m(from) held.
  CurveSolution best_with_ratio(double from, double to, double ratio, const CurveFit& near) const;

private:
  template <class Condition>
  CurveSolution solve_at(const std::array<double, 2>& ln_shape, Condition condition) const;
  template <class Condition>
  CurveSolution search(Condition condition, const CurveFit* near) const;

  const CurveData& data_;
  CurveModel model_;
  double first_;
};

} // namespace docket
