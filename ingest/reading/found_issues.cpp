#include "ingest/reading/found_issues.h"

#include "ingest/tables.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace docket {

namespace {

Issue as_issue(const FoundIssues& issues, Defect defect, std::int32_t source) {
  Issue issue;
  issue.grade = defect.grade;
  issue.code = std::move(defect.code);
  issue.wrong = std::move(defect.wrong);
  issue.right = std::move(defect.right);
  issue.file = source < 0 ? issues.inputs : issues.files[static_cast<std::size_t>(source)];
  return issue;
}

std::size_t column_order(const FoundIssue& found) {
  if (!found.table || found.issue.column.empty()) return 0;
  const TableDeclaration& table = declaration_of(*found.table);
  return find_column(table, found.issue.column).value_or(table.columns.size()) + 1;
}

} // namespace

void add_row_issue(FoundIssues& issues, Defect defect, const SourceRow& where, std::string_view column,
                   std::string_view raw) {
  Issue issue = as_issue(issues, std::move(defect), where.source);
  issue.table = name_of(where.table);
  issue.row = where.row;
  issue.column = column;
  issue.raw = raw;
  issues.found.push_back({std::move(issue), where.source, where.table, true});
}

void add_table_issue(FoundIssues& issues, Defect defect, std::int32_t source, TableName table, std::int64_t row,
                     std::string_view column, std::string_view raw) {
  Issue issue = as_issue(issues, std::move(defect), source);
  issue.table = name_of(table);
  issue.row = row;
  issue.column = column;
  issue.raw = raw;
  issues.found.push_back({std::move(issue), source, table, false});
}

void add_file_issue(FoundIssues& issues, Defect defect, std::int32_t source, std::string_view sheet) {
  Issue issue = as_issue(issues, std::move(defect), source);
  issue.table = sheet;
  issue.raw = sheet;
  issues.found.push_back({std::move(issue), source, std::nullopt, false});
}

std::int64_t count_faulty_rows(const FoundIssues& issues, std::int32_t source, TableName table) {
  std::set<std::int64_t> rows;
  for (const FoundIssue& found : issues.found)
    if (found.data_row && found.issue.grade == IssueGrade::fault && found.source == source && found.table == table)
      rows.insert(found.issue.row);
  return static_cast<std::int64_t>(rows.size());
}

Issues in_order(const FoundIssues& issues) {
  constexpr std::int64_t listed_singly = 20;
  struct Place {
    std::int32_t source;
    int table;
    std::int64_t row;
    std::size_t column;
    const Issue* issue;
  };
  std::vector<Place> places;
  places.reserve(issues.found.size());
  for (const FoundIssue& found : issues.found)
    places.push_back({found.source, found.table ? static_cast<int>(*found.table) : -1, found.issue.row,
                      column_order(found), &found.issue});
  std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
    return std::tie(a.source, a.table, a.row, a.column) < std::tie(b.source, b.table, b.row, b.column);
  });

  using Alike = std::tuple<std::string, std::string, std::string>;
  const auto alike = [](const Issue& issue) { return Alike{issue.code, issue.table, issue.column}; };
  std::map<Alike, std::int64_t> counts;
  for (const Place& place : places) ++counts[alike(*place.issue)];
  std::map<Alike, std::int64_t> listed;
  Issues ordered;
  for (const Place& place : places) {
    const std::int64_t number = ++listed[alike(*place.issue)];
    if (number <= listed_singly) {
      ordered.push_back(*place.issue);
    } else if (number == listed_singly + 1) {
      Issue rest = *place.issue;
      rest.row = 0;
      rest.raw.clear();
      rest.wrong = "And " + std::to_string(counts[alike(rest)] - listed_singly) + " more of the same kind.";
      ordered.push_back(std::move(rest));
    }
  }
  return ordered;
}

} // namespace docket
