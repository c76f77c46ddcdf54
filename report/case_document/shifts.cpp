// Question A in detail: shifts against one another, in order of name and never of time, and single cycles beyond the limit.
#include "report/wording/shifts.h"

#include "core/rules.h"
#include "report/case_document/pages.h"
#include "report/figures/dot_plot.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

constexpr double whole_mix = 0.999; ///< [1] of the planned mix, up to rounding of its shares

std::string difference_in_percent(double ln_ratio) {
  const double percent = 100 * std::expm1(ln_ratio);
  const std::string digits = format_fixed(percent, 1);
  return percent > 0 && digits != "0.0" ? "+" + digits : digits;
}

/// Three decimals: it is compared with 0.025 or so.
std::string p_in_words(double p) { return p < 0.001 ? "below 0.001" : format_fixed(p, 3); }

std::string mix_in_words(const Case& input, const ShiftFacts& shift) {
  std::int64_t n = 0;
  for (const std::int64_t built : shift.built) n += built;
  if (n == 0) return "no cycle seen";
  std::string mix;
  for (std::size_t v = 0; v < shift.built.size(); ++v) {
    if (shift.built[v] == 0) continue;
    mix += (mix.empty() ? "" : ", ") + variant_name(input, static_cast<std::int32_t>(v)) + " " +
           format_percent(static_cast<double>(shift.built[v]) / static_cast<double>(n));
  }
  return mix + " (n = " + format_count(n) + ")";
}

std::string conditions_in_words(const Case& input, const ShiftFacts& shift) {
  std::string words;
  for (const ShiftCondition& condition : shift.conditions)
    words += (words.empty() ? "" : "; ") + condition_name(input, condition.condition) + " (" +
             counted(condition.cycles, "cycle", "cycles") + " out)";
  return words.empty() ? "none known" : words;
}

std::string names_of(const Case& input, const std::vector<std::int32_t>& variants) {
  std::string names;
  for (const std::int32_t v : variants) names += (names.empty() ? "" : ", ") + variant_name(input, v);
  return names;
}

Table shift_table(const CaseView& view) {
  Table table;
  table.caption = "Shifts in order of name";
  table.dense = true;
  table.columns = {{"Shift", Align::left},
                   {"Settled operators", Align::right},
                   {"Plain cycles", Align::right},
                   {"Days", Align::right},
                   {"Level, s (from, to)", Align::left, true},
                   {"Rests on", Align::left},
                   {"Mix worked, all persons", Align::left},
                   {"Conditions that differ", Align::left}};
  for (const ShiftFacts& shift : view.findings.content.shifts.shifts) {
    std::string level = "none";
    std::string rests_on = wording::shift_why_in_words({shift.no_level_why, ""});
    if (shift.level) {
      level = format_bare_seconds(shift.level->time) + " (" +
              format_bare_interval(shift.level->low, shift.level->high) + ")";
      if (shift.bridged) level += ", bridged";
      rests_on = wording::spread_in_words(shift.spread, shift.level_operators);
      if (shift.level_operators < rules::least_operators)
        rests_on += ": " + std::string(wording::too_few_in_words(shift.level_operators));
    }
    table.rows.push_back({runs(shift.shift), runs(format_count(shift.operators)), runs(format_count(shift.cycles)),
                          runs(std::to_string(shift.days)), runs(level), runs(rests_on),
                          runs(mix_in_words(view.input, shift)), runs(conditions_in_words(view.input, shift))});
  }
  return table;
}

Table pair_table(const CaseView& view) {
  const ShiftComparison& comparison = view.findings.content.shifts;
  Table table;
  table.caption = "Every two shifts, for the variants they have in common";
  const std::string bound = format_percent(view.input.settings.equivalence);
  table.dense = true;
  table.columns = {{"The first against the second", Align::left},
                   {"Variants (of the planned mix)", Align::left},
                   {"Difference (from, to)", Align::left},
                   {"p, first less by " + bound + " or more", Align::right},
                   {"p, first more by " + bound + " or more", Align::right},
                   {"What is shown", Align::left}};
  for (const ShiftPair& pair : comparison.pairs) {
    std::string variants = "none", difference = "none", p_lower, p_upper;
    if (!pair.variants.empty())
      variants = names_of(view.input, pair.variants) + " (" + format_percent(pair.share) + ")";
    if (pair.difference) {
      const ShiftDifference& found = *pair.difference;
      difference = difference_in_percent(found.ln_ratio) + " % (" + difference_in_percent(found.low) + " to " +
                   difference_in_percent(found.high) + " %), n = " + format_count(pair.operators_first) + " and " +
                   counted(pair.operators_second, "operator", "operators") + "; ln " + format_fixed(found.ln_ratio, 4) +
                   ", u " + format_fixed(found.u, 4) + ", " +
                   (std::isfinite(found.df) ? format_fixed(found.df, 1) : std::string("no end of")) +
                   " degrees of freedom";
      p_lower = p_in_words(found.p_lower);
      p_upper = p_in_words(found.p_upper);
    }
    std::string shown = wording::outcome_in_words(pair, view.input.settings.equivalence);
    const std::int64_t fewest = std::min(pair.operators_first, pair.operators_second);
    if (pair.difference && pair.outcome == ShiftOutcome::not_shown && fewest < rules::least_operators)
      shown += " Too few to say: " + std::string(wording::too_few_in_words(fewest)) + ".";
    table.rows.push_back(
        {runs(comparison.shifts[pair.first].shift + " against " + comparison.shifts[pair.second].shift), runs(variants),
         runs(difference), runs(p_lower), runs(p_upper), runs(shown)});
  }
  return table;
}

/// Only where every level rests on three people or more, and is for the whole mix, so that the limit holds for it.
void add_figure(CasePages& pages, const CaseView& view) {
  const ShiftComparison& comparison = view.findings.content.shifts;
  const TimeAvailable& time = view.findings.time;
  DotPlot plot;
  plot.limit = time.limit;
  plot.limit_label = "limit " + format_seconds(time.limit);
  plot.axis_title = "Seconds a unit for the planned mix, at own pace";
  plot.value_header = "s (from, to)";
  Figure figure;
  figure.title = "Shifts in order of name";
  figure.description = "Dots with ranges, one row a shift, in order of name. ";
  for (const ShiftFacts& shift : comparison.shifts) {
    if (!shift.level) continue;
    if (shift.level_operators < rules::least_operators) return;
    const std::string note = "n = " + counted(shift.level_operators, "operator", "operators") + ", " +
                             counted(shift.cycles, "cycle", "cycles");
    figure.description += shift.shift + ": " + note + ", " + format_seconds(shift.level->time) + ", " +
                          format_interval(shift.level->low, shift.level->high) + ". ";
    plot.rows.push_back({shift.shift, note, shift.level, false, false});
  }
  if (plot.rows.size() < 2 || comparison.common_share < whole_mix) return;
  figure.description += "The limit is " + format_seconds(time.limit) + ".";
  figure.caption = runs("Means over settled operators with their intervals. Own pace is not normal pace. Whether two "
                        "shifts are equivalent is read from the table below, not from ranges that overlap.");
  figure.drawing = draw_dot_plot(plot);
  pages.add(figure);
}

void add_how_compared(CasePages& pages, const CaseView& view) {
  const ShiftComparison& comparison = view.findings.content.shifts;
  std::string few;
  bool alone = false;
  for (const ShiftFacts& shift : comparison.shifts) {
    if (!shift.level) continue;
    alone = alone || shift.level_operators == 1;
    if (shift.level_operators < rules::least_operators) few += (few.empty() ? "" : ", ") + shift.shift;
  }
  if (!few.empty())
    pages.paragraph("Levels that rest on one or two people: " + few + ". They say little of the shift as a whole. " +
                    std::string(wording::small_group));
  const double margin = view.input.settings.equivalence;
  const std::string alpha = format_fixed((1 - view.input.settings.confidence) / 2, 3);
  const Seconds planned = view.findings.content.standard.mean;
  const std::string tests =
      "Margin: " + format_percent(margin) + ", that is the larger level over the smaller at most " +
      format_plain_number(1 + margin, 3) + " (ln " + format_fixed(std::log1p(margin), 4) + "), or about " +
      format_seconds(margin * planned) + " of the " + format_seconds(planned) +
      " that the standard asks for the planned mix. Two one-sided tests (Schuirmann 1987): p is how easily a "
      "difference "
      "like the one seen, or one further from the margin, comes about if the first shift truly took less by that "
      "margin; "
      "and if it took more by it. Equivalent: both p below " +
      alpha +
      ", which is to say that the whole interval lies within the margin. Differ: all of it lies outside. The "
      "interval is wrong at most " +
      format_times_wrong(view.input.settings.confidence) + " on each side.";
  std::string how =
      "How it is made. r of a person: as in the part Settled operators, from the cycles of this shift. Level of a "
      "shift: "
      "standard time of these variants \u00D7 e^mu, mu the mean of ln r over its settled operators; its range: level "
      "\u00D7 e^(\u2213t u), u = SD of ln r / \u221A(number of people). People are the unit, not cycles. Difference: "
      "the "
      "one mu less the other, u the root of both u\u00B2, degrees of freedom after Welch (1947), who does not take the "
      "spreads to be equal.";
  if (alone)
    how += " Where a shift has one settled operator, its spread comes from that person's days, and the " +
           format_percent(view.input.settings.between_people) +
           " between people that the settings give is added, unless both shifts have the same one person.";
  if (std::any_of(comparison.shifts.begin(), comparison.shifts.end(), [](const ShiftFacts& s) { return s.bridged; }))
    how += " Bridged: a variant with few own cycles of a person takes the standard's ratio.";
  pages.paragraph(how, ParagraphRole::small);
  pages.paragraph(tests, ParagraphRole::small);
  for (const ShiftPair& pair : comparison.pairs) {
    if (pair.in_both == 0) continue;
    pages.paragraph(counted(pair.in_both, "person counts", "people count") + " in both " +
                        comparison.shifts[pair.first].shift + " and " + comparison.shifts[pair.second].shift +
                        ", and " + (pair.in_both == 1 ? "is" : "are") +
                        " taken as different people there. Where people keep their level from shift to shift, this "
                        "makes the interval wider than it need be, not narrower.",
                    ParagraphRole::small);
  }
  if (comparison.without_shift > 0)
    pages.paragraph("Without a shift, and so in none: " + counted(comparison.without_shift, "cycle", "cycles") + ".",
                    ParagraphRole::small);
}

void add_comparison(CasePages& pages, const CaseView& view) {
  const ShiftComparison& comparison = view.findings.content.shifts;
  if (comparison.shifts.size() < 2) return;
  pages.part("Shifts against one another");
  add_factor_note(pages, view);
  pages.paragraph(wording::shifts_rule);
  if (!comparison.common.empty() && comparison.common_share < whole_mix)
    pages.paragraph(
        "The levels are for " + names_of(view.input, comparison.common) + ", " +
        format_percent(comparison.common_share) +
        " of the planned mix. They are not levels for the whole mix, and the limit is no measure for them.");
  pages.add(shift_table(view));
  add_figure(pages, view);
  pages.add(pair_table(view));
  add_how_compared(pages, view);
}

std::vector<Runs> beyond_row(const std::string& what, const CyclesBeyond& cycles, bool at_least) {
  const std::string before = at_least ? "at least " : "";
  return {runs(what),
          runs(format_count(cycles.n)),
          runs(before + format_count(cycles.k)),
          runs(before + format_percent(cycles.share)),
          runs(at_least ? format_percent(cycles.low) + " or more"
                        : format_percent(cycles.low) + " to " + format_percent(cycles.high)),
          runs(format_fixed(cycles.n_effective, 0))};
}

std::vector<Runs> by_person_row(const BeyondByPerson& shares) {
  return {runs("of these, each person weighing the same (from the person with the least to the one with the most)"),
          runs(""),
          runs(""),
          runs(format_percent(shares.mean)),
          runs(format_percent(shares.least) + " to " + format_percent(shares.most)),
          runs("")};
}

Table beyond_table(const CaseView& view) {
  const Overrun& overrun = view.findings.content.shifts.overrun;
  Table table;
  table.caption = "Single cycles beyond the limit of " + format_seconds(view.findings.time.limit) + ", at own pace";
  table.columns = {{"Cycles", Align::left}, {"n", Align::right},        {"Beyond", Align::right},
                   {"Share", Align::right}, {"From, to", Align::right}, {"Counts as", Align::right}};
  if (overrun.plain) {
    table.rows.push_back(beyond_row("Plain cycles of settled operators", *overrun.plain, false));
    if (overrun.by_person) table.rows.push_back(by_person_row(*overrun.by_person));
    if (overrun.by_variant.size() > 1)
      for (const VariantBeyond& variant : overrun.by_variant)
        table.rows.push_back(
            beyond_row("of these, " + variant_name(view.input, variant.variant), variant.cycles, false));
  }
  if (overrun.with_help)
    table.rows.push_back(
        beyond_row("The same with cycles helped or cut short, as time and help", *overrun.with_help, true));
  if (overrun.everybody_with_help)
    table.rows.push_back(
        beyond_row("All persons seen, also those still learning, all days, with cycles helped or cut short",
                   *overrun.everybody_with_help, true));
  return table;
}

void add_overrun(CasePages& pages, const CaseView& view) {
  const ShiftComparison& comparison = view.findings.content.shifts;
  const Overrun& overrun = comparison.overrun;
  if (!overrun.plain && !overrun.everybody_with_help) return;
  pages.part("Single cycles beyond the limit");
  add_factor_note(pages, view);
  pages.paragraph(wording::beyond_is_no_overload);
  pages.add(beyond_table(view));
  std::string how = "Share of the mix as it was worked, not as planned. ";
  if (view.findings.time.measured_factor > 1) how += "Measured times carry the allowance that the standard holds. ";
  how += "The interval takes cycles as independent of one another. A cycle resembles the one before it";
  if (overrun.plain) how += " (likeness of being beyond: " + format_fixed(overrun.plain->lag1, 2) + ", 0 none, 1 full)";
  how += ", so n counts only as many independent cycles as it is worth (column Counts as), and the count beyond in "
         "proportion. The interval is about cycles of "
         "these people; it says nothing of other people. Cycles under a condition that differs are left out.";
  pages.paragraph(how, ParagraphRole::small);
  const ShareWithin& share = comparison.share_within_at_own_pace;
  if (share.estimate)
    pages.paragraph("Means of people are another matter than single cycles. " +
                    std::string(wording::what_share_at_own_pace_is) + " At their own pace, an estimated " +
                    format_chance(*share.estimate) + " of trained people have an own mean within the limit (" +
                    format_percent(share.low) + " to " + format_percent(share.high) +
                    ", n = " + counted(share.n, "settled operator", "settled operators") +
                    "). How it differs from the share able and the share counted: in the part Settled operators.");
}

} // namespace

void add_shifts(CasePages& pages, const CaseView& view) {
  add_comparison(pages, view);
  add_overrun(pages, view);
}

} // namespace docket
