// The shapes of a practice curve: the range they are looked for in, and the best of them, by rule and not by chance.
//
// Method    a grid over the whole range in ln shape, then golden section (one shape) or Nelder & Mead 1965, Computer
//           Journal 7, 308-313 (two), the linear part solved exactly at each (linear_part.h)
// Checked   tests/core/adaptation/practice_curve_test.cpp (R: lm, nls, optim)
#pragma once

#include "core/adaptation/linear_part.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <numbers>

namespace docket {

using LnShape = std::array<double, 2>;

/// One side of the box in which shapes are looked for: first ln shape; with two phases second minus first.
struct ShapeRange {
  LnShape low{}, high{};
  double most_sum = 0; ///< the slow phase of two is no slower than this
};

ShapeRange shape_range(const CurveData& data, CurveModel model);

/// From the box's own coordinates to the ln shapes; the second counts from the first.
inline LnShape ln_shape_of(const LnShape& at) { return {at[0], at[0] + at[1]}; }

struct BestShape {
  LnShape at{}; ///< in the coordinates of the box
  LinearSolution linear;
};

BestShape find_best_shape(const CurveData& data, CurveModel model);

/// Golden section between `a` and `b`.
template <class Function>
double golden_section(double a, double b, Function f, int steps = 44) {
  constexpr double golden = 1 / std::numbers::phi;
  double x1 = b - golden * (b - a), x2 = a + golden * (b - a), f1 = f(x1), f2 = f(x2);
  for (int i = 0; i < steps; ++i) {
    if (f1 < f2) {
      b = x2;
      x2 = x1;
      f2 = f1;
      f1 = f(x1 = b - golden * (b - a));
    } else {
      a = x1;
      x1 = x2;
      f1 = f2;
      f2 = f(x2 = a + golden * (b - a));
    }
  }
  return f1 < f2 ? x1 : x2;
}

/// Nelder & Mead 1965 in two dimensions.
template <class Function>
LnShape descend_shapes(LnShape start, Function f, int steps = 40) {
  constexpr double side = 0.3;
  std::array<LnShape, 3> x{start, LnShape{start[0] + side, start[1]}, LnShape{start[0], start[1] + side}};
  std::array<double, 3> y{f(x[0]), f(x[1]), f(x[2])};
  for (int i = 0; i < steps; ++i) {
    std::array<std::size_t, 3> order{0, 1, 2};
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return y[a] < y[b]; });
    const auto [best, middle, worst] = order;
    const LnShape centre{(x[best][0] + x[middle][0]) / 2, (x[best][1] + x[middle][1]) / 2};
    const auto along = [&](double t) {
      return LnShape{centre[0] + t * (x[worst][0] - centre[0]), centre[1] + t * (x[worst][1] - centre[1])};
    };
    const LnShape reflected = along(-1);
    const double at = f(reflected);
    if (at < y[best]) {
      const LnShape expanded = along(-2);
      const double further = f(expanded);
      x[worst] = further < at ? expanded : reflected;
      y[worst] = std::min(further, at);
    } else if (at < y[middle]) {
      x[worst] = reflected;
      y[worst] = at;
    } else {
      const LnShape contracted = along(at < y[worst] ? -0.5 : 0.5);
      const double inside = f(contracted);
      if (inside < std::min(at, y[worst])) {
        x[worst] = contracted;
        y[worst] = inside;
      } else {
        for (const std::size_t k : {middle, worst}) {
          x[k] = {(x[k][0] + x[best][0]) / 2, (x[k][1] + x[best][1]) / 2};
          y[k] = f(x[k]);
        }
      }
    }
  }
  return x[static_cast<std::size_t>(std::min_element(y.begin(), y.end()) - y.begin())];
}

} // namespace docket
