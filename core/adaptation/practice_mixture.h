// The practice curves of one person averaged: no model is dropped, none is the winner.
//
// Model     F = sum of w_j F_j, w_j Akaike weights; estimate the median of F, interval its alpha/2 and 1 - alpha/2 quantiles
// Source    Burnham & Anderson 2002, Model Selection and Multimodel Inference, ch. 2 and 4
// Method    phi = max(1, (1 + r)/(1 - r)), r the lag-1 of the residuals of the closest curve, over worked days; quantiles
//           by false position with halving (Dowell & Jarratt 1971, BIT 11, 168-174) on the normal deviate of F
// Assumes   as practice_curve.h; a model whose weight is below one in a million changes nothing that is printed, and one
//           below one in 100,000 changes nothing by how exactly its least sum is found
// Checked   tests/core/adaptation/practice_mixture_test.cpp
#pragma once

#include "core/adaptation/curve_profile.h"
#include "core/adaptation/practice_series.h"
#include "core/estimate.h"

#include <optional>
#include <span>
#include <vector>

namespace docket {

struct PracticeMixture {
  CurveData data;
  std::vector<CurveProfile> profiles; ///< in the order of curve_models, with their fits
  std::vector<double> aicc, weights;
  double lag1 = 0, phi = 1;
  double last = 0; ///< own cycle of the last value

  const CurveFit& fit(std::size_t model) const { return profiles[model].fit(); }
  /// The averaged curve: weights times levels.
  double middle_level(double cycle) const;
  /// The averaged variance of ln y around the curves [1].
  double middle_variance() const;
};

/// Points in blocks, with those that took at least so long.
CurveData group_points(std::span<const PracticePoint> values, std::span<const PracticePoint> bounds = {});

/// `values` has 3 points or more, not all the same time; `bounds` are cycles that took at least so long.
PracticeMixture fit_mixture(const std::vector<PracticePoint>& values, const std::vector<PracticePoint>& bounds = {});

/// The same from blocks, with the lag-1 of the residuals known from elsewhere.
PracticeMixture fit_mixture(const CurveData& data, double last, double lag1);

/// P(level at `cycle` <= seconds).
double probability_level_within(const PracticeMixture& mixture, double cycle, double seconds);

/// P(improvement from the last cycle to `cycle` <= improvement).
double probability_improvement_within(const PracticeMixture& mixture, double cycle, double improvement);

/// Median and quantiles of the averaged level. An end is absent where the curves that carry the weight give none.
TimeEstimate estimate_level(const PracticeMixture& mixture, double cycle, double confidence);

/// The level by one curve alone: as fitted, with its own interval; `cycle` may be infinite.
TimeEstimate estimate_level(const PracticeMixture& mixture, std::size_t model, double cycle, double confidence);

struct ImprovementEstimate {
  double median = 0, low = 0, high = 0; ///< [1]
};

/// Improvement from the last cycle to `cycle`.
ImprovementEstimate estimate_improvement(const PracticeMixture& mixture, double cycle, double confidence);

/// Cycles from the last one until the level is within `limit`; absent: not within `horizon` cycles.
struct CyclesToGo {
  std::optional<double> median, low, high;
  double p_never = 0; ///< P(not within `horizon` cycles)
};

CyclesToGo estimate_cycles_to(const PracticeMixture& mixture, double limit, double horizon, double confidence);

} // namespace docket
