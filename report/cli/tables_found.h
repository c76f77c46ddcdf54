// What `docket check` found: the tables with their rows, and what stays unanswered without the others.
#pragma once

#include "core/case.h"
#include "core/issue.h"

#include <span>
#include <string>

namespace docket {

std::string list_tables_found(std::span<const TableCounts> counts);

/// Tables and issues for programs: {"schema", "can_be_used", "tables": [...], "absent": [...], "issues": [...]}.
std::string write_check_json(const Issues& issues, std::span<const TableCounts> counts);

} // namespace docket
