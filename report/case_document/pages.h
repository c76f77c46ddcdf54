// What the parts of the case file share: a list of blocks with numbered sections, and references to input rows.
#pragma once

#include "core/case.h"
#include "core/findings.h"
#include "core/issue.h"
#include "report/case_document/case_document.h"
#include "report/document.h"

#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// The blocks of a document as they are added; sections and their parts are numbered in order.
class CasePages {
public:
  void section(std::string title);
  void part(std::string title);
  void add(Block block) { blocks_.push_back(std::move(block)); }
  template <class Content>
  void add(Content content) {
    blocks_.push_back(Block{std::move(content)});
  }
  void paragraph(Runs runs, ParagraphRole role = ParagraphRole::plain);
  void paragraph(std::string_view text, ParagraphRole role = ParagraphRole::plain);
  std::vector<Block> take() { return std::move(blocks_); }

private:
  std::vector<Block> blocks_;
  int section_ = 0, part_ = 0;
};

/// What every part of the case file is made from.
struct CaseView {
  const Case& input;
  const Findings& findings;
  const Issues& issues;
  CopyFor copy = CopyFor::joint;
};

Text plain(std::string_view text);
Text strong(std::string_view text);
Runs runs(std::string_view text);
Block block(Paragraph paragraph);

/// " (standard row 7)", with the file where there are several; empty for a default.
Text reference_to(const Case& input, const SourceRow& origin);
/// The same for a key of `case`; empty where it was not given.
Text reference_to_key(const Case& input, std::string_view key);
/// Rows that follow one another: "14", "14-37 (24)".
std::string rows_in_words(std::int64_t first, std::int64_t last);

std::string variant_name(const Case& input, std::int32_t variant);
std::string operator_code(const Case& input, std::int32_t op);
std::string condition_name(const Case& input, std::int32_t condition);
/// "1 operator", "6 operators".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);
/// The text, or "not given" where it is blank.
std::string or_not_given(std::string_view text);

/// Where the standard already holds the allowance: that measured times carry it here too.
void add_factor_note(CasePages& pages, const CaseView& view);

// The parts, in order.
void add_front_page(CasePages& pages, const CaseView& view);
void add_claim(CasePages& pages, const CaseView& view);
void add_time_available(CasePages& pages, const CaseView& view);
void add_lines_of_evidence(CasePages& pages, const CaseView& view);
void add_standard(CasePages& pages, const CaseView& view);
void add_motion_times(CasePages& pages, const CaseView& view);
void add_settled_operators(CasePages& pages, const CaseView& view);
void add_settled_rows_pages(CasePages& pages, const CaseView& view); ///< within the settled operators
void add_shifts(CasePages& pages, const CaseView& view);
void add_restudy(CasePages& pages, const CaseView& view);
void add_study_checks(CasePages& pages, const CaseView& view);
void add_sequence(CasePages& pages, const CaseView& view);
void add_how_a_is_computed(CasePages& pages, const CaseView& view);
void add_decision_rows(CasePages& pages, const CaseView& view);
void add_alternatives(CasePages& pages, const CaseView& view);
void add_adaptation(CasePages& pages, const CaseView& view);
void add_excess(CasePages& pages, const CaseView& view, const Excess& excess); ///< within question B
void add_conditions(CasePages& pages, const CaseView& view);
void add_what_decides(CasePages& pages, const CaseView& view);
void add_ergonomics(CasePages& pages, const CaseView& view);
void add_data_faults(CasePages& pages, const CaseView& view);
void add_evidence(CasePages& pages, const CaseView& view);
void add_reference_pages(CasePages& pages, const CaseView& view);

} // namespace docket
