// Issues as lines for whoever filled the workbook: where it is, what stands there, what is wrong, what would be right.
#pragma once

#include "core/issue.h"
#include "report/findings_json/json_tree.h"

#include <string>

namespace docket {

/// One line an issue, in the order given, each with its line end. Empty where there is none.
std::string list_issues(const Issues& issues);

/// "2 faults, 1 question, 3 warnings"; grades without an issue are left out. Empty where there is none.
std::string count_issues(const Issues& issues);

bool has_fault(const Issues& issues);

/// Every issue for programs: {"grade", "code", "file", "table", "row", "column", "raw", "wrong", "right"}.
JsonArray issues_as_json(const Issues& issues);

} // namespace docket
