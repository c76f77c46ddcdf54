// Every word the documents say, in one place. The same words serve operator, engineer and supervisor: they speak of
// work and of evidence, never of a person's will, effort, health or character.
#pragma once

#include "core/estimate.h"
#include "core/evidence.h"
#include "core/findings.h"

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket::wording {

// Fixed sentences. They are agreed; a document prints them as they stand.
inline constexpr std::string_view question_a = "Question A: does the content fit?";
inline constexpr std::string_view question_b = "Question B: where does an operator stand on the way to a settled time?";
inline constexpr std::string_view fits_second_line =
    "In time, for trained people. This says nothing about strain or safety.";
inline constexpr std::string_view not_shown_line =
    "Neither shown to fit nor shown not to fit. The complaint stays open, and so does the help given meanwhile.";
inline constexpr std::string_view held_line = "Do not act on this finding: a safety or health matter is open.";
inline constexpr std::string_view local_law_first =
    "Local law and the collective agreement in force come first, before everything in this file.";
inline constexpr std::string_view not_assessable_line =
    "Question A, a condition, or a safety, health or accommodation matter is open.";
inline constexpr std::string_view what_opens_it_again =
    "A change of the content, the mix, the build order, the work zone, the line cycle time or the conditions.";
inline constexpr std::string_view log_cannot_show = "Help, stops and skipped steps cannot be seen in it.";

inline constexpr std::array<std::string_view, 6> cautions{
    "This file does not assess injury risk.",
    "A finding \"fits\" is void where a safety or health referral is open.",
    "Do not speed up to prove or disprove anything during a study.",
    "Report pain early; reporting is no evidence about performance.",
    "Breaks, relief, toilet and safety steps are working conditions, never savings.",
    "Stop-work right first.",
};

inline constexpr std::array<std::string_view, 4> not_decided{
    "It recommends no measure against any person; it may be an input to people who decide under the agreement.",
    "It gives no verdict on safety, strain or health.",
    "It predicts nobody: levels and cycles to come are ranges to plan support by. It says nothing about why a time is "
    "what it is.",
    local_law_first,
};

inline constexpr std::string_view settled_rule =
    "An operator counts as settled when trained, past the number of own cycles the settings ask for, and when the last "
    "20 worked days (200 plain cycles on 3 days at least) show no fall in the times that could still exceed the "
    "improvement left that the settings allow. Days are compared, so that one good or bad day does not decide.";

inline constexpr std::string_view is_joint_copy =
    "This is the joint copy: notes of whoever filled the sheets in are not printed.";
inline constexpr std::string_view is_review_copy = "This is the copy for review: notes of the sheets are printed too.";

inline constexpr std::string_view listed_though_closed = "Question B is closed for somebody asked about. Question A "
                                                         "still lists everybody it counts, here and in the restudy, "
                                                         "with times, because it must be open to recomputation; of "
                                                         "whom it does not count it says no more. So keep this file to "
                                                         "those it names as readers.";

// Shares of people: three of them, and each says which it is.
inline constexpr std::string_view what_share_able_is =
    "Of all trained people, also those not seen here, the share whose own mean at normal pace is within the limit; "
    "from "
    "the level of all lines together and the spread between the settled operators.";
inline constexpr std::string_view what_share_counted_is =
    "Of the settled operators seen, how many have an own mean within the limit at their own pace; a count, and no "
    "estimate of other people.";
inline constexpr std::string_view what_share_at_own_pace_is =
    "Share at own pace: of all trained people, also those not seen here, the share whose own mean at their own pace is "
    "within the limit; from the settled operators alone.";
inline constexpr std::string_view how_shares_differ =
    "This file gives three shares of people. They differ in pace (share able: normal pace; the two others: own pace), "
    "in "
    "whose level is taken (share able: all lines together; the two others: the settled operators alone), and in whom "
    "they "
    "mean (share counted: only the people seen; the two others: all trained people). The share at own pace stands with "
    "the single cycles beyond the limit. Only the share able has a say in the finding.";

// Levels that took a ratio that is not the person's own.
inline constexpr std::string_view what_bridged_is =
    "Bridged: with fewer than 20 own plain cycles of a variant, the person's time of it is not taken from these "
    "cycles. It "
    "is the person's mean of time over standard, times the standard's time of the variant; where enough others did the "
    "variant, also times what they take over the standard's ratio.";
inline constexpr std::string_view by_the_standard = "by the standard's ratio";
inline constexpr std::string_view by_others = "by the ratio measured on others";

/// "Taken as it stands, the plant's own standard is 2.0 s below the line cycle time."
std::string standard_as_it_stands(Seconds line_cycle, Seconds standard);

std::string_view finding_word(ContentWord word);
/// The same with the reason why a record is too short.
std::string status_of(const OperatorLevel& level);
std::string_view lean_sentence(Leaning leans);

// Codes in words. A code that is not known is printed as it is, with its detail, rather than nothing.
std::string reason_in_words(const Reason& reason);
std::string would_decide_in_words(const Reason& reason);
std::string flip_in_words(const Flip& flip); ///< "Every rating 5 % higher"
std::string lean_in_words(const Reason& reason);
std::string none_why_in_words(std::string_view code);

/// One row of the table of data faults.
struct FaultWords {
  std::string check, result, direction, affects, remedy;
};
FaultWords fault_in_words(const DataFault& fault);

std::string_view line_name(Line line);
/// The same inside a sentence: "the settled operators".
std::string_view line_in_sentence(Line line);
std::string_view status_in_words(OperatorStatus status);
/// As `status_of`, in words short enough to stand beside a row of a figure.
std::string status_in_short(const OperatorLevel& level);
std::string_view class_name(ElementClass element_class);
std::string_view class_in_short(ElementClass element_class);
std::string_view time_source_in_words(TimeSource source);
std::string_view state_in_words(ConditionState state);
std::string_view allowance_in_words(AllowanceWhere where);
std::string_view use_in_words(UseOfTime use);
std::string_view mark_meaning(Mark mark);
std::string marks_in_words(Marks marks); ///< "helped, cut short"
/// `condition`: the name of the condition where that is the reason.
std::string exclusion_in_words(Exclusion why, Marks marks, std::string_view condition);
std::string_view exclusion_handling(Exclusion why);
std::string_view setting_meaning(std::string_view key); ///< empty for a key it does not know

struct Term {
  std::string_view term, meaning;
};
std::span<const Term> glossary();

struct MethodSource {
  std::string_view used_for, source;
};
std::span<const MethodSource> methods_and_sources();

/// Every text of the tables behind this header, for the checks of wording.
std::vector<std::string_view> all_texts();

} // namespace docket::wording
