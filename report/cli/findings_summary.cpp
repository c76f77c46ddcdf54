#include "report/cli/findings_summary.h"

#include "report/case_document/content_facts.h"
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/adaptation.h"
#include "report/wording/wording.h"

namespace docket {
namespace {

/// As many blanks as fill the columns a text leaves.
std::string blanks_after(const std::string& text, std::size_t width) {
  const std::size_t columns = columns_of(text);
  return std::string(columns < width ? width - columns : 1, ' ');
}

std::string row(const std::string& name, const std::string& value, const std::string& words) {
  constexpr std::size_t name_width = 36, value_width = 12;
  return "  " + name + blanks_after(name, name_width) + value +
         (words.empty() ? "" : blanks_after(value, value_width) + words) + "\n";
}

std::string margin_rows(const Case& input, const Findings& findings) {
  std::string rows;
  for (const MarginLine& line : margin_lines(input, findings)) rows += row(line.what, line.margin, line.range);
  return rows;
}

/// A line of evidence: its time with what it rests on, or why there is none.
std::string evidence_row(Line line, const LineLevel* level, const std::string& words) {
  return row(std::string(wording::line_name(line)), level ? format_bare_seconds(level->time) : "none", words);
}

std::string rests_on(std::int64_t operators, std::int64_t cycles) {
  return "operators: " + format_count(operators) + ", cycles: " + format_count(cycles);
}

std::string evidence_rows(const ContentFindings& content) {
  const auto& settled = content.settled.line;
  const auto& restudy = content.restudy.line;
  return evidence_row(Line::standard, &content.standard.level, "") +
         evidence_row(Line::settled, settled ? &settled->level : nullptr,
                      settled ? rests_on(settled->operators, settled->cycles)
                              : wording::none_why_in_words(content.settled.none_why)) +
         evidence_row(Line::restudy, restudy ? &restudy->level : nullptr,
                      restudy ? rests_on(static_cast<std::int64_t>(restudy->operators.size()), restudy->cycles)
                              : wording::none_why_in_words(content.restudy.none_why));
}

std::string adaptation_rows(const Case& input, const Findings& findings) {
  if (findings.adaptation.empty()) return "\nB, adaptation: not asked\n";
  std::string rows = "\nB, adaptation\n";
  for (const Adaptation& adaptation : findings.adaptation) {
    rows += "  " + operator_code(input, adaptation.op) + ": " + std::string(wording::finding_word(adaptation.word));
    if (adaptation.word == AdaptationWord::still_learning && adaptation.estimates)
      rows += ", own cycles to go: " + wording::cycles_to_go_in_short(adaptation.estimates->to_limit);
    rows += "\n";
    for (const Reason& reason : adaptation.reasons) rows += "    " + wording::adaptation_reason_in_words(reason) + "\n";
    if (adaptation.word == AdaptationWord::settled_above)
      rows += "    " + wording::others_above_in_words(others_above(findings, adaptation.op)) + "\n";
    if (adaptation.word != AdaptationWord::not_assessable_now)
      rows += "    " + std::string(wording::nothing_about_why) + "\n";
  }
  return rows;
}

} // namespace

std::string summarise_findings(const Case& input, const Findings& findings) {
  const ContentFindings& content = findings.content;
  std::string lines;
  if (content.held) lines += std::string(wording::held_line) + "\n";
  lines += "A, content: " + std::string(wording::finding_word(content.word)) + "\n" +
           wording::standard_as_it_stands(findings.time.line_cycle, content.standard.mean) + "\n";
  if (content.word == ContentWord::not_shown)
    lines += std::string(wording::not_shown_line) + "\n" + std::string(wording::lean_sentence(content.leans)) + "\n";
  if (content.word == ContentWord::fits) lines += std::string(wording::fits_second_line) + "\n";
  for (const std::int32_t condition : content.only_if)
    lines += "Only if as the standard assumes: " + input.conditions[static_cast<std::size_t>(condition)].check + "\n";
  for (const Reason& reason : content.reasons) lines += "  " + wording::reason_in_words(reason) + "\n";
  lines += "\nMargins in seconds; the limit is " + format_seconds(findings.time.limit) +
           ": + is room, \u2212 is time that is missing\n" + margin_rows(input, findings);
  lines += "\nEvidence in seconds, for the planned mix\n" + evidence_rows(content);
  lines += adaptation_rows(input, findings) + "\nCautions:";
  for (const std::string_view caution : wording::cautions) lines += " " + std::string(caution);
  return lines + "\n";
}

} // namespace docket
