// Question A in detail: where the times of elements are built up from motions.
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/motions.h"

#include <algorithm>

namespace docket {
namespace {

std::string tmu_text(double tmu) { return format_plain_number(tmu, 3); }

const StandardElement& element_of(const CaseView& view, const ElementMotions& motions) {
  return view.input.standard[static_cast<std::size_t>(motions.element)];
}

std::string seconds_or(const std::optional<Seconds>& time, const char* otherwise) {
  return time ? format_bare_seconds(*time) : otherwise;
}

/// All elements with motions, a row each: what the motions give, and what stands beside it.
Table table_of_elements(const CaseView& view) {
  const auto& found = view.findings.content.standard.motions;
  Table table;
  table.caption = "Elements with motions";
  table.dense = true;
  table.columns = {
      {"Element", Align::left},        {"Motions, TMU", Align::right},          {"Motions, s", Align::right},
      {"Time given, s", Align::right}, {"Given less motions, s", Align::right}, {"Time used", Align::left, true}};
  const bool second = std::any_of(found.begin(), found.end(), [](const ElementMotions& m) { return m.second(); });
  if (second) {
    table.columns.push_back({"Second analysis, s", Align::right});
    table.columns.push_back({"Second less first, s", Align::right});
  }
  for (const ElementMotions& motions : found) {
    const StandardElement& element = element_of(view, motions);
    const auto first = motions.first().time();
    const bool given = !element.time_from_motions && element.time;
    std::vector<Runs> row{{plain(element.element), reference_to(view.input, element.origin)},
                          runs(motions.first().result.tmu ? tmu_text(*motions.first().result.tmu) : "no time"),
                          runs(seconds_or(first, "no time")),
                          runs(given ? format_bare_seconds(*element.time) : "blank"),
                          runs(given && first ? format_signed_bare_seconds(*element.time - *first) : ""),
                          runs(given ? "as given" : "from motions")};
    if (second) {
      const MotionAnalysis* other = motions.second();
      const auto time = other ? other->time() : std::nullopt;
      row.push_back(runs(other ? seconds_or(time, "no time") : "none"));
      row.push_back(runs(time && first ? format_signed_bare_seconds(*time - *first) : ""));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table table_of_motions(const CaseView& view, const ElementMotions& motions, const MotionAnalysis& analysis) {
  const Case& input = view.input;
  const StandardElement& element = element_of(view, motions);
  Table table;
  table.caption = element.element + (element.description.empty() ? "" : ": " + element.description) +
                  ". Motions by row of the table motions, " + wording::analyst_in_words(analysis);
  table.dense = true;
  table.columns = {{"Row", Align::right},       {"Step", Align::right},      {"Hand", Align::left, true},
                   {"Code", Align::left, true}, {"From table", Align::left}, {"TMU once", Align::left},
                   {"Times", Align::right},     {"TMU", Align::right},       {"In the sum", Align::left, true}};
  for (std::size_t r = 0; r < analysis.rows.size(); ++r) {
    const MotionStep& motion = input.motions[analysis.rows[r]];
    const MotionStepTime& time = analysis.result.rows[r];
    std::string once = time.formula;
    if (time.tmu && once != tmu_text(*time.tmu)) once += " = " + tmu_text(*time.tmu);
    table.rows.push_back({runs(std::to_string(motion.origin.row)), runs(std::to_string(motion.step)),
                          runs(wording::hand_in_words(motion.hand)), runs(time.code),
                          runs(wording::table_row_in_words(time)), runs(once),
                          runs(format_plain_number(motion.per_element, 3)), runs(tmu_text(time.per_element_tmu)),
                          runs(time.counts ? "counts" : "limited out")});
  }
  if (analysis.result.tmu)
    table.rows.push_back({{strong("Sum")},
                          {},
                          {},
                          {},
                          {},
                          {},
                          {},
                          {strong(tmu_text(*analysis.result.tmu))},
                          {strong(format_seconds(*analysis.time()))}});
  return table;
}

/// "R16C with M10B5 (step 3)", and what the element takes if such pairs are done one after the other.
void add_pairs(CasePages& pages, const CaseView& view, const MotionAnalysis& analysis) {
  std::string pairs;
  for (const MotionProblem& problem : analysis.result.problems) {
    if (problem.code != "pair_not_checked" || !problem.other) continue;
    const std::int64_t step = view.input.motions[analysis.rows[problem.row]].step;
    pairs += (pairs.empty() ? "" : ", ") + analysis.result.rows[*problem.other].code + " with " +
             analysis.result.rows[problem.row].code + " (step " + std::to_string(step) + ")";
  }
  if (pairs.empty() || !analysis.time()) return;
  pages.paragraph({strong("Not checked for two hands: "),
                   plain(pairs +
                         ". They are taken as done at the same time; the program has no published table that says "
                         "whether they can be. If they are done one after the other, the element takes " +
                         format_seconds(analysis.one_after_another()) + ", which is " +
                         format_seconds(analysis.one_after_another() - *analysis.time()) + " more.")});
}

void add_values_from_memory(CasePages& pages, const MotionAnalysis& analysis) {
  std::vector<std::string> values;
  for (const MotionStepTime& row : analysis.result.rows)
    for (const MotionValueUsed& value : row.used) {
      if (value.origin.status == MotionValueStatus::found) continue;
      std::string text = value.what + " (" + std::string(words_of(value.origin.status)) + ")";
      if (std::find(values.begin(), values.end(), text) == values.end()) values.push_back(std::move(text));
    }
  if (values.empty()) return;
  std::string list;
  for (const std::string& value : values) list += (list.empty() ? "" : "; ") + value;
  pages.paragraph({strong("Not confirmed in print: "), plain(list + ". Compare with a printed table.")});
}

void add_other_problems(CasePages& pages, const CaseView& view, const MotionAnalysis& analysis) {
  List list;
  for (const MotionProblem& problem : analysis.result.problems)
    if (problem.code != "pair_not_checked" && problem.code != "value_from_memory")
      list.items.push_back(runs(wording::motion_problem_in_words(view.input, analysis, problem)));
  if (!list.items.empty()) pages.add(list);
}

} // namespace

void add_motion_times(CasePages& pages, const CaseView& view) {
  const auto& found = view.findings.content.standard.motions;
  if (found.empty()) return;
  pages.part("Motion times");
  pages.paragraph(std::string(wording::how_motions_add_up) + " " + std::string(wording::which_time_counts));
  pages.paragraph(view.input.motion_table.empty() ? wording::shipped_table_note : wording::plant_table_note);
  pages.add(table_of_elements(view));
  if (std::any_of(found.begin(), found.end(), [](const ElementMotions& m) { return m.second(); }))
    pages.paragraph(wording::two_analyses_note, ParagraphRole::small);
  for (const ElementMotions& motions : found)
    for (const MotionAnalysis& analysis : motions.analyses) {
      pages.add(table_of_motions(view, motions, analysis));
      add_pairs(pages, view, analysis);
      add_values_from_memory(pages, analysis);
      add_other_problems(pages, view, analysis);
    }
}

} // namespace docket
