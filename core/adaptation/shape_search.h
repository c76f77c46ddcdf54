// The shapes of a practice curve: the range they are looked for in, and the best of them, by rule and not by chance.
//
// Method    a grid over the whole range in ln shape; from its lowest places Gauss-Newton on shapes and linear part together,
//           the linear part solved exactly again after each step (variable projection: Golub & Pereyra 1973, SIAM Journal on
//           Numerical Analysis 10, 413-432). One level or ratio can be held; it moves with the shapes
// Checked   tests/core/adaptation/practice_curve_test.cpp, lower_bounds_test.cpp (R: lm, nls, optim, survreg)
#pragma once

#include "core/adaptation/linear_part.h"

#include <array>
#include <optional>

namespace docket {

using LnShape = std::array<double, 2>;

/// The box in which shapes are looked for: first ln shape; with two phases second less first.
struct ShapeRange {
  LnShape low{}, high{};
  double most_sum = 0; ///< the slow phase of two is no slower than this

  LnShape clamp(LnShape at) const;
  bool contains(const LnShape& at) const;
};

ShapeRange shape_range(const CurveData& data, CurveModel model);

/// From the box's own coordinates to the ln shapes; the second counts from the first.
inline LnShape ln_shape_of(const LnShape& at) { return {at[0], at[0] + at[1]}; }

/// m(to) - ratio m(from) = seconds. A level: ratio 0; a ratio: seconds 0.
struct HeldQuantity {
  double to = 0, from = 0, ratio = 0, seconds = 0;
};

CurveCondition condition_at(const HeldQuantity& held, CurveModel model, const LnShape& at, double first);

struct BestShape {
  LnShape at{}; ///< in the coordinates of the box
  LinearSolution linear;
};

BestShape find_best_shape(const CurveData& data, CurveModel model);

/// From `at` downhill, until a step gains less than `enough`.
BestShape refine_shape(const CurveData& data, CurveModel model, const LnShape& at, const LinearStart& near,
                       const std::optional<HeldQuantity>& held, double enough);

} // namespace docket
