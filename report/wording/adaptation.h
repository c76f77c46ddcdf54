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
inline constexpr std::array<std::string_view, 14> how_b_is_computed{
    "Time: cycle time less waiting, divided by the standard's content of the variant over its mean, and times the "
    "factor on measured times where there is one. Marked cycles and those under a differing condition are left out.",
    "Curves m(n), n the own count: c; a n^-b; c + a n^-b; c + a e^(-n/tau); c + a/(1 + n/h); and in two phases "
    "c + a1 e^(-n/tau1) + a2 e^(-n/tau2). No c or a is below 0. b is from 0.001 to 3; tau, tau1 and h are from a "
    "200th of the own cycles from the first plain one to the last, or 1 if that is more, to 30 times the last own "
    "count; tau2 too, and it is 5 times tau1 at least.",
    "ln y = ln m(n) + e, e normal with spread s (sigma_log). Each curve takes c, a, its shapes and s where the "
    "likelihood is greatest. In findings.json excess_s is what a part of the curve adds to c at from_cycle, the "
    "middle of the first block.",
    "Cycles are taken in blocks of neighbours: a block ends before its width in n passes 2 % of its first n or 1.25 % "
    "of the plain cycles' range. In a block the mean of n, the mean of ln y and the count are used, and what is spread "
    "within blocks goes into s.",
    "Lower bounds: a helped or cut short cycle of time y counts with the chance that the person's time would have been "
    "y or more, 1 - N((ln y - ln m(n))/s), N the normal distribution (a censored log-normal likelihood). Bounds near "
    "one another, within 5 % of n and 2.5 % of the range, and within 5 % in time, are taken together.",
    "Second row: helped cycles of known help enter as values, time and seconds of help added; the others stay lower "
    "bounds. STILL LEARNING, AT LEVEL and SETTLED ABOVE must hold by both.",
    "Level at n: the curve times e^(s^2/2): what the person averages. The settled level is the level at the last plain "
    "cycle and H more, H the own cycles seen or five shifts if that is more, three times those seen at most.",
    "r is the likeness of a residual of the closest curve to the one before it on the same day; phi = (1 + r)/(1 - r), "
    "1 at least. L is -2 times the greatest log-likelihood. With N plain cycles and p parameters (with s), "
    "AICc = L/phi + 2 p + 2 p (p + 1)/(N/phi - p - 1). A curve's weight is e^(-AICc/2), over the sum of all six.",
    "A curve's chance that the level is at most x: N of the signed root of (L(x) - L)/phi, L(x) the least L with the "
    "level held at x. The same with the improvement held, 1 less level over level. All together: these chances, by "
    "weight. What a curve fixes, such as no improvement by the first one, is a step.",
    "The middle value is where that chance is one half; the ends of the interval are where it leaves out half of what "
    "the confidence leaves out. An end that the chance never reaches is not given.",
    "Late slope, asked where the chance of more improvement than may be left is at most half of what the confidence "
    "leaves out: a straight line of ln y on ln n by weighted least squares through the blocks of the last half of the "
    "plain cycles. b is its slope less t times its standard error times the root of phi, t of Student with N/(2 phi) - "
    "2 "
    "degrees; the bound is 1 - ((n + H)/n)^b, n the last. Beside it all six curves through the last half alone. The "
    "word "
    "is settled only if the bound is within the improvement that may be left, and the chance by the last half is 10 % "
    "at most.",
    "Breaks: a pause of gap_days or more; a variant that makes 5 % or more of what follows and was not there in 60 or "
    "more cycles before; a training with 60 or more before. With 60 plain cycles on 3 days before and enough after: "
    "the curves of what lies before give the level at its last cycle; the loss is e^d - 1, d the mean of ln y less "
    "ln level plus half of s^2 over the first 60 plain cycles after. Its interval joins the spread of these, times the "
    "root of phi, and that of the level.",
    "Cycles lost: so many own cycles before the break the curve stood as high as after it. Where a loss is shown, "
    "its lower end above 0, the cycles after the break are counted so many lower, and all six curves are fitted to "
    "that "
    "count. The loss is made good when today's level is at the one before, or after three times the cycles lost.",
    "More cycles: as many as asked are laid on the averaged curve with the spread seen, all curves are fitted again, "
    "and the interval of the settled level is read again. No chance is in it."};

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

/// A count of cycles to two digits: it is never better known.
std::string about_count(double cycles);

/// What is known of the cycles before the first one seen, as the end of a sentence: ", estimated: ...".
std::string count_before_in_words(const PracticeSeries& series, const std::vector<std::int64_t>& tried);
/// The same in worked days, at as many own cycles a day as were seen: " That is 1 to 3 worked days ..."; or nothing.
std::string in_worked_days(const CyclesToGo& to_go, const PracticeSeries& series);
/// Codes that B is asked about and that no cycle belongs to.
std::string asked_not_in_data_in_words(const std::vector<std::string>& codes);

/// What a break is: "gap of 20 days", "new variant heavy", "training".
std::string break_in_words(const PracticeBreak& found);
std::string signed_percent(double share); ///< "+8.0 %"
/// A loss across the last break as a sentence; or why nothing was estimated.
std::string interruption_in_words(const Interruption& interruption);
/// Why nothing was estimated across a break: a code in words.
std::string no_loss_in_words(std::string_view code);

/// Beside SETTLED ABOVE: how many other settled operators are above the limit too; absent: too few others.
std::string others_above_in_words(const std::optional<OthersAbove>& others);

/// "borrowed from 6 earlier learners, not this person's own".
std::string borrowed_from(int learners);
std::string no_earlier_learners_in_words(std::string_view code);

/// Where a level lies: "within the limit".
std::string against_limit(const TimeEstimate& level, Seconds limit);

std::string_view model_in_words(CurveModel model);
struct BridgeWords {
  std::string_view what, against;
};
BridgeWords bridge_term_in_words(std::string_view term);

} // namespace docket::wording
