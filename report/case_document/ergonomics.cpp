// Ergonomics and safety: what is open, the cautions, each method with what came out, and what it is not.
#include "report/wording/ergonomics.h"

#include "report/case_document/pages.h"
#include "report/case_document/screening_parts.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

void add_repetition(CasePages& pages, const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  if (!found.repetition.now) return;
  pages.part("Repetition and recovery");
  add_screening_method(pages, {wording::what_recovery_is}, repetition_definition());
  const RepetitionAtCycle& now = *found.repetition.now;
  const RepetitionAtCycle* asked = found.repetition.asked ? &*found.repetition.asked : nullptr;
  Table table;
  table.dense = true;
  table.columns = {{"", Align::left}, {"Now", Align::right}};
  if (asked != nullptr) table.columns.push_back({"If asked", Align::right});
  const auto add = [&](Runs what, const auto& words) {
    std::vector<Runs> row{std::move(what), runs(words(now))};
    if (asked != nullptr) row.push_back(runs(words(*asked)));
    table.rows.push_back(std::move(row));
  };
  const auto share = [](const std::optional<double>& value) { return value ? format_percent(*value) : "no number"; };
  add({plain("Line cycle time"), reference_to_key(view.input, "line_cycle_s"),
       reference_to_key(view.input, "line_cycle_asked_s")},
      [](const RepetitionAtCycle& at) { return format_seconds(at.cycle); });
  add(runs("Below 30 s"), [](const RepetitionAtCycle& at) { return std::string(at.below_30_s ? "yes" : "no"); });
  add({plain("Share of the cycle in one motion pattern"), reference_to_key(view.input, "pattern_s")},
      [&](const RepetitionAtCycle& at) { return share(at.pattern_share); });
  add(runs("Half of the cycle and more in one motion pattern"), [](const RepetitionAtCycle& at) {
    return std::string(!at.half_in_one_pattern ? "no number" : *at.half_in_one_pattern ? "yes" : "no");
  });
  add({plain("Cycles a shift"), reference_to_key(view.input, "cycles_per_shift")}, [](const RepetitionAtCycle& at) {
    return at.cycles_per_shift ? format_count(static_cast<std::int64_t>(*at.cycles_per_shift + 0.5)) : "no number";
  });
  add(runs("Busy in the average unit: " + format_seconds(found.busy_per_unit) + ". Recovery in a cycle"),
      [](const RepetitionAtCycle& at) { return at.recovery ? format_seconds(*at.recovery) : "none"; });
  add(runs("Recovery, share of the cycle"), [&](const RepetitionAtCycle& at) {
    return at.recovery_share ? format_percent(*at.recovery_share) : std::string("none");
  });
  pages.add(table);
  std::string words = wording::screening_reasons_in_words(now.why_not);
  if (asked != nullptr && asked->why_not != now.why_not)
    words += (words.empty() ? "" : " ") + std::string("At the line cycle time asked about: ") +
             wording::screening_reasons_in_words(asked->why_not);
  if (!words.empty()) pages.paragraph(words, ParagraphRole::small);
  if (asked != nullptr) pages.paragraph(wording::what_faster_line_does, ParagraphRole::small);
}

/// How many, and how far they are. What was reported, when and to whom stays in the input: with the days of a complaint
/// beside it, whose it is could be guessed.
std::string referrals_in_words(const Case& input) {
  const std::vector<Referral>& referrals = input.referrals;
  const auto waiting = std::count_if(referrals.begin(), referrals.end(),
                                     [](const Referral& one) { return one.open && !one.referred_on; });
  std::string text = counted(static_cast<std::int64_t>(referrals.size()), "referral", "referrals") + ", " +
                     format_count(open_referrals(input)) + " of them open";
  if (waiting > 0) text += "; " + format_count(waiting) + " not yet passed on: this comes before everything else here";
  return text +
         ". What was reported is in the table referrals and is not printed, so that nobody's own matter can be read "
         "from this file.";
}

} // namespace

void add_screening_method(CasePages& pages, std::initializer_list<std::string_view> what,
                          const ScreeningMethod& method) {
  const wording::ScreeningWords words = wording::method_in_words(method);
  Runs text{strong(wording::screening_line)};
  for (const std::string_view sentence : what) text.push_back(plain(" " + std::string(sentence)));
  pages.paragraph(text);
  pages.paragraph({strong("Range: "), plain(words.range + ". "), strong("Source: "), plain(words.source + ". "),
                   strong("Values: "), plain(words.certainty + ".")},
                  ParagraphRole::small);
}

void add_screening_remarks(CasePages& pages, const CaseView& view, std::string_view task, const SourceRow& origin,
                           const std::string& words) {
  if (words.empty()) return;
  pages.paragraph({strong(task), reference_to(view.input, origin), plain(": " + words)}, ParagraphRole::small);
}

std::string share_of_units_in_words(double share, std::int32_t element, const Case& input) {
  if (element < 0) return "every unit";
  return format_percent(share) + ", as " + input.standard[static_cast<std::size_t>(element)].element;
}

void add_ergonomics(CasePages& pages, const CaseView& view) {
  pages.section("Ergonomics and safety");
  pages.paragraph(wording::screening_line, ParagraphRole::lead);
  pages.paragraph(wording::nothing_is_cleared);
  if (view.input.referrals.empty())
    pages.paragraph("No referral is in the input.");
  else
    pages.paragraph(referrals_in_words(view.input));
  List list;
  list.numbered = true;
  for (const std::string_view caution : wording::cautions) list.items.push_back(runs(caution));
  pages.add(list);
  add_lifting(pages, view);
  add_efforts(pages, view);
  add_repetition(pages, view);
}

} // namespace docket
