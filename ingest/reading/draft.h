// A case while it is read: the tables found, the rows taken so far, and the names they may refer to.
#pragma once

#include "core/case.h"
#include "ingest/reading/cycle_names.h"
#include "ingest/reading/found_issues.h"
#include "ingest/reading/table_rows.h"

#include <array>
#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace docket {

/// Names of one kind and the index each stands for. Rows with a fault keep their name here, so that one bad cell does
/// not make every mention of the name a fault as well.
struct NameIndex {
  std::unordered_map<std::string, std::int32_t> places;
  std::vector<std::string> names; ///< in the order of the input
  bool complete = true;           ///< false: the table could not be read, so an unknown name says nothing
};

/// What is known of one table so far.
struct TableState {
  std::vector<SheetInFile> sheets;
  std::vector<SheetRows> rows; ///< by sheet
  bool present() const;        ///< it has data rows, or a header that can't be read
  bool broken() const;         ///< the header of a sheet has a fault
  std::int64_t row_count() const;
};

struct Draft {
  Case input;
  FoundIssues issues;
  std::array<TableState, table_count> tables;
  NameIndex elements, variants, operators, sessions;
  std::vector<std::int32_t> without_time;                                 ///< elements whose time is blank
  std::set<std::int32_t> with_motions;                                    ///< elements that a row of `motions` names
  std::vector<bool> faulty_cells = std::vector<bool>(table_count, false); ///< some row of the table has a fault

  CycleNames cycle_names;           ///< of the log
  std::vector<std::uint64_t> units; ///< by logged cycle, as cycle_names has them

  std::array<std::int64_t, table_count> variants_named{}; ///< rows that name a variant though there is no such table

  TableState& state(TableName table) { return tables[static_cast<std::size_t>(table)]; }
  const TableState& state(TableName table) const { return tables[static_cast<std::size_t>(table)]; }
};

/// Reads every row of one of a table's sheets; TableState::rows has how many.
void each_row_of_sheet(Draft& draft, TableName table, const SheetInFile& sheet,
                       const std::function<void(const TableRow&)>& use);

/// Reads every row of a table from all its sheets.
void each_row(Draft& draft, TableName table, const std::function<void(const TableRow&)>& use);

/// A fault (or another grade) in one column of a row; the raw text is what stands there.
void row_issue(Draft& draft, const TableRow& row, std::string_view column, Defect defect);

/// A fault of a row that was read earlier.
void row_issue(Draft& draft, const SourceRow& where, std::string_view column, std::string_view raw, Defect defect);

/// True where some row of the table has a fault, or its header has one: sums over it would mislead.
bool has_faults(const Draft& draft, TableName table);

/// Adds a name; false where it is there already.
bool add_name(NameIndex& index, const std::string& name, std::int32_t place);

/// "Did you mean V1? " where a name is near, else empty.
std::string suggestion(const NameIndex& index, std::string_view written);

/// The index of an element, a variant, a session, an operator named in a column; -1 where the cell is blank or the name
/// is not known, which is a fault. An operator is added when there is no table `operators`.
std::int32_t find_element(Draft& draft, const TableRow& row, std::string_view column);
std::int32_t find_variant(Draft& draft, const TableRow& row, std::string_view column);
std::int32_t find_session(Draft& draft, const TableRow& row, std::string_view column);
std::int32_t find_operator(Draft& draft, const TableRow& row, std::string_view column);

/// "row 12", or "row 12 of log.csv" where that is another file than the one spoken of.
std::string row_text(const Draft& draft, const SourceRow& row, const SourceRow& spoken_of);

} // namespace docket
