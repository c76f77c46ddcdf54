#include "ingest/reading/set_aside.h"

#include "ingest/reading/table_rows.h"
#include "ingest/tables.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>

namespace docket {

namespace {

using Place = std::tuple<std::int32_t, TableName, std::int64_t>; ///< source, table, row

/// The cells as they stand there, divided by " | "; an operator that is no code is left out.
std::string raw_text(const RawRow& row, const TableDeclaration& table, const std::optional<Header>& header) {
  std::string text;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    std::string cell = row.cells[i].text;
    if (header)
      for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const ColumnKind kind = table.columns[c].kind;
        const bool is_operator = kind == ColumnKind::code || kind == ColumnKind::codes;
        if (is_operator && header->cells[c] == i && !cell.empty() && !is_operator_code(cell)) cell = "(no code)";
      }
    text += (i > 0 ? " | " : "") + cell;
  }
  return text;
}

struct SheetPlace {
  std::int32_t source = -1;
  TableName table = TableName::case_facts;
};

std::int64_t take_rows(RawTable& sheet, const SheetPlace& place, const std::map<Place, const FoundIssue*>& faulty,
                       std::vector<SetAsideRow>& taken) {
  const TableDeclaration& declared = declaration_of(place.table);
  FoundIssues unheard; // what is wrong with the header was said when the sheet was read
  unheard.files.resize(static_cast<std::size_t>(place.source) + 1);
  const auto header = find_header({place.source, &sheet}, declared, declared.columns, unheard);
  return static_cast<std::int64_t>(std::erase_if(sheet.rows, [&](const RawRow& row) {
    const auto fault = faulty.find({place.source, place.table, row.number});
    if (fault == faulty.end()) return false;
    const Issue& issue = fault->second->issue;
    taken.push_back(
        {{place.source, place.table, row.number}, issue.column, issue.wrong, raw_text(row, declared, header)});
    return true;
  }));
}

} // namespace

bool may_be_set_aside(TableName table) {
  switch (table) {
  case TableName::statements:
  case TableName::sessions:
  case TableName::readings:
  case TableName::cycle_log:
  case TableName::roster:
  case TableName::stops:
  case TableName::helps:
  case TableName::training:
  case TableName::steps:
  case TableName::checklist:
  case TableName::build_sequence:
  case TableName::lifts:
  case TableName::efforts:
    return true;
  default:
    return false;
  }
}

std::int64_t take_faulty_rows(std::vector<RawFile>& files, const FoundIssues& issues, std::vector<SetAsideRow>& taken,
                              std::vector<FoundIssue>& heard) {
  // A file with a name in it would be kept with the name.
  std::set<Place> named;
  for (const FoundIssue& found : issues.found)
    if (found.table && found.issue.code == "operator_not_a_code")
      named.insert(Place{found.source, *found.table, found.issue.row});
  std::map<Place, const FoundIssue*> faulty; ///< with the first fault of each
  for (const FoundIssue& found : issues.found)
    if (found.data_row && found.issue.grade == IssueGrade::fault && found.table && may_be_set_aside(*found.table) &&
        !named.contains(Place{found.source, *found.table, found.issue.row}))
      faulty.emplace(Place{found.source, *found.table, found.issue.row}, &found);
  std::int64_t gone = 0;
  for (std::size_t i = 0; i < files.size() && !faulty.empty(); ++i)
    for (RawTable& sheet : files[i].tables) {
      const auto table = find_table(sheet.name);
      if (table && may_be_set_aside(*table))
        gone += take_rows(sheet, {static_cast<std::int32_t>(i), *table}, faulty, taken);
    }
  if (gone == 0) return 0;
  for (const FoundIssue& found : issues.found) {
    if (!found.data_row || !found.table || !faulty.contains({found.source, *found.table, found.issue.row})) continue;
    FoundIssue& warning = heard.emplace_back(found);
    if (found.issue.grade == IssueGrade::fault) warning.issue.right = "The row is set aside. " + found.issue.right;
    warning.issue.grade = IssueGrade::warning;
  }
  return gone;
}

void count_set_aside(const std::vector<SetAsideRow>& taken, std::vector<TableCounts>& counts,
                     std::vector<Source>& sources) {
  for (const SetAsideRow& row : taken) {
    auto count = std::find_if(counts.begin(), counts.end(),
                              [&](const TableCounts& one) { return one.table == row.origin.table; });
    if (count == counts.end()) {
      count = std::find_if(counts.begin(), counts.end(),
                           [&](const TableCounts& one) { return one.table > row.origin.table; });
      TableCounts added;
      added.table = row.origin.table;
      added.used_now = declaration_of(row.origin.table).used_now;
      count = counts.insert(count, added);
    }
    ++count->read;
    ++count->with_issue;
    if (!sources.empty()) ++sources[static_cast<std::size_t>(row.origin.source)].rows;
  }
}

} // namespace docket
