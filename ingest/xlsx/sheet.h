// One sheet of a workbook.
//
// Spec        ISO/IEC 29500-1, 18.3.1.80 sheetData, 18.3.1.73 row, 18.3.1.4 c, 18.3.1.40 f, 18.3.1.96 v,
//             18.18.11 ST_CellType
// Deviations  rows and cells without r stand behind the one before; a formula with an empty v was never calculated
// Checked     tests/ingest/workbook_test.cpp
#pragma once

#include "ingest/package/package.h"
#include "ingest/table.h"
#include "ingest/xlsx/number_format.h"

#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// What the sheets of one workbook have in common.
struct WorkbookFacts {
  std::vector<std::string> shared_strings;
  std::vector<NumberFormat> formats; ///< By the cell's style.
  bool date1904 = false;
  CapsUsed used;
};

RawTable read_sheet(const Package& package, std::string_view part, const std::string& sheet, WorkbookFacts& facts,
                    const ReaderCaps& caps);

} // namespace docket
