// Dates, times and durations as files write them in ISO 8601, and the cells they make.
//
// Spec        ISO 8601-1:2019; XML Schema part 2 (second edition), 3.2.6 duration, 3.2.7 dateTime
// Subset      YYYY-MM-DD, with Thh:mm[:ss[.fff]]; times alone; durations of days, hours, minutes and seconds
// Checked     tests/ingest/xlsx/number_format_test.cpp, tests/ingest/iso_times_test.cpp
#pragma once

#include "ingest/table.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace docket {

/// `ms` since 1970-01-01 on the clock the file shows.
RawCell date_cell(std::int64_t ms);

RawCell duration_cell(std::int64_t ms);

/// Absent where the text is no date, date with time, or time. A zone `Z` is passed over.
std::optional<RawCell> cell_of_iso(std::string_view text);

struct IsoInstant {
  std::int64_t ms = 0;               ///< since 1970-01-01, on the clock that is written
  std::optional<int> offset_minutes; ///< of that clock against UTC; absent where no zone is written
};

/// A date with time and zone. Absent for any other text.
std::optional<IsoInstant> read_iso_instant(std::string_view text);

/// PT1H30M, P2DT0.5S, -PT5S; to the millisecond. Absent for any other text, and where years or months are in it.
std::optional<std::int64_t> iso_duration_ms(std::string_view text);

} // namespace docket
