// Rows of a cycle log that were checked when they were stored: values, no cells any more.
#pragma once

#include "core/marks.h"
#include "core/quantity.h"

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string_view>

namespace docket {

/// A cell whose words come again and again; alike words of one column have one code.
struct LoggedWord {
  std::uint32_t code = 0; ///< 0: the cell was blank
  std::string_view text;
};

struct LoggedRow {
  Instant started_at{};
  Seconds cycle{};
  std::optional<Seconds> wait, helped;
  std::string_view unit;
  LoggedWord variant, station, shift, op;
  Marks marks;
  bool is_line_time = false; ///< `cycle_is` = line
  std::int64_t row = 0;      ///< the line number of the record's first line
};

/// Gives rows one by one, in the order of the file; they are never all in memory.
struct LoggedRows {
  std::int64_t count = 0;
  std::function<void(const std::function<void(const LoggedRow&)>&)> each; ///< empty: there are none
};

} // namespace docket
