#include "ingest/reading/declared_cells.h"

#include "ingest/reading/table_rows.h"
#include "ingest/reading/word_match.h"

#include <algorithm>

namespace docket {

namespace {

/// Matching one header says what is wrong with it; that is said again where the sheet is read.
FoundIssues unheard(const RawTable& sheet) {
  FoundIssues issues;
  issues.files.push_back(sheet.name);
  return issues;
}

void each_key_cell(RawTable& sheet, const TableDeclaration& table, const Header& header,
                   const std::function<void(const ColumnDeclaration&, const RawRow&, RawCell&)>& use) {
  const auto key = header.cells[0], value = header.cells[1];
  if (!key || !value) return;
  for (std::size_t i = header.row + 1; i < sheet.rows.size(); ++i) {
    RawRow& row = sheet.rows[i];
    if (*value >= row.cells.size() || *key >= row.cells.size() || row.cells[*value].kind == CellKind::blank) continue;
    const std::string_view written = trimmed(row.cells[*key].text);
    const auto column =
        std::find_if(table.columns.begin(), table.columns.end(),
                     [&](const ColumnDeclaration& declared) { return match_header(written, declared).has_value(); });
    if (column != table.columns.end()) use(*column, row, row.cells[*value]);
  }
}

} // namespace

void each_declared_cell(RawTable& sheet, TableName table,
                        const std::function<void(const ColumnDeclaration&, const RawRow&, RawCell&)>& use) {
  const TableDeclaration& declared = declaration_of(table);
  FoundIssues issues = unheard(sheet);
  const auto header =
      find_header({0, &sheet}, declared, declared.key_value ? key_value_columns() : declared.columns, issues);
  if (!header) return;
  if (declared.key_value) {
    each_key_cell(sheet, declared, *header, use);
    return;
  }
  for (std::size_t i = header->row + 1; i < sheet.rows.size(); ++i) {
    RawRow& row = sheet.rows[i];
    if (is_note(row, *header)) continue;
    for (std::size_t c = 0; c < declared.columns.size(); ++c) {
      const auto place = header->cells[c];
      if (place && *place < row.cells.size() && row.cells[*place].kind != CellKind::blank)
        use(declared.columns[c], row, row.cells[*place]);
    }
  }
}

} // namespace docket
