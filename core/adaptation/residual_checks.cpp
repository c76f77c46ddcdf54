#include "core/adaptation/residual_checks.h"

#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/studies/outliers.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace docket {
namespace {

constexpr double clip_at = 1.345;    ///< [1] k: 95 % as sharp as least squares on normal residuals
constexpr double mad_to_sd = 1.4826; ///< [1] 1 over the 0.75 quantile of the standard normal
constexpr int most_rounds = 10;
constexpr double converged_within = 1e-6; ///< [1] of the level
constexpr double no_scale_below = 1e-9;   ///< [1]

const CurveFit& closest_of(const PracticeMixture& mixture) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < mixture.weights.size(); ++i)
    if (mixture.fit(i).log_likelihood > mixture.fit(best).log_likelihood) best = i;
  return mixture.fit(best);
}

std::vector<double> residuals_of(std::span<const PracticePoint> points, const CurveFit& fit) {
  std::vector<double> residuals;
  for (const PracticePoint& point : points) residuals.push_back(std::log(point.seconds / fit.at(point.n)));
  return residuals;
}

/// Residuals by worked day, in order.
std::vector<std::vector<double>> by_day(std::span<const PracticePoint> points, const std::vector<double>& residuals) {
  std::vector<std::vector<double>> days;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i == 0 || points[i].day != points[i - 1].day) days.emplace_back();
    days.back().push_back(residuals[i]);
  }
  return days;
}

std::vector<ExtremeCycle> find_extremes(std::span<const PracticePoint> points, const std::vector<double>& residuals) {
  const double sd = summarise(residuals).sd;
  const OutlierTest test =
      find_outliers(residuals, std::min(rules::most_extremes, residuals.size() / 10), rules::extremes_alpha);
  std::vector<std::size_t> at;
  for (std::size_t i = 0; i < test.count; ++i) at.push_back(test.steps[i].index);
  std::sort(at.begin(), at.end());
  std::vector<ExtremeCycle> extremes;
  for (const std::size_t i : at)
    extremes.push_back({points[i].n, Seconds{points[i].seconds}, points[i].day, residuals[i] / sd});
  return extremes;
}

CurveFit closest_fit(std::span<const PracticePoint> points, std::span<const CurveModel> models) {
  const CurveData data = group_points(points);
  CurveFit best;
  for (std::size_t i = 0; i < models.size(); ++i) {
    const CurveFit fit = fit_curve(data, models[i]);
    if (i == 0 || fit.log_likelihood > best.log_likelihood) best = fit;
  }
  return best;
}

double median_distance(const std::vector<double>& residuals) {
  std::vector<double> distances;
  for (const double residual : residuals) distances.push_back(std::abs(residual));
  return median(std::move(distances));
}

std::optional<RobustRefit> refit(std::span<const PracticePoint> plain, const PracticeMixture& mixture,
                                 double settled_cycle, double confidence) {
  const std::optional<RobustCurve> curve = fit_robust_curve(plain, curve_models);
  if (!curve) return std::nullopt;
  // The mixture takes what widens its intervals as a lag-1: dependence, and the clipping of what was spread. Far cycles hide
  // dependence, so that of the clipped residuals counts where it is more.
  const double lag1 = lag1_autocorrelation(by_day(curve->points, residuals_of(curve->points, curve->fit))).corrected;
  const double kept = 1 - static_cast<double>(curve->clipped) / static_cast<double>(plain.size());
  const double phi = std::max(mixture.phi, (1 + lag1) / (1 - lag1)) / (kept * kept);
  const PracticeMixture widened =
      fit_mixture(group_points(curve->points), curve->points.back().n, (phi - 1) / (phi + 1));
  return RobustRefit{estimate_level(widened, settled_cycle, confidence), curve->clipped, curve->scale, curve->rounds,
                     curve->converged};
}

} // namespace

DependenceTest test_dependence(std::span<const PracticePoint> points, const CurveFit& fit) {
  const std::vector<std::vector<double>> days = by_day(points, residuals_of(points, fit));
  DependenceTest test;
  double n = 0;
  for (const std::vector<double>& day : days) {
    n += static_cast<double>(day.size());
    test.pairs += static_cast<std::int64_t>(day.size()) - 1;
  }
  test.lag1 = lag1_autocorrelation(days).raw;
  if (n < 3) return test;
  const double q = test.lag1 * test.lag1 * static_cast<double>(test.pairs) * n * (n + 2) / ((n - 1) * (n - 1));
  test.p = chi_square_upper_tail(q, 1);
  return test;
}

std::optional<WarmUp> find_warm_up(std::span<const PracticePoint> points, const CurveFit& fit, double confidence) {
  const std::vector<double> residuals = residuals_of(points, fit);
  std::vector<double> differences;
  for (std::size_t i = 0; i < points.size();) {
    std::vector<double> first, rest;
    const double start = points[i].n;
    for (const Date day = points[i].day; i < points.size() && points[i].day == day; ++i)
      (points[i].n - start < rules::first_cycles ? first : rest).push_back(residuals[i]);
    if (static_cast<double>(first.size()) < rules::least_first_cycles ||
        static_cast<double>(rest.size()) < rules::least_rest_cycles)
      continue;
    differences.push_back(summarise(first).mean - summarise(rest).mean);
  }
  const auto days = static_cast<double>(differences.size());
  if (days < rules::least_warm_up_days) return std::nullopt;
  const Summary summary = summarise(differences);
  const double reach = student_t_quantile(0.5 + confidence / 2, days - 1) * summary.sd / std::sqrt(days);
  WarmUp warm_up{static_cast<int>(differences.size()), std::exp(summary.mean), std::exp(summary.mean - reach),
                 std::exp(summary.mean + reach), false};
  warm_up.named = warm_up.low > 1 + rules::warm_up_share || warm_up.high < 1 - rules::warm_up_share;
  return warm_up;
}

std::optional<RobustCurve> fit_robust_curve(std::span<const PracticePoint> points, std::span<const CurveModel> models) {
  RobustCurve curve;
  curve.points.assign(points.begin(), points.end());
  curve.fit = closest_fit(points, models);
  while (curve.rounds < most_rounds && !curve.converged) {
    const std::vector<double> residuals = residuals_of(points, curve.fit);
    curve.scale = mad_to_sd * median_distance(residuals);
    if (curve.scale < no_scale_below) return std::nullopt;
    const double most = clip_at * curve.scale;
    curve.clipped = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      curve.points[i].seconds = curve.fit.at(points[i].n) * std::exp(std::clamp(residuals[i], -most, most));
      if (std::abs(residuals[i]) > most) ++curve.clipped;
    }
    const CurveFit next = closest_fit(curve.points, models);
    ++curve.rounds;
    double moved = 0;
    for (const PracticePoint& point : points)
      moved = std::max(moved, std::abs(std::log(next.at(point.n) / curve.fit.at(point.n))));
    curve.converged = moved < converged_within;
    curve.fit = next;
  }
  return curve;
}

ResidualChecks check_residuals(std::span<const PracticePoint> plain, const PracticeMixture& mixture,
                               double settled_cycle, double confidence) {
  const CurveFit& closest = closest_of(mixture);
  ResidualChecks checks;
  checks.dependence = test_dependence(plain, closest);
  checks.warm_up = find_warm_up(plain, closest, confidence);
  checks.extremes_looked_for = static_cast<double>(plain.size()) >= rules::least_for_extremes;
  if (checks.extremes_looked_for) checks.extremes = find_extremes(plain, residuals_of(plain, closest));
  checks.robust = refit(plain, mixture, settled_cycle, confidence);
  return checks;
}

} // namespace docket
