// The issues found while a case is read, with the place each is sorted and counted by.
#pragma once

#include "core/issue.h"
#include "core/provenance.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// What is wrong and what would be right, as the user reads it.
struct Defect {
  IssueGrade grade = IssueGrade::fault;
  std::string code, wrong, right;
};

struct FoundIssue {
  Issue issue;
  std::int32_t source = -1;       ///< -1: no single file is meant; comes first
  std::optional<TableName> table; ///< absent: the whole file is meant
  bool data_row = false;          ///< `issue.row` is a row of data, not a header
};

struct FoundIssues {
  std::vector<std::string> files; ///< names by source
  std::string inputs;             ///< what stands for the file where no single one is meant
  std::vector<FoundIssue> found;
};

/// An issue of one data row.
void add_row_issue(FoundIssues& issues, Defect defect, const SourceRow& where, std::string_view column,
                   std::string_view raw);

/// An issue of a whole table, or of its header in row `row`. source -1: no single file is meant.
void add_table_issue(FoundIssues& issues, Defect defect, std::int32_t source, TableName table, std::int64_t row,
                     std::string_view column, std::string_view raw);

/// An issue of a whole file; `sheet` is the sheet's name, or empty.
void add_file_issue(FoundIssues& issues, Defect defect, std::int32_t source, std::string_view sheet);

/// Data rows of a table in one file that hold a fault, each counted once.
std::int64_t count_faulty_rows(const FoundIssues& issues, std::int32_t source, TableName table);

/// All of them in the order file, table, row, column. Of more than 20 alike (code, table, column) the first 20 stand
/// singly, then one says how many more there are.
Issues in_order(const FoundIssues& issues);

} // namespace docket
