#include "core/statistics/studies/agreement.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>

namespace docket {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// (f ms - other)/(f ms + (k - 1) other) and the like: both F ratios multiplied out, so that no error at all gives 1.
Correlation of_two_mean_squares(double targets, double other, double df_targets, double df_other, double k,
                                double upper_tail) {
  const auto share = [k](double of_targets, double of_other) {
    return (of_targets - of_other) / (of_targets + (k - 1) * of_other);
  };
  return {.value = share(targets, other),
          .interval = {.low = share(targets, other * f_quantile(upper_tail, df_targets, df_other)),
                       .high = share(targets * f_quantile(upper_tail, df_other, df_targets), other)}};
}

Correlation of_random_raters(const RaterAgreement& ms, double n, double k, double upper_tail) {
  // Shrout & Fleiss 1979, appendix, with F_J = raters/error multiplied out.
  const double value =
      (ms.ms_targets - ms.ms_error) / (ms.ms_targets + (k - 1) * ms.ms_error + k * (ms.ms_raters - ms.ms_error) / n);
  const double rho = std::max(0.0, value);
  const double from_raters = k * rho * ms.ms_raters;
  const double from_error = (n * (1 + (k - 1) * rho) - k * rho) * ms.ms_error;
  const double sum = from_raters + from_error;
  const double df =
      sum > 0 ? (k - 1) * (n - 1) * sum * sum / ((n - 1) * from_raters * from_raters + from_error * from_error)
              : (k - 1) * (n - 1);
  const double beside = k * ms.ms_raters + (k * n - k - n) * ms.ms_error;
  const double f_low = f_quantile(upper_tail, n - 1, df);
  const double f_high = f_quantile(upper_tail, df, n - 1);
  return {.value = value,
          .interval = {.low = n * (ms.ms_targets - f_low * ms.ms_error) / (f_low * beside + n * ms.ms_targets),
                       .high = n * (f_high * ms.ms_targets - ms.ms_error) / (beside + n * f_high * ms.ms_targets)}};
}

} // namespace

LimitsOfAgreement limits_of_agreement(const Summary& differences, double width, double confidence) {
  assert(width > 0);
  assert(confidence > 0 && confidence < 1);
  if (differences.n < 2) {
    const Bounds unknown{.low = none, .high = none};
    const LimitOfAgreement no_limit{.value = none, .se = none, .interval = unknown};
    return {.bias = none, .bias_se = none, .bias_interval = unknown, .lower = no_limit, .upper = no_limit};
  }
  const auto n = static_cast<double>(differences.n);
  const double tail = (1 - confidence) / 2;
  const double bias_se = differences.sd / std::sqrt(n);
  const double bias_half = student_t_quantile(1 - tail, n - 1) * bias_se;
  const double reach = width * differences.sd;
  const double inner = noncentral_t_quantile(tail, n - 1, width * std::sqrt(n)) * bias_se;
  const double outer = noncentral_t_quantile(1 - tail, n - 1, width * std::sqrt(n)) * bias_se;
  const double se = differences.sd * std::sqrt(1 / n + width * width / (2 * (n - 1)));
  const double bias = differences.mean;
  return {.bias = bias,
          .bias_se = bias_se,
          .bias_interval = {.low = bias - bias_half, .high = bias + bias_half},
          .lower = {.value = bias - reach, .se = se, .interval = {.low = bias - outer, .high = bias - inner}},
          .upper = {.value = bias + reach, .se = se, .interval = {.low = bias + inner, .high = bias + outer}}};
}

RaterAgreement rater_agreement(const std::vector<std::vector<double>>& rows, double confidence) {
  assert(confidence > 0 && confidence < 1);
  const Correlation unknown{.value = none, .interval = {.low = none, .high = none}};
  RaterAgreement agreement{.ms_targets = none,
                           .ms_within = none,
                           .ms_raters = none,
                           .ms_error = none,
                           .one_way = unknown,
                           .random = unknown,
                           .fixed = unknown};
  const std::size_t rater_count = rows.empty() ? 0 : rows.front().size();
  for (const auto& row : rows) {
    if (row.size() != rater_count) return agreement;
  }
  if (rows.size() < 2 || rater_count < 2) return agreement;
  const auto n = static_cast<double>(rows.size());
  const auto k = static_cast<double>(rater_count);

  double mean = 0;
  double size = 0;
  for (const auto& row : rows) {
    for (const double value : row) {
      mean += value / (n * k);
      size = std::max(size, std::abs(value));
    }
  }
  std::vector<double> targets(rows.size(), 0.0); // Each less the mean of all.
  std::vector<double> raters(rater_count, 0.0);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t j = 0; j < rater_count; ++j) {
      targets[i] += (rows[i][j] - mean) / k;
      raters[j] += (rows[i][j] - mean) / n;
    }
  }
  double ss_targets = 0, ss_raters = 0, ss_error = 0;
  for (const double target : targets) ss_targets += k * target * target;
  for (const double rater : raters) ss_raters += n * rater * rater;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t j = 0; j < rater_count; ++j) {
      const double error = rows[i][j] - mean - targets[i] - raters[j];
      ss_error += error * error;
    }
  }
  // Below this a sum of squares is what rounding leaves of nothing.
  const double rounding = 4 * std::numeric_limits<double>::epsilon() * size;
  if (ss_targets + ss_raters + ss_error <= n * k * rounding * rounding) return agreement;

  const double df_error = (n - 1) * (k - 1);
  const double upper_tail = 1 - (1 - confidence) / 2;
  agreement.ms_targets = ss_targets / (n - 1);
  agreement.ms_within = (ss_raters + ss_error) / (n * (k - 1));
  agreement.ms_raters = ss_raters / (k - 1);
  agreement.ms_error = ss_error / df_error;
  agreement.one_way = of_two_mean_squares(agreement.ms_targets, agreement.ms_within, n - 1, n * (k - 1), k, upper_tail);
  agreement.random = of_random_raters(agreement, n, k, upper_tail);
  agreement.fixed = of_two_mean_squares(agreement.ms_targets, agreement.ms_error, n - 1, df_error, k, upper_tail);
  agreement.possible = true;
  return agreement;
}

} // namespace docket
