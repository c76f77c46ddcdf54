#include "core/error.h"
#include "report/cli/case_files.h"
#include "report/cli/case_inputs.h"
#include "report/cli/commands.h"
#include "report/cli/entry_line.h"
#include "report/cli/findings_summary.h"
#include "report/cli/issue_list.h"
#include "report/cli/progress.h"
#include "report/cli/reading_line.h"
#include "report/findings_json.h"
#include "report/run_folder.h"

#include <iostream>
#include <string>
#include <vector>

namespace docket {
namespace {

WantedFiles read_only(const CommandLine& line) {
  const auto only = line.options.find("only");
  if (only == line.options.end()) return {};
  WantedFiles wanted{.html = false, .json = false, .pdf = false};
  std::string rest = only->second + ",";
  for (std::size_t comma = rest.find(','); comma != std::string::npos; comma = rest.find(',')) {
    const std::string word = rest.substr(0, comma);
    rest.erase(0, comma + 1);
    if (word == "html")
      wanted.html = true;
    else if (word == "json")
      wanted.json = true;
    else if (word == "pdf")
      wanted.pdf = true;
    else
      throw Error(ErrorKind::wrong_usage, "docket brief", "--only \"" + only->second + "\" can't be followed.",
                  "Give html, json, pdf, or several of them with a comma between.");
  }
  return wanted;
}

void require(const CommandLine& line) {
  constexpr const char* example = "For example: docket brief station.xlsx --out casefile";
  if (line.inputs.empty()) throw Error(ErrorKind::wrong_usage, "docket brief", "There is no input.", example);
  if (!line.has("out"))
    throw Error(ErrorKind::wrong_usage, "docket brief", "--out is missing: where should the case file go?", example);
  if (line.options.find("out")->second.empty())
    throw Error(ErrorKind::wrong_usage, "docket brief", "--out is empty.", example);
}

} // namespace

int run_brief(const CommandLine& line) {
  require(line);
  WantedFiles wanted = read_only(line);
  wanted.copy = copy_for(line, "docket brief");
  const ReadingOptions options = read_reading_options(line, "docket brief");
  const std::string& folder = line.options.find("out")->second;
  check_run_folder(folder); // known before the work, not after it

  Progress progress;
  progress.step("reading " + line.inputs.front());
  const Intake intake = read_case_inputs(line.inputs, options);
  if (has_fault(intake.issues)) {
    progress.finish();
    std::cerr << list_issues(intake.issues) << count_issues(intake.issues) << ". Nothing was written.\n";
    return static_cast<int>(ErrorKind::input_has_faults);
  }
  progress.step("computing");
  const Findings findings = find_all(*intake.input);
  progress.step("writing " + folder);
  const std::vector<RunFile> files = write_case_files(*intake.input, findings, intake.issues, wanted);
  write_run_folder(folder, files);
  progress.finish();

  if (line.has("json")) {
    std::cout << (wanted.json ? files.back().bytes : write_findings_json(*intake.input, findings));
  } else {
    std::cout << summarise_findings(*intake.input, findings) << "\nWritten:";
    for (const RunFile& file : files) std::cout << " " << folder << (folder.ends_with('/') ? "" : "/") << file.name;
    std::cout << "\n";
  }
  if (!intake.issues.empty())
    std::cerr << list_issues(intake.issues) << count_issues(intake.issues) << ". The input was taken.\n";
  return 0;
}

} // namespace docket
