#include "ingest/reading/motion_times.h"

#include "core/content/motions/standard_motions.h"
#include "ingest/motion_data.h"
#include "ingest/reading/cell_values.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace docket {

namespace {

// A time given in seconds to one decimal, or to three digits, agrees with its motions within these.
constexpr double agrees_within_s = 0.05;      // [s]
constexpr double agrees_within_share = 0.005; // [1]

std::string to_hundredths(double number) { return short_number(std::round(number * 100) / 100); }

std::string in_seconds(Seconds time) { return to_hundredths(time.count()) + " s"; }

std::string by(const MotionAnalysis& analysis) { return analysis.analyst.empty() ? "" : " by " + analysis.analyst; }

/// What is wrong with one row; nothing where it is only a matter for the document.
void report(Draft& draft, const MotionStep& motion, const MotionProblem& problem) {
  const auto put = [&](std::string_view column, std::string_view raw, IssueGrade grade, std::string code) {
    row_issue(draft, motion.origin, column, raw, {grade, std::move(code), problem.wrong, problem.right});
  };
  static constexpr std::array<std::string_view, 5> without_time{"beyond_table", "below_table", "weight_beyond_table",
                                                                "not_in_table", "not_in_plant_table"};
  if (problem.code == "unreadable_code")
    put("code", motion.code, IssueGrade::fault, "motion_code_unreadable");
  else if (std::find(without_time.begin(), without_time.end(), problem.code) != without_time.end())
    put("code", motion.code, IssueGrade::fault, "motion_without_time");
  else if (problem.code == "stated_differs")
    put("tmu", short_number(*motion.stated_tmu), IssueGrade::question, "motion_tmu_differs");
  else if (problem.code == "distance_over_30")
    put("code", motion.code, IssueGrade::question, "motion_distance_long");
  else if (problem.code == "counts_differ")
    put("per_element", short_number(motion.per_element), IssueGrade::question, "motion_counts_differ");
}

void report_shipped_table(Draft& draft) {
  add_table_issue(draft.issues,
                  {IssueGrade::question, "shipped_motion_table",
                   "There is no sheet motion_table, so the values that come with the program are used. They are for "
                   "checking an analysis. Codes are read as inches and pounds.",
                   "Put the plant's own licensed table into the sheet motion_table. You are responsible for the right "
                   "to use such a table."},
                  draft.state(TableName::motions).sheets.front().source, TableName::motions, 0, "", "");
}

/// A time given beside motions that give another. The one given is used.
void ask_about_difference(Draft& draft, const StandardElement& element, const MotionAnalysis& analysis) {
  const auto computed = analysis.time();
  if (!computed) return;
  const double apart = std::abs((*element.time - *computed).count());
  // The tiny part lets a difference of exactly half a digit agree whatever the last bits of a double say.
  if (apart <= std::max(agrees_within_s, agrees_within_share * element.time->count()) + 1e-9) return;
  row_issue(draft, element.origin, "time_s", short_number(element.time->count()),
            {IssueGrade::question, "motions_differ_from_time",
             "The time given is " + in_seconds(*element.time) + ", the motions of " + element.element + " make " +
                 in_seconds(*computed) + ". The time given is used.",
             "Leave it if the time is from another source. Leave time_s blank to use the motions, or correct one."});
}

void take_time(StandardElement& element, const ElementMotions& motions) {
  element.time = motions.first().time();
  element.time_from_motions = true;
  element.time_source = TimeSource::motion_times;
  if (element.uncertainty) return;
  if (const auto u = motions.uncertainty()) {
    element.uncertainty = *u / *element.time;
    element.uncertainty_from_motions = true;
  }
}

/// The rows themselves, and elements with more than two analysts.
void report_rows(Draft& draft, const std::vector<ElementMotions>& found) {
  // Codes of a plant's table that could not be read itself would all look unknown; times of one with a fault mislead.
  if (draft.state(TableName::motion_table).broken()) return;
  const bool faults_only = has_faults(draft, TableName::motion_table);
  for (const ElementMotions& motions : found) {
    for (const MotionAnalysis& analysis : motions.analyses)
      for (const MotionProblem& problem : analysis.result.problems) {
        if (faults_only && problem.code == "stated_differs") continue;
        report(draft, draft.input.motions[analysis.rows[problem.row]], problem);
      }
    if (motions.analyses.size() < 3) continue;
    const MotionAnalysis& third = motions.analyses[2];
    row_issue(draft, draft.input.motions[third.rows.front()].origin, "analyst", third.analyst,
              {IssueGrade::question, "third_motion_analysis",
               "The motions of " + draft.input.standard[static_cast<std::size_t>(motions.element)].element +
                   " are by more than two analysts. The first two are compared" + by(third) +
                   " and later ones are printed, not used.",
               "Leave two analyses, the one that counts first."});
  }
}

} // namespace

void take_motion_times(Draft& draft) {
  const bool rows_sound = !has_faults(draft, TableName::motions) && !has_faults(draft, TableName::motion_table);
  if (!draft.input.motions.empty() && !draft.state(TableName::motion_table).present()) {
    draft.input.shipped_motion_times = read_shipped_motion_times();
    report_shipped_table(draft);
  }
  const std::vector<ElementMotions> found = analyse_motions(draft.input);
  report_rows(draft, found);

  const std::set<std::int32_t> blank(draft.without_time.begin(), draft.without_time.end());
  for (const ElementMotions& motions : found) {
    StandardElement& element = draft.input.standard[static_cast<std::size_t>(motions.element)];
    const auto time = motions.first().time();
    if (!blank.contains(motions.element)) {
      if (element.time && rows_sound) ask_about_difference(draft, element, motions.first());
    } else if (!time) {
      continue; // a row of it has a fault, which is listed
    } else if (*time > Seconds{0}) {
      take_time(element, motions);
    } else if (rows_sound) {
      row_issue(draft, element.origin, "time_s", "",
                {IssueGrade::fault, "motions_without_time",
                 "The motions of " + element.element + " add up to 0 TMU, and time_s is blank.",
                 "Complete its motions, or write its time in time_s."});
    }
  }
  if (!draft.elements.complete || draft.state(TableName::motions).broken()) return;
  for (const std::int32_t e : draft.without_time)
    if (!draft.with_motions.contains(e))
      row_issue(draft, draft.input.standard[static_cast<std::size_t>(e)].origin, "time_s", "",
                {IssueGrade::fault, "element_without_time", "The element has neither a time nor motions.",
                 "Write its time in time_s, or its motions in the sheet motions."});
}

} // namespace docket
