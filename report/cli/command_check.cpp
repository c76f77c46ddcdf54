#include "core/error.h"
#include "ingest/tables.h"
#include "report/cli/case_inputs.h"
#include "report/cli/commands.h"
#include "report/cli/issue_list.h"
#include "report/cli/progress.h"
#include "report/cli/reading_line.h"
#include "report/cli/tables_found.h"

#include <iostream>

namespace docket {

int run_check(const CommandLine& line) {
  if (line.inputs.empty())
    throw Error(ErrorKind::wrong_usage, "docket check", "There is no input.", "For example: docket check station.xlsx");
  const ReadingOptions options = read_reading_options(line, "docket check");
  const Intake intake = [&] {
    Progress progress;
    progress.step("reading " + line.inputs.front());
    return read_case_inputs(line.inputs, options);
  }();
  const bool faulty = has_fault(intake.issues);
  if (line.has("json")) {
    std::cout << write_check_json(intake.issues, intake.counts);
  } else {
    std::cout << list_tables_found(intake.counts);
    std::cerr << list_issues(intake.issues);
    if (faulty)
      std::cerr << count_issues(intake.issues) << ". Mend the faults, then check again.\n";
    else if (!intake.issues.empty())
      std::cerr << count_issues(intake.issues) << ". The input can be used as it is.\n";
    else
      std::cout << "No faults, no questions, no warnings.\n";
  }
  return faulty ? static_cast<int>(ErrorKind::input_has_faults) : 0;
}

} // namespace docket
