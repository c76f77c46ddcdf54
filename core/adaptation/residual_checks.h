// What the times of one person do around the curves: beside the answer, never instead of it.
//
// Model     residual = ln y - ln m(n), m the closest curve of the mixture
// Checks    dependence   lag-1 of the residuals within worked days: is there any?
//           warm-up      the first cycles of a worked day against the rest of it
//           extremes     cycles too far from the curve for a normal residual: questions to ask, nothing is left out
//           robust       the settled level where far residuals count less
// Source    dependence: G. M. Ljung, G. E. P. Box 1978, Biometrika 65, 297-303; warm-up: first cycles after a start,
//           common practice; extremes: core/statistics/studies/outliers.h; robust: P. J. Huber 1964, Annals of
//           Mathematical Statistics 35, 73-101 (psi); P. J. Huber 1981, Robust Statistics, ch. 7 (winsorised residuals,
//           variance; chapter from memory, to be confirmed)
// Method    Q = r^2 pairs n (n + 2)/(n - 1)^2, chi-square with 1 degree of freedom; of one stretch Ljung & Box's own.
//           Warm-up: per day the mean residual of the first less that of the rest; Student's t over days.
//           Robust: y* = m(n) exp(clip(residual, k s)), k = 1.345, s = 1.4826 median |residual|, curves fitted again to y*,
//           at most 10 times; the mixture of the last y*
// Spread    robust: the deviance of y* counts less by (share not clipped)^-2, Huber's variance of psi over psi' squared
// Assumes   days are independent; the first plain cycle of a day is near its first cycle (marked ones are not seen)
// Checked   tests/core/adaptation/residual_checks_test.cpp: R's Box.test, t.test, MASS::rlm; known contamination
#pragma once

#include "core/adaptation/practice_mixture.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace docket {

struct DependenceTest {
  double lag1 = 0;        ///< [1], raw
  std::int64_t pairs = 0; ///< of cycles that follow one another on a worked day
  double p = 1;           ///< of a lag-1 at least so far from 0 if there is no dependence
};

/// First cycles of a day over the rest [1].
struct WarmUp {
  int days = 0; ///< with enough of both
  double ratio = 1, low = 1, high = 1;
  bool named = false; ///< the whole interval lies more than 1 % from 1
};

/// A cycle to ask about.
struct ExtremeCycle {
  double n = 0; ///< own cycle
  Seconds time{};
  Date day{};
  double in_sd = 0; ///< residual in standard deviations of the residuals; above 0: longer
};

struct RobustRefit {
  TimeEstimate settled;     ///< at the cycle asked for; shown beside, never instead
  std::int64_t clipped = 0; ///< cycles beyond k s
  double scale = 0;         ///< s of ln y
  int rounds = 0;
  bool converged = false;
};

struct ResidualChecks {
  DependenceTest dependence;
  std::optional<WarmUp> warm_up;      ///< absent: too few days with first cycles and a rest
  bool extremes_looked_for = false;   ///< 25 cycles or more
  std::vector<ExtremeCycle> extremes; ///< in order of n, at most 10
  std::optional<RobustRefit> robust;  ///< absent: half of the residuals are the same
};

/// `plain`: what the mixture was fitted to, in order. `settled_cycle`: where "settled" is, n_last + H.
ResidualChecks check_residuals(std::span<const PracticePoint> plain, const PracticeMixture& mixture,
                               double settled_cycle, double confidence);

/// Of the residuals around one curve, within worked days.
DependenceTest test_dependence(std::span<const PracticePoint> points, const CurveFit& fit);

/// Absent under five days with three first cycles and twenty others.
std::optional<WarmUp> find_warm_up(std::span<const PracticePoint> points, const CurveFit& fit, double confidence);

/// Curves of `models` fitted by winsorised residuals, the closest of them deciding what is far.
struct RobustCurve {
  CurveFit fit;                      ///< closest, to the winsorised times
  std::vector<PracticePoint> points; ///< winsorised
  double scale = 0;
  std::int64_t clipped = 0;
  int rounds = 0;
  bool converged = false;
};

/// Absent where half of the residuals or more are the same, so that they have no scale. 3 points or more.
std::optional<RobustCurve> fit_robust_curve(std::span<const PracticePoint> points, std::span<const CurveModel> models);

} // namespace docket
