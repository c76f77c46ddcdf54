// Days and times of day as cells hold them.
//
// Format      ISO 8601 text, extended format, or a spreadsheet's own date and time cells
// Spec        ISO 8601-1:2019, 5.2.2.1 (calendar date), 5.3.1.2 (local time of day), 5.4.2.1 (date and time)
// Subset      YYYY-MM-DD; with hh:mm, hh:mm:ss or hh:mm:ss.fff behind `T` or a blank; no zone, no week dates
// Deviations  a blank in place of `T`; a comma before the fraction; one digit for the hour; AM and PM
// Checked     tests/ingest/cell_values_test.cpp
#pragma once

#include "core/quantity.h"
#include "ingest/reading_options.h"

#include <optional>
#include <string>
#include <string_view>

namespace docket {

struct DayAndTime {
  Instant at{};
  bool day_only = false; ///< no time of day was given; `at` is the start of the day
};

/// The day, or day with time, of an ISO 8601 text; absent for any other text.
std::optional<DayAndTime> parse_day_and_time(std::string_view text);

/// The day, or day with time, of a text whose day, month and year stand in this order, divided by `.`, `/`, `-` or a
/// blank: 3.11.2026, 11/3/26 2:30 PM. A year of two digits is 20yy. Absent for any other text.
std::optional<DayAndTime> parse_day_in_order(std::string_view text, DateOrder order);

/// hh:mm or hh:mm:ss, also with AM or PM; 24:00 is the end of the day. Absent for any other text.
std::optional<std::chrono::milliseconds> parse_time_of_day(std::string_view text);

/// The instant of a spreadsheet's date cell, to the millisecond. `days` since 1970-01-01, with the time of day as
/// fraction.
DayAndTime from_days(double days);

/// 2026-11-03, or 2026-11-03 06:12:40 where a time of day is meant.
std::string date_text(const DayAndTime& when);

/// True for a text that shows a day in another order or by words: 3.11.2026, 11/3/26, 3 Nov 2026.
bool looks_like_a_date(std::string_view text);

/// The day an instant lies on.
Date day_of(Instant at);

} // namespace docket
