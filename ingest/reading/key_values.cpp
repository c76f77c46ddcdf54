#include "ingest/reading/key_values.h"

#include "ingest/reading/word_match.h"

#include <algorithm>

namespace docket {

namespace {

const RawCell& cell_of(const RawRow& row, const Header& header, std::size_t column) {
  static const RawCell blank;
  const auto place = header.cells[column];
  return place && *place < row.cells.size() ? row.cells[*place] : blank;
}

void report_unknown_key(Draft& draft, const TableDeclaration& table, const SourceRow& where, const std::string& key,
                        const std::vector<KeyValue>& values) {
  std::vector<std::string_view> free;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (!values[i].value.given) free.push_back(table.columns[i].name);
  const auto meant = nearest_word(key, free);
  // A key that is nearly one of ours would otherwise leave that one at its default, unnoticed.
  if (meant)
    row_issue(draft, where, key, key,
              {IssueGrade::fault, "key_unknown", "The key \"" + key + "\" is not known.",
               "Did you mean " + std::string(*meant) + "? Then correct the key, or delete the row."});
  else
    row_issue(draft, where, key, key,
              {IssueGrade::warning, "key_unknown", "The key \"" + key + "\" is not known and is not read.",
               "Nothing needs to be done if the row is for your own use."});
}

struct UnknownKey {
  SourceRow where;
  std::string key;
};

SheetRows read_sheet(Draft& draft, const TableDeclaration& table, const SheetInFile& where,
                     std::vector<KeyValue>& values, std::vector<UnknownKey>& unknown) {
  enum { key_column, value_column, reason_column };
  SheetRows result;
  const RawTable& sheet = *where.sheet;
  if (is_empty(sheet)) return result;
  const auto header = find_header(where, table, key_value_columns(), draft.issues);
  if (!header || !header->complete) {
    result.broken = true;
    return result;
  }
  for (std::size_t i = header->row + 1; i < sheet.rows.size(); ++i) {
    const RawRow& row = sheet.rows[i];
    if (is_note(row, *header)) continue;
    const std::string key(trimmed(cell_of(row, *header, key_column).text));
    const RawCell& cell = cell_of(row, *header, value_column);
    std::optional<TimeUnit> unit;
    std::size_t place = 0;
    while (place < table.columns.size() && !(unit = match_header(key, table.columns[place]))) ++place;
    if (cell.kind == CellKind::blank || (cell.kind == CellKind::text && trimmed(cell.text).empty())) {
      if (unit && values[place].blank_row == 0) values[place].blank_row = row.number;
      continue;
    }
    ++result.rows;
    const SourceRow origin{where.source, table.table, row.number};
    if (key.empty()) {
      row_issue(draft, origin, "", cell.text,
                {IssueGrade::fault, "key_blank", "A value stands here without a key.",
                 "Write the key in front of it, or delete the row."});
      continue;
    }
    if (!unit) {
      unknown.push_back({origin, key});
      continue;
    }
    const ColumnDeclaration& column = table.columns[place];
    KeyValue& entry = values[place];
    if (entry.value.given) {
      row_issue(draft, origin, column.name, cell.text,
                {IssueGrade::fault, "key_twice",
                 "The key " + std::string(column.name) + " is filled twice, here and in " +
                     row_text(draft, entry.origin, origin) + ".",
                 "Keep the one that holds, and delete the other."});
      continue;
    }
    entry.origin = origin;
    const ColumnInFile in_file{&column, *unit, sheet.decimal_comma_possible};
    if (auto defect = read_cell(cell, in_file, entry.value)) {
      entry.faulty = defect->grade == IssueGrade::fault;
      const std::string raw = entry.value.text;
      row_issue(draft, origin, column.name, raw, std::move(*defect));
    }
    entry.reason = trimmed(cell_of(row, *header, reason_column).text);
  }
  return result;
}

} // namespace

std::vector<KeyValue> read_key_values(Draft& draft, TableName table) {
  const TableDeclaration& declaration = declaration_of(table);
  std::vector<KeyValue> values(declaration.columns.size());
  std::vector<UnknownKey> unknown;
  TableState& state = draft.state(table);
  for (const SheetInFile& sheet : state.sheets)
    state.rows.push_back(read_sheet(draft, declaration, sheet, values, unknown));
  for (const UnknownKey& u : unknown) report_unknown_key(draft, declaration, u.where, u.key, values);
  return values;
}

} // namespace docket
