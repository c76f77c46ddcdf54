// Workbooks.
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

#include "ingest/table.h"

#include <cstdint>
#include <string>

namespace docket {

/// How much a workbook may ask for. The presets leave room for a log as long as a sheet can be (1,048,576 rows) and stop
/// a file that was made to exhaust the computer.
struct WorkbookCaps {
  std::int64_t file_bytes = std::int64_t{256} << 20;
  std::int64_t unpacked_bytes = std::int64_t{1} << 30;    ///< all parts that are read, together
  std::int64_t small_part_bytes = std::int64_t{32} << 20; ///< styles and lists of parts, each
  std::int64_t free_bytes = std::int64_t{16} << 20;       ///< unpacked, before `growth` counts
  std::int64_t growth = 100;                         ///< unpacked bytes a byte of the file; real ones stay below 30
  std::int64_t cells = 10'000'000;                   ///< kept, and the blank ones left of them; shared strings too
  std::int64_t text_bytes = std::int64_t{256} << 20; ///< in kept cells
  std::int64_t token_bytes = std::int64_t{1} << 20;  ///< one XML tag with its attributes
  int depth = 256;                                   ///< of nested XML elements
};

/// Reads every sheet of an XLSX file, in the workbook's order, with its hash. Throws Error (input_has_faults) where the
/// file is no workbook, is encrypted, is cut short or damaged, or asks for more than the caps allow; the message says
/// which and what to do. Nothing is ever unpacked to disk.
RawFile read_workbook(const std::string& path, const WorkbookCaps& caps = {});

} // namespace docket
