#include "core/adaptation/practice_mixture.h"

#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

constexpr double least_weight = 1e-6;
constexpr double read_weight = 1e-5;          ///< below it a curve's table is read: P moves by less than one in 100,000
constexpr double lowest = 0.02, highest = 20; ///< [1] of the level at the first cycle: no level is looked for beyond
constexpr double most_improvement = 0.95;     ///< [1]
constexpr double deviate_within = 1e-4;       ///< [1] of a quantile, as a normal deviate
constexpr int most_steps = 40;
constexpr int most_steps_near = 6;  ///< from where a quantile was read; else the whole search
constexpr double far_deviate = 2.5; ///< further off a reading leads nowhere

/// A small part of where it is.
double a_part(double x) { return 0.02 * x; }

/// Normal deviate of a probability, kept finite.
double deviate(double p) { return normal_quantile(std::clamp(p, 1e-9, 1 - 1e-9)); }

using How = CurveProfile::How;

/// A rising F, exact or read from the tables of the curves.
template <class Cumulative>
struct Averaged {
  Cumulative f; ///< (x, how)
  double exact(double x) const { return f(x, How::exact); }
  double read(double x) const { return f(x, How::read); }
};
template <class Cumulative>
Averaged(Cumulative) -> Averaged<Cumulative>;

/// From `x`, where F as read reaches p, to where F does: a few steps along the secant. Absent where they lead nowhere.
template <class Cumulative>
std::optional<double> quantile_near(const Averaged<Cumulative>& f, double p, double x, double step) {
  const double aim = deviate(p);
  double g = deviate(f.exact(x)) - aim;
  double slope = (deviate(f.read(x + step)) - deviate(f.read(x - step))) / (2 * step);
  for (int i = 0; i < most_steps_near; ++i) {
    if (std::abs(g) < deviate_within) return x;
    if (!(slope > 0) || std::abs(g) > far_deviate) return std::nullopt;
    const double next = x - g / slope;
    const double g_next = deviate(f.exact(next)) - aim;
    slope = (g_next - g) / (next - x);
    x = next;
    g = g_next;
  }
  return std::nullopt;
}

/// x from `low` to `high` at which F reaches p. `search` looks for it with a cumulative, and can find none: first in the
/// tables, from where a few exact steps do; else wholly exact. `step_at` is the reach over which F there is nearly straight.
template <class Cumulative, class Search, class Step>
std::optional<double> find_quantile(const Averaged<Cumulative>& f, double p, double low, double high, Search search,
                                    Step step_at) {
  if (const std::optional<double> near = search([&](double x) { return f.read(x); }))
    if (const auto found = quantile_near(f, p, *near, step_at(*near)); found && *found >= low && *found <= high)
      return found;
  return search([&](double x) { return f.exact(x); });
}

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

/// x at which F reaches p, outward from `start` in steps that grow; absent where it does not between the ends.
template <class Cumulative>
std::optional<double> quantile_outward(Cumulative f, double p, double start, double step, double low, double high) {
  double a = std::clamp(start, low, high), f_a = f(a);
  const bool down = f_a >= p;
  for (int i = 0; i < most_steps; ++i) {
    const double b = std::clamp(down ? a - step : a + step, low, high);
    if (b == a) return std::nullopt;
    const double f_b = f(b);
    if (down && f_b < p) return quantile_between(f, p, b, f_b, a, f_a);
    if (!down && f_b >= p) return quantile_between(f, p, a, f_a, b, f_b);
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
LevelEnds level_quantiles(const Averaged<Cumulative>& f, double start, double step, double reference,
                          double confidence) {
  const double low = std::log(reference * lowest), high = std::log(reference * highest);
  const double half_alpha = (1 - confidence) / 2;
  const Averaged over_log{[&](double x, How how) { return f.f(std::exp(x), how); }};
  const auto quantile = [&](double p, double from) {
    return find_quantile(
        over_log, p, low, high, [&](auto cumulative) { return quantile_outward(cumulative, p, from, step, low, high); },
        [&](double) { return step / 8; });
  };
  const auto level = [](const std::optional<double>& x) { return x ? std::optional(std::exp(*x)) : std::nullopt; };
  const std::optional<double> median = quantile(0.5, std::log(start));
  const double middle = median.value_or(std::log(start));
  LevelEnds ends;
  ends.median = level(median);
  ends.low = level(quantile(half_alpha, middle));
  ends.high = level(quantile(1 - half_alpha, middle));
  ends.all_above = !ends.median && f.exact(std::exp(low)) > 0.5;
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
double averaged(const PracticeMixture& mixture, How how, OfProfile of_profile) {
  double p = 0, weight = 0;
  for (std::size_t i = 0; i < mixture.profiles.size(); ++i) {
    if (mixture.weights[i] < least_weight) continue;
    p += mixture.weights[i] * of_profile(mixture.profiles[i], mixture.weights[i] < read_weight ? How::read : how);
    weight += mixture.weights[i];
  }
  return std::min(p / weight, 1.0);
}

/// F of the level at `cycle`, over seconds.
auto level_within(const PracticeMixture& mixture, double cycle) {
  return Averaged{[&mixture, cycle](double seconds, How how) {
    return averaged(mixture, how, [&](const CurveProfile& profile, How one) {
      return profile.probability_level_within(mixture.data, cycle, seconds, one);
    });
  }};
}

/// F of the improvement from the last cycle to `cycle`.
auto improvement_within(const PracticeMixture& mixture, double cycle) {
  return Averaged{[&mixture, cycle](double improvement, How how) {
    return averaged(mixture, how, [&](const CurveProfile& profile, How one) {
      return profile.probability_improvement_within(mixture.data, mixture.last, cycle, improvement, one);
    });
  }};
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
  return level_within(mixture, cycle).exact(seconds);
}

double probability_improvement_within(const PracticeMixture& mixture, double cycle, double improvement) {
  return improvement_within(mixture, cycle).exact(improvement);
}

TimeEstimate estimate_level(const PracticeMixture& mixture, double cycle, double confidence) {
  const double start = mixture.middle_level(cycle), reference = reference_level(mixture);
  const LevelEnds ends =
      level_quantiles(level_within(mixture, cycle), start, usual_step(mixture), reference, confidence);
  const double none = reference * (ends.all_above ? lowest : highest);
  return {Seconds{ends.median.value_or(none)}, seconds(ends.low), seconds(ends.high)};
}

TimeEstimate estimate_level(const PracticeMixture& mixture, std::size_t model, double cycle, double confidence) {
  const CurveFit& fit = mixture.fit(model);
  const double level = fit.level(cycle), reference = reference_level(mixture);
  const Averaged within{
      [&](double s, How how) { return mixture.profiles[model].probability_level_within(mixture.data, cycle, s, how); }};
  const LevelEnds ends =
      level_quantiles(within, std::max(level, reference * lowest), usual_step(mixture), reference, confidence);
  return {Seconds{level}, seconds(ends.low), seconds(ends.high)};
}

ImprovementEstimate estimate_improvement(const PracticeMixture& mixture, double cycle, double confidence) {
  const Averaged f = improvement_within(mixture, cycle);
  const double half_alpha = (1 - confidence) / 2, at_none = f.exact(0);
  const auto search = [&](double p, auto cumulative) -> std::optional<double> {
    double low = 0, at_low = at_none;
    for (const double high : {0.02, 0.06, 0.2, 0.5, most_improvement}) {
      const double at_high = cumulative(high);
      if (at_high >= p) return quantile_between(cumulative, p, low, at_low, high, at_high);
      low = high;
      at_low = at_high;
    }
    return std::nullopt;
  };
  const auto at = [&](double p) {
    if (at_none >= p) return 0.0;
    return find_quantile(
               f, p, 0, most_improvement, [&](auto cumulative) { return search(p, cumulative); }, a_part)
        .value_or(most_improvement);
  };
  return {at(0.5), at(half_alpha), at(1 - half_alpha)};
}

CyclesToGo estimate_cycles_to(const PracticeMixture& mixture, double limit, double horizon, double confidence) {
  const Averaged f{[&](double k, How how) { return level_within(mixture, mixture.last + k).f(limit, how); }};
  const double at_once = f.exact(0), at_last = f.exact(horizon), half_alpha = (1 - confidence) / 2;
  const auto at = [&](double p) -> std::optional<double> {
    if (at_once >= p) return 0.0;
    if (at_last < p) return std::nullopt;
    const auto search = [&](auto cumulative) -> std::optional<double> {
      return quantile_between(cumulative, p, 0, at_once, horizon, at_last);
    };
    return find_quantile(f, p, 0, horizon, search, a_part);
  };
  return {at(0.5), at(half_alpha), at(1 - half_alpha), 1 - at_last};
}

} // namespace docket
