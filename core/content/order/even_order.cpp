#include "core/content/order/even_order.h"

#include <cassert>
#include <numeric>

namespace docket {

std::vector<std::int32_t> space_evenly(std::span<const std::int64_t> counts) {
  const std::int64_t units = std::accumulate(counts.begin(), counts.end(), std::int64_t{0});
  std::vector<std::int64_t> built(counts.size());
  std::vector<std::int32_t> order;
  order.reserve(static_cast<std::size_t>(units));
  for (std::int64_t place = 1; place <= units; ++place) {
    std::size_t furthest = counts.size();
    std::int64_t most = 0;
    for (std::size_t v = 0; v < counts.size(); ++v) {
      if (built[v] == counts[v]) continue;
      const std::int64_t behind = place * counts[v] - units * built[v];
      if (furthest == counts.size() || behind > most) {
        furthest = v;
        most = behind;
      }
    }
    ++built[furthest];
    order.push_back(static_cast<std::int32_t>(furthest));
  }
  return order;
}

std::vector<std::int32_t> space_evenly_within_runs(std::span<const std::int32_t> order, const std::vector<bool>& starts,
                                                   std::size_t variants) {
  assert(order.size() == starts.size());
  std::vector<std::int32_t> even;
  even.reserve(order.size());
  std::vector<std::int64_t> counts(variants);
  for (std::size_t i = 0; i < order.size(); ++i) {
    ++counts[static_cast<std::size_t>(order[i])];
    if (i + 1 < order.size() && !starts[i + 1]) continue;
    const std::vector<std::int32_t> run = space_evenly(counts);
    even.insert(even.end(), run.begin(), run.end());
    counts.assign(variants, 0);
  }
  return even;
}

} // namespace docket
