#include "ingest/docket/log_order.h"

#include <string_view>

namespace docket {

namespace {

bool is_greater(std::string_view unit, std::string_view before) {
  return unit.size() != before.size() ? unit.size() > before.size() : unit > before;
}

} // namespace

void LogOrder::look_at(const CycleBlock& block) {
  new_together_.clear();
  const auto& stations = block.codes(CycleWordKind::station);
  for (std::size_t at = 0; at < block.rows; ++at) {
    Together together{};
    for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind) together[kind] = block.words[kind][at];
    if (together != previous_) {
      if (seen_.insert(together).second) new_together_.push_back(at);
      previous_ = together;
    }
    if (!in_order_) continue;
    if (stations[at] >= last_.size()) last_.resize(stations[at] + 1);
    Last& last = last_[stations[at]];
    const std::string_view unit = block.unit.at(at);
    in_order_ = (!last.started_at || block.started_at[at] > *last.started_at) &&
                (unit.empty() || last.unit.empty() || is_greater(unit, last.unit));
    last.started_at = block.started_at[at];
    if (!unit.empty()) last.unit = unit;
  }
}

} // namespace docket
