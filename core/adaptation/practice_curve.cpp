#include "core/adaptation/practice_curve.h"

#include "core/adaptation/shape_search.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

namespace docket {

namespace {

constexpr double block_width = 0.02; ///< [1] of n
constexpr double bound_block_width = 0.05, most_of_span_of_bounds = 0.025,
                 bound_width = 0.05;    ///< [1] the same for bounds
constexpr double most_of_span = 0.0125; ///< [1] of the cycles seen: many cycles before the first make no wide blocks

} // namespace

std::string_view name_of(CurveModel model) {
  constexpr std::array<std::string_view, 6> names{
      "constant", "power", "power_plateau", "exponential_plateau", "hyperbolic_plateau", "two_phase"};
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

void add_lower_bounds(CurveData& data, std::span<const double> n, std::span<const double> seconds) {
  assert(n.size() == seconds.size());
  const double widest = data.n.empty() ? 0 : most_of_span_of_bounds * (data.n.back() - data.n.front());
  for (std::size_t i = 0; i < n.size();) {
    std::vector<std::pair<double, double>> block; // ln seconds, n
    for (const double first = n[i]; i < n.size() && n[i] - first <= std::min(widest, bound_block_width * first); ++i)
      block.emplace_back(std::log(seconds[i]), n[i]);
    std::sort(block.begin(), block.end());
    for (std::size_t j = 0; j < block.size();) {
      double sum_y = 0, sum_n = 0, weight = 0;
      for (const double least = block[j].first; j < block.size() && block[j].first - least <= bound_width; ++j) {
        sum_y += block[j].first;
        sum_n += block[j].second;
        weight += 1;
      }
      data.bound_n.push_back(sum_n / weight);
      data.bound_ln_y.push_back(sum_y / weight);
      data.bound_weight.push_back(weight);
    }
  }
}

double CurveFit::at(double cycle) const {
  if (model == CurveModel::constant) return c;
  double m = c + excess * falling_part(model, shape, cycle, first);
  if (model == CurveModel::two_phase) m += excess2 * falling_part(model, shape2, cycle, first);
  return m;
}

double CurveFit::level(double cycle) const { return at(cycle) * std::exp(sigma * sigma / 2); }

CurveFit fit_curve(const CurveData& data, CurveModel model) {
  assert(data.count >= 3);
  const CurveParts parts = parts_of(model);
  const BestShape found = find_best_shape(data, model);
  const LinearSolution& best = found.linear;
  const LnShape ln_shape = ln_shape_of(found.at);
  CurveFit fit;
  fit.model = model;
  fit.first = data.n.front();
  fit.parameters = (parts.floor ? 1 : 0) + 2 * parts.falling + 1;
  fit.c = best.beta[0];
  fit.excess = best.beta[1];
  fit.excess2 = best.beta[2];
  if (parts.falling > 0) fit.shape = std::exp(ln_shape[0]);
  if (parts.falling > 1) fit.shape2 = std::exp(ln_shape[1]);
  fit.sigma = best.sigma;
  fit.cost = best.cost;
  fit.rss = data.within_ss;
  for (std::size_t i = 0; i < data.n.size(); ++i)
    fit.rss += data.weight[i] * std::pow(data.ln_y[i] - std::log(fit.at(data.n[i])), 2);
  fit.log_likelihood = -(best.cost + data.count * (std::log(2 * std::numbers::pi) + 1)) / 2;
  return fit;
}

double corrected_aic(const CurveFit& fit, double count, double phi) {
  const double n = count / phi, k = fit.parameters;
  const double correction = n - k - 1 > 0 ? 2 * k * (k + 1) / (n - k - 1) : std::numeric_limits<double>::infinity();
  return fit.cost / phi + 2 * k + correction;
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
