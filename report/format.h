// The one formatter of numbers: what a number looks like in every document. No locale, no clock.
#pragma once

#include "core/quantity.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace docket {

/// A plain decimal with at most `decimals` places and no trailing zeros: for drawings and quantities as entered.
std::string format_plain_number(double value, int decimals);

/// A decimal with exactly `decimals` places; "not known" where it is no number, never "-0.0". Minus is U+2212.
std::string format_fixed(double value, int decimals);

std::string format_seconds(Seconds time);        ///< "53.0 s"
std::string format_bare_seconds(Seconds time);   ///< "53.0", where the column says seconds
std::string format_signed_seconds(Seconds time); ///< "+2.0 s", "−2.0 s", "0.0 s"
std::string format_signed_bare_seconds(Seconds time);

/// "51.2 to 54.9 s". An end that does not exist: "at least 51.2 s", "at most 54.9 s"; neither: "no interval".
std::string format_interval(std::optional<Seconds> low, std::optional<Seconds> high);
std::string format_bare_interval(std::optional<Seconds> low, std::optional<Seconds> high);
std::string format_signed_interval(Seconds low, Seconds high); ///< "−1.2 to +5.0 s"

/// A share as percent: whole where it is whole to a tenth, else one decimal: "12 %", "2.5 %".
std::string format_percent(double share);

/// A probability: "68 %", with a decimal near the ends, "more than 99.9 %", "less than 0.1 %".
std::string format_chance(double p);

/// "1 time in 40" for a confidence of 0.95: how often each side is wrong.
std::string format_times_wrong(double confidence);

/// A count in groups of three from 10 000 on, divided by a narrow no-break space.
std::string format_count(std::int64_t count);

/// A rate per 1000, to one decimal below 100.
std::string format_per_1000(double per_1000);

std::string format_date(Date date);          ///< "2026-03-04"
std::string format_instant(Instant instant); ///< "2026-03-04 06:12"

/// True of a byte that goes on with a character begun before it, in UTF-8.
bool continues_character(char byte);
/// How many columns a text takes on the screen: a minus is three bytes and one column.
std::size_t columns_of(std::string_view text);

} // namespace docket
