// Units of several variants spaced as evenly as their counts allow.
//
// Model     at place k of n: the variant furthest behind its even share, the largest k n_v / n - (built so far)
// Source    the goal of level schedules: J. Miltenburg, Level schedules for mixed-model assembly lines in just-in-time
//           production systems, Management Science 35 (1989), 192-207. The largest-remainder rule, one step of goal
//           chasing as Y. Monden describes it for products: from memory, to be confirmed
// Method    one place after the other, in whole numbers; of variants equally far behind, the first in the table. Even,
//           but not always the most even order there is
// Assumes   every order can be built: parts, painting and other stations ask for nothing else
// Checked   tests/core/content/order/even_order_test.cpp: orders worked by hand, and every order of a small example
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace docket {

/// The variants in order, `counts[v]` of each; as many as the counts add up to.
std::vector<std::int32_t> space_evenly(std::span<const std::int64_t> counts);

/// The units of each run of `order` spaced evenly; `starts[i]`: a new run begins at i.
std::vector<std::int32_t> space_evenly_within_runs(std::span<const std::int32_t> order, const std::vector<bool>& starts,
                                                   std::size_t variants);

} // namespace docket
