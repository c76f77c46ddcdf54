// The words of motion times. They say where each value comes from, and that a shipped value is for checking.
#pragma once

#include "core/case.h"
#include "core/content/motions/standard_motions.h"

#include <string>
#include <string_view>

namespace docket::wording {

// Fixed sentences. They are agreed; a document prints them as they stand.
inline constexpr std::string_view how_motions_add_up =
    "An element's time is the sum of its steps. Motions with one step number are done at the same time, and only the "
    "longest of them counts. 1 TMU is 0.00001 h, that is 0.036 s. The times are for trained people at normal pace, "
    "without allowances.";
inline constexpr std::string_view which_time_counts =
    "A time given in the table standard is used as it is given; where it is blank, the motions give it.";
inline constexpr std::string_view shipped_table_note =
    "There is no table motion_table, so the values are those that come with the program: the basic motions as "
    "textbooks and handbooks of work measurement reprint them; a value that was not found in such a reprint is marked. "
    "Codes are "
    "read as inches and pounds. The values are for checking an analysis, not for setting standards. Such a table may "
    "be under licence: whoever uses it is "
    "responsible for the right to use it. The plant's own licensed table belongs in motion_table.";
inline constexpr std::string_view plant_table_note =
    "The values are those of the plant's own table, motion_table; the values that come with the program are not used. "
    "Such a table may be under licence: whoever uses it is responsible for the right to use it.";
inline constexpr std::string_view two_analyses_note =
    "Where two analysts worked out an element apart, the first in the sheet gives the time. Where the time is from the "
    "motions and uncertainty_percent is blank, the element's uncertainty is their difference over the root of 2 "
    "(JCGM 100:2008, 4.2.2); two equal times say nothing of a spread, and leave the usual one.";

std::string_view hand_in_words(Hand hand); ///< "left", "right", "both", "not given"

/// "IE1", or "analyst not given".
std::string analyst_in_words(const MotionAnalysis& analysis);

/// What a row's time was read from: "reach 16 in, C", with "(from memory)" where it is; "motion_table row 4".
std::string table_row_in_words(const MotionStepTime& row);

/// The problem of one row with its place: "Row 4: ...".
std::string motion_problem_in_words(const Case& input, const MotionAnalysis& analysis, const MotionProblem& problem);

} // namespace docket::wording
