#include "core/error.h"
#include "ingest/docket/addition.h"
#include "ingest/docket/store.h"
#include "report/cli/commands.h"
#include "report/cli/entry_line.h"
#include "report/cli/issue_list.h"
#include "report/cli/progress.h"
#include "report/cli/reading_line.h"
#include "report/cli/stop_request.h"
#include "report/findings_json/json_tree.h"
#include "report/format.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>
#include <string>

namespace docket {
namespace {

constexpr const char* example = "For example: docket add st-07.docket station.xlsx --by \"industrial engineering\"";

Addition read_addition(const CommandLine& line) {
  if (line.inputs.empty())
    throw Error(ErrorKind::wrong_usage, "docket add", "The name of the docket is missing.", example);
  if (!is_docket_name(line.inputs.front()))
    throw Error(ErrorKind::wrong_usage, line.inputs.front(),
                "The name of a docket ends in .docket, and it comes first.", example);
  if (line.inputs.size() == 1) throw Error(ErrorKind::wrong_usage, "docket add", "There is no file to add.", example);
  for (std::size_t i = 1; i < line.inputs.size(); ++i)
    if (is_docket_name(line.inputs[i]))
      throw Error(ErrorKind::wrong_usage, line.inputs[i], "A docket can't be added to a docket.",
                  "Add the files that were added to it.");
  Addition addition;
  addition.inputs.assign(line.inputs.begin() + 1, line.inputs.end());
  addition.at = time_of_entry(line, "docket add");
  addition.by_role = role_of_entry(line, "docket add");
  addition.reading = read_reading_options(line, "docket add");
  addition.dry_run = line.has("dry-run");
  if (const auto supersedes = line.options.find("supersedes"); supersedes != line.options.end()) {
    if (supersedes->second.empty())
      throw Error(ErrorKind::wrong_usage, "docket add", "--supersedes is empty.",
                  "Give the number of a source (docket history shows them), its file name, or none.");
    addition.supersedes = supersedes->second;
  }
  return addition;
}

std::string line_of(const AddedFile& file) {
  std::string text = "  source " + std::to_string(file.source) + ": " + file.file + ", " + format_count(file.rows) +
                     (file.rows == 1 ? " row" : " rows");
  if (file.superseded)
    text += ", in place of source " + std::to_string(file.superseded->source) + " (" + file.superseded->file +
            "), which stays in the docket";
  if (file.once_more)
    text += "; the same bytes as source " + std::to_string(*file.once_more) + ", which was superseded";
  return text + "\n";
}

std::string in_words(const std::string& path, const AddOutcome& outcome) {
  std::string added, there;
  for (const AddedFile& file : outcome.files) {
    if (file.already_there)
      there += "  source " + std::to_string(file.source) + ": " + file.file + "\n";
    else
      added += line_of(file);
  }
  std::string text;
  if (outcome.entry)
    text += "Added to " + path + ", entry " + std::to_string(outcome.entry->number) + " of its ledger:\n" + added;
  else if (!added.empty())
    text += "This would be added to " + path + "; nothing was written:\n" + added;
  if (!there.empty())
    text += "In it already" + std::string(added.empty() ? ", nothing was changed" : "") + ":\n" + there;
  return text;
}

std::string as_json(const std::string& path, const Addition& addition, const AddOutcome& outcome) {
  JsonArray files;
  for (const AddedFile& file : outcome.files)
    files.append(JsonObject{
        {"file", file.file},
        {"sha256", file.sha256},
        {"source", file.source},
        {"outcome", file.already_there ? "already_there" : "added"},
        {"rows", file.rows},
        {"supersedes", file.superseded ? JsonValue(file.superseded->source) : JsonValue()},
    });
  return write_json(JsonObject{
      {"schema", "station-docket/add/1"},
      {"docket", path},
      {"can_be_used", !has_fault(outcome.intake.issues)},
      {"dry_run", addition.dry_run},
      {"entry", outcome.entry ? JsonValue(outcome.entry->number) : JsonValue()},
      {"files", files},
      {"issues", issues_as_json(outcome.intake.issues)},
  });
}

using Clock = std::chrono::steady_clock;

/// "reading the cycles: 3 000 000 rows, 1 500 000 a second, 4 s left"
std::string how_far(Clock::duration since, std::int64_t rows, std::int64_t bytes, std::int64_t of) {
  const double seconds = std::chrono::duration<double>(since).count();
  std::string text = "reading the cycles: " + format_count(rows) + " rows";
  if (seconds <= 0 || bytes <= 0) return text;
  const double left = seconds * static_cast<double>(of - bytes) / static_cast<double>(bytes);
  return text + ", " + format_count(std::llround(static_cast<double>(rows) / seconds)) + " a second, " +
         format_count(std::llround(left)) + " s left";
}

} // namespace

int run_add(const CommandLine& line) {
  Addition addition = read_addition(line);
  addition.stop = &stop_requested();
  const std::string& path = line.inputs.front();
  const AddOutcome outcome = [&] {
    Progress progress;
    progress.step("reading " + addition.inputs.front());
    const Clock::time_point start = Clock::now();
    addition.progress = [&](std::int64_t rows, std::int64_t bytes, std::int64_t of) {
      progress.step(bytes < of ? how_far(Clock::now() - start, rows, bytes, of) : "checking the case");
    };
    return add_to_docket(path, addition);
  }();
  const Issues& issues = outcome.intake.issues;
  const bool faulty = has_fault(issues);
  if (line.has("json")) {
    std::cout << as_json(path, addition, outcome);
  } else {
    if (!faulty) std::cout << in_words(path, outcome);
    if (!issues.empty())
      std::cerr << list_issues(issues) << count_issues(issues)
                << (faulty          ? ". Nothing was added.\n"
                    : outcome.entry ? ". The input was taken.\n"
                                    : ". The input can be used as it is.\n");
  }
  return faulty ? static_cast<int>(ErrorKind::input_has_faults) : 0;
}

} // namespace docket
