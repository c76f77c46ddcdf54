// Prints every cell that docket reads of a workbook, a JSON line each, for a check by another reader:
// [sheet, row, column, kind, text, number]
#include "ingest/workbook.h"

#include <cstdio>
#include <exception>
#include <string>

namespace docket {
namespace {

std::string quoted(const std::string& text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\')
      json += {'\\', c};
    else if (c == '\n')
      json += "\\n";
    else if (c == '\t')
      json += "\\t";
    else
      json += c;
  }
  return json + "\"";
}

void print_cells(const RawFile& file) {
  constexpr std::string_view kinds = "-tn%dDbe?"; // in the order of CellKind
  for (const RawTable& table : file.tables)
    for (const RawRow& row : table.rows)
      for (std::size_t i = 0; i < row.cells.size(); ++i) {
        const RawCell& cell = row.cells[i];
        if (cell.kind == CellKind::blank) continue;
        std::printf("[%s,%lld,%zu,\"%c\",%s,%.17g]\n", quoted(table.name).c_str(), static_cast<long long>(row.number),
                    i + 1, kinds[static_cast<std::size_t>(cell.kind)], quoted(cell.text).c_str(), cell.number);
      }
}

} // namespace
} // namespace docket

int main(int count, char** words) {
  try {
    if (count == 2) docket::print_cells(docket::read_workbook(words[1]));
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return count == 2 ? 0 : 2;
}
