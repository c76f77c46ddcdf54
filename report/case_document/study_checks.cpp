// Question A in detail: what a reviewer would ask of the standard and of the stopwatch study, tried beforehand.
#include "report/wording/study_checks.h"

#include "report/case_document/pages.h"
#include "report/case_document/restudy_rows.h"
#include "report/format.h"

#include <array>

namespace docket {
namespace {

std::string_view outcome_first(CheckOutcome outcome) {
  switch (outcome) {
  case CheckOutcome::found:
    return "Found. ";
  case CheckOutcome::could_not_run:
    return "Could not run. ";
  case CheckOutcome::numbers_only:
    return "Numbers only. ";
  case CheckOutcome::passed:
    return "Passed. ";
  }
  return "";
}

constexpr std::array order{CheckOutcome::found, CheckOutcome::could_not_run, CheckOutcome::numbers_only,
                           CheckOutcome::passed};

} // namespace

void add_study_checks(CasePages& pages, const CaseView& view) {
  add_restudy_rows(pages, view);
  const std::vector<StudyCheck>& checks = view.findings.content.checks;
  if (checks.empty()) return;
  Table table;
  table.caption = "Found first, then what could not run, then numbers only, then passed";
  table.dense = true;
  table.columns = {{"Check", Align::left},
                   {"Result", Align::left},
                   {"Direction", Align::left},
                   {"Effect on A", Align::left},
                   {"Remedy", Align::left}};
  std::array<std::int64_t, order.size()> count{};
  for (std::size_t i = 0; i < order.size(); ++i) {
    for (const StudyCheck& check : checks) {
      if (check.outcome != order[i]) continue;
      ++count[i];
      const wording::CheckWords words = wording::check_in_words(check);
      table.rows.push_back({runs(words.check),
                            {strong(outcome_first(check.outcome)), plain(words.result)},
                            runs(words.direction),
                            runs(words.affects),
                            runs(words.remedy)});
    }
  }
  pages.part("Checks of the standard and of the study");
  pages.paragraph("What a reviewer would ask, tried beforehand: " + format_count(count[0]) + " found something, " +
                  format_count(count[1]) + " could not run, " + format_count(count[2]) + " show numbers only, " +
                  format_count(count[3]) +
                  " passed. Passed means that the evidence could have shown it, and did not. Numbers only means that "
                  "nothing was found but the evidence could not have told, or that the check has no threshold. A check "
                  "asks a question of the standard or of the study; none of them changes a number of "
                  "the finding, and none judges a person. Where a threshold has no publication behind it, the "
                  "text says common practice.");
  pages.add(table);
}

} // namespace docket
