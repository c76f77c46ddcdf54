#include "core/adaptation/practice_mixture.h"

#include "core/statistics/autocorrelation.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

constexpr int bisections = 14;      ///< where F is searched: to a sixteen-thousandth of the range
constexpr int fine_bisections = 50; ///< where F is read from profiles

/// The value at which a rising F reaches p, between low and high.
template <class Cumulative>
double quantile(Cumulative f, double p, double low, double high, int steps) {
  for (int i = 0; i < steps; ++i) {
    const double middle = (low + high) / 2;
    (f(middle) < p ? low : high) = middle;
  }
  return (low + high) / 2;
}

/// The level at which F over ln level reaches p; absent where it does not, between the ends.
template <class Cumulative>
std::optional<Seconds> level_quantile(Cumulative f, double p, double low, double high) {
  if (f(std::exp(low)) > p || f(std::exp(high)) < p) return std::nullopt;
  return Seconds{std::exp(quantile([&](double x) { return f(std::exp(x)); }, p, low, high, fine_bisections))};
}

double lag1_of(const std::vector<PracticePoint>& points, const CurveFit& fit) {
  std::vector<std::vector<double>> days;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i == 0 || points[i].day != points[i - 1].day) days.emplace_back();
    days.back().push_back(std::log(points[i].seconds / fit.at(points[i].n)));
  }
  return lag1_autocorrelation(days).corrected;
}

std::vector<CurveFit> fit_all(const CurveData& data) {
  std::vector<CurveFit> fits;
  for (const CurveModel model : curve_models) fits.push_back(fit_curve(data, model));
  return fits;
}

void weigh(PracticeMixture& mixture, double lag1) {
  mixture.lag1 = lag1;
  mixture.phi = std::max(1.0, (1 + lag1) / (1 - lag1));
  for (const CurveFit& fit : mixture.fits) mixture.aicc.push_back(corrected_aic(fit, mixture.data.count, mixture.phi));
  mixture.weights = akaike_weights(mixture.aicc);
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
  mixture.fits = fit_all(mixture.data);
  const auto closest = std::min_element(mixture.fits.begin(), mixture.fits.end(),
                                        [](const CurveFit& a, const CurveFit& b) { return a.rss < b.rss; });
  weigh(mixture, lag1_of(points, *closest));
  return mixture;
}

PracticeMixture fit_mixture(const CurveData& data, double last, double lag1) {
  PracticeMixture mixture;
  mixture.data = data;
  mixture.last = last;
  mixture.fits = fit_all(data);
  weigh(mixture, lag1);
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

MixtureLevel find_level(const PracticeMixture& mixture, double cycle) {
  MixtureLevel level;
  level.weights = mixture.weights;
  for (const CurveFit& fit : mixture.fits)
    level.profiles.push_back(profile_level(mixture.data, fit, cycle, mixture.phi));
  return level;
}

TimeEstimate estimate_level(const MixtureLevel& level, double confidence) {
  double low = level.profiles.front().ln_level.front(), high = level.profiles.front().ln_level.back();
  for (const LevelProfile& profile : level.profiles) {
    low = std::min(low, profile.ln_level.front());
    high = std::max(high, profile.ln_level.back());
  }
  const auto f = [&](double seconds) {
    double p = 0;
    for (std::size_t i = 0; i < level.profiles.size(); ++i)
      p += level.weights[i] * level.profiles[i].probability_within(seconds);
    return std::min(p, 1.0);
  };
  const double half_alpha = (1 - confidence) / 2;
  const std::optional<Seconds> median = level_quantile(f, 0.5, low, high);
  return {median.value_or(Seconds{std::exp(f(std::exp(low)) > 0.5 ? low : high)}),
          level_quantile(f, half_alpha, low, high), level_quantile(f, 1 - half_alpha, low, high)};
}

TimeEstimate estimate_level(const LevelProfile& profile, double fitted, double confidence) {
  const auto f = [&](double seconds) { return profile.probability_within(seconds); };
  const double low = profile.ln_level.front(), high = profile.ln_level.back(), half_alpha = (1 - confidence) / 2;
  return {Seconds{fitted}, level_quantile(f, half_alpha, low, high), level_quantile(f, 1 - half_alpha, low, high)};
}

TimeEstimate estimate_level(const PracticeMixture& mixture, std::size_t model, double cycle, double confidence) {
  const CurveFit& fit = mixture.fits[model];
  return estimate_level(profile_level(mixture.data, fit, cycle, mixture.phi), fit.level(cycle), confidence);
}

ImprovementEstimate estimate_improvement(const PracticeMixture& mixture, double cycle, double confidence) {
  const auto f = [&](double g) { return probability_improvement_within(mixture, cycle, g); };
  const double half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p) { return f(0) >= p ? 0.0 : quantile(f, p, 0, 0.95, bisections); };
  return {at(0.5), at(half_alpha), at(1 - half_alpha)};
}

CyclesToGo estimate_cycles_to(const PracticeMixture& mixture, double limit, double horizon, double confidence) {
  const auto f = [&](double k) { return probability_level_within(mixture, mixture.last + k, limit); };
  const double at_once = f(0), at_last = f(horizon), half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p) -> std::optional<double> {
    if (at_once >= p) return 0.0;
    if (at_last < p) return std::nullopt;
    return quantile(f, p, 0, horizon, bisections);
  };
  return {at(0.5), at(half_alpha), at(1 - half_alpha), 1 - at_last};
}

} // namespace docket
