// The words of question B. They say where the times stand and nothing of why, and predict nobody beyond the cycles seen.
#pragma once

#include "core/findings.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace docket::wording {

// Fixed sentences. They are agreed; a document prints them as they stand.
inline constexpr std::string_view nothing_about_why = "It says nothing about why.";
inline constexpr std::string_view b_not_asked =
    "Nobody is named for question B in this case. Nothing in this file says where any operator stands.";
inline constexpr std::string_view bridge_intervals =
    "The intervals do not add up as the seconds do. The bridge decides nothing.";

inline constexpr std::array<AdaptationWord, 6> adaptation_words{
    AdaptationWord::at_level,      AdaptationWord::still_learning, AdaptationWord::learning_interrupted,
    AdaptationWord::settled_above, AdaptationWord::not_shown,      AdaptationWord::not_assessable_now};

std::string_view finding_word(AdaptationWord word);

/// What a pair of findings allows; B absent: not asked.
std::string_view what_the_pair_allows(ContentWord content, std::optional<AdaptationWord> adaptation);
/// The same as a sentence; `operators`: whom B is about, empty where there is no need to say it.
std::string grid_sentence(ContentWord content, std::optional<AdaptationWord> adaptation, std::string_view operators);

// Codes in words. A code that is not known is printed as it is, with its detail, rather than nothing.
std::string adaptation_reason_in_words(const Reason& reason);
std::string would_decide_adaptation(const Reason& reason);
std::string bridge_absent_in_words(std::string_view code);

/// Cycles still to go until the level is within the limit, as an interval: a sentence.
std::string cycles_to_go_in_words(const CyclesToGo& to_go, std::int64_t horizon_cycles);
/// The same in short: "about 450 (200 to 900)".
std::string cycles_to_go_in_short(const CyclesToGo& to_go);

/// Where a level lies: "within the limit".
std::string against_limit(const TimeEstimate& level, Seconds limit);

std::string_view model_in_words(CurveModel model);
struct BridgeWords {
  std::string_view what, against;
};
BridgeWords bridge_term_in_words(std::string_view term);

} // namespace docket::wording
