// The sheets of an Office Open XML workbook.
//
// Format      Office Open XML spreadsheet (XLSX)
// Spec        ISO/IEC 29500-1 (ECMA-376 part 1): clause 18 SpreadsheetML, 18.3.1.4 c (cell), 18.4 shared strings,
//             18.8.30 numFmt, 18.17.4 dates and times, 22.9.2.19 ST_Xstring; part 2 (Open Packaging) for the parts
// Subset      cell values, shared and inline strings, stored formula results, number formats as far as they tell date,
//             duration and percent; no styles, no drawings
// Deviations  missing r attributes; formulas without a stored result; both date systems; hidden sheets are read;
//             element names with a prefix; thousands of formatted empty cells; part names in another case
// Checked     tests/ingest/workbook_test.cpp: workbooks written by other programs, and by hand from the clauses
#pragma once

#include "ingest/package/package.h"
#include "ingest/table.h"

#include <vector>

namespace docket {

/// Every sheet, in the workbook's order. Throws Error where the package holds no workbook, or a damaged one.
std::vector<RawTable> read_xlsx(const Package& package, const ReaderCaps& caps);

} // namespace docket
