#include "report/case_document/case_document.h"

#include "report/case_document/pages.h"

namespace docket {

Document build_case_document(const Case& input, const Findings& findings, const Issues& intake_issues, CopyFor copy) {
  const CaseView view{input, findings, intake_issues, copy};
  CasePages pages;
  add_front_page(pages, view);
  add_claim(pages, view);
  add_time_available(pages, view);
  pages.section("Question A in detail");
  add_lines_of_evidence(pages, view);
  add_standard(pages, view);
  add_motion_times(pages, view);
  add_settled_operators(pages, view);
  add_shifts(pages, view);
  add_restudy(pages, view);
  add_study_checks(pages, view);
  add_sequence(pages, view);
  add_how_a_is_computed(pages, view);
  add_decision_rows(pages, view);
  add_alternatives(pages, view);
  add_adaptation(pages, view);
  add_conditions(pages, view);
  add_what_decides(pages, view);
  add_ergonomics(pages, view);
  add_data_faults(pages, view);
  add_evidence(pages, view);
  add_reference_pages(pages, view);
  Document document;
  document.title = "Case file " + input.facts.case_ref + ": " + input.facts.title;
  document.case_ref = input.facts.case_ref;
  document.blocks = pages.take();
  return document;
}

} // namespace docket
