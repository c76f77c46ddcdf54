// The words of the ergonomics cautions: what each method is, how far it reaches, and why there is no number. Nothing here
// clears, grades or adds up; a number is printed with its method beside it or not at all.
#pragma once

#include "core/ergonomics/ergonomics.h"
#include "report/wording/tables.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket::wording {

// Fixed sentences. They are agreed; a document prints them as they stand.
inline constexpr std::string_view screening_line = "Screening, not clearance; a qualified ergonomist decides.";
inline constexpr std::string_view open_matter_first =
    "A safety or health matter at this station is open. It comes before every finding in this file.";
inline constexpr std::string_view nothing_is_cleared =
    "Nothing here clears the station. Fitting in time says nothing about force, posture, recovery or dose. There is no "
    "total and no grade: each result stands for itself, for the job and for no person.";
inline constexpr std::string_view ratings_not_from_sheet = "The ratings of the strain index are judgements of somebody "
                                                           "trained in it. They are taken as given, never made from "
                                                           "the measured values.";
inline constexpr std::string_view what_lifting_index_is =
    "The limit is the weight that nearly all healthy people could lift so over the hours given. The index is load over "
    "limit: at 1 the load equals the limit. Reckoned with unrounded multipliers, which the table shows to two "
    "decimals. "
    "The manual rounds as it goes; its values are in findings.json and differ by a few percent.";
inline constexpr std::string_view what_composite_is =
    "Several lifts in one job: the hardest by itself, then for each further one what its frequency adds. All are done "
    "in turn by one person. Reckoned unrounded; the longest duration among the lifts holds for all.";
inline constexpr std::string_view what_acceptable_effort_is =
    "The longer an effort is held in a cycle, the smaller the share of the strength that is acceptable. Held: share of "
    "units that have it, times a unit, seconds each, over the line cycle time. Force over acceptable: at 1 they are "
    "equal. The seconds held are taken to stay the same on a faster line.";
inline constexpr std::string_view what_in_a_row_is =
    "\"Units in a row\" is the same while units that have the effort follow one another: the mix hides them.";
inline constexpr std::string_view what_hands_are =
    "All efforts of a hand together: their held shares added. The equation is for one kind of effort repeated, so the "
    "sum is set beside the largest force (the careful reading) and the mean force over the seconds held.";
inline constexpr std::string_view what_strain_indices_are =
    "The index of 1995 is a product of six multipliers by rating; the revised one of 2017 a product of five, from "
    "measured values. They are two methods with two scales and can't be compared with one another.";
inline constexpr std::string_view what_recovery_is =
    "Busy is the work of the average unit by the standard, without elements of kind wait and machine. Recovery is the "
    "rest of the cycle, that is standing by and time left over; it is not a break, and takes nobody's break away.";
inline constexpr std::string_view what_faster_line_does =
    "At the line cycle time asked about, seconds of work, of each effort and of the pattern stay the same, and so does "
    "the working time of a shift. It is a question asked of these methods; it changes no finding.";
inline constexpr std::string_view beyond_the_cycle =
    "On a line that fast the work of the average unit no longer fits into the cycle.";

/// What a method is called, where it is from, how sure its values are, and for whom and what it is.
struct ScreeningWords {
  std::string name, source, short_source, certainty, range, short_range;
};
ScreeningWords method_in_words(const ScreeningMethod& method);

/// Why there is no number, or what was taken in place of what is missing.
std::string screening_reason_in_words(const Reason& reason);
/// One after another, as sentences.
std::string screening_reasons_in_words(std::span<const Reason> reasons);

std::string_view hand_of_effort(Hand hand);
std::string_view duration_in_words(LiftDuration duration);
/// "effort somewhat hard, wrist fair, speed fair"; only those given.
std::string ratings_in_words(const Effort& effort);
/// "good", "fair", "poor".
std::string_view coupling_in_words(Coupling coupling);

/// Every text of this part, for the checks of wording.
std::vector<std::string_view> ergonomics_texts();
std::span<const CodeWords> screening_reason_table();

} // namespace docket::wording
