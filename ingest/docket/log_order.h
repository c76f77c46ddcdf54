// Is a large log in such an order that no two of its rows can be the same cycle?
//
// Model     a cycle is there twice where station and operator agree, and the starting time or the unit (cross_checks.h). At
//           a station where every start is later than the one before, and every unit number greater, none is
// Assumes   unit numbers in order: longer is greater, else the letters decide; a log that has others is merely not in order
// Checked   tests/ingest/docket/large_log_test.cpp
#pragma once

#include "ingest/docket/cycles/cycle_block.h"

#include <array>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace docket {

class LogOrder {
public:
  /// Looks at the next block; words have one code in the whole log.
  void look_at(const CycleBlock& block);

  bool in_order() const { return in_order_; }

  /// Places of rows in the block looked at last that have words no row before had together.
  const std::vector<std::size_t>& new_together() const { return new_together_; }

private:
  using Together = std::array<std::uint32_t, cycle_word_kinds>;
  struct Last {
    std::optional<std::int64_t> started_at;
    std::string unit;
  };

  bool in_order_ = true;
  std::vector<Last> last_; ///< by code of the station
  std::set<Together> seen_;
  std::vector<Together> seen_lately_; ///< by a hash, so that nearly every row is known at one look
  std::vector<std::size_t> new_together_;
};

} // namespace docket
