#include "core/content/lines/settled_rule.h"

#include "core/rules.h"
#include "core/statistics/fitting/trend.h"
#include "core/statistics/random.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace docket {

namespace {

double median_in_place(std::span<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

/// As fall_over_blocks, but reorders `scaled` within its blocks.
double fall_of(std::span<double> scaled) {
  constexpr std::size_t blocks = rules::settled_blocks;
  std::array<double, blocks> position{}, medians{};
  for (std::size_t b = 0; b < blocks; ++b) {
    const std::size_t first = b * scaled.size() / blocks, last = (b + 1) * scaled.size() / blocks;
    position[b] = static_cast<double>(b);
    medians[b] = median_in_place(scaled.subspan(first, last - first));
  }
  const double slope = theil_sen_slope(position, medians);
  return -static_cast<double>(blocks - 1) * slope / median(std::vector<double>(medians.begin(), medians.end()));
}

} // namespace

double fall_over_blocks(std::span<const double> scaled) {
  assert(scaled.size() >= static_cast<std::size_t>(rules::settled_blocks));
  std::vector<double> copy(scaled.begin(), scaled.end());
  return fall_of(copy);
}

FallWithBound find_fall(const std::vector<std::vector<double>>& days, std::uint64_t seed, std::uint64_t stream) {
  std::vector<double> record;
  for (const std::vector<double>& day : days) record.insert(record.end(), day.begin(), day.end());
  FallWithBound out;
  out.fall = fall_over_blocks(record);

  const Draws draws(seed);
  std::vector<double> falls;
  for (int r = 0; r < rules::settled_resamples; ++r) {
    record.clear();
    for (std::size_t d = 0; d < days.size(); ++d) {
      const std::uint64_t pick = draws.below(days.size(), stream, static_cast<std::uint64_t>(r), d);
      record.insert(record.end(), days[pick].begin(), days[pick].end());
    }
    if (record.size() >= static_cast<std::size_t>(rules::settled_blocks)) falls.push_back(fall_of(record));
  }
  out.bound = out.fall + (falls.size() < 2 ? 0.0 : rules::settled_bound_z * summarise(falls).sd);
  return out;
}

} // namespace docket
