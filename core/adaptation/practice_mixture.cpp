#include "core/adaptation/practice_mixture.h"

#include "core/statistics/autocorrelation.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

constexpr int bisections = 14;

/// The value at which a rising F reaches p, between low and high.
template <class Cumulative>
double quantile(Cumulative f, double p, double low, double high) {
  for (int i = 0; i < bisections; ++i) {
    const double middle = (low + high) / 2;
    (f(middle) < p ? low : high) = middle;
  }
  return (low + high) / 2;
}

/// Quantiles of a level on the log scale; the bracket is wide enough for every model's answer.
template <class Cumulative>
MixtureEstimate level_quantiles(const PracticeMixture& mixture, double cycle, double confidence, Cumulative f) {
  double low = mixture.fits.front().level(cycle), high = low;
  for (const CurveFit& fit : mixture.fits) {
    if (fit.level(cycle) <= 0) continue; // power without end: no bracket for the others
    low = std::min(low, fit.level(cycle));
    high = std::max(high, fit.level(cycle));
  }
  const double from = std::log(low / 2), to = std::log(high * 1.5), half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p, double a, double b) {
    return quantile([&](double x) { return f(std::exp(x)); }, p, a, b);
  };
  const double median = at(0.5, from, to);
  return {std::exp(median), std::exp(at(half_alpha, from, median)), std::exp(at(1 - half_alpha, median, to))};
}

double lag1_of(const std::vector<PracticePoint>& points, const CurveFit& fit) {
  std::vector<std::vector<double>> days;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i == 0 || points[i].day != points[i - 1].day) days.emplace_back();
    days.back().push_back(std::log(points[i].seconds / fit.at(points[i].n)));
  }
  return lag1_autocorrelation(days).corrected;
}

} // namespace

PracticeMixture fit_mixture(const std::vector<PracticePoint>& points) {
  std::vector<double> n, seconds;
  for (const PracticePoint& point : points) {
    n.push_back(point.n);
    seconds.push_back(point.seconds);
  }
  PracticeMixture mixture;
  mixture.data = group_cycles(n, seconds);
  mixture.last = n.back();
  for (const CurveModel model : curve_models) mixture.fits.push_back(fit_curve(mixture.data, model));
  const auto closest = std::min_element(mixture.fits.begin(), mixture.fits.end(),
                                        [](const CurveFit& a, const CurveFit& b) { return a.rss < b.rss; });
  mixture.lag1 = lag1_of(points, *closest);
  mixture.phi = std::max(1.0, (1 + mixture.lag1) / (1 - mixture.lag1));
  for (const CurveFit& fit : mixture.fits) mixture.aicc.push_back(corrected_aic(fit, mixture.data.count, mixture.phi));
  mixture.weights = akaike_weights(mixture.aicc);
  return mixture;
}

double probability_level_within(const PracticeMixture& mixture, double cycle, double seconds) {
  double p = 0;
  for (std::size_t i = 0; i < mixture.fits.size(); ++i)
    p += mixture.weights[i] * probability_level_within(mixture.data, mixture.fits[i], cycle, seconds, mixture.phi);
  return std::min(p, 1.0); // the weights sum to one only as far as rounding lets them
}

double probability_improvement_within(const PracticeMixture& mixture, double cycle, double improvement) {
  double p = 0;
  for (std::size_t i = 0; i < mixture.fits.size(); ++i)
    p += mixture.weights[i] *
         probability_improvement_within(mixture.data, mixture.fits[i], mixture.last, cycle, improvement, mixture.phi);
  return std::min(p, 1.0);
}

MixtureEstimate estimate_level(const PracticeMixture& mixture, double cycle, double confidence) {
  return level_quantiles(mixture, cycle, confidence,
                         [&](double seconds) { return probability_level_within(mixture, cycle, seconds); });
}

MixtureEstimate estimate_level(const PracticeMixture& mixture, std::size_t model, double cycle, double confidence) {
  return level_quantiles(mixture, cycle, confidence, [&](double seconds) {
    return probability_level_within(mixture.data, mixture.fits[model], cycle, seconds, mixture.phi);
  });
}

MixtureEstimate estimate_improvement(const PracticeMixture& mixture, double cycle, double confidence) {
  const auto f = [&](double g) { return probability_improvement_within(mixture, cycle, g); };
  const double half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p) { return f(0) >= p ? 0.0 : quantile(f, p, 0, 0.95); };
  return {at(0.5), at(half_alpha), at(1 - half_alpha)};
}

CyclesToGo estimate_cycles_to(const PracticeMixture& mixture, double limit, double horizon, double confidence) {
  const auto f = [&](double k) { return probability_level_within(mixture, mixture.last + k, limit); };
  const double at_once = f(0), at_last = f(horizon), half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p) -> std::optional<double> {
    if (at_once >= p) return 0.0;
    if (at_last < p) return std::nullopt;
    return quantile(f, p, 0, horizon);
  };
  return {at(0.5), at(half_alpha), at(1 - half_alpha), 1 - at_last};
}

} // namespace docket
