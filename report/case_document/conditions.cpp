// Conditions at the station, and what the data can't show.
#include "report/case_document/pages.h"
#include "report/figures/condition_lanes.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <map>
#include <optional>

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
    if (view.copy == CopyFor::review && !condition.note.empty()) name.push_back(plain(": " + condition.note));
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

/// Mean of each worked day over the plain cycles of people, each scaled to the mean unit by the standard. Marked cycles
/// stay out; those that a condition takes out of A are in, for the picture is about them.
std::vector<DayResult> results_by_day(const CaseView& view) {
  const StandardTime& standard = view.findings.content.standard;
  std::map<Date, std::pair<double, std::int64_t>> days;
  for (const PersonCycle& cycle : view.findings.evidence.cycles) {
    const auto variant = static_cast<std::size_t>(cycle.variant);
    if (!cycle.marks.plain() || cycle.variant < 0 || variant >= standard.variants.size()) continue;
    const Seconds content = standard.variants[variant].time;
    if (content.count() <= 0) continue;
    auto& [sum, n] = days[cycle.day];
    sum += cycle.work / content;
    ++n;
  }
  std::vector<DayResult> results;
  for (const auto& [day, found] : days)
    results.push_back(
        {day, found.first / static_cast<double>(found.second) * standard.mean * view.findings.time.measured_factor,
         found.second});
  return results;
}

std::optional<Date> day_of(const std::optional<Instant>& instant) {
  return instant ? std::optional(std::chrono::floor<std::chrono::days>(*instant)) : std::nullopt;
}

/// Only where cycles lie on two days and more; of very many conditions the first.
void add_lanes(CasePages& pages, const CaseView& view) {
  constexpr std::size_t most_lanes = 20;
  ConditionLanes lanes;
  lanes.days = results_by_day(view);
  if (lanes.days.size() < 2) return;
  std::string described;
  for (const Condition& condition : view.input.conditions) {
    if (lanes.lanes.size() == most_lanes) break;
    ConditionLane lane;
    lane.label = condition.check;
    lane.state = wording::state_in_words(condition.state);
    lane.touches = condition.whole_station() ? "" : affected(view, condition);
    lane.fill = condition.state == ConditionState::as_standard ? LaneFill::as_assumed
                : condition.state == ConditionState::differs   ? LaneFill::differs
                                                               : LaneFill::not_checked;
    lane.from = day_of(condition.from);
    lane.to = day_of(condition.to);
    described += (described.empty() ? "" : "; ") + lane.label + ": " + lane.state;
    if (lane.from) described += " from " + format_date(*lane.from);
    if (lane.to) described += " to " + format_date(*lane.to);
    lanes.lanes.push_back(std::move(lane));
  }
  lanes.limit = view.findings.time.limit;
  lanes.limit_label = "Limit " + format_seconds(lanes.limit);
  lanes.result_label = "All cycles, all people";
  std::int64_t n = 0;
  for (const DayResult& day : lanes.days) n += day.n;
  Figure figure;
  figure.title = "Conditions beside results, day by day";
  figure.description = "Mean time of each of " + format_count(static_cast<std::int64_t>(lanes.days.size())) +
                       " days over n = " + format_count(n) + " plain cycles. " + described + ".";
  figure.caption =
      runs("Over the lanes: mean of a day's plain cycles, n = " + format_count(n) +
           " in all, each scaled to the average unit by the standard; all people together. White: as the "
           "standard assumes; hatched: differs; dots: not checked. A bar without a day given runs over all "
           "days shown. What changed on the same days is not thereby the cause.");
  figure.drawing = draw_condition_lanes(lanes);
  pages.add(figure);
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

/// Margin of the mean without and with the cycles that differing conditions touch, and what lies between.
std::string seconds_at_stake(const ContentFindings& content) {
  const auto flip = std::find_if(content.flips.begin(), content.flips.end(),
                                 [](const Flip& one) { return one.code == "with_differing"; });
  if (flip == content.flips.end() || !content.combined) return "";
  return " In seconds: margin of the mean without them " + format_signed_seconds(content.combined->margin) +
         ", with them " + format_signed_seconds(flip->margin) + "; at stake " +
         format_signed_seconds(content.combined->margin - flip->margin) + ".";
}

} // namespace

void add_conditions(CasePages& pages, const CaseView& view) {
  pages.section("Conditions at the station");
  if (view.input.conditions.empty()) {
    pages.paragraph("No conditions were given. Whether the station was as the standard assumes is open.");
    return;
  }
  pages.add(conditions_table(view));
  add_lanes(pages, view);
  const ContentFindings& content = view.findings.content;
  if (content.with_differing) {
    std::string text =
        "Without the cycles touched by a differing condition: " + std::string(wording::finding_word(content.word));
    if (content.combined)
      text += ", chance that the mean is within the limit " + format_chance(content.combined->p_fits);
    text += ". With them taken in: " + std::string(wording::finding_word(content.with_differing->word));
    if (content.with_differing->p_fits) text += ", chance " + format_chance(*content.with_differing->p_fits);
    pages.paragraph(text + "." + seconds_at_stake(content));
  }
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
