#include "report/case_document/adaptation_parts.h"
#include "report/format.h"
#include "report/wording/adaptation.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace docket {
namespace {

std::string by_variant(const Case& input, const PracticeSeries& series) {
  std::string text;
  for (std::size_t v = 0; v < series.by_variant.size(); ++v)
    text += (text.empty() ? "" : ", ") + input.variants[v].variant + " " + format_count(series.by_variant[v]);
  return text;
}

std::string outlook_in_words(const Outlook& outlook) {
  const auto width = [](const std::optional<Seconds>& seconds) {
    return seconds ? format_seconds(*seconds) + " wide" : std::string("without an end");
  };
  return width(outlook.width) + " now, " + width(outlook.width_then) +
         " then, if the times go on as the averaged curves say";
}

std::string cycles_lost(const Interruption& found) {
  if (!found.loss) return "";
  if (!found.loss_shown) return "no loss is shown";
  if (!found.cycles_lost) return "the curve before does not tell";
  return wording::about_count(*found.cycles_lost) + " (" + wording::about_count(found.least_lost.value_or(0)) + " to " +
         (found.most_lost ? wording::about_count(*found.most_lost) : "all of them") + ")";
}

const BorrowedEstimate* borrowed_for(const Findings& findings, std::int32_t op) {
  for (const BesideAdaptation& beside : findings.beside_adaptation)
    if (beside.op == op && beside.borrowed) return &*beside.borrowed;
  return nullptr;
}

std::string extremes_in_words(const ResidualChecks& checks) {
  if (!checks.extremes_looked_for) return "not looked for: fewer than 25 plain cycles";
  if (checks.extremes.empty()) return "none";
  std::string text;
  for (const ExtremeCycle& extreme : checks.extremes)
    text += (text.empty() ? "" : "; ") + format_count(std::llround(extreme.n)) + " on " + format_date(extreme.day) +
            ", " + format_seconds(extreme.time) + (extreme.in_sd > 0 ? ", longer" : ", shorter");
  return text + ". Is anything known of them? Nothing is left out for it";
}

} // namespace

Table model_table(const AdaptationEstimates& own) {
  Table table;
  table.caption = "The curves, each alone, and averaged";
  table.dense = true;
  table.columns = {{"Curve", Align::left},
                   {"Weight", Align::right},
                   {"Settled level, s (from, to)", Align::left, true},
                   {"Floor, s (from, to)", Align::left, true}};
  const auto range = [](const TimeEstimate& level) {
    return format_bare_seconds(level.time) + " (" + format_bare_interval(level.low, level.high) + ")";
  };
  const auto floor = [&](const ModelAnswer& answer) -> std::string {
    constexpr double nothing_left = 0.01; ///< [1] of the settled level: the curve found no floor
    if (!answer.asymptote) return "none: it falls without end";
    if (answer.asymptote->time < nothing_left * answer.settled.time) return "none found";
    return range(*answer.asymptote);
  };
  for (const ModelAnswer& answer : own.models) {
    table.rows.push_back({runs(wording::model_in_words(answer.fit.model)), runs(format_percent(answer.weight)),
                          runs(range(answer.settled)), runs(floor(answer))});
  }
  table.rows.push_back({{strong("all together: the middle value")}, runs(""), {strong(range(own.settled))}, runs("")});
  return table;
}

std::string disagreement_of(const AdaptationEstimates& own) {
  constexpr double worth_naming = 0.01; ///< [1] of the weight: less says nothing about this person
  std::optional<Seconds> low, high;
  for (const ModelAnswer& answer : own.models) {
    if (answer.weight < worth_naming) continue;
    low = std::min(low.value_or(answer.settled.time), answer.settled.time);
    high = std::max(high.value_or(answer.settled.time), answer.settled.time);
  }
  constexpr Seconds printed_step{0.05};
  if (*high - *low < printed_step)
    return "One curve carries the weight, or those that carry it agree. No curve is picked.";
  return "By the curve chosen, among those with 1 % of the weight or more, the settled level differs by up to " +
         format_seconds(*high - *low) +
         ". No curve is picked: each counts by how well it follows the cycles. The middle value is the level below "
         "which half of the weight lies, all curves and their spreads taken together. It is not the mean of the rows; "
         "what the curves disagree on is in its interval.";
}

Table what_the_cycles_say(const CaseView& view, const Adaptation& adaptation) {
  const AdaptationEstimates& own = *adaptation.estimates;
  const PracticeSeries& series = adaptation.series;
  const Seconds limit = view.findings.time.limit;
  const std::string may_be_left = format_percent(view.input.settings.improvement_left);
  Table table;
  table.caption = "What the cycles say, for the planned mix, at own pace";
  table.columns = {{"What", Align::left}, {"Value", Align::left}};
  const auto row = [&](std::string_view what, const std::string& value) {
    table.rows.push_back({runs(what), runs(value)});
  };
  const auto plain_cycles = static_cast<std::int64_t>(series.plain.size());
  row("Own cycles in the evidence", format_count(series.cycles) + ": " + format_count(plain_cycles) + " plain, " +
                                        format_count(series.lower_bounds) + " helped or cut short, " +
                                        format_count(series.cycles - plain_cycles - series.lower_bounds) +
                                        " set apart by another mark or a condition");
  row("Plain cycles", "n = " + format_count(static_cast<std::int64_t>(series.plain.size())) + " on " +
                          counted(series.days, "worked day", "worked days"));
  row("Own cycles by variant, whatever their mark", by_variant(view.input, series));
  row("Own count", format_count(series.first_cycle) + " to " + format_count(series.last_cycle) +
                       wording::count_before_in_words(series, adaptation.before_tried));
  row("Today's level", level_with_range(own.today) + ", " + wording::against_limit(own.today, limit));
  row("Settled level, " + format_count(own.horizon_cycles) + " own cycles after the last one",
      level_with_range(own.settled) + ", " + wording::against_limit(own.settled, limit));
  row("Chance that the settled level is within the limit", format_chance(own.p_within));
  row("Improvement left", format_percent(own.improvement) + " (" + format_percent(own.improvement_low) + " to " +
                              format_percent(own.improvement_high) + ")");
  row("Chance that more than " + may_be_left + " is left", format_chance(own.p_improving));
  row("Own cycles to go",
      wording::cycles_to_go_in_words(own.to_limit, own.reach_cycles) + wording::in_worked_days(own.to_limit, series));
  row("Chance of not getting there within " + format_count(own.reach_cycles) + " own cycles",
      format_chance(own.to_limit.p_never));
  row("Likeness of a cycle to the one before",
      format_fixed(own.lag1, 2) + " (0 none, 1 full); it widens the intervals");
  if (own.late_slope) {
    row("By the last half of the plain cycles alone",
        "by a straight line, at most " + format_percent(own.late_slope->improvement_bound) +
            " is still to come; by the curves, the chance that more than " + may_be_left + " is left: " +
            format_chance(own.late_slope->p_improving) + ". Up to " + may_be_left + " and up to 10 % count as settled");
  }
  row("Interval of the settled level, after " + format_count(own.outlook.cycles) + " more plain cycles",
      outlook_in_words(own.outlook));
  if (series.lower_bounds > 0) {
    row("With the help counted in (second row)",
        "settled level " + format_seconds(own.settled_with_helped) + "; chance that more than " + may_be_left +
            " is left: " + format_chance(own.p_improving_with_helped) + "; that it is within the limit: " +
            format_chance(own.p_within_with_helped) + ". " + counted(series.lower_bounds, "cycle", "cycles") +
            " helped or cut short, taken as time and seconds of help where they are given");
  } else {
    row("With the help counted in (second row)", "the same: no cycle here is marked as helped or cut short");
  }
  return table;
}

Table interruption_table(const Adaptation& adaptation) {
  Table table;
  table.caption = "Breaks in the record, and what was lost across them";
  table.dense = true;
  table.columns = {{"Break", Align::left},
                   {"After own cycle", Align::right},
                   {"Days", Align::right},
                   {"Level before", Align::left},
                   {"Loss (from, to)", Align::left},
                   {"Own cycles lost (from, to)", Align::left},
                   {"Own cycles since", Align::right}};
  for (const Interruption& found : adaptation.interruptions) {
    std::string loss = wording::no_loss_in_words(found.none_why);
    if (found.loss) {
      const Seconds level = found.level_before->time;
      const Loss& share = *found.loss;
      loss = format_signed_seconds(level * share.share) + " (" +
             format_signed_interval(level * share.low, level * share.high) + "), " +
             wording::signed_percent(share.share) + " (" + wording::signed_percent(share.low) + " to " +
             wording::signed_percent(share.high) + ")";
    }
    table.rows.push_back({runs(wording::break_in_words(found.at)), runs(format_count(found.at.after)),
                          runs(format_count((found.at.day - found.at.last_before).count())),
                          runs(found.level_before ? level_with_range(*found.level_before) : ""), runs(loss),
                          runs(cycles_lost(found)), runs(format_count(found.since))});
  }
  return table;
}

Table checks_table(const AdaptationEstimates& own) {
  const ResidualChecks& checks = *own.checks;
  Table table;
  table.caption = "Checks of this record";
  table.columns = {{"What", Align::left}, {"Found", Align::left}};
  const auto row = [&](const std::string& what, const std::string& value) {
    table.rows.push_back({runs(what), runs(value)});
  };
  row("Is a cycle like the one before it, more than by chance?",
      "likeness " + format_fixed(checks.dependence.lag1, 2) + ", n = " + format_count(checks.dependence.pairs) +
          " pairs; one so far from 0 comes by chance in " + format_chance(checks.dependence.p));
  if (checks.warm_up) {
    const WarmUp& warm_up = *checks.warm_up;
    row("First cycles of a worked day against the rest of it",
        wording::signed_percent(warm_up.ratio - 1) + " (" + wording::signed_percent(warm_up.low - 1) + " to " +
            wording::signed_percent(warm_up.high - 1) + "), on " + counted(warm_up.days, "worked day", "worked days") +
            (warm_up.named ? "; the curves do not follow it" : ""));
  } else {
    row("First cycles of a worked day against the rest of it",
        "not known: fewer than five worked days with enough cycles");
  }
  row("Cycles far from the curves, by own cycle", extremes_in_words(checks));
  if (checks.robust)
    row("Settled level where outlying cycles count less",
        level_with_range(checks.robust->settled) + ", beside " + level_with_range(own.settled) +
            "; beyond 1.345 spreads: " + counted(checks.robust->clipped, "cycle counts", "cycles count") +
            " less; that is no fault of theirs");
  else
    row("Settled level where outlying cycles count less", "not known: half of the cycles or more lie on the curve");
  return table;
}

Table earlier_learners_table(const CaseView& view, const Adaptation& adaptation) {
  Table table;
  table.caption = "Beside: earlier learners of this station";
  table.columns = {{"What", Align::left}, {"Level for the planned mix", Align::left}};
  const auto row = [&](const std::string& what, const std::string& value) {
    table.rows.push_back({runs(what), runs(value)});
  };
  if (const auto& band = view.findings.earlier_learners) {
    const std::string whose = format_count(band->learners) + " earlier learners";
    const LearnersAtCycle* near = nullptr; // the last one this person has reached
    for (const LearnersAtCycle& at : band->levels)
      if (at.cycle <= static_cast<double>(adaptation.series.last_cycle)) near = &at;
    if (near != nullptr)
      row(whose + ", at own cycle " + format_count(std::llround(near->cycle)), level_with_range(near->level));
    row(whose + ", settled", level_with_range(band->settled));
  }
  if (const BorrowedEstimate* found = borrowed_for(view.findings, adaptation.op)) {
    const BorrowedEstimate& borrowed = *found;
    const std::string from = wording::borrowed_from(borrowed.learners);
    row("Today's level, " + from, level_with_range(borrowed.today));
    row("Settled level, " + from, level_with_range(borrowed.settled) + "; own cycles bring " +
                                      format_percent(borrowed.own_share) +
                                      " of what is known of it (n = " + format_count(borrowed.own_cycles) + ")");
    const CyclesToGo to_go{borrowed.to_limit, borrowed.to_limit_low, borrowed.to_limit_high, borrowed.p_never};
    const auto horizon = std::llround(borrowed.reach) - adaptation.series.last_cycle;
    row("Own cycles to go, " + from, wording::cycles_to_go_in_words(to_go, horizon));
  }
  return table;
}

} // namespace docket
