// Page one: what the case is, the two findings side by side, the cautions, what the pair allows, what is not decided.
#include "report/case_document/adaptation_box.h"
#include "report/case_document/content_facts.h"
#include "report/case_document/pages.h"
#include "report/case_document/screening_summary.h"
#include "report/format.h"
#include "report/wording/ergonomics.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

std::string date_or_not_given(const std::optional<Date>& date) { return date ? format_date(*date) : "not given"; }

Definitions title_block(const CaseView& view) {
  const CaseFacts& facts = view.input.facts;
  std::string complaint = date_or_not_given(facts.complaint_on);
  if (!facts.complaint_shift.empty()) complaint += ", shift " + facts.complaint_shift;
  const std::string station = facts.post.empty() ? facts.station : facts.station + ", post " + facts.post;
  std::string standard = or_not_given(facts.standard_revision);
  if (!facts.standard_set_by_role.empty()) standard += ", set by " + facts.standard_set_by_role;
  Definitions block;
  block.in_columns = true;
  block.entries = {
      {"Case", runs(facts.case_ref)},
      {"Complaint", runs(complaint)},
      {"Station", runs(station)},
      {"Case opened", runs(date_or_not_given(facts.opened_on))},
      {"Line", runs(facts.line)},
      {"Standard", runs(standard)},
      {"Product", runs(or_not_given(facts.product))},
      {"Prepared by", runs(or_not_given(facts.prepared_by_role))},
      {"Data basis", {plain(or_not_given(facts.data_basis)), reference_to_key(view.input, "data_basis")}},
  };
  return block;
}

Table margins(const CaseView& view) {
  Table table;
  table.columns = {{"Margin (\u2212 missing)", Align::left}, {"seconds", Align::right}, {"from, to", Align::right}};
  for (const MarginLine& line : margin_lines(view.input, view.findings)) {
    table.rows.push_back({runs(line.what), {strong(line.margin)}, runs(line.range)});
  }
  return table;
}

void add_list(std::vector<Block>& blocks, std::string_view title, const std::vector<std::string>& items,
              std::string_view none) {
  blocks.push_back(Block{Heading{3, "", std::string(title)}});
  List list;
  for (const std::string& item : items) list.items.push_back(runs(item));
  if (items.empty()) list.items.push_back(runs(none));
  blocks.push_back(Block{list});
}

// The reasons a reader must know to understand the word.
std::vector<std::string> why_this_word(const ContentFindings& content) {
  std::vector<std::string> why;
  for (const Reason& reason : content.reasons) {
    if (why.size() < 2) why.push_back(wording::reason_in_words(reason));
  }
  return why;
}

Box box_a(const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  Box box{std::string(wording::question_a), {}};
  if (content.held) box.blocks.push_back(Block{Notice{runs(wording::held_line)}});
  box.blocks.push_back(block({runs(wording::finding_word(content.word)), ParagraphRole::finding}));
  box.blocks.push_back(
      block({runs(wording::standard_as_it_stands(view.findings.time.line_cycle, content.standard.mean)),
             ParagraphRole::lead}));
  if (view.findings.time.limit != view.findings.time.line_cycle) {
    const Seconds room = view.findings.time.limit - content.standard.mean;
    box.blocks.push_back(
        block({runs("With the allowance inside the cycle the limit is " + format_seconds(view.findings.time.limit) +
                    "; against it the standard's margin is " + format_signed_seconds(room) + ".")}));
  }
  if (content.word == ContentWord::fits || content.word == ContentWord::fits_only_if) {
    box.blocks.push_back(block({runs(wording::fits_second_line)}));
  }
  if (content.word == ContentWord::fits_only_if) {
    std::vector<std::string> names;
    for (const std::int32_t condition : content.only_if) names.push_back(condition_name(view.input, condition));
    add_list(box.blocks, "Only if these are as the standard assumes", names, "No condition is named.");
  }
  if (content.word == ContentWord::not_shown) {
    box.blocks.push_back(
        block({{plain(wording::not_shown_line), plain(" "), plain(wording::lean_sentence(content.leans))}}));
  }
  if (content.average_person_only) {
    box.blocks.push_back(block({runs(wording::reason_in_words({"average_person_only", ""}))}));
  }
  box.blocks.push_back(Block{margins(view)});
  if (content.word != ContentWord::fits) add_list(box.blocks, "Why", why_this_word(content), "No reason recorded.");
  const ContentFacts facts = strongest_facts(view.findings, 2);
  add_list(box.blocks, "Speaks for fitting", facts.for_fitting, "Nothing in the evidence.");
  add_list(box.blocks, "Speaks against fitting", facts.against, "Nothing in the evidence.");
  std::vector<std::string> flips;
  for (const Flip& flip : content.flips)
    if (flip.word != content.word && flips.size() < 3)
      flips.push_back(wording::flip_in_words(flip) + ": " + std::string(wording::finding_word(flip.word)) + ".");
  if (!flips.empty()) add_list(box.blocks, "What flips it", flips, "");
  std::vector<std::string> change;
  for (const Reason& reason : content.would_decide) {
    if (change.size() < 2) change.push_back(wording::would_decide_in_words(reason));
  }
  add_list(box.blocks, content.word == ContentWord::not_shown ? "What would decide it" : "What would change it", change,
           std::string(wording::what_opens_it_again));
  return box;
}

/// That something is open, never what: with its day or its kind, whose it is could be guessed.
Runs safety_state(const CaseView& view) {
  Runs text{plain("Open safety or health matter: ")};
  if (const std::int64_t open = open_referrals(view.input); open > 0) {
    text.push_back(strong("yes"));
    text.push_back(plain(" (table referrals: " + format_count(open) + " open)."));
    return text;
  }
  switch (view.input.facts.open_safety_matter) {
  case YesNo::yes:
    text.push_back(strong("yes"));
    break;
  case YesNo::no:
    text.push_back(strong("no"));
    break;
  case YesNo::unknown:
    text.push_back(strong("not known"));
    break;
  case YesNo::not_given:
    text.push_back(strong("not answered"));
    break;
  }
  text.push_back(reference_to_key(view.input, "open_safety_matter"));
  text.push_back(plain("."));
  return text;
}

Strip cautions_strip(const CaseView& view) {
  Strip strip{"Cautions: safety, health and ergonomics (inputs, ranges and reasons: section Ergonomics and safety)",
              {}};
  Runs state = safety_state(view);
  state.push_back(strong(" " + std::string(wording::screening_line)));
  strip.blocks.push_back(block({state}));
  strip.blocks.push_back(Block{screening_summary(view)});
  List list;
  list.numbered = true;
  for (const std::string_view caution : wording::cautions) list.items.push_back(runs(caution));
  strip.blocks.push_back(Block{list});
  return strip;
}

/// The codes, as the reader of the input asked about them.
std::string complainants_not_in_data(const Issues& issues) {
  std::string absent;
  for (const Issue& issue : issues)
    if (issue.code == "operator_not_in_data" && issue.column == "complainants")
      absent += (absent.empty() ? "" : ", ") + issue.raw;
  return absent;
}

bool has_fault(const Findings& findings, std::string_view check) {
  return std::any_of(findings.data_faults.begin(), findings.data_faults.end(),
                     [&](const DataFault& fault) { return fault.check == check; });
}

} // namespace

void add_front_page(CasePages& pages, const CaseView& view) {
  pages.add(Heading{1, "", view.input.facts.title});
  if (view.findings.content.held) pages.add(Notice{runs(wording::open_matter_first)});
  pages.add(title_block(view));
  pages.add(Boxes{{box_a(view), adaptation_box(view)}, true});
  pages.add(cautions_strip(view));
  if (const std::string absent = complainants_not_in_data(view.issues); !absent.empty())
    pages.paragraph({strong("On the data. "), plain("Who complained (" + absent +
                                                    ") is not in the data. Nothing here rests on their cycles, and the "
                                                    "answer to A is without them.")});
  if (has_fault(view.findings, "log_without_marks")) {
    const wording::FaultWords fault = wording::fault_in_words({"log_without_marks", ""});
    pages.paragraph({strong("On the data. "), plain(fault.result)});
  }
  Runs pair{strong("What the pair allows.")};
  for (const std::string& sentence : pair_sentences(view)) pair.push_back(plain(" " + sentence));
  pages.paragraph(pair);
  Runs not_decided{strong("What this file does not decide. ")};
  for (const std::string_view sentence : wording::not_decided)
    not_decided.push_back(plain(std::string(sentence) + " "));
  not_decided.back().text.pop_back();
  pages.paragraph(not_decided, ParagraphRole::small);
  pages.add(PageBreak{});
  pages.add(Contents{});
}

} // namespace docket
