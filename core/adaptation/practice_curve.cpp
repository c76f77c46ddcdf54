#include "core/adaptation/practice_curve.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

namespace docket {

namespace {

constexpr double block_width = 0.02;  ///< [1] of n
constexpr double most_of_span = 0.01; ///< [1] of the cycles seen: many cycles before the first make no wide blocks
constexpr double least_power = 1e-3, most_power = 3;
constexpr double most_time_like = 30; ///< times the last cycle
constexpr double least_ratio = 0.02;  ///< [1] M / m(first cycle): nobody becomes fifty times as quick
constexpr int shape_grid = 18, ratio_grid = 8;
constexpr int steps_of_fit = 44, steps_of_profile = 11; ///< golden sections: to 1e-9 and to 0.5 % of a grid step

/// h(n) = g(n) / g(first cycle), 1 at the first cycle and falling.
double falling_part(CurveModel model, double shape, double n, double first) {
  if (std::isinf(n)) return 0;
  return model == CurveModel::exponential_plateau ? std::exp(-(n - first) / shape) : std::pow(n / first, -shape);
}

/// Smallest value of `f` on [low, high]: a scan of `grid` + 1 points, then golden section around the best.
template <class Function>
std::pair<double, double> minimise(double low, double high, int grid, int steps, Function f) {
  double best_x = low, best = f(low);
  const double step = (high - low) / grid;
  for (int i = 1; i <= grid; ++i) {
    const double x = low + step * i, value = f(x);
    if (value < best) {
      best = value;
      best_x = x;
    }
  }
  double a = std::max(low, best_x - step), b = std::min(high, best_x + step);
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
  if (f1 < best) best_x = x1, best = f1;
  if (f2 < best) best_x = x2, best = f2;
  return {best_x, best};
}

/// The residual sum at one shape and one k, with ln M free: its smallest value and the ln M that gives it.
struct Centred {
  double ss = 0, ln_m = 0;
};

/// The curves of one model seen from one cycle N, with M = m(N).
class CurvesThrough {
public:
  CurvesThrough(const CurveData& data, CurveModel model, double cycle)
      : data_(data), model_(model), cycle_(cycle), first_(data.n.front()), h_(data.n.size()) {}

  /// ln shape, from quick to slow falling.
  std::pair<double, double> shape_range() const {
    if (model_ == CurveModel::exponential_plateau) {
      const double last = data_.n.back(), span = std::max(1.0, last - first_);
      return {std::log(std::max(1.0, span / 200)), std::log(most_time_like * last)};
    }
    return {std::log(least_power), std::log(most_power)};
  }

  void set_shape(double ln_shape) {
    shape_ = std::exp(ln_shape);
    for (std::size_t i = 0; i < h_.size(); ++i) h_[i] = falling_part(model_, shape_, data_.n[i], first_);
    at_cycle_ = falling_part(model_, shape_, cycle_, first_);
  }

  /// Smallest k is 0 (constant), largest leaves c = 0.
  double k_of_ratio(double ln_ratio) const { return std::expm1(-ln_ratio) / (1 - at_cycle_); }
  double k_without_plateau() const { return 1 / at_cycle_; }
  double least_ln_ratio() const { return std::log(std::max(least_ratio, at_cycle_)); }
  double h_at_cycle() const { return at_cycle_; }
  double h_at(double n) const { return falling_part(model_, shape_, n, first_); }
  double shape() const { return shape_; }

  Centred centred(double k) const {
    double sum = 0, sum2 = 0;
    for (std::size_t i = 0; i < h_.size(); ++i) {
      const double r = data_.ln_y[i] - std::log1p(k * (h_[i] - at_cycle_));
      sum += data_.weight[i] * r;
      sum2 += data_.weight[i] * r * r;
    }
    const double mean = sum / data_.count;
    return {std::max(0.0, sum2 - data_.count * mean * mean) + data_.within_ss, mean};
  }

  bool is_flat() const { return 1 - at_cycle_ < 1e-9; }

private:
  const CurveData& data_;
  CurveModel model_;
  double cycle_, first_;
  std::vector<double> h_;
  double shape_ = 1, at_cycle_ = 1;
};

/// What a solution of the search is, beside its value.
struct Solution {
  double ln_shape = 0, k = 0;
  double value = std::numeric_limits<double>::infinity();
};

/// Smallest `cost(Centred)` over the shapes of a model and k: one search inside the other.
template <class Cost>
Solution search(CurvesThrough& curves, CurveModel model, int steps, Cost cost) {
  const auto [low, high] = curves.shape_range();
  const auto best_k = [&](double ln_shape) -> Solution {
    curves.set_shape(ln_shape);
    if (model == CurveModel::power) {
      const double k = curves.k_without_plateau();
      return {ln_shape, k, cost(curves.centred(k))};
    }
    if (curves.is_flat()) return {ln_shape, 0, cost(curves.centred(0))};
    const auto [u, value] = minimise(curves.least_ln_ratio(), 0.0, ratio_grid, steps,
                                     [&](double x) { return cost(curves.centred(curves.k_of_ratio(x))); });
    return {ln_shape, curves.k_of_ratio(u), value};
  };
  const auto [ln_shape, value] = minimise(low, high, shape_grid, steps, [&](double x) { return best_k(x).value; });
  Solution best = best_k(ln_shape);
  best.value = value;
  return best;
}

double signed_root(double rss, double least_rss, double count, double phi, bool above) {
  const double deviance = count * std::log(std::max(rss, least_rss) / least_rss);
  return (above ? 1 : -1) * std::sqrt(deviance / phi);
}

} // namespace

std::string_view name_of(CurveModel model) {
  constexpr std::array<std::string_view, 4> names{"constant", "power", "power_plateau", "exponential_plateau"};
  return names[static_cast<std::size_t>(model)];
}

CurveData group_cycles(std::span<const double> n, std::span<const double> seconds) {
  assert(n.size() == seconds.size());
  CurveData data;
  const double widest = n.empty() ? 0 : most_of_span * (n.back() - n.front());
  for (std::size_t i = 0; i < n.size();) {
    std::size_t j = i;
    double sum_n = 0, sum = 0;
    while (j < n.size() && (j == i || n[j] - n[i] <= std::min(widest, block_width * n[i]))) {
      sum_n += n[j];
      sum += std::log(seconds[j]);
      ++j;
    }
    const auto w = static_cast<double>(j - i);
    const double mean = sum / w;
    for (std::size_t m = i; m < j; ++m) data.within_ss += std::pow(std::log(seconds[m]) - mean, 2);
    data.n.push_back(sum_n / w);
    data.ln_y.push_back(mean);
    data.weight.push_back(w);
    data.count += w;
    i = j;
  }
  return data;
}

double CurveFit::at(double cycle) const {
  return model == CurveModel::constant ? c : c + excess * falling_part(model, shape, cycle, first);
}

double CurveFit::level(double cycle) const { return at(cycle) * std::exp(sigma * sigma / 2); }

CurveFit fit_curve(const CurveData& data, CurveModel model) {
  assert(data.count >= 3);
  CurveFit fit;
  fit.model = model;
  fit.first = data.n.front();
  fit.parameters = model == CurveModel::constant ? 2 : model == CurveModel::power ? 3 : 4;
  CurvesThrough curves(data, model, data.n.back());
  if (model == CurveModel::constant) {
    curves.set_shape(0);
    const Centred flat = curves.centred(0);
    fit.c = std::exp(flat.ln_m);
    fit.rss = flat.ss;
  } else {
    const Solution best = search(curves, model, steps_of_fit, [](const Centred& x) { return x.ss; });
    curves.set_shape(best.ln_shape);
    const Centred at_best = curves.centred(best.k);
    const double m = std::exp(at_best.ln_m);
    fit.shape = curves.shape();
    fit.rss = at_best.ss;
    fit.c = model == CurveModel::power ? 0 : m * std::max(0.0, 1 - best.k * curves.h_at_cycle());
    fit.excess = m * best.k;
  }
  fit.sigma = std::sqrt(fit.rss / data.count);
  fit.log_likelihood = -data.count / 2 * (std::log(2 * std::numbers::pi * fit.rss / data.count) + 1);
  return fit;
}

double level_root(const CurveData& data, const CurveFit& fit, double cycle, double seconds, double phi) {
  const double ln_m = std::log(seconds) - fit.sigma * fit.sigma / 2;
  const auto cost = [&](const Centred& x) { return x.ss + data.count * (x.ln_m - ln_m) * (x.ln_m - ln_m); };
  CurvesThrough curves(data, fit.model, cycle);
  double rss = 0;
  if (fit.model == CurveModel::constant) {
    curves.set_shape(0);
    rss = cost(curves.centred(0));
  } else {
    rss = search(curves, fit.model, steps_of_profile, cost).value;
    // The fitted curve itself, moved up or down: near its own level the search is no closer than that.
    const double m = fit.at(cycle);
    if (m > 1e-9 * fit.at(fit.first)) { // else it has no plateau and `cycle` is out of its reach
      curves.set_shape(std::log(fit.shape));
      rss = std::min(rss, cost(curves.centred(fit.excess / m)));
    }
  }
  return signed_root(rss, fit.rss, data.count, phi, seconds >= fit.level(cycle));
}

double probability_level_within(const CurveData& data, const CurveFit& fit, double cycle, double seconds, double phi) {
  return normal_cdf(level_root(data, fit, cycle, seconds, phi));
}

double probability_improvement_within(const CurveData& data, const CurveFit& fit, double from, double to,
                                      double improvement, double phi) {
  if (improvement < 0) return 0;
  if (fit.model == CurveModel::constant) return 1;
  const double seen = 1 - fit.at(to) / fit.at(from);
  const double ratio = 1 - std::max(improvement, 1e-9);
  CurvesThrough curves(data, fit.model, to);
  double rss = std::numeric_limits<double>::infinity();
  if (fit.model == CurveModel::power) {
    // The ratio fixes the exponent: (to / from)^-b.
    curves.set_shape(std::log(std::max(1e-12, -std::log(ratio) / std::log(to / from))));
    rss = curves.centred(curves.k_without_plateau()).ss;
  } else {
    const auto [low, high] = curves.shape_range();
    const auto at_shape = [&](double ln_shape) {
      curves.set_shape(ln_shape);
      const double fall = curves.h_at(from) - curves.h_at_cycle();
      // A shape that has fallen all the way before `from`, or is too flat, can't have this improvement.
      const double k = (1 / ratio - 1) / std::max(fall, 1e-300);
      if (k > curves.k_without_plateau() || k > 1 / least_ratio) return std::numeric_limits<double>::max();
      return curves.centred(k).ss;
    };
    rss =
        std::min(minimise(low, high, 4 * shape_grid, steps_of_profile, at_shape).second, at_shape(std::log(fit.shape)));
  }
  return normal_cdf(signed_root(rss, fit.rss, data.count, phi, improvement >= seen));
}

double corrected_aic(const CurveFit& fit, double count, double phi) {
  const double n = count / phi, k = fit.parameters;
  const double correction = n - k - 1 > 0 ? 2 * k * (k + 1) / (n - k - 1) : std::numeric_limits<double>::infinity();
  return n * std::log(fit.rss / count) + 2 * k + correction;
}

std::vector<double> akaike_weights(std::span<const double> aicc) {
  const double best = *std::min_element(aicc.begin(), aicc.end());
  // Too few independent cycles for any model: nothing tells them apart.
  if (!std::isfinite(best)) return std::vector<double>(aicc.size(), 1.0 / static_cast<double>(aicc.size()));
  std::vector<double> weights;
  double sum = 0;
  for (const double value : aicc) sum += weights.emplace_back(std::isfinite(value) ? std::exp(-(value - best) / 2) : 0);
  for (double& weight : weights) weight /= sum;
  return weights;
}

} // namespace docket
