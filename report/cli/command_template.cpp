#include "core/error.h"
#include "ingest/blank_workbook.h"
#include "ingest/column_list.h"
#include "report/cli/commands.h"

#include <iostream>

namespace docket {

int run_template(const CommandLine& line) {
  if (line.has("tables")) {
    std::cout << list_tables_and_columns();
    return 0;
  }
  if (line.inputs.size() != 1)
    throw Error(ErrorKind::wrong_usage, "docket template",
                line.inputs.empty() ? "The name of the workbook to write is missing."
                                    : "It writes one workbook at a time.",
                "For example: docket template station.xlsx");
  const std::string& path = line.inputs.front();
  if (!path.ends_with(".xlsx"))
    throw Error(ErrorKind::wrong_usage, path, "The name of a workbook must end in .xlsx.",
                "For example: docket template station.xlsx");
  if (line.has("walk")) {
    write_walk_list(path);
    std::cout
        << "Written: " << path << "\n"
        << "Print it, walk to the station together, then set the state of each row. Copy the rows into the sheet\n"
        << "`conditions` of your workbook, or read both:\n"
        << "  docket brief station.xlsx " << path << " --out casefile\n";
    return 0;
  }
  write_blank_workbook(path);
  std::cout << "Written: " << path << "\n"
            << "Fill the sheets `case` and `standard` first; everything else may wait. Then:\n"
            << "  docket check " << path << "\n"
            << "  docket brief " << path << " --out casefile\n";
  return 0;
}

} // namespace docket
