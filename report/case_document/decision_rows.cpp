// What the rows of the decision on A looked at, which of them held, and why the earlier ones did not.
#include "core/rules.h"
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <string>
#include <utility>
#include <vector>

namespace docket {
namespace {

/// One set of lines that the rows looked at; absent: no line remains.
struct Looked {
  std::string what;
  const DecisionView* view;
};

std::vector<Looked> sets_of_lines(const ContentFindings& content) {
  const DecisionFacts& facts = content.again.facts;
  std::vector<Looked> sets{{"All lines", &facts.all}};
  for (std::size_t i = 0; i < facts.without_leaning.size() && i < content.again.without.size(); ++i) {
    std::string names;
    for (const Line line : content.again.without[i])
      names += (names.empty() ? "" : " and ") + std::string(wording::line_in_sentence(line));
    sets.push_back(
        {"Without " + names + " (leaning)", facts.without_leaning[i] ? &*facts.without_leaning[i] : nullptr});
  }
  return sets;
}

std::vector<Looked> rows_that_must_agree(const ContentFindings& content) {
  const DecisionFacts& facts = content.again.facts;
  std::vector<Looked> rows;
  for (const SettledRow& row : content.settled.rows) {
    if (row.code != "with_help" && row.code != "with_leavers") continue;
    if (rows.size() < facts.must_agree.size())
      rows.push_back({row.code == "with_help" ? "With the help counted in" : "With those who left counted in",
                      &facts.must_agree[rows.size()]});
  }
  return rows;
}

Table table_of_views(const ContentFindings& content) {
  Table table;
  table.caption = "The chances that the rows of the decision look at";
  table.dense = true;
  table.columns = {{"Evidence", Align::left},
                   {"P, mean", Align::right},
                   {"P_seq, order of units", Align::right},
                   {"P_able, enough able", Align::right},
                   {"P_zone, enough in the zone", Align::right}};
  const auto chance = [](const std::optional<double>& p) { return runs(p ? format_chance(*p) : "not known"); };
  std::vector<Looked> all = sets_of_lines(content);
  for (Looked& row : rows_that_must_agree(content)) all.push_back(std::move(row));
  if (content.again.facts.others)
    all.push_back({"The lines beside exactly two settled operators", &*content.again.facts.others});
  for (const Looked& one : all) {
    if (one.view == nullptr) {
      table.rows.push_back({runs(one.what), runs("no line left"), runs(""), runs(""), runs("")});
      continue;
    }
    table.rows.push_back({runs(one.what), runs(format_chance(one.view->p)), chance(one.view->p_seq),
                          chance(one.view->p_able), chance(one.view->p_zone)});
  }
  return table;
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

std::string what_is_over(const DecisionView& view, double half_alpha) {
  std::vector<std::string> names;
  if (view.p <= half_alpha) names.emplace_back("P");
  if (view.p_seq && *view.p_seq <= half_alpha) names.emplace_back("P_seq");
  if (view.p_able && *view.p_able <= half_alpha) names.emplace_back("P_able");
  return names.empty() ? "none so low" : joined(names) + " so low";
}

std::string what_is_short(const DecisionView& view, double half_alpha) {
  std::vector<std::string> names;
  if (view.p < 1 - half_alpha) names.emplace_back("P");
  if (!view.p_seq || *view.p_seq < 1 - half_alpha) names.emplace_back("P_seq");
  if (view.p_zone && *view.p_zone < rules::zone_able) names.emplace_back("P_zone");
  return names.empty() ? "all reached" : joined(names) + " not reached";
}

template <class Say>
std::string of_each(const std::vector<Looked>& sets, Say say) {
  std::string text;
  for (const Looked& one : sets)
    text += one.what + ": " + (one.view == nullptr ? std::string("no line left") : say(*one.view)) + ". ";
  return text;
}

Table table_of_rows(const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  const DecisionFacts& facts = content.again.facts;
  const double half_alpha = (1 - facts.confidence) / 2;
  const std::string low = format_percent(half_alpha), high = format_percent(1 - half_alpha);
  const std::vector<Looked> sets = sets_of_lines(content);
  std::vector<Looked> needed = sets;
  for (Looked& row : rows_that_must_agree(content)) needed.push_back(std::move(row));
  std::string clashing;
  for (const Clash& clash : content.clashes)
    if (clash.blocks)
      clashing += (clashing.empty() ? "" : "; ") + std::string(wording::line_in_sentence(clash.a)) + " against " +
                  std::string(wording::line_in_sentence(clash.b));

  std::string over = of_each(sets, [&](const DecisionView& v) { return what_is_over(v, half_alpha); });
  if (facts.others && others_object_to_does_not_fit(facts)) over += "The other lines object. ";
  std::string within = of_each(needed, [&](const DecisionView& v) { return what_is_short(v, half_alpha); });
  if (facts.help_of_unknown_length) within += "Help of unknown length on too many cycles. ";
  if (facts.others && others_object_to_fits(facts)) within += "The other lines object. ";
  const std::string differs =
      facts.condition_differs_now ? "A condition differs now." : "No condition is known to differ now.";

  const struct {
    std::string asks, here, word;
  } rows[] = {
      {"No line can be used, or two lines clash", clashing.empty() ? "No clash." : "A clash: " + clashing + ".",
       "NOT SHOWN"},
      {"One of P, P_seq, P_able " + low + " or less, also without lines that lean", over, "DOES NOT FIT"},
      {"Work zone or spread of cycles not known, or identical values where most weight lies",
       std::string(facts.zone_given ? "Zone given" : "Zone not given") +
           (facts.spread_known ? ", spread known" : ", spread not known") +
           (facts.identical_values ? ", identical values." : ", values differ."),
       "NOT SHOWN"},
      {"P and P_seq " + high + " or more, P_zone " + format_percent(rules::zone_able) +
           " or more (or not known), also without lines that lean, with the help and with those who left counted in; "
           "help of unknown length on " +
           format_percent(rules::most_help_of_unknown_length) + " of the cycles at most; no condition differs",
       within + differs, "FITS"},
      {"The same, but a condition differs and there is evidence of the restored state",
       differs + (facts.condition_differs_now
                      ? (facts.restored_state_has_evidence ? " There is evidence of the restored state."
                                                           : " There is none of the restored state.")
                      : ""),
       "FITS ONLY IF"},
      {"Anything else", "", "NOT SHOWN"},
  };
  Table table;
  table.caption = "The rows of the decision: the first that holds gives the word";
  table.dense = true;
  table.columns = {{"Row", Align::left},
                   {"What it asks", Align::left},
                   {"Here", Align::left},
                   {"Holds", Align::left, true},
                   {"Word", Align::left, true}};
  int number = 0;
  for (const auto& row : rows) {
    ++number;
    const bool holds = number == content.decision_row, reached = number <= content.decision_row;
    table.rows.push_back({runs(std::to_string(number)), runs(row.asks), runs(reached ? row.here : ""),
                          holds     ? Runs{strong("yes")}
                          : reached ? runs("no")
                                    : runs("not looked at"),
                          holds ? Runs{strong(row.word)} : runs(row.word)});
  }
  return table;
}

} // namespace

void add_decision_rows(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  if (!content.combined) return;
  pages.part("Which row of the decision holds");
  pages.add(table_of_views(content));
  pages.paragraph(
      "Each row is the steps from the weights on with those lines, or with the line of the settled operators "
      "changed as said; k* moves along with the level, so that k* \u00D7 T stays.",
      ParagraphRole::small);
  pages.add(table_of_rows(view));
  pages.paragraph("Source: JCGM 106:2012 and ILAC-G8:09/2019 for rules with a guard on both sides; the table is this "
                  "program's own.",
                  ParagraphRole::small);
}

} // namespace docket
