#include "report/cli/tables_found.h"

#include "ingest/tables.h"
#include "report/cli/issue_list.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>

namespace docket {
namespace {

constexpr std::size_t name_width = 16, number_width = 9;

std::string left(std::string_view word) {
  return std::string(word) + std::string(word.size() < name_width ? name_width - word.size() : 1, ' ');
}

std::string right(std::string_view word) {
  return std::string(word.size() < number_width ? number_width - word.size() : 0, ' ') + std::string(word);
}

const TableCounts* find_counts(std::span<const TableCounts> counts, TableName table) {
  const auto found =
      std::find_if(counts.begin(), counts.end(), [&](const TableCounts& one) { return one.table == table; });
  return found == counts.end() ? nullptr : &*found;
}

QString text(std::string_view utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

std::string_view word_of(IssueGrade grade) {
  return grade == IssueGrade::fault ? "fault" : grade == IssueGrade::question ? "question" : "warning";
}

QJsonObject as_json(const Issue& issue) {
  return {{"grade", text(word_of(issue.grade))},
          {"code", text(issue.code)},
          {"file", text(issue.file)},
          {"table", text(issue.table)},
          {"row", static_cast<qint64>(issue.row)},
          {"column", text(issue.column)},
          {"raw", text(issue.raw)},
          {"wrong", text(issue.wrong)},
          {"right", text(issue.right)}};
}

} // namespace

std::string list_tables_found(std::span<const TableCounts> counts) {
  std::string found = left("table") + right("rows") + right("used") + right("at issue") + "\n";
  std::string absent;
  for (const TableDeclaration& table : all_tables()) {
    const std::string_view name = name_of(table.table);
    if (const TableCounts* count = find_counts(counts, table.table)) {
      found += left(name) + right(std::to_string(count->read)) + right(std::to_string(count->used)) +
               right(std::to_string(count->with_issue)) +
               (table.used_now ? "\n" : "   taken in, not yet used in this version\n");
    } else {
      const std::string_view without = table.required ? "It is required." : table.absent;
      absent += "  " + left(name) + std::string(without) + "\n";
    }
  }
  return found + (absent.empty() ? "" : "\nNot there:\n" + absent);
}

std::string write_check_json(const Issues& issues, std::span<const TableCounts> counts) {
  QJsonArray tables, absent, listed;
  for (const TableDeclaration& table : all_tables()) {
    if (const TableCounts* count = find_counts(counts, table.table))
      tables.append(QJsonObject{{"table", text(name_of(table.table))},
                                {"read", static_cast<qint64>(count->read)},
                                {"used", static_cast<qint64>(count->used)},
                                {"with_issue", static_cast<qint64>(count->with_issue)},
                                {"used_now", table.used_now}});
    else
      absent.append(QJsonObject{
          {"table", text(name_of(table.table))}, {"required", table.required}, {"unanswered", text(table.absent)}});
  }
  for (const Issue& issue : issues) listed.append(as_json(issue));
  const QJsonObject all{{"schema", "station-docket/check/1"},
                        {"can_be_used", !has_fault(issues)},
                        {"tables", tables},
                        {"absent", absent},
                        {"issues", listed}};
  return QJsonDocument(all).toJson(QJsonDocument::Indented).toStdString();
}

} // namespace docket
