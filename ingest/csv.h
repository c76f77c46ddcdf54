// CSV files.
//
// Format      comma-, semicolon- or tab-separated text, one table a file
// Spec        RFC 4180 (Common Format and MIME Type for CSV Files), section 2
// Subset      UTF-8 with or without byte-order mark; UTF-16 with one
// Deviations  the separator is the one that divides the first records most evenly, or what a first line `sep=` says;
//             records of unequal length; LF, CRLF or CR line ends; blanks around quoted fields; blank lines;
//             a quotation mark inside an unquoted field is text
// Checked     tests/ingest/csv_test.cpp: the definitions and examples of RFC 4180 section 2
#pragma once

#include "ingest/table.h"

#include <string>
#include <string_view>

namespace docket {

/// Parses CSV text; the table's name is the file name without its ending. Throws Error (input_has_faults) on a quote
/// that is never closed, on text after a closing quote, and on text that is not UTF-8.
RawTable parse_csv(std::string_view text, const std::string& file);

/// Reads one CSV file whole, with its hash.
RawFile read_csv_file(const std::string& path);

} // namespace docket
