// Time bridge: where the seconds between the limit and what was seen lie. A picture; it decides nothing. It reads the
// results of both questions and includes the inside of neither.
//
// Model     mean seen - limit = (S_mix - limit) + (peers - S_mix) + (own settled - peers) + (today - own settled)
//                               + (mean seen - today)
//           every level scaled by S_mix / S, S_mix the standard for the mix built in the operator's own cycles
// Source    an identity; the split is ours. Spread: JCGM 100:2008, 5.1.2, parts of different lines taken as independent
// Assumes   peers: the settled operators without this one, three or more; a missing term makes the bridge absent, not 0
// Checked   tests/core/bridge/time_bridge_test.cpp
#pragma once

#include "core/adaptation/adaptation.h"
#include "core/content/content.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace docket {

inline constexpr std::array<std::string_view, 5> bridge_terms{"standard_against_limit", "peers_against_standard",
                                                              "own_settled_against_peers", "today_against_own_settled",
                                                              "seen_against_today"};

struct BridgeTerm {
  std::string_view term;
  Seconds seconds{}, low{}, high{}; ///< at 1 - alpha, infinite where there is no end; they don't add up as seconds do
};

struct TimeBridge {
  std::int32_t op = -1;
  std::optional<std::array<BridgeTerm, 5>> terms;
  std::string absent_why; ///< code: not_assessable_now, no_estimates, too_few_peers
  Seconds sum{};          ///< mean seen - limit
};

TimeBridge build_time_bridge(const Case& input, const Evidence& evidence, const ContentFindings& content,
                             const TimeAvailable& time, const Adaptation& adaptation);

/// A2 calls somebody settled whom B calls still learning.
bool contradicts(const ContentFindings& content, const Adaptation& adaptation);

} // namespace docket
