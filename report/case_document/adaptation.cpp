// Question B in detail: for every operator asked about, the practice curve, the curves compared, what it means, and
// where the seconds lie. Of an operator who can't be assessed now it holds the one sentence and nothing else.
#include "report/wording/adaptation.h"

#include "report/case_document/pages.h"
#include "report/figures/bridge_bars.h"
#include "report/figures/practice_curve.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <optional>

namespace docket {
namespace {

std::string level_with_range(const TimeEstimate& level) {
  return format_seconds(level.time) + " (" + format_bare_interval(level.low, level.high) + ")";
}

// The plain cycles are among those with bounds, in the same order: what is not plain is a lower bound.
std::vector<CyclePoint> points_of(const PracticeSeries& series) {
  std::vector<CyclePoint> points;
  std::size_t next_plain = 0;
  for (const PracticePoint& point : series.with_bounds) {
    const bool is_plain = next_plain < series.plain.size() && series.plain[next_plain].n == point.n;
    if (is_plain) ++next_plain;
    points.push_back({point.n, Seconds{point.seconds}, !is_plain});
  }
  return points;
}

std::vector<CurveGap> gaps_of(const PracticeSeries& series, std::int64_t gap_days) {
  std::vector<CurveGap> gaps;
  for (std::size_t i = 1; i < series.with_bounds.size(); ++i) {
    const PracticePoint &before = series.with_bounds[i - 1], &after = series.with_bounds[i];
    const std::int64_t days = (after.day - before.day).count();
    if (days > gap_days) gaps.push_back({before.n, after.n, days});
  }
  return gaps;
}

void add_curves(PracticeCurvePicture& picture, const AdaptationEstimates& own, double first, double last) {
  constexpr int steps = 80;
  picture.single.resize(own.models.size());
  for (int i = 0; i <= steps; ++i) {
    const double cycle = first + (last - first) * i / steps;
    double averaged = 0;
    for (std::size_t m = 0; m < own.models.size(); ++m) {
      const double level = own.models[m].fit.level(cycle);
      averaged += own.models[m].weight * level;
      picture.single[m].push_back({cycle, Seconds{level}});
    }
    picture.averaged.push_back({cycle, Seconds{averaged}});
  }
}

PracticeCurvePicture picture_of(const CaseView& view, const Adaptation& adaptation) {
  const PracticeSeries& series = adaptation.series;
  const AdaptationEstimates& own = *adaptation.estimates;
  PracticeCurvePicture picture;
  picture.cycles = points_of(series);
  add_curves(picture, own, series.plain.front().n, series.plain.back().n);
  for (const LevelAtCycle& at : own.course) {
    if (at.level.low) picture.band_low.push_back({at.cycle, *at.level.low});
    if (at.level.high) picture.band_high.push_back({at.cycle, *at.level.high});
  }
  picture.gaps = gaps_of(series, view.input.settings.gap_days);
  picture.limit = view.findings.time.limit;
  picture.limit_label = "limit " + format_seconds(picture.limit);
  picture.today = own.today;
  picture.settled = own.settled;
  if (const auto& band = view.findings.adaptation_band) {
    picture.others = {band->low, band->high};
    picture.others_label = "grey band: " + format_count(band->n) + " settled operators of A";
  }
  picture.axis_title = series.first_cycle_estimated ? "Own cycles, counted from an estimated start" : "Own cycles";
  return picture;
}

Runs caption_of(const CaseView& view, const Adaptation& adaptation, const PracticeCurvePicture& picture) {
  const auto n = static_cast<std::int64_t>(picture.cycles.size());
  const std::int64_t bounds = std::count_if(picture.cycles.begin(), picture.cycles.end(),
                                            [](const CyclePoint& point) { return point.lower_bound; });
  const std::size_t every = drawn_every(picture.cycles.size());
  const auto beyond = static_cast<std::int64_t>(count_beyond_axis(picture));
  std::string text = "Faint points: plain cycles, n = " + format_count(n - bounds) + ". ";
  if (bounds > 0)
    text += "Short strokes upwards: " + counted(bounds, "cycle", "cycles") +
            " helped or cut short, at least this long; the curves are drawn without them. ";
  if (every > 1)
    text += "Of these cycles, one in " + std::to_string(every) + " is drawn; the curves use all plain ones. ";
  if (const auto& band = view.findings.adaptation_band)
    text += "Grey band: the levels of the " + format_count(band->n) +
            " settled operators of A whom B is not asked about, smallest to largest. ";
  if (beyond > 0) text += counted(beyond, "cycle lies", "cycles lie") + " beyond the axis and stand at its edge. ";
  text += "Thick line: the curves averaged; thin lines beside it: the interval of the average; dashed: each curve "
          "alone. They end with the cycles seen. Right: today's "
          "level, and the settled level (hollow), each with its interval. ";
  if (!picture.gaps.empty())
    text += "Dotted: more than " + counted(view.input.settings.gap_days, "day", "days") + " between two worked days. ";
  if (adaptation.series.first_cycle_estimated)
    text += "The own count is estimated: " + counted(adaptation.series.before, "cycle", "cycles") +
            " taken to come before the first one here. ";
  text += "One curve is no measure of another person.";
  return runs(text);
}

Figure curve_figure(const CaseView& view, const Adaptation& adaptation) {
  const AdaptationEstimates& own = *adaptation.estimates;
  const PracticeCurvePicture picture = picture_of(view, adaptation);
  Figure figure;
  figure.title = "Operator " + operator_code(view.input, adaptation.op) + ": times against own cycles";
  figure.description = "Every cycle as a point against the own count, n = " +
                       format_count(static_cast<std::int64_t>(picture.cycles.size())) +
                       ", with the curves laid through them and the " + picture.limit_label + ". Today's level " +
                       level_with_range(own.today) + ", settled level " + level_with_range(own.settled) + ".";
  figure.caption = caption_of(view, adaptation, picture);
  figure.drawing = draw_practice_curve(picture);
  return figure;
}

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

Table in_plain_words(const CaseView& view, const Adaptation& adaptation) {
  const AdaptationEstimates& own = *adaptation.estimates;
  const PracticeSeries& series = adaptation.series;
  const Seconds limit = view.findings.time.limit;
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
  row("Own count", format_count(series.first_cycle) + " to " + format_count(series.last_cycle) +
                       wording::count_before_in_words(series, adaptation.before_tried));
  row("Today's level", level_with_range(own.today) + ", " + wording::against_limit(own.today, limit));
  row("Settled level, " + format_count(own.horizon_cycles) + " own cycles after the last one",
      level_with_range(own.settled) + ", " + wording::against_limit(own.settled, limit));
  row("Chance that the settled level is within the limit", format_chance(own.p_within));
  row("Improvement left", format_percent(own.improvement) + " (" + format_percent(own.improvement_low) + " to " +
                              format_percent(own.improvement_high) + ")");
  row("Chance that more than " + format_percent(view.input.settings.improvement_left) + " is left",
      format_chance(own.p_improving));
  row("Own cycles to go",
      wording::cycles_to_go_in_words(own.to_limit, own.reach_cycles) + wording::in_worked_days(own.to_limit, series));
  row("Chance of not getting there within " + format_count(own.reach_cycles) + " own cycles",
      format_chance(own.to_limit.p_never));
  row("Likeness of a cycle to the one before",
      format_fixed(own.lag1, 2) + " (0 none, 1 full); it widens the intervals");
  if (series.lower_bounds > 0) {
    row("With the help counted in (second row)",
        "settled level " + format_seconds(own.settled_with_helped) + "; chance that more than " +
            format_percent(view.input.settings.improvement_left) + " is left: " +
            format_chance(own.p_improving_with_helped) + ". " + counted(series.lower_bounds, "cycle", "cycles") +
            " helped or cut short, taken as time and seconds of help");
  } else {
    row("With the help counted in (second row)", "the same: no cycle here is marked as helped or cut short");
  }
  return table;
}

// Enough to compute every number of the tables again with another program.
List how_to_recompute() {
  List list;
  for (const std::string_view line : wording::how_b_is_computed) list.items.push_back(runs(line));
  return list;
}

void add_told(CasePages& pages, const CaseView& view) {
  const CaseFacts& facts = view.input.facts;
  const auto day = [](const std::optional<Date>& date) { return date ? format_date(*date) : std::string("not given"); };
  pages.paragraph({plain("Those asked about were told on: " + day(facts.b_told_on)),
                   reference_to_key(view.input, "b_told_on"),
                   plain(". What is measured was agreed on: " + day(facts.plan_agreed_on)),
                   reference_to_key(view.input, "plan_agreed_on"), plain(".")},
                  ParagraphRole::small);
}

std::string signed_range(const BridgeTerm& term) { return format_signed_interval(term.low, term.high); }

void add_bridge(CasePages& pages, const CaseView& view, const TimeBridge& bridge) {
  const std::string code = operator_code(view.input, bridge.op);
  if (!bridge.terms) {
    pages.paragraph({strong("Time bridge: none. "), plain(wording::bridge_absent_in_words(bridge.absent_why))});
    return;
  }
  BridgeBars bars;
  bars.start = view.findings.time.limit;
  bars.start_label = "Limit";
  bars.end_label = "Mean of the cycles seen";
  bars.axis_title = "Seconds a unit, for the mix this operator built";
  Figure figure;
  figure.title = "Operator " + code + ": where the seconds lie";
  figure.description = "Bars from the limit, " + format_seconds(bars.start) + ", to the mean of the cycles seen. ";
  Table table;
  table.caption = "The steps of the bridge";
  table.columns = {{"Step", Align::left}, {"Seconds", Align::right}, {"From, to", Align::right}};
  for (const BridgeTerm& term : *bridge.terms) {
    const wording::BridgeWords words = wording::bridge_term_in_words(term.term);
    bars.steps.push_back({std::string(words.what), std::string(words.against), term.seconds, term.low, term.high});
    const std::string step = std::string(words.what) + " " + std::string(words.against);
    figure.description += step + " " + format_signed_seconds(term.seconds) + ". ";
    table.rows.push_back({runs(step), runs(format_signed_bare_seconds(term.seconds)), runs(signed_range(term))});
  }
  table.rows.push_back({{strong("Mean of the cycles seen, against the limit")},
                        {strong(format_signed_bare_seconds(bridge.sum))},
                        runs("")});
  const auto n = static_cast<std::int64_t>(
      std::find_if(view.findings.adaptation.begin(), view.findings.adaptation.end(), [&](const Adaptation& adaptation) {
        return adaptation.op == bridge.op;
      })->series.plain.size());
  figure.caption =
      runs("n = " + format_count(n) + " plain cycles. Hatched: adds seconds. Dotted: takes seconds away. " +
           "The line below a bar is the interval of that step. " + std::string(wording::bridge_intervals));
  figure.drawing = draw_bridge_bars(bars);
  pages.add(figure);
  pages.add(table);
  pages.paragraph(
      "Every level is taken for the mix this operator built in the cycles seen, so it can differ from the "
      "level for the planned mix. The first two steps carry the uncertainty of the standard's level. The "
      "last step is what was gained while these cycles were made, and what the curves don't follow. Steps are "
      "rounded one by one, so they can miss their sum by 0.1 s. The bridge compares levels and is no measure "
      "of a person.",
      ParagraphRole::small);
}

void add_operator(CasePages& pages, const CaseView& view, const Adaptation& adaptation, const TimeBridge* bridge,
                  const Excess* excess) {
  pages.part("Operator " + operator_code(view.input, adaptation.op) + ": " +
             std::string(wording::finding_word(adaptation.word)));
  if (adaptation.word == AdaptationWord::not_assessable_now) {
    pages.paragraph(wording::not_assessable_line);
    return;
  }
  Runs why;
  for (const Reason& reason : adaptation.reasons)
    why.push_back(plain(wording::adaptation_reason_in_words(reason) + " "));
  why.push_back(plain(wording::nothing_about_why));
  why.push_back(reference_to(view.input, view.input.operators[static_cast<std::size_t>(adaptation.op)].origin));
  pages.paragraph(why);
  if (adaptation.estimates) {
    pages.add(curve_figure(view, adaptation));
    pages.add(in_plain_words(view, adaptation));
    pages.add(model_table(*adaptation.estimates));
    pages.paragraph(disagreement_of(*adaptation.estimates));
  } else {
    const PracticeSeries& series = adaptation.series;
    pages.paragraph("No curve is laid through these cycles: " + counted(series.cycles, "own cycle", "own cycles") +
                    " seen, of them n = " + format_count(static_cast<std::int64_t>(series.plain.size())) +
                    " plain, on " + counted(series.days, "worked day", "worked days") + ".");
  }
  const bool open = adaptation.word == AdaptationWord::not_shown;
  Runs decides{strong(open ? "What would decide it. " : "What would change it. ")};
  for (const Reason& reason : adaptation.would_decide)
    decides.push_back(plain(wording::would_decide_adaptation(reason) + " "));
  if (decides.size() > 1) pages.paragraph(decides);
  if (bridge != nullptr) add_bridge(pages, view, *bridge);
  if (excess != nullptr) add_excess(pages, view, *excess);
}

} // namespace

void add_adaptation(CasePages& pages, const CaseView& view) {
  pages.section("Question B in detail");
  const Findings& findings = view.findings;
  if (!findings.asked_not_in_data.empty())
    pages.paragraph(wording::asked_not_in_data_in_words(findings.asked_not_in_data));
  if (findings.adaptation.empty()) {
    if (findings.asked_not_in_data.empty()) pages.paragraph({strong("Not asked. "), plain(wording::b_not_asked)});
    return;
  }
  pages.paragraph(
      "B looks at one operator's own times against own cycles, and never at A. It is asked for those named "
      "in the case, in the order named. The order says nothing. A's rule for a settled operator looks back at "
      "the last worked days; B also asks what the curves say of cycles to come. The two can differ, and "
      "neither answers for the other.");
  add_told(pages, view);
  for (const Adaptation& adaptation : findings.adaptation) {
    const auto bridge = std::find_if(findings.bridges.begin(), findings.bridges.end(),
                                     [&](const TimeBridge& one) { return one.op == adaptation.op; });
    const auto excess = std::find_if(findings.excesses.begin(), findings.excesses.end(),
                                     [&](const Excess& one) { return one.op == adaptation.op; });
    add_operator(pages, view, adaptation, bridge == findings.bridges.end() ? nullptr : &*bridge,
                 excess == findings.excesses.end() ? nullptr : &*excess);
  }
  if (std::any_of(findings.adaptation.begin(), findings.adaptation.end(),
                  [](const Adaptation& adaptation) { return adaptation.estimates.has_value(); })) {
    pages.part("How to compute the numbers of B again");
    pages.add(how_to_recompute());
  }
  if (findings.adaptation_band) {
    const AdaptationBand& band = *findings.adaptation_band;
    pages.paragraph("Others: the levels of the " + format_count(band.n) +
                    " settled operators of A whom B is not asked about lie between " + format_seconds(band.low) +
                    " and " + format_seconds(band.high) +
                    ". B says nothing about any one of them; the levels are those that A uses, in the section on A.");
  }
}

} // namespace docket
