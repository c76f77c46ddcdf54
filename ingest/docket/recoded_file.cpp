#include "ingest/docket/recoded_file.h"

#include "ingest/docket/cells_text.h"
#include "ingest/reading/declared_cells.h"
#include "ingest/tables.h"

#include <algorithm>
#include <set>

namespace docket {

namespace {

constexpr const char* left_out = "(a name, left out)";

std::set<const RawCell*> find_read_cells(RawTable& sheet) {
  std::set<const RawCell*> read;
  if (const auto table = find_table(sheet.name))
    each_declared_cell(sheet, *table,
                       [&](const ColumnDeclaration&, const RawRow&, RawCell& cell) { read.insert(&cell); });
  return read;
}

} // namespace

bool leave_out_names(RawFile& file, const CodeList& list) {
  bool held = false;
  for (RawTable& sheet : file.tables) {
    held = held || std::any_of(sheet.notes.begin(), sheet.notes.end(),
                               [](const TableNote& note) { return note.code == "operators_recoded"; });
    const std::set<const RawCell*> read = find_read_cells(sheet);
    for (RawRow& row : sheet.rows)
      for (RawCell& cell : row.cells) {
        if (cell.text.empty() || read.contains(&cell) || !holds_name(list, cell.text)) continue;
        cell = text_cell(left_out);
        held = true;
      }
  }
  return held;
}

std::string recoded_bytes(const RawFile& file) {
  std::string sheets;
  for (const RawTable& sheet : file.tables) {
    std::string rows;
    for (const RawRow& row : sheet.rows) {
      const std::string cells = cells_as_text(row.cells);
      rows += (rows.empty() ? "\n[" : ",\n[") + std::to_string(row.number) + (cells.size() > 2 ? "," : "") +
              cells.substr(1);
    }
    const std::string name = texts_as_text({sheet.name});
    sheets += (sheets.empty() ? "" : ",\n") + (R"({"sheet":)" + name.substr(1, name.size() - 2)) + R"(,"rows":[)" +
              rows + "]}";
  }
  return "[" + sheets + "]\n";
}

} // namespace docket
