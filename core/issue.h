// The second kind of failure: the data has a defect. Issues travel beside the data, all of them, never one by one.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace docket {

enum class IssueGrade {
  fault,    ///< The input can't be taken; exit status 1, nothing is written.
  question, ///< Taken as it is, but somebody should answer it. Printed in the documents.
  warning,  ///< Taken; something in it is not used. Printed in the documents.
};

/// One defect of the data: where it is, what is there, what is wrong and what would be right.
struct Issue {
  IssueGrade grade = IssueGrade::fault;
  std::string code;     ///< Stable word for the kind of defect, e.g. "not_a_number". Every code has a test.
  std::string file;     ///< File name without its folder.
  std::string table;    ///< Table name; empty where the whole file is meant.
  std::int64_t row = 0; ///< The spreadsheet's own row number, in CSV the line number; 0 where no row is meant.
  std::string column;   ///< Column name, or key in `case` and `settings`; empty where no column is meant.
  std::string raw;      ///< The text that stands there; empty where nothing stands there.
  std::string wrong;    ///< A sentence: what is wrong.
  std::string right;    ///< A sentence: what would be right.
};

using Issues = std::vector<Issue>;

} // namespace docket
