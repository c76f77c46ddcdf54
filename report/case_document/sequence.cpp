// Question A in detail: the order of units against the work zone.
#include "report/case_document/content_facts.h"
#include "report/case_document/pages.h"
#include "report/figures/sequence_stress.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <map>

namespace docket {
namespace {

/// No settled operators show how a person's cycles vary.
bool spread_is_stated(const CaseView& view) {
  const std::optional<SettledOperators>& line = view.findings.content.settled.line;
  return !line || line->sd_within <= 0;
}

SequenceStress stress_of(const CaseView& view) {
  const Case& input = view.input;
  const ContentFindings& content = view.findings.content;
  SequenceStress stress;
  stress.early_start = input.facts.early_start.value_or(Seconds{});
  stress.late_finish = input.facts.late_finish.value_or(Seconds{});
  const std::vector<DriftStep>& steps = content.sequence.given->steps;
  const std::size_t units = std::min(steps.size(), input.build_sequence.size());
  for (std::size_t i = 0; i < units; ++i) {
    const SequenceUnit& unit = input.build_sequence[i];
    const auto variant = static_cast<std::size_t>(unit.variant);
    const Seconds time =
        variant < content.standard.variants.size() ? content.standard.variants[variant].time : Seconds{};
    stress.units.push_back({unit.position, steps[i].start + time - view.findings.time.limit, steps[i].overload,
                            time > view.findings.time.limit, i > 0 && unit.run != input.build_sequence[i - 1].run});
  }
  return stress;
}

std::string factor_in_words(const SequenceMargin& margin) {
  const std::string ends = margin.at_high_end ? "at least " : margin.at_low_end ? "at most " : "";
  return ends + "\u00D7 " + format_fixed(margin.factor, 3);
}

/// "positions 12 to 15"; one unit: "position 12".
std::string positions(const CaseView& view, const Stretch& stretch) {
  const std::int64_t first = view.input.build_sequence[stretch.first].position;
  const std::int64_t last = view.input.build_sequence[stretch.last].position;
  if (first == last) return "position " + std::to_string(first);
  return "positions " + std::to_string(first) + " to " + std::to_string(last);
}

/// "2 \u00D7 heavy, 1 \u00D7 light" in order; where they change too often to be read, how many of each.
std::string variants_of(const CaseView& view, const Stretch& stretch) {
  constexpr std::size_t most = 12;
  std::vector<std::pair<std::int32_t, std::int64_t>> rows;
  std::map<std::int32_t, std::int64_t> of_each;
  for (std::size_t i = stretch.first; i <= stretch.last; ++i) {
    const std::int32_t variant = view.input.build_sequence[i].variant;
    if (rows.empty() || rows.back().first != variant) rows.emplace_back(variant, 0);
    ++rows.back().second;
    ++of_each[variant];
  }
  std::string text;
  if (rows.size() > most) {
    rows.assign(of_each.begin(), of_each.end());
    text = "in all ";
  }
  for (std::size_t i = 0; i < rows.size(); ++i)
    text += (i > 0 ? ", " : "") + std::to_string(rows[i].second) + " \u00D7 " + variant_name(view.input, rows[i].first);
  return text;
}

std::int64_t units_in(const Stretch& stretch) { return static_cast<std::int64_t>(stretch.last - stretch.first + 1); }

void add_stretches(CasePages& pages, const CaseView& view) {
  const std::optional<HeaviestStretches>& stretches = view.findings.content.alternatives.stretches;
  if (!stretches) return;
  if (!stretches->worst) {
    pages.paragraph("No unit is finished past the limit.");
    return;
  }
  std::string text = "The worst stretch, from the last start on time or early before that finish: " +
                     positions(view, *stretches->worst) + " (" + variants_of(view, *stretches->worst) + "). " +
                     counted(units_in(*stretches->worst), "unit", "units") + " with " +
                     format_signed_seconds(stretches->over_limit) +
                     " of content against the limit in all; the last is " + "finished " +
                     format_seconds(stretches->finish) + " past the limit" +
                     (stretches->over_zone > Seconds::zero()
                          ? ", " + format_seconds(stretches->over_zone) + " past the end of the zone."
                          : ", within the zone.");
  if (stretches->longest_above) {
    text += " The longest row of units that each take more than the limit: " +
            counted(units_in(*stretches->longest_above), "unit", "units") + ", " +
            positions(view, *stretches->longest_above) + ".";
  }
  pages.paragraph(text);
}

void add_given_order(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  const GivenSequence& given = *content.sequence.given;
  const SequenceStress stress = stress_of(view);
  if (stress.units.empty()) return;
  const StressWindow window = find_worst_window(stress.units, stress_window_units);
  Figure figure;
  figure.title = "Sequence stress: where each unit is finished, in the build order given";
  const std::string shown = window.count < stress.units.size()
                                ? "Shown in full: positions " + std::to_string(stress.units[window.first].position) +
                                      " to " + std::to_string(stress.units[window.first + window.count - 1].position) +
                                      ", the stretch with the most overloads. Below it the whole order."
                                : "Shown in full: the whole order.";
  const std::string count = format_count(given.overloads) + " of " +
                            counted(given.units, "unit overloads", "units overload") + " the work zone (" +
                            format_per_1000(given.overloads_per_1000) + " per 1000)";
  figure.description = "A line of finish positions over the build order, at the standard's own times. " + count +
                       ". The zone ends " + format_seconds(stress.late_finish) +
                       " after the limit; a unit may be started " + format_seconds(stress.early_start) + " early. " +
                       shown;
  figure.caption =
      runs("n = " + counted(given.units, "unit", "units") +
           ", at the standard's own times, without spread. Filled dots past the end of the zone: overloads. " + shown +
           " A dashed upright line: a new run, which starts on time.");
  figure.drawing = draw_sequence_stress(stress, window);
  pages.add(figure);
  pages.paragraph(
      "A unit counts as an overload from " + format_seconds(least_overload(view.findings.time.line_cycle)) +
      " past the end of the zone (0.5 s or 1 % of the line cycle time, whichever is more). At the standard's own "
      "times, " +
      count + "; " + format_seconds(given.lost) +
      " of work in all is not finished in the zone. The finish is latest at position " +
      std::to_string(given.worst_position) + ".");
  add_stretches(pages, view);
}

void add_rates(CasePages& pages, const CaseView& view) {
  const SequenceFindings& sequence = view.findings.content.sequence;
  if (!sequence.drawn) return;
  const DrawnSequence& drawn = *sequence.drawn;
  pages.paragraph("Over " + counted(drawn.units, "drawn unit", "drawn units") + " of the planned mix, in shifts of " +
                  format_count(drawn.cycles_per_shift) + ", the average trained person overloads the zone at " +
                  format_per_1000(drawn.overloads_per_1000) + " per 1000 (" + format_per_1000(drawn.low) + " to " +
                  format_per_1000(drawn.high) + "); " + format_seconds(drawn.lost_per_1000) +
                  " of work per 1000 units is not finished in the zone. Averaged over people it is " +
                  format_per_1000(drawn.people_averaged_per_1000) +
                  " per 1000; this second number decides nothing. Spread of a person's cycles used: " +
                  format_percent(drawn.spread.sigma) + ", likeness of neighbours " + format_fixed(drawn.spread.rho, 2) +
                  (spread_is_stated(view) ? " (the spread is stated in the settings, the likeness assumed)." : "."));
  Table table;
  table.caption = "The factor on all times at which the zone is overloaded that often (below 1: they must fall)";
  table.columns = {{"Overloads per 1000 units", Align::left},
                   {"All times", Align::right},
                   {"Room, s a unit", Align::right},
                   {"Chance of keeping to it", Align::right}};
  const auto add_row = [&](const std::string& rate, const SequenceMargin& margin, const SequenceRoom& room, double p) {
    table.rows.push_back({runs(rate), runs(factor_in_words(margin)), runs(format_signed_bare_seconds(room.margin)),
                          runs(format_chance(p))});
  };
  add_row(format_plain_number(drawn.tolerated_per_1000, 1) + ", tolerated; drawn order", drawn.k_star, drawn.room,
          drawn.p);
  if (sequence.given) {
    add_row(format_plain_number(drawn.tolerated_per_1000, 1) + ", tolerated; order given", sequence.given->k_star,
            sequence.given->room, sequence.given->p);
  }
  for (const MarginAtRate& rate : drawn.at_rates) {
    if (rate.tolerated_per_1000 == drawn.tolerated_per_1000) continue;
    add_row(format_plain_number(rate.tolerated_per_1000, 1) + "; drawn order", rate.k_star, rate.room, rate.p);
  }
  pages.add(table);
}

void add_heaviest(CasePages& pages, const CaseView& view) {
  const HeaviestVariant& heaviest = view.findings.content.heaviest;
  if (heaviest.variant < 0) return;
  const std::string which = view.input.variants.size() > 1
                                ? "The heaviest variant is " + variant_name(view.input, heaviest.variant)
                                : std::string("There is one variant");
  std::string text = which + ": " + format_seconds(heaviest.time) + " at the level of all lines together, " +
                     format_signed_seconds(heaviest.margin) + " against the limit" +
                     (view.findings.content.sequence.zone_given ? " with the late finish" : "") + ".";
  if (heaviest.longest_run) {
    text += " In the build order it comes up to " + counted(*heaviest.longest_run, "time", "times") + " in a row";
    const std::optional<HeaviestStretches>& stretches = view.findings.content.alternatives.stretches;
    if (stretches && stretches->longest_heaviest) text += " (" + positions(view, *stretches->longest_heaviest) + ")";
    text += ".";
  }
  if (heaviest.run_that_fits) {
    text += " From a start on time, " + counted(*heaviest.run_that_fits, "such unit", "such units in a row") +
            " can be finished in the zone at that time.";
  }
  pages.paragraph(text);
}

} // namespace

void add_sequence(CasePages& pages, const CaseView& view) {
  const CaseFacts& facts = view.input.facts;
  const SequenceFindings& sequence = view.findings.content.sequence;
  pages.part("The order of units");
  if (sequence.zone_given) {
    pages.paragraph(
        {plain("Work zone: a unit may be started " + format_seconds(facts.early_start.value_or(Seconds{})) + " early"),
         reference_to_key(view.input, "early_start_s"),
         plain(" and finished " + format_seconds(facts.late_finish.value_or(Seconds{})) + " late"),
         reference_to_key(view.input, "late_finish_s"), plain(".")});
  } else {
    pages.paragraph("The work zone is not given, so the order of units is not computed.");
  }
  if (!sequence.spread_known) {
    pages.paragraph(
        "The spread of one person's cycle times is not known, so the chances for the order of units are not "
        "computed.");
  }
  add_heaviest(pages, view);
  add_rates(pages, view);
  if (sequence.given && sequence.zone_given) {
    add_given_order(pages, view);
  } else if (view.input.build_sequence.empty()) {
    pages.paragraph("No build order is given, so there is no picture of it.");
  }
}

} // namespace docket
