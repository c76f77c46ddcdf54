// One cell read by its column's declaration: the value, or what is wrong with it and what would be right.
#pragma once

#include "core/issue.h"
#include "core/marks.h"
#include "core/quantity.h"
#include "ingest/reading/found_issues.h"
#include "ingest/table.h"
#include "ingest/tables.h"

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// The unit in the name of a time's column.
enum class TimeUnit : std::uint8_t { seconds, minutes, hundredths_of_a_minute, tmu };

/// One unit in seconds. TMU: 0.00001 h (MTM-1 convention; common practice).
double seconds_in(TimeUnit unit);

/// A header that stands for a declared time: `time_cmin` for `time_s`. Absent where the header is not this column.
std::optional<TimeUnit> match_header(std::string_view header, const ColumnDeclaration& column);

/// What a cell holds. Which member is meant follows from the column's kind.
struct CellValue {
  bool given = false;
  bool from_text = false;           ///< the cell holds text, no spreadsheet value
  std::string text;                 ///< every kind: as written, for messages and for text, name, code
  std::vector<std::string> list;    ///< names, codes
  double number = 0;                ///< seconds [s], percent [%], number
  std::int64_t whole = 0;           ///< count; for choice the place of the word
  Instant at{};                     ///< date, instant, time_on_day with a day
  bool day_only = false;            ///< instant: no time of day was given
  bool time_only = false;           ///< time_on_day: no day was given
  std::chrono::milliseconds time{}; ///< time_of_day, time_on_day without a day
  Marks marks;
};

/// How the cell's column stands in this file.
struct ColumnInFile {
  const ColumnDeclaration* column = nullptr;
  TimeUnit unit = TimeUnit::seconds;
  bool decimal_comma = false; ///< RawTable::decimal_comma_possible
};

/// Reads a cell into `value` (made new) and checks its range. A blank cell is no defect here. With a defect of grade
/// question the value is read all the same.
std::optional<Defect> read_cell(const RawCell& cell, const ColumnInFile& in_file, CellValue& value);

/// Letters, an optional hyphen, digits; at most 6 characters.
bool is_operator_code(std::string_view text);

/// A number without needless digits, for messages: 99.2, 0.00036, 12.
std::string short_number(double number);

/// Words as a sentence lists them: "va, nnva or nva".
std::string words_text(std::span<const std::string_view> words);

} // namespace docket
