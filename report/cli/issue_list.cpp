#include "report/cli/issue_list.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace docket {
namespace {

struct GradeWords {
  IssueGrade grade;
  std::string_view line, one, many;
};

constexpr std::array<GradeWords, 3> grades{{{IssueGrade::fault, "Fault", "fault", "faults"},
                                            {IssueGrade::question, "Question", "question", "questions"},
                                            {IssueGrade::warning, "Warning", "warning", "warnings"}}};

const GradeWords& words_of(IssueGrade grade) {
  return *std::find_if(grades.begin(), grades.end(), [&](const GradeWords& words) { return words.grade == grade; });
}

/// A cell may hold line breaks; an issue is one line.
std::string on_one_line(std::string raw) {
  std::replace_if(
      raw.begin(), raw.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, ' ');
  return raw;
}

std::string line_of(const Issue& issue) {
  std::string line = std::string(words_of(issue.grade).line) + ": " + issue.file;
  if (!issue.table.empty()) line += ", table `" + issue.table + "`";
  if (issue.row > 0) line += ", row " + std::to_string(issue.row);
  if (!issue.column.empty()) line += ", column `" + issue.column + "`";
  line += ":";
  // Most sentences quote what stands there; the others get it in front.
  if (!issue.raw.empty() && (issue.wrong + issue.right).find(issue.raw) == std::string::npos)
    line += " \"" + on_one_line(issue.raw) + "\".";
  return line + " " + issue.wrong + " " + issue.right + "\n";
}

} // namespace

std::string list_issues(const Issues& issues) {
  std::string lines;
  for (const Issue& issue : issues) lines += line_of(issue);
  return lines;
}

std::string count_issues(const Issues& issues) {
  std::string counted;
  for (const GradeWords& words : grades) {
    const auto count =
        std::count_if(issues.begin(), issues.end(), [&](const Issue& issue) { return issue.grade == words.grade; });
    if (count == 0) continue;
    counted +=
        (counted.empty() ? "" : ", ") + std::to_string(count) + " " + std::string(count == 1 ? words.one : words.many);
  }
  return counted;
}

JsonArray issues_as_json(const Issues& issues) {
  JsonArray listed;
  for (const Issue& issue : issues)
    listed.append(JsonObject{{"grade", words_of(issue.grade).one},
                             {"code", issue.code},
                             {"file", issue.file},
                             {"table", issue.table},
                             {"row", issue.row},
                             {"column", issue.column},
                             {"raw", issue.raw},
                             {"wrong", issue.wrong},
                             {"right", issue.right}});
  return listed;
}

bool has_fault(const Issues& issues) {
  return std::any_of(issues.begin(), issues.end(), [](const Issue& issue) { return issue.grade == IssueGrade::fault; });
}

} // namespace docket
