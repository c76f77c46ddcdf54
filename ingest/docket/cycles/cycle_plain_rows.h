// Rows of a large cycle log read by the plain case reader: the header, and every row that the quick way is not sure of.
//
// Method    the rows are put under the header into a small table of their own and read as the sheet `cycle_log` is; so
//           the rules and the messages are the case reader's own
// Checked   tests/ingest/docket/cycles/cycle_csv_test.cpp: the same rows and issues as the case reader has for the whole file
#pragma once

#include "core/issue.h"
#include "ingest/docket/cycles/cycle_block.h"
#include "ingest/reading/found_issues.h"
#include "ingest/table.h"

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

namespace docket {

/// The issues of a file of any length, in bounded room: of those alike the first 21 are kept and all are counted.
struct CountedIssues {
  using Alike = std::tuple<std::string, std::string, std::string>; ///< code, table, column

  FoundIssues kept;
  std::map<Alike, std::int64_t> counts;
  std::int64_t faults = 0;
};

void add_issue(CountedIssues& issues, FoundIssue found);

/// As in_order of reading/found_issues has them.
Issues in_order(const CountedIssues& issues);

/// Where each column of `cycle_log` stands in the records.
struct CycleHeader {
  RawTable top;                                  ///< the header row and 19 notes, for read_plain_rows
  std::vector<std::optional<std::size_t>> cells; ///< by declared column
  std::vector<TimeUnit> units;                   ///< by declared column
  std::size_t first_cell = 0;                    ///< the leftmost column of the table
  bool complete = true;                          ///< false: no row can be used
  std::size_t row = 0;                           ///< place among the rows it was looked for in
};

/// Finds the header among the first 20 rows of the table, and what is wrong with it; absent where there is none.
std::optional<CycleHeader> find_cycle_header(const RawTable& first_rows, CountedIssues& issues);

struct PlainRows {
  std::vector<CycleRow> used;
  std::vector<std::int64_t> with_issue; ///< row numbers of those with a fault; all where the header is not complete
};

/// Reads rows as the case reader does. Notes and blank rows come out as neither used nor with an issue.
PlainRows read_plain_rows(const CycleHeader& header, std::vector<RawRow> rows, CountedIssues& issues);

} // namespace docket
