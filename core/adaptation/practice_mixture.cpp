#include "core/adaptation/practice_mixture.h"

#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

constexpr double least_weight = 1e-6;
constexpr double lowest = 0.02, highest = 20; ///< [1] of the level at the first cycle: no level is looked for beyond
constexpr double most_improvement = 0.95;     ///< [1]
constexpr double deviate_within = 1e-4;       ///< [1] of a quantile, as a normal deviate
constexpr int most_steps = 40;

/// Normal deviate of a probability, kept finite.
double deviate(double p) { return normal_quantile(std::clamp(p, 1e-9, 1 - 1e-9)); }

/// x at which a rising F reaches p, between a (F below p) and b (F not below).
template <class Cumulative>
double quantile_between(Cumulative f, double p, double a, double f_a, double b, double f_b) {
  const double aim = deviate(p);
  double ga = deviate(f_a) - aim, gb = deviate(f_b) - aim;
  int side = 0;
  for (int i = 0; i < most_steps && std::abs(b - a) > 1e-7 * (1 + std::abs(a)); ++i) {
    // Where an end is far out its deviate says little: halve.
    const bool far = ga < -5 || gb > 5;
    const double x = far ? (a + b) / 2 : b - gb * (b - a) / (gb - ga);
    const double g = deviate(f(x)) - aim;
    if (std::abs(g) < deviate_within) return x;
    if (g < 0) {
      a = x;
      ga = g;
      if (side == -1) gb /= 2;
      side = -1;
    } else {
      b = x;
      gb = g;
      if (side == 1) ga /= 2;
      side = 1;
    }
  }
  return (a + b) / 2;
}

/// The level at which F over seconds reaches p, outward from `start` in steps that grow; absent where it does not between
/// the ends.
template <class Cumulative>
std::optional<double> level_quantile(Cumulative f, double p, double start, double step, double low, double high) {
  const auto at = [&](double x) { return f(std::exp(x)); };
  double a = std::clamp(start, low, high), f_a = at(a);
  const bool down = f_a >= p;
  for (int i = 0; i < most_steps; ++i) {
    const double b = std::clamp(down ? a - step : a + step, low, high);
    if (b == a) return std::nullopt;
    const double f_b = at(b);
    if (down && f_b < p) return std::exp(quantile_between(at, p, b, f_b, a, f_a));
    if (!down && f_b >= p) return std::exp(quantile_between(at, p, a, f_a, b, f_b));
    a = b;
    f_a = f_b;
    step *= 2;
  }
  return std::nullopt;
}

struct LevelEnds {
  std::optional<double> median, low, high;
  bool all_above = false; ///< where there is no median: F is above it at once
};

template <class Cumulative>
LevelEnds level_quantiles(Cumulative f, double start, double step, double reference, double confidence) {
  const double low = std::log(reference * lowest), high = std::log(reference * highest);
  const double half_alpha = (1 - confidence) / 2;
  LevelEnds ends;
  ends.median = level_quantile(f, 0.5, std::log(start), step, low, high);
  const double middle = ends.median ? std::log(*ends.median) : std::log(start);
  ends.low = level_quantile(f, half_alpha, middle, step, low, high);
  ends.high = level_quantile(f, 1 - half_alpha, middle, step, low, high);
  ends.all_above = !ends.median && f(std::exp(low)) > 0.5;
  return ends;
}

std::optional<Seconds> seconds(const std::optional<double>& value) {
  return value ? std::optional(Seconds{*value}) : std::nullopt;
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

PracticeMixture mixture_of(CurveData data, const std::vector<CurveFit>& fits, double last, double lag1) {
  PracticeMixture mixture;
  mixture.data = std::move(data);
  mixture.last = last;
  mixture.lag1 = lag1;
  mixture.phi = std::max(1.0, (1 + lag1) / (1 - lag1));
  for (const CurveFit& fit : fits) {
    mixture.profiles.emplace_back(mixture.data, fit, mixture.phi);
    mixture.aicc.push_back(corrected_aic(fit, mixture.data.count, mixture.phi));
  }
  mixture.weights = akaike_weights(mixture.aicc);
  return mixture;
}

/// A step of the size of the uncertainty of a mean.
double usual_step(const PracticeMixture& mixture) {
  return std::max(2 * std::sqrt(mixture.middle_variance() * mixture.phi / mixture.data.count), 1e-6);
}

/// What each curve that carries weight gives, averaged.
template <class OfProfile>
double averaged(const PracticeMixture& mixture, OfProfile of_profile) {
  double p = 0, weight = 0;
  for (std::size_t i = 0; i < mixture.profiles.size(); ++i) {
    if (mixture.weights[i] < least_weight) continue;
    p += mixture.weights[i] * of_profile(mixture.profiles[i]);
    weight += mixture.weights[i];
  }
  return std::min(p / weight, 1.0);
}

void split(std::span<const PracticePoint> points, std::vector<double>& n, std::vector<double>& seconds) {
  for (const PracticePoint& point : points) {
    n.push_back(point.n);
    seconds.push_back(point.seconds);
  }
}

double reference_level(const PracticeMixture& mixture) { return mixture.middle_level(mixture.data.n.front()); }

} // namespace

double PracticeMixture::middle_level(double cycle) const {
  double level = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) level += weights[i] * fit(i).level(cycle);
  return level;
}

double PracticeMixture::middle_variance() const {
  double variance = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) variance += weights[i] * fit(i).sigma * fit(i).sigma;
  return variance;
}

CurveData group_points(std::span<const PracticePoint> values, std::span<const PracticePoint> bounds) {
  std::vector<double> n, seconds, bound_n, bound_seconds;
  split(values, n, seconds);
  split(bounds, bound_n, bound_seconds);
  CurveData data = group_cycles(n, seconds);
  add_lower_bounds(data, bound_n, bound_seconds);
  return data;
}

PracticeMixture fit_mixture(const std::vector<PracticePoint>& values, const std::vector<PracticePoint>& bounds) {
  CurveData data = group_points(values, bounds);
  const std::vector<CurveFit> fits = fit_all(data);
  const auto closest =
      std::min_element(fits.begin(), fits.end(), [](const CurveFit& a, const CurveFit& b) { return a.cost < b.cost; });
  return mixture_of(std::move(data), fits, values.back().n, lag1_of(values, *closest));
}

PracticeMixture fit_mixture(const CurveData& data, double last, double lag1) {
  return mixture_of(data, fit_all(data), last, lag1);
}

double probability_level_within(const PracticeMixture& mixture, double cycle, double seconds) {
  return averaged(mixture, [&](const CurveProfile& profile) {
    return profile.probability_level_within(mixture.data, cycle, seconds);
  });
}

double probability_improvement_within(const PracticeMixture& mixture, double cycle, double improvement) {
  return averaged(mixture, [&](const CurveProfile& profile) {
    return profile.probability_improvement_within(mixture.data, mixture.last, cycle, improvement);
  });
}

TimeEstimate estimate_level(const PracticeMixture& mixture, double cycle, double confidence) {
  const double start = mixture.middle_level(cycle), reference = reference_level(mixture);
  const LevelEnds ends = level_quantiles([&](double s) { return probability_level_within(mixture, cycle, s); }, start,
                                         usual_step(mixture), reference, confidence);
  const double none = reference * (ends.all_above ? lowest : highest);
  return {Seconds{ends.median.value_or(none)}, seconds(ends.low), seconds(ends.high)};
}

TimeEstimate estimate_level(const PracticeMixture& mixture, std::size_t model, double cycle, double confidence) {
  const CurveFit& fit = mixture.fit(model);
  const double level = fit.level(cycle), reference = reference_level(mixture);
  const LevelEnds ends = level_quantiles(
      [&](double s) { return mixture.profiles[model].probability_level_within(mixture.data, cycle, s); },
      std::max(level, reference * lowest), usual_step(mixture), reference, confidence);
  return {Seconds{level}, seconds(ends.low), seconds(ends.high)};
}

ImprovementEstimate estimate_improvement(const PracticeMixture& mixture, double cycle, double confidence) {
  const auto f = [&](double g) { return probability_improvement_within(mixture, cycle, g); };
  const double half_alpha = (1 - confidence) / 2, at_none = f(0);
  const auto at = [&](double p) {
    double low = 0, at_low = at_none;
    if (at_low >= p) return 0.0;
    for (const double high : {0.02, 0.06, 0.2, 0.5, most_improvement}) {
      const double at_high = f(high);
      if (at_high >= p) return quantile_between(f, p, low, at_low, high, at_high);
      low = high;
      at_low = at_high;
    }
    return most_improvement;
  };
  return {at(0.5), at(half_alpha), at(1 - half_alpha)};
}

CyclesToGo estimate_cycles_to(const PracticeMixture& mixture, double limit, double horizon, double confidence) {
  const auto f = [&](double k) { return probability_level_within(mixture, mixture.last + k, limit); };
  const double at_once = f(0), at_last = f(horizon), half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p) -> std::optional<double> {
    if (at_once >= p) return 0.0;
    if (at_last < p) return std::nullopt;
    return quantile_between(f, p, 0, at_once, horizon, at_last);
  };
  return {at(0.5), at(half_alpha), at(1 - half_alpha), 1 - at_last};
}

} // namespace docket
