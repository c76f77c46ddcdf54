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
inline constexpr std::string_view not_assessable_never_which =
    "Which of these it is stays unsaid on purpose, so that nobody's own matter can be read from this file.";
inline constexpr std::string_view b_not_asked =
    "Nobody is named for question B in this case. Nothing in this file says where any operator stands.";
inline constexpr std::string_view bridge_intervals =
    "The intervals do not add up as the seconds do. The bridge decides nothing.";

inline constexpr std::array<AdaptationWord, 6> adaptation_words{
    AdaptationWord::at_level,      AdaptationWord::still_learning, AdaptationWord::learning_interrupted,
    AdaptationWord::settled_above, AdaptationWord::not_shown,      AdaptationWord::not_assessable_now};

/// How the numbers of B come about, a line each.
inline constexpr std::array<std::string_view, 6> how_b_is_computed{
    "Time: cycle time less waiting, divided by the standard's content of the "
    "variant "
    "over its mean, and times the factor on measured times where there is one. Marked cycles and those under a "
    "differing condition are left out.",
    "Curves, by least squares on the logarithm of the time: c; c + k n^-b with c = 0; the same with c at 0 or above; "
    "c + k e^(-n/tau). n is the own count. Cycles are taken in groups no wider than 2 % of n and 1 % of the cycles "
    "seen; "
    "in findings.json excess_s is what lies above c at from_cycle, the middle of the first group.",
    "Level at n: the curve times e^(s^2/2), s the spread of the logarithms (sigma_log): what the person averages.",
    "r is the likeness of a residual to the one before it on the same day; phi = (1 + r)/(1 - r), 1 at least. With N "
    "plain cycles and p parameters (with s), AICc = (N/phi) ln s^2 + 2 p + 2 p (p + 1)/(N/phi - p - 1). A curve's "
    "weight "
    "is e^(-AICc/2), over the sum of all.",
    "A curve's chance that the level is at most x: the normal chance of the signed root of N ln(S(x)/S)/phi, S the "
    "least "
    "sum of squares and S(x) the least one with the level held at x. All together: these chances, by weight.",
    "The middle value, and the ends of the interval, are where that chance is one half, and where it leaves out half "
    "of "
    "what the confidence leaves out."};

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

/// What is known of the cycles before the first one seen, as the end of a sentence: ", estimated: ...".
std::string count_before_in_words(const PracticeSeries& series, const std::vector<std::int64_t>& tried);
/// The same in worked days, at as many own cycles a day as were seen: " That is 1 to 3 worked days ..."; or nothing.
std::string in_worked_days(const CyclesToGo& to_go, const PracticeSeries& series);
/// Codes that B is asked about and that no cycle belongs to.
std::string asked_not_in_data_in_words(const std::vector<std::string>& codes);

/// Where a level lies: "within the limit".
std::string against_limit(const TimeEstimate& level, Seconds limit);

std::string_view model_in_words(CurveModel model);
struct BridgeWords {
  std::string_view what, against;
};
BridgeWords bridge_term_in_words(std::string_view term);

} // namespace docket::wording
