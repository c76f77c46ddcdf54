// Conditions, what the finding rests on and what would decide it, ergonomics, data faults.
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

std::string affected(const CaseView& view, const Condition& condition) {
  if (condition.whole_station()) return "the whole station";
  std::string out;
  const auto add = [&](const std::string& name) { out += (out.empty() ? "" : ", ") + name; };
  for (const std::int32_t element : condition.elements) {
    const auto index = static_cast<std::size_t>(element);
    if (index < view.input.standard.size()) add(view.input.standard[index].element);
  }
  for (const std::int32_t session : condition.sessions) {
    const auto index = static_cast<std::size_t>(session);
    if (index < view.input.sessions.size()) add("session " + view.input.sessions[index].session);
  }
  for (const std::int32_t variant : condition.variants) add("variant " + variant_name(view.input, variant));
  return out;
}

std::int64_t cycles_out(const CaseView& view, std::size_t condition) {
  for (const ConditionEffect& effect : view.findings.conditions) {
    if (effect.condition >= 0 && static_cast<std::size_t>(effect.condition) == condition) return effect.cycles_out;
  }
  return 0;
}

Table conditions_table(const CaseView& view) {
  Table table;
  table.caption = "Conditions found at the station";
  table.dense = true;
  table.columns = {{"Checked", Align::left}, {"State", Align::left}, {"Touches", Align::left},
                   {"From", Align::left},    {"To", Align::left},    {"Cycles out", Align::right}};
  for (std::size_t i = 0; i < view.input.conditions.size(); ++i) {
    const Condition& condition = view.input.conditions[i];
    Runs name{plain(condition.check)};
    if (!condition.note.empty()) name.push_back(plain(": " + condition.note));
    name.push_back(reference_to(view.input, condition.origin));
    const bool differs = condition.state == ConditionState::differs;
    Runs state{differs ? strong(wording::state_in_words(condition.state))
                       : plain(wording::state_in_words(condition.state))};
    table.rows.push_back({name, state, runs(affected(view, condition)),
                          runs(condition.from ? format_instant(*condition.from) : std::string()),
                          runs(condition.to ? format_instant(*condition.to)
                               : differs    ? "still so"
                                            : std::string()),
                          runs(format_count(cycles_out(view, i)))});
  }
  return table;
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

// One row a check: the details of faults of the same kind stand beside one another.
std::vector<DataFault> joined_faults(const std::vector<DataFault>& faults) {
  std::vector<DataFault> joined;
  for (const DataFault& fault : faults) {
    const auto known =
        std::find_if(joined.begin(), joined.end(), [&](const DataFault& other) { return other.check == fault.check; });
    if (known == joined.end()) {
      joined.push_back(fault);
    } else if (!fault.detail.empty()) {
      known->detail += (known->detail.empty() ? "" : ", ") + fault.detail;
    }
  }
  return joined;
}

void add_issue_table(CasePages& pages, const CaseView& view) {
  if (view.issues.empty()) return;
  Table table;
  table.caption = "What reading the input asked or warned about";
  table.dense = true;
  table.columns = {{"Where", Align::left},
                   {"Kind", Align::left},
                   {"Stands there", Align::left},
                   {"What is wrong", Align::left},
                   {"What would be right", Align::left}};
  for (const Issue& issue : view.issues) {
    std::string where = issue.file;
    if (!issue.table.empty()) where += (where.empty() ? "" : ", ") + issue.table;
    if (issue.row > 0) where += " row " + std::to_string(issue.row);
    if (!issue.column.empty()) where += ", " + issue.column;
    const std::string kind = issue.grade == IssueGrade::fault      ? "set aside"
                             : issue.grade == IssueGrade::question ? "question"
                                                                   : "warning";
    table.rows.push_back({runs(where), runs(kind), runs(issue.raw), runs(issue.wrong), runs(issue.right)});
  }
  pages.add(table);
}

} // namespace

void add_conditions(CasePages& pages, const CaseView& view) {
  pages.section("Conditions at the station");
  if (view.input.conditions.empty()) {
    pages.paragraph("No conditions were given. Whether the station was as the standard assumes is open.");
    return;
  }
  pages.add(conditions_table(view));
  const ContentFindings& content = view.findings.content;
  if (content.with_differing) {
    std::string text =
        "Without the cycles touched by a differing condition: " + std::string(wording::finding_word(content.word));
    if (content.combined)
      text += ", chance that the mean is within the limit " + format_chance(content.combined->p_fits);
    text += ". With them taken in: " + std::string(wording::finding_word(content.with_differing->word));
    if (content.with_differing->p_fits) text += ", chance " + format_chance(*content.with_differing->p_fits);
    pages.paragraph(text + ".");
  }
}

void add_ergonomics(CasePages& pages, const CaseView& view) {
  pages.section("Ergonomics and safety");
  pages.paragraph(wording::no_ergonomic_facts, ParagraphRole::lead);
  pages.paragraph(
      "Nothing here clears the station. Fitting in time says nothing about force, posture, recovery or dose.");
  if (view.input.referrals.empty()) {
    pages.paragraph("No referral is in the input.");
  } else {
    pages.paragraph(referrals_in_words(view.input));
  }
  List list;
  list.numbered = true;
  for (const std::string_view caution : wording::cautions) list.items.push_back(runs(caution));
  pages.add(list);
}

void add_data_faults(CasePages& pages, const CaseView& view) {
  pages.section("What the data can't show");
  if (view.findings.data_faults.empty()) {
    pages.paragraph("The checks of this version found nothing to report.");
  } else {
    Table table;
    table.caption = "Faults and limits of the data";
    table.dense = true;
    table.columns = {{"Check", Align::left},
                     {"Result", Align::left},
                     {"Which way it pulls", Align::left},
                     {"Affects", Align::left},
                     {"Remedy", Align::left}};
    for (const DataFault& fault : joined_faults(view.findings.data_faults)) {
      const wording::FaultWords words = wording::fault_in_words(fault);
      table.rows.push_back(
          {runs(words.check), runs(words.result), runs(words.direction), runs(words.affects), runs(words.remedy)});
    }
    pages.add(table);
  }
  pages.paragraph(
      "What a reviewer asks of the standard and of the study stands in the checks, in the section on A. Not checked "
      "anywhere: how being observed changed the times.",
      ParagraphRole::small);
  add_issue_table(pages, view);
}

} // namespace docket
