#include "ingest/column_list.h"

#include "ingest/tables.h"

namespace docket {

std::string list_tables_and_columns() {
  std::string list;
  for (const TableDeclaration& table : all_tables()) {
    const std::string name = "`" + std::string(name_of(table.table)) + "`";
    list += "- " + (table.required ? "**" + name + "**" : name);
    if (table.key_value) list += " (keys)";
    if (!table.used_now) list += " (taken in, not yet used)";
    list += ": ";
    bool first = true;
    for (const ColumnDeclaration& column : table.columns) {
      if (!first) list += ", ";
      first = false;
      list += column.required ? "**" + std::string(column.name) + "**" : std::string(column.name);
    }
    list += "\n";
  }
  return list;
}

} // namespace docket
