// Words for shifts against one another. A shift is never better or worse than another: it takes more or less time, and
// that does not say why.
#pragma once

#include "core/content/beside/shift_comparison.h"
#include "report/wording/tables.h"

#include <span>
#include <string>
#include <string_view>

namespace docket::wording {

inline constexpr std::string_view shifts_rule =
    "Each shift is taken by the plain cycles that settled operators worked in it; a person who worked in two counts in "
    "each. Levels are at people's own pace. They are for variants that every shift built, each weighted as in the "
    "planned "
    "mix, so that a shift that built more long variants does not look longer for that. Shifts stand in order of name. "
    "This "
    "decides nothing of question A, and a difference does not say why it is there.";
inline constexpr std::string_view beyond_is_no_overload = "A cycle beyond the limit is not an overload: a late finish "
                                                          "is taken up by the work zone as far as that reaches, and a "
                                                          "shorter cycle after it gives the seconds back. Whether the "
                                                          "order of units overloads the zone is said under the build "
                                                          "order.";
inline constexpr std::string_view small_group =
    "In a small group people can be recognised, even by a code or by the shift alone.";

/// Why so few people say little of a shift: "one person is not a shift".
std::string_view too_few_in_words(std::int64_t operators);

/// Why a shift has no level, or a pair is not comparable: the end of a sentence.
std::span<const CodeWords> shift_why_table();
std::string shift_why_in_words(const Reason& reason);

/// `margin` [1]: up to which two shifts count as equivalent.
std::string outcome_in_words(const ShiftPair& pair, double margin);

/// What the spread of a level was taken from: "3 operators", "1 operator, by days".
std::string spread_in_words(ShiftSpread spread, std::int64_t operators);

// The words findings.json uses. They are stable.
std::string_view outcome_code(ShiftOutcome outcome);
std::string_view spread_code(ShiftSpread spread);

} // namespace docket::wording
