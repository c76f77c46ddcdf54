// The words of where the excess lies: facts by element and by variant, and nothing of why.
#pragma once

#include "report/wording/tables.h"

#include <span>
#include <string>
#include <string_view>

namespace docket::wording {

// Fixed sentences. They are agreed; a document prints them as they stand.
inline constexpr std::string_view excess_shows_no_intent = "Such a pattern has many causes and shows no intent.";
inline constexpr std::string_view excess_decides_nothing =
    "It says where to look first at parts, tools, reach, method shown and training. It decides nothing.";
inline constexpr std::string_view how_excess_by_element_is_made =
    "By element: the person's mean of the readings over the middle of the others' means, as timed, not rated; five "
    "cycles of each person at least. Seconds a unit: the difference, times how often a unit has it.";
inline constexpr std::string_view how_excess_by_variant_is_made =
    "By variant: times over the standard's content, compared within worked days, so that a fall from day to day does "
    "not "
    "count. The ratio is against this person's own overall ratio to the others: what is longer on every variant alike "
    "does not show here. Twenty plain cycles of each variant and person at least. Seconds: on one unit of the variant.";
inline constexpr std::string_view excess_interval =
    "The interval holds how far settled operators lie apart among themselves. Where it holds 1, the person lies as one "
    "more of them may.";

/// Code of why nothing is compared.
std::string excess_absent_in_words(std::string_view code);
std::span<const CodeWords> excess_absent_table();

} // namespace docket::wording
