// The records of CSV text that is too large to be split into cells at once: where each begins and ends.
//
// Format      comma-, semicolon- or tab-separated text
// Spec        RFC 4180 (Common Format and MIME Type for CSV Files), section 2
// Subset      UTF-8 text; the separator is known
// Deviations  those of ingest/csv.h, so that a record handed to parse_csv by itself gives the cells it gives in the file
// Checked     tests/ingest/docket/cycles/cycle_csv_test.cpp: the same records, separator and messages as parse_csv
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace docket {

/// What keeps text from being split to its end.
struct RecordProblem {
  std::string what, remedy;
};

/// Where in the text a record begins, and in which line.
struct RecordPlace {
  std::size_t at = 0;
  std::int64_t line = 1;
};

/// Moves `place` behind the record that begins there, its line end included. `cells` counts the cells.
std::optional<RecordProblem> pass_record(std::string_view text, char separator, RecordPlace& place, std::size_t& cells);

/// The separator of the text, and the first place behind a line such as `sep=;` that names it.
struct SeparatorFound {
  char separator = ',';
  RecordPlace first;
};
SeparatorFound find_separator(std::string_view text);

} // namespace docket
