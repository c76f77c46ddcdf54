#include "ingest/docket/docket_case.h"

#include "ingest/docket/store.h"

#include <algorithm>

namespace docket {

RawFile load_file(Database& docket, const StoredSource& source, SetAside set_aside) {
  return {source.file, source.sha256, load_sheets(docket, source, set_aside)};
}

bool allows_set_aside(const StoredSource& source) { return source.reading.find("--set-aside") != std::string::npos; }

Issues superseded_issues(std::span<const StoredSource> sources) {
  Issues issues;
  for (const StoredSource& source : sources) {
    const StoredSource* successor = find_successor(sources, source.source);
    if (successor == nullptr) continue;
    Issue issue;
    issue.grade = IssueGrade::warning;
    issue.code = "source_superseded";
    issue.file = source.file;
    issue.wrong = "Source " + std::to_string(source.source) + " of the docket is superseded by source " +
                  std::to_string(successor->source) + " (" + successor->file + ") and is not used.";
    issue.right = "Nothing needs to be done if that is the correction that is meant; the docket keeps both.";
    issues.push_back(std::move(issue));
  }
  return issues;
}

Intake read_docket_case(const std::string& path) {
  Database docket = open_docket(path);
  const std::vector<StoredSource> sources = read_sources(docket);
  std::vector<RawFile> files;
  const std::vector<StoredSource> current = current_of(sources);
  for (const StoredSource& source : current) files.push_back(load_file(docket, source, SetAside::with));
  Intake intake = read_case_from(files, std::any_of(current.begin(), current.end(), allows_set_aside));
  for (Issue& issue : superseded_issues(sources)) intake.issues.push_back(std::move(issue));
  return intake;
}

} // namespace docket
