#include "core/adaptation/late_slope.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace docket {

CurveData last_half(const CurveData& data) {
  CurveData half;
  double count = 0;
  std::size_t first = data.n.size();
  while (first > 0 && count < data.count / 2) count += data.weight[--first];
  const auto from = [&](const std::vector<double>& all) {
    return std::vector<double>(all.begin() + static_cast<std::ptrdiff_t>(first), all.end());
  };
  half.n = from(data.n);
  half.ln_y = from(data.ln_y);
  half.weight = from(data.weight);
  half.count = count;
  // Spread within blocks is the same everywhere, as the model has it.
  const auto blocks = static_cast<double>(data.n.size()), kept = static_cast<double>(half.n.size());
  if (data.count > blocks) half.within_ss = data.within_ss * (count - kept) / (data.count - blocks);
  for (std::size_t i = 0; i < data.bound_n.size(); ++i) {
    if (data.bound_n[i] < half.n.front()) continue;
    half.bound_n.push_back(data.bound_n[i]);
    half.bound_ln_y.push_back(data.bound_ln_y[i]);
    half.bound_weight.push_back(data.bound_weight[i]);
  }
  return half;
}

LateSlope find_late_slope(const PracticeMixture& mixture, double horizon, double improvement_left, double confidence) {
  const CurveData half = last_half(mixture.data);
  double sum = 0, sum_x = 0, sum_y = 0;
  for (std::size_t i = 0; i < half.n.size(); ++i) {
    sum += half.weight[i];
    sum_x += half.weight[i] * std::log(half.n[i]);
    sum_y += half.weight[i] * half.ln_y[i];
  }
  const double mean_x = sum_x / sum, mean_y = sum_y / sum;
  double xx = 0, xy = 0, yy = half.within_ss;
  for (std::size_t i = 0; i < half.n.size(); ++i) {
    const double x = std::log(half.n[i]) - mean_x, y = half.ln_y[i] - mean_y;
    xx += half.weight[i] * x * x;
    xy += half.weight[i] * x * y;
    yy += half.weight[i] * y * y;
  }
  const double slope = xy / xx, df = std::max(1.0, half.count / mixture.phi - 2);
  const double variance = std::max(0.0, yy - slope * xy) / std::max(1.0, half.count - 2);
  const double lower = slope - student_t_quantile(0.5 + confidence / 2, df) * std::sqrt(mixture.phi * variance / xx);
  LateSlope late;
  const double ahead = std::log((mixture.last + horizon) / mixture.last);
  late.improvement_bound = std::max(0.0, 1 - std::exp(lower * ahead));
  const PracticeMixture of_half = fit_mixture(half, mixture.last, mixture.lag1);
  late.p_improving = 1 - probability_improvement_within(of_half, mixture.last + horizon, improvement_left);
  late.could_fall = late.improvement_bound > improvement_left || late.p_improving > rules::most_late_improving;
  return late;
}

} // namespace docket
