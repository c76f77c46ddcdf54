// How sure a practice curve is of its level at an own cycle, or of the improvement between two: the profile of its
// likelihood, read from one table of shapes for every such question.
//
// Model     signed root of (profile deviance / phi); P = normal cdf of it
// Source    profile likelihood: Venzon & Moolgavkar 1988, Applied Statistics 37, 87-94 (page numbers from memory)
// Method    at each shape of a grid the sum of squares is a quadratic in floor and falling parts, so that a level or a ratio
//           held there has its least sum in closed form, on each face on which some parts are 0. From the shape where that
//           is least, and from the fitted one, Gauss-Newton leads to the exact least sum (shape_search.h)
// Spread    where the root stops short of a quantile, the interval has no end on that side
// Checked   tests/core/adaptation/practice_curve_test.cpp: R (optim, optimize), lm's standard errors, closed forms
#pragma once

#include "core/adaptation/shape_search.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace docket {

class CurveProfile {
public:
  /// `phi`: 1 or more, by how much the deviance counts less.
  CurveProfile(const CurveData& data, const CurveFit& fit, double phi);

  /// How a least sum of squares is found: read from the table and led to the exact one, or read alone. A reading is never
  /// below the exact sum, so that its root lies further out; it costs a hundredth and shows where to look.
  enum class How : std::uint8_t { exact, read };

  /// Above 0 where `seconds` is above the fitted level; `cycle` may be infinite, for the floor, but not for a power.
  double level_root(const CurveData& data, double cycle, double seconds, How how = How::exact) const;

  /// P(level at own cycle `cycle` <= seconds).
  double probability_level_within(const CurveData& data, double cycle, double seconds, How how = How::exact) const;

  /// P(1 - m(to)/m(from) <= improvement); improvement in [0, 1). A step for constant.
  double probability_improvement_within(const CurveData& data, double from, double to, double improvement,
                                        How how = How::exact) const;

  const CurveFit& fit() const { return fit_; }

private:
  /// Least squares with some parts 0: (sum of squares above the best)/2 is (beta - best)' A (beta - best)/2 there.
  struct Face {
    unsigned parts = 0;
    CurveVector best{};
    double above = 0; ///< sum of squares above that of the node
    std::array<CurveVector, 3> inverse{};
  };
  struct Node {
    LnShape at{};
    double cost = 0, sigma = 0;
    std::vector<Face> faces;
  };

  /// `near`: where a neighbour's linear part lies; moves on.
  Node node_at(const CurveData& data, const LnShape& at, LinearStart& near) const;
  struct Held {
    double cost = 0;
    LinearStart near; ///< where it lies
  };
  Held cost_with(const Node& node, const CurveCondition& held) const;
  /// Least cost with the quantity held, over all shapes.
  double least_cost(const CurveData& data, const HeldQuantity& held, How how) const;
  double root_of(double cost, bool above) const;

  CurveFit fit_;
  double phi_, count_;
  LnShape own_{};           ///< the fitted shape
  std::vector<Node> nodes_; ///< of the fitted shape first, then those of the grid that can matter
};

} // namespace docket
