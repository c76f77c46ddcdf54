#include "report/wording/motions.h"

namespace docket::wording {

std::string_view hand_in_words(Hand hand) {
  switch (hand) {
  case Hand::left:
    return "left";
  case Hand::right:
    return "right";
  case Hand::both:
    return "both";
  case Hand::not_given:
    break;
  }
  return "not given";
}

std::string analyst_in_words(const MotionAnalysis& analysis) {
  return analysis.analyst.empty() ? "analyst not given" : analysis.analyst;
}

std::string table_row_in_words(const MotionStepTime& row) {
  if (row.plant_row) return "motion_table row " + std::to_string(row.plant_row->row);
  std::string words;
  for (const MotionValueUsed& value : row.used) {
    words += (words.empty() ? "" : "; ") + value.what;
    if (value.origin.status != MotionValueStatus::found) words += " (from memory)";
  }
  return words;
}

std::string motion_problem_in_words(const Case& input, const MotionAnalysis& analysis, const MotionProblem& problem) {
  return "Row " + std::to_string(input.motions[analysis.rows[problem.row]].origin.row) + ": " + problem.wrong + " " +
         problem.right;
}

} // namespace docket::wording
