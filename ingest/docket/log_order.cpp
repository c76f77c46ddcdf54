#include "ingest/docket/log_order.h"

#include <string_view>

namespace docket {

namespace {

constexpr std::size_t lately = 8192;

/// Mixed by the golden ratio (Knuth, The Art of Computer Programming 3, 6.4; common practice); the upper bits are the best.
template <std::size_t count>
std::size_t place_of(const std::array<std::uint32_t, count>& together) {
  std::uint64_t mixed = 0;
  for (const std::uint32_t code : together) mixed = (mixed ^ code) * 0x9E3779B97F4A7C15U;
  return static_cast<std::size_t>(mixed >> 51); // 13 bits: a place of `lately`
}

bool is_greater(std::string_view unit, std::string_view before) {
  return unit.size() != before.size() ? unit.size() > before.size() : unit > before;
}

} // namespace

void LogOrder::look_at(const CycleBlock& block) {
  constexpr std::uint32_t none = 0xFFFFFFFF; // no word has this code
  if (seen_lately_.empty()) {
    seen_lately_.resize(lately);
    for (Together& place : seen_lately_) place.fill(none);
  }
  new_together_.clear();
  const auto& stations = block.codes(CycleWordKind::station);
  for (std::size_t at = 0; at < block.rows; ++at) {
    Together together{};
    for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind) together[kind] = block.words[kind][at];
    Together& known = seen_lately_[place_of(together)];
    if (together != known) {
      if (seen_.insert(together).second) new_together_.push_back(at);
      known = together;
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
