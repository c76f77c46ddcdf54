#include "report/cli/tables_found.h"

#include "ingest/tables.h"
#include "report/cli/issue_list.h"
#include "report/findings_json/json_tree.h"

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
  JsonArray tables, absent;
  for (const TableDeclaration& table : all_tables()) {
    if (const TableCounts* count = find_counts(counts, table.table))
      tables.append(JsonObject{{"table", name_of(table.table)},
                               {"read", count->read},
                               {"used", count->used},
                               {"with_issue", count->with_issue},
                               {"used_now", table.used_now}});
    else
      absent.append(
          JsonObject{{"table", name_of(table.table)}, {"required", table.required}, {"unanswered", table.absent}});
  }
  return write_json(JsonObject{{"schema", "station-docket/check/1"},
                               {"can_be_used", !has_fault(issues)},
                               {"tables", tables},
                               {"absent", absent},
                               {"issues", issues_as_json(issues)}});
}

} // namespace docket
