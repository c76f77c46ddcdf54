// From files to a case: every table read by its declaration, names resolved, every defect listed.
#pragma once

#include "core/case.h"
#include "core/issue.h"
#include "ingest/reading_options.h"
#include "ingest/table.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// What came of reading the inputs. `input` is absent where an issue is a fault: an input is taken whole or not at all.
struct Intake {
  std::optional<Case> input;
  Issues issues; ///< All of them, in the order file, table, row, column.
  std::vector<TableCounts> counts;
};

/// Reads workbooks, CSV files, event logs and folders of them as one case. A table in several inputs is joined, row after
/// row. Throws Error only where a file can't be read as what it is (see workbook.h, csv.h, event_log.h), and where an
/// option fits no input (prepared_inputs.h).
Intake read_case(std::span<const std::string> inputs, const ReadingOptions& options = {});

/// The same from files that were read, and prepared, before. `set_aside`: see reading/set_aside.h; the rows set aside
/// are in Case::set_aside, and their faults are warnings.
Intake read_case_from(const std::vector<RawFile>& files, bool set_aside = false);

} // namespace docket
