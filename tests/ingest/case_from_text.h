// A case made of CSV texts, so that a test shows its whole input.
#pragma once

#include "ingest/case_reader.h"
#include "ingest/csv.h"

#include <algorithm>
#include <map>
#include <string>
#include <vector>

namespace docket {

using Texts = std::map<std::string, std::string>; ///< by table

/// The smallest sound case: one element of 50 s against a line cycle time of 55 s.
inline Texts small_case() {
  return {{"case", "key,value\ncase_ref,C-1\ntitle,Fan deck\nstation,ST-07\nline,Line 2\nline_cycle_s,55\n"},
          {"standard", "element,description,class,time_s\nE10,place fan,va,30\nE20,fix screws,nnva,20\n"}};
}

/// small_case with some tables put in its place or added.
inline Texts small_case_with(const Texts& others) {
  Texts texts = small_case();
  for (const auto& [table, text] : others) texts[table] = text;
  return texts;
}

/// The small case with two variants, two operators and one session.
inline Texts full_case_with(const Texts& others) {
  Texts texts = small_case_with({{"variants", "variant,share_percent,also_called\nV1,75,basic\nV2,25,\n"},
                                 {"operators", "operator,trained\nA1,yes\nB2,no\n"},
                                 {"sessions", "session,date,operator,start,end\nS1,2026-11-04,A1,08:00,09:00\n"}});
  for (const auto& [table, text] : others) texts[table] = text;
  return texts;
}

inline Intake read_texts(const Texts& texts) {
  std::vector<RawFile> files;
  for (const auto& [table, text] : texts) files.push_back({table + ".csv", "", {parse_csv(text, table + ".csv")}});
  return read_case_from(files);
}

inline std::vector<Issue> issues_of(const Intake& intake, const std::string& code) {
  std::vector<Issue> found;
  std::copy_if(intake.issues.begin(), intake.issues.end(), std::back_inserter(found),
               [&](const Issue& issue) { return issue.code == code; });
  return found;
}

/// The only issue of the case; one made up for the message where there are none or several.
inline Issue only_issue(const Intake& intake) {
  if (intake.issues.size() == 1) return intake.issues.front();
  Issue none;
  none.code = std::to_string(intake.issues.size()) + " issues:";
  for (const Issue& issue : intake.issues) none.code += " " + issue.code;
  return none;
}

inline std::string codes_of(const Intake& intake) {
  std::string codes;
  for (const Issue& issue : intake.issues) codes += (codes.empty() ? "" : " ") + issue.code;
  return codes;
}

} // namespace docket
