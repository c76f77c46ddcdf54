// A table as it stands in a file, before anything is checked: rows of cells with their own row numbers. Both readers
// (csv, workbook) make it; case_reader turns it into a Case by the declarations in tables.
#pragma once

#include "ingest/logged_rows.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// What the file says a cell is. A CSV file only knows text.
enum class CellKind : std::uint8_t {
  blank,
  text,
  number,         ///< `number` is set
  percent,        ///< a number in a percent format: 0.05 stands for 5 %; `number` is the stored 0.05
  date,           ///< a date format: `number` is days since 1970-01-01, with the time of day as its fraction [d]
  duration,       ///< a time format ([h]:mm:ss, mm:ss.0, h:mm), or a time of day without a day: `number` is days [d]
  truth,          ///< TRUE or FALSE: `number` is 1 or 0
  error,          ///< a formula error such as #DIV/0!; `text` holds it
  not_calculated, ///< a formula without a stored result
};

struct RawCell {
  CellKind kind = CellKind::blank;
  /// UTF-8, trimmed. Text as written; for number and percent the stored number with the fewest digits that read back
  /// the same; for date ISO 8601 (2026-03-02 or 2026-03-02T06:05:00); for duration hours:mm:ss; TRUE or FALSE.
  /// Line breaks inside are LF.
  std::string text;
  double number = 0; ///< See CellKind. Dates and durations are rounded to the millisecond.
};

struct RawRow {
  std::int64_t number = 0;    ///< The spreadsheet's own row number; in CSV the line number of the record's first line.
  std::vector<RawCell> cells; ///< Trailing blank cells may be missing.
};

/// What the reader of a file could not put into rows; it becomes a warning.
struct TableNote {
  std::string code, wrong, right; ///< As in core/issue.h.
};

/// One sheet, or one CSV file. Rows that are blank all over are not in it.
struct RawTable {
  std::string name; ///< Sheet name, or file name without `.csv`.
  std::vector<RawRow> rows;
  bool decimal_comma_possible = false; ///< CSV with `;` or tab: a comma in a number is the decimal mark.
  std::vector<TableNote> notes{};
  /// Of a large log: the rows behind those in `rows`.
  LoggedRows logged{};
};

/// One input file, read whole.
struct RawFile {
  std::string file;   ///< Name without its folder.
  std::string sha256; ///< 64 hex digits, of the file as it stands on disk.
  std::vector<RawTable> tables;
};

/// A cell of text; blank where nothing but white space is in it. No-break spaces at the ends count as white space.
RawCell text_cell(std::string_view text);

/// Fixed notation for ordinary magnitudes (100000, not 1e+05): the number may be somebody's unit number.
std::string number_text(double number);

/// Adds the row without its trailing blank cells; a row that is blank all over is not added.
void add_row(RawTable& table, RawRow row);

} // namespace docket
