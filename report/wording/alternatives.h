// The words of what would bring a station within its limit, and of what the line speed costs. They say "would": nothing
// here decides or advises anything.
#pragma once

#include "core/content/beside/pace_price.h"
#include "core/content/order/seconds_needed.h"

#include <array>
#include <string>
#include <string_view>

namespace docket::wording {

// Fixed sentences. They are agreed; a document prints them as they stand.
inline constexpr std::string_view alternatives_decide_nothing =
    "Each way is shown by itself, in seconds, with what it assumes. None of them decides anything, and this file "
    "chooses "
    "none.";
inline constexpr std::string_view every_unit_assumes =
    "Every time is shortened by the same share. How sure the level is, how much cycles vary and the mix are taken to "
    "stay "
    "as they are.";
inline constexpr std::string_view one_change_assumes = "A later finish takes floor from the next station: its own zone "
                                                       "would have to allow for it. Seconds out of a variant "
                                                       "are real seconds in each unit of it; every other time stays.";
inline constexpr std::string_view waste_assumes = "Classes are those of the standard. NVA is waste. NNVA is needed as "
                                                  "the work is laid out now; it would go only with "
                                                  "another layout, tool or delivery. A check or a safety step stays, "
                                                  "whatever its class. Waiting and machine time are "
                                                  "not in the list: they are no content to remove.";
inline constexpr std::string_view even_order_assumes =
    "At each place comes the variant that is furthest behind its even share (level schedules: J. Miltenburg, "
    "Management "
    "Science 35 (1989), 192-207). Every station of the line sees the same order, so what relieves one station can load "
    "another. Another order may do better still.";
inline constexpr std::string_view moves_assume = "An element that leaves lands on somebody else's station and would "
                                                 "have to fit there. Tools, parts and reach at that "
                                                 "station are not looked at here.";
inline constexpr std::string_view only_a_drawn_order =
    "No build order is given, only a drawn one in the planned mix, so there are no units to put in another order.";
inline constexpr std::string_view no_precedence =
    "The standard does not say which element comes after which (column \"after\"), so which element could leave the "
    "station is not known.";
inline constexpr std::string_view no_takt =
    "The takt time is not known, so what the line speed costs is not computed. It takes takt_s, or working_min_per_day "
    "and units_per_day.";
inline constexpr std::string_view targets_are_common_practice =
    "Common practice. The two targets are options that plants use; neither is a rule of this file. Parts of a post "
    "count "
    "only where the rest of it can be used elsewhere, so nothing is rounded up.";
inline constexpr std::string_view efficiency_rewards =
    "filling the cycle with anything: waste counts as much as value-adding work";
inline constexpr std::string_view utilisation_rewards =
    "value-adding seconds alone: it hides the necessary ones, which people have to do as well";

/// Why there is no late finish that would do.
std::string_view no_late_finish_in_words(std::string_view code);

/// "3.2 s", or "nothing needed". `or_more`: the search ended there.
std::string needed_in_words(Seconds needed, bool or_more);

/// "no faster than takt", "13.4 s a unit faster than takt (over-speed 19.6 %)".
std::string pace_in_words(const PacePrice& price);

} // namespace docket::wording
