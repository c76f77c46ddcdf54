// The sheets of an OpenDocument workbook.
//
// Format      OpenDocument spreadsheet (ODS)
// Spec        OASIS OpenDocument 1.3 part 3 (ISO/IEC 26300-1 for 1.2): 9.1 table structure, 9.1.4 table-cell, 9.1.5
//             covered-table-cell, 9.4.2 null-date, 19.385 value-type and its kin, 19.675 number-columns-repeated,
//             19.679 number-rows-repeated, 19.642 formula, 6.1 paragraphs and white space; part 2 for the package.
//             Clause numbers of the attributes are from memory.
// Subset      content.xml: stored values and texts; no styles, so a date is one only by its value type
// Deviations  cells and rows repeated to the end of the sheet; formulas without a stored result; hidden sheets are
//             read; truth values stored as =TRUE(); sheets that only cache another file (named 'file:...) are not read
// Checked     tests/ingest/ods_test.cpp, tests/outside/spreadsheets_alike.py
#pragma once

#include "ingest/package/package.h"
#include "ingest/table.h"

#include <vector>

namespace docket {

/// True where the package says it is an OpenDocument file, of whatever kind.
bool is_open_document(const Package& package);

/// Every sheet, in the workbook's order. Throws Error where it is no spreadsheet, encrypted or damaged.
std::vector<RawTable> read_ods(const Package& package, const ReaderCaps& caps);

} // namespace docket
