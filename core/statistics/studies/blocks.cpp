#include "core/statistics/studies/blocks.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace docket {

BlockTest test_treatments_in_blocks(const std::vector<std::vector<double>>& rows) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  BlockTest test{.f = none, .p = none};
  const std::size_t treatment_count = rows.empty() ? 0 : rows.front().size();
  for (const auto& row : rows) {
    if (row.size() != treatment_count) return test;
  }
  if (rows.size() < 2 || treatment_count < 2) return test;
  const auto blocks = static_cast<double>(rows.size());
  const auto treatments = static_cast<double>(treatment_count);
  test.df1 = treatments - 1;
  test.df2 = (blocks - 1) * (treatments - 1);

  // What is left of each value when its block's mean is taken out; the treatment means of that are the effects.
  std::vector<std::vector<double>> left = rows;
  std::vector<double> effects(treatment_count, 0.0);
  double size = 0;
  for (auto& row : left) {
    double mean = 0;
    for (const double value : row) mean += value / treatments;
    for (std::size_t t = 0; t < treatment_count; ++t) {
      size = std::max(size, std::abs(row[t]));
      row[t] -= mean;
      effects[t] += row[t] / blocks;
    }
  }
  double treatment_ss = 0;
  double error_ss = 0;
  for (const double effect : effects) treatment_ss += blocks * effect * effect;
  for (const auto& row : left) {
    for (std::size_t t = 0; t < treatment_count; ++t) error_ss += (row[t] - effects[t]) * (row[t] - effects[t]);
  }
  // Below this a sum of squares is what rounding leaves of nothing.
  const double rounding = 4 * std::numeric_limits<double>::epsilon() * size;
  if (error_ss <= blocks * treatments * rounding * rounding) return test;
  test.f = (treatment_ss / test.df1) / (error_ss / test.df2);
  test.p = f_upper_tail(test.f, test.df1, test.df2);
  test.possible = true;
  return test;
}

} // namespace docket
