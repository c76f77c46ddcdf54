// One sheet read by its table's declaration: the header found, the columns matched, each row's cells read and checked.
#pragma once

#include "core/provenance.h"
#include "ingest/reading/cell_values.h"
#include "ingest/reading/found_issues.h"
#include "ingest/table.h"
#include "ingest/tables.h"

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

namespace docket {

/// A sheet and the file it is from.
struct SheetInFile {
  std::int32_t source = -1;
  const RawTable* sheet = nullptr;
};

/// One data row. `values` are in the order of the declared columns; one that is not in the sheet is not given.
struct TableRow {
  const TableDeclaration* table = nullptr;
  SourceRow origin;
  std::vector<CellValue> values;
  bool faulty = false; ///< some cell of it is
};

/// The value in a declared column.
const CellValue& value_of(const TableRow& row, std::string_view column);

/// Where the header stands and which cell belongs to which declared column.
struct Header {
  std::size_t row = 0;                           ///< place in RawTable::rows
  std::vector<std::optional<std::size_t>> cells; ///< by declared column
  std::vector<TimeUnit> units;                   ///< by declared column
  std::vector<std::string> written;              ///< by declared column, the header as it is written
  std::size_t first_cell = 0;                    ///< the leftmost column of the table
  bool complete = true;                          ///< every required column is there, none twice
};

/// Finds the header among the first 20 rows and reports what is wrong with it. Absent where there is none.
std::optional<Header> find_header(const SheetInFile& where, const TableDeclaration& table,
                                  std::span<const ColumnDeclaration> columns, FoundIssues& issues);

/// True for a row whose first cell starts with `#`, and for one without a value in any column of the table.
bool is_note(const RawRow& row, const Header& header);

/// True where the sheet holds nothing but headers and notes as far as can be told without a header.
bool is_empty(const RawTable& sheet);

struct SheetRows {
  std::int64_t rows = 0; ///< data rows
  bool broken = false;   ///< the header has a fault, so no row of the sheet can be used
};

/// Reads every data row in order; `use` is called for each, also for a faulty one.
SheetRows read_rows(const SheetInFile& where, const TableDeclaration& table, FoundIssues& issues,
                    const std::function<void(const TableRow&)>& use);

} // namespace docket
