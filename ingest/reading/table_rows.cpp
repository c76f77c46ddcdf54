#include "ingest/reading/table_rows.h"

#include "ingest/reading/word_match.h"

#include <algorithm>
#include <cassert>

namespace docket {

namespace {

constexpr std::size_t header_rows_looked_at = 20;

const RawCell& cell_at(const RawRow& row, std::size_t place) {
  static const RawCell blank;
  return place < row.cells.size() ? row.cells[place] : blank;
}

bool starts_as_note(const RawCell& cell) { return cell.kind == CellKind::text && cell.text.starts_with('#'); }

struct Match {
  std::size_t column = 0;
  TimeUnit unit = TimeUnit::seconds;
};

std::optional<Match> match(const RawCell& cell, std::span<const ColumnDeclaration> columns) {
  if (cell.kind != CellKind::text || cell.text.empty()) return std::nullopt;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (const auto unit = match_header(cell.text, columns[i])) return Match{i, *unit};
  return std::nullopt;
}

/// A title such as "steps" may look like one column; two names, or the only one there is, make a header.
std::optional<std::size_t> find_header_row(const RawTable& sheet, std::span<const ColumnDeclaration> columns) {
  std::optional<std::size_t> single;
  for (std::size_t i = 0; i < std::min(sheet.rows.size(), header_rows_looked_at); ++i) {
    const RawRow& row = sheet.rows[i];
    if (!row.cells.empty() && starts_as_note(row.cells.front())) continue;
    const auto known = std::count_if(row.cells.begin(), row.cells.end(),
                                     [&](const RawCell& cell) { return match(cell, columns).has_value(); });
    if (known >= 2) return i;
    if (known == 1 && !single) single = i;
  }
  return single;
}

std::string required_names(std::span<const ColumnDeclaration> columns) {
  std::string names;
  for (const ColumnDeclaration& column : columns)
    if (column.required) names += (names.empty() ? "" : ", ") + std::string(column.name);
  return names;
}

struct UnknownHeader {
  std::string_view written;
  bool named = false; ///< already named as what a missing column was probably called
};

void report_missing(const SheetInFile& where, const TableDeclaration& table, std::int64_t row_number,
                    std::span<const ColumnDeclaration> columns, Header& header, std::vector<UnknownHeader>& unknown,
                    FoundIssues& issues) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (!columns[i].required || header.cells[i]) continue;
    const std::string name(columns[i].name);
    std::vector<std::string_view> candidates;
    for (const UnknownHeader& u : unknown)
      if (!u.named) candidates.push_back(u.written);
    std::string right = "Add a column with the header " + name + ".";
    std::string raw;
    if (const auto meant = nearest_word(name, candidates)) {
      raw = *meant;
      right = "If the column \"" + raw + "\" is meant, change its header to " + name + ".";
      for (UnknownHeader& u : unknown) u.named = u.named || u.written == *meant;
    }
    header.complete = false;
    add_table_issue(issues, {IssueGrade::fault, "column_missing", "The column " + name + " is missing.", right},
                    where.source, table.table, row_number, name, raw);
  }
}

void report_unknown(const SheetInFile& where, const TableDeclaration& table, std::int64_t row_number,
                    std::span<const ColumnDeclaration> columns, const Header& header,
                    const std::vector<UnknownHeader>& unknown, FoundIssues& issues) {
  std::vector<std::string_view> free;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (!header.cells[i]) free.push_back(columns[i].name);
  for (const UnknownHeader& u : unknown) {
    if (u.named) continue;
    std::string right = "Nothing needs to be done if the column is for your own use.";
    if (const auto meant = nearest_word(u.written, free))
      right = "Did you mean " + std::string(*meant) + "? Then change the header to " + std::string(*meant) + ".";
    add_table_issue(issues,
                    {IssueGrade::warning, "column_unknown",
                     "The column \"" + std::string(u.written) + "\" is not known here and is not read.", right},
                    where.source, table.table, row_number, u.written, u.written);
  }
}

} // namespace

const CellValue& value_of(const TableRow& row, std::string_view column) {
  const auto place = find_column(*row.table, column);
  assert(place);
  return row.values[*place];
}

bool is_empty(const RawTable& sheet) {
  return std::all_of(sheet.rows.begin(), sheet.rows.end(), [](const RawRow& row) {
    return row.cells.empty() || starts_as_note(row.cells.front()) ||
           std::all_of(row.cells.begin(), row.cells.end(), [](const RawCell& c) { return c.kind == CellKind::blank; });
  });
}

bool is_note(const RawRow& row, const Header& header) {
  if (starts_as_note(cell_at(row, 0)) || starts_as_note(cell_at(row, header.first_cell))) return true;
  return std::all_of(header.cells.begin(), header.cells.end(), [&](const std::optional<std::size_t>& place) {
    if (!place) return true;
    const RawCell& cell = cell_at(row, *place);
    return cell.kind == CellKind::blank || (cell.kind == CellKind::text && trimmed(cell.text).empty());
  });
}

std::optional<Header> find_header(const SheetInFile& where, const TableDeclaration& table,
                                  std::span<const ColumnDeclaration> columns, FoundIssues& issues) {
  const RawTable& sheet = *where.sheet;
  const auto found = find_header_row(sheet, columns);
  if (!found) {
    add_table_issue(issues,
                    {IssueGrade::fault, "header_not_found", "No header row was found in the first 20 rows.",
                     "One row must hold the column names, at least: " + required_names(columns) + "."},
                    where.source, table.table, 0, "", "");
    return std::nullopt;
  }
  const RawRow& row = sheet.rows[*found];
  Header header;
  header.row = *found;
  header.cells.resize(columns.size());
  header.units.resize(columns.size());
  header.written.resize(columns.size());
  header.first_cell = row.cells.size();
  std::vector<UnknownHeader> unknown;
  for (std::size_t place = 0; place < row.cells.size(); ++place) {
    const RawCell& cell = row.cells[place];
    if (cell.kind == CellKind::blank || cell.text.empty()) continue;
    header.first_cell = std::min(header.first_cell, place);
    const auto column = match(cell, columns);
    if (!column) {
      unknown.push_back({cell.text});
      continue;
    }
    if (header.cells[column->column]) {
      const std::string& first = header.written[column->column];
      header.complete = false;
      add_table_issue(issues,
                      {IssueGrade::fault, "column_twice",
                       first == cell.text ? "The column " + cell.text + " is there twice."
                                          : "The columns " + first + " and " + cell.text + " mean the same.",
                       "Keep the one that is meant, and delete or rename the other."},
                      where.source, table.table, row.number, columns[column->column].name, cell.text);
      continue;
    }
    header.cells[column->column] = place;
    header.units[column->column] = column->unit;
    header.written[column->column] = cell.text;
  }
  report_missing(where, table, row.number, columns, header, unknown, issues);
  report_unknown(where, table, row.number, columns, header, unknown, issues);
  return header;
}

SheetRows read_rows(const SheetInFile& where, const TableDeclaration& table, FoundIssues& issues,
                    const std::function<void(const TableRow&)>& use) {
  SheetRows result;
  const RawTable& sheet = *where.sheet;
  if (is_empty(sheet)) return result;
  const auto header = find_header(where, table, table.columns, issues);
  if (!header) {
    result.broken = true;
    return result;
  }
  result.broken = !header->complete;
  TableRow row;
  row.table = &table;
  row.values.resize(table.columns.size());
  const auto read_row = [&](const RawRow& raw) {
    if (is_note(raw, *header)) return;
    ++result.rows;
    row.origin = {where.source, table.table, raw.number};
    row.faulty = result.broken;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      CellValue& value = row.values[c];
      if (!header->cells[c]) {
        value = {};
        continue;
      }
      const ColumnDeclaration& column = table.columns[c];
      // The header as written names another unit; a plain spelling of the declared name does not.
      const std::string_view name = header->units[c] == TimeUnit::seconds ? column.name : header->written[c];
      const ColumnInFile in_file{&column, header->units[c], sheet.decimal_comma_possible};
      if (auto defect = read_cell(cell_at(raw, *header->cells[c]), in_file, value)) {
        row.faulty = row.faulty || defect->grade == IssueGrade::fault;
        const std::string raw_text = value.text;
        add_row_issue(issues, std::move(*defect), row.origin, name, raw_text);
      } else if (!value.given && column.required && !column.may_be_blank) {
        row.faulty = true;
        add_row_issue(issues,
                      {IssueGrade::fault, "cell_blank", "The cell is blank, and a value is needed.",
                       "Fill it in. " + std::string(column.note)},
                      row.origin, name, "");
      }
    }
    use(row);
  };
  for (std::size_t i = header->row + 1; i < sheet.rows.size(); ++i) read_row(sheet.rows[i]);
  return result;
}

} // namespace docket
