#include "ingest/docket/cycles/cycle_plain_rows.h"

#include "ingest/reading/read_tables.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <set>

namespace docket {

namespace {

constexpr std::int64_t listed_singly = 20;        // of issues that are alike, as in_order of reading/found_issues
constexpr std::size_t header_rows_looked_at = 20; // as in reading/table_rows

CountedIssues::Alike alike(const Issue& issue) { return {issue.code, issue.table, issue.column}; }

} // namespace

void add_issue(CountedIssues& issues, FoundIssue found) {
  if (found.issue.grade == IssueGrade::fault) ++issues.faults;
  if (++issues.counts[alike(found.issue)] <= listed_singly + 1) issues.kept.found.push_back(std::move(found));
}

Issues in_order(const CountedIssues& issues) {
  Issues ordered = in_order(issues.kept);
  for (Issue& issue : ordered) {
    // The 21st alike stands for all that follow; only the count behind it is not known where it was made.
    const std::int64_t more = issues.counts.at(alike(issue)) - listed_singly;
    if (issue.row == 0 && more > 0 && issue.wrong == "And 1 more of the same kind.")
      issue.wrong = "And " + std::to_string(more) + " more of the same kind.";
  }
  return ordered;
}

std::optional<CycleHeader> find_cycle_header(const RawTable& first_rows, CountedIssues& issues) {
  const TableDeclaration& table = declaration_of(TableName::cycle_log);
  FoundIssues found;
  found.files = issues.kept.files;
  const auto header = find_header({0, &first_rows}, table, table.columns, found);
  for (FoundIssue& issue : found.found) add_issue(issues, std::move(issue));
  if (!header) return std::nullopt;
  CycleHeader result{{}, header->cells, header->units, header->first_cell, header->complete, header->row};
  result.top.name = first_rows.name;
  result.top.decimal_comma_possible = first_rows.decimal_comma_possible;
  result.top.rows.push_back(first_rows.rows[header->row]);
  // Notes fill the rows in which a header is looked for, so that no row of data is ever taken for one.
  while (result.top.rows.size() < header_rows_looked_at) result.top.rows.push_back({0, {text_cell("#")}});
  return result;
}

PlainRows read_plain_rows(const CycleHeader& header, std::vector<RawRow> rows, CountedIssues& issues) {
  RawTable sheet = header.top;
  for (RawRow& row : rows) sheet.rows.push_back(std::move(row));
  Draft draft;
  draft.issues.files = issues.kept.files;
  draft.state(TableName::cycle_log).sheets.push_back({0, &sheet});
  read_cycle_log(draft);

  PlainRows result;
  std::set<std::int64_t> faulty;
  for (FoundIssue& found : draft.issues.found) {
    if (!found.data_row) continue; // of the header, reported when it was found
    if (found.issue.grade == IssueGrade::fault) faulty.insert(found.issue.row);
    add_issue(issues, std::move(found));
  }
  const TableDeclaration& table = declaration_of(TableName::cycle_log);
  const auto cell_text = [&](const RawRow& row, std::string_view column) -> std::string_view {
    const auto place = header.cells[*find_column(table, column)];
    return place && *place < row.cells.size() ? trimmed(row.cells[*place].text) : std::string_view();
  };
  auto raw = sheet.rows.cbegin() + static_cast<std::ptrdiff_t>(header.top.rows.size());
  for (std::size_t i = 0; i < draft.input.cycle_log.size(); ++i) {
    const LoggedCycle& cycle = draft.input.cycle_log[i];
    if (faulty.contains(cycle.origin.row)) continue;
    while (raw->number != cycle.origin.row) ++raw; // both are in the order of the file
    CycleRow row;
    row.started_at = cycle.started_at;
    row.cycle = cycle.cycle;
    row.is_line_time = cycle.is_line_time;
    row.unit = unit_of_number(draft.cycle_names, draft.units[i]);
    row.variant = cell_text(*raw, "variant");
    row.station = log_word(draft.input, cycle.station);
    row.shift = log_word(draft.input, cycle.shift);
    row.op = cell_text(*raw, "operator");
    if (!cell_text(*raw, "wait_s").empty()) row.wait = cycle.wait;
    if (!cell_text(*raw, "helped_s").empty()) row.helped = cycle.helped;
    row.marks = cycle.marks;
    row.row = cycle.origin.row;
    result.used.push_back(std::move(row));
  }
  if (header.complete)
    result.with_issue.assign(faulty.begin(), faulty.end());
  else
    for (auto row = sheet.rows.cbegin() + static_cast<std::ptrdiff_t>(header.top.rows.size()); row != sheet.rows.cend();
         ++row) {
      Header plain;
      plain.cells = header.cells;
      plain.first_cell = header.first_cell;
      if (!is_note(*row, plain)) result.with_issue.push_back(row->number);
    }
  return result;
}

} // namespace docket
