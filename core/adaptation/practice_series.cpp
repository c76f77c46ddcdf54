#include "core/adaptation/practice_series.h"

#include "core/rules.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <set>

namespace docket {

namespace {

bool counted_only(Marks marks) {
  return marks.has(Mark::foreign) || marks.has(Mark::defect) || marks.has(Mark::skipped) || marks.has(Mark::starved) ||
         marks.has(Mark::blocked) || marks.has(Mark::instrument);
}

std::vector<const PersonCycle*> counted_cycles(const Evidence& evidence, std::int32_t op) {
  std::vector<const PersonCycle*> cycles;
  for (const PersonCycle& cycle : evidence.cycles)
    if (cycle.op == op && cycle.own_count > 0) cycles.push_back(&cycle);
  return cycles;
}

/// One break a place; a gap comes before what changed there.
void add_break(std::vector<PracticeBreak>& breaks, PracticeBreak found) {
  const auto same = [&](const PracticeBreak& b) { return b.after == found.after; };
  if (std::none_of(breaks.begin(), breaks.end(), same)) breaks.push_back(std::move(found));
}

std::vector<PracticeBreak> find_breaks(const Case& input, const std::vector<const PersonCycle*>& cycles,
                                       std::int32_t op) {
  std::vector<PracticeBreak> breaks;
  const auto at = [&](BreakKind kind, std::size_t i, std::string what) {
    return PracticeBreak{kind, cycles[i - 1]->own_count, cycles[i - 1]->day, cycles[i]->day, std::move(what)};
  };
  for (std::size_t i = 1; i < cycles.size(); ++i)
    if ((cycles[i]->day - cycles[i - 1]->day).count() >= input.settings.gap_days)
      add_break(breaks, at(BreakKind::gap, i, {}));
  const auto enough = static_cast<std::size_t>(rules::least_practice_cycles);
  // Whoever has cycles before the first one seen may have built it then.
  const bool from_the_start = !cycles.empty() && cycles.front()->own_count == 1;
  for (std::size_t v = 0; v < input.variants.size(); ++v) {
    const auto is_v = [&](const PersonCycle* cycle) { return cycle->variant == static_cast<std::int32_t>(v); };
    const auto first = std::find_if(cycles.begin(), cycles.end(), is_v);
    const auto before = static_cast<std::size_t>(first - cycles.begin());
    if (!from_the_start || first == cycles.end() || before < enough) continue;
    const auto built = static_cast<double>(std::count_if(first, cycles.end(), is_v));
    if (built >= rules::common_variant_share * static_cast<double>(cycles.end() - first))
      add_break(breaks, at(BreakKind::new_variant, before, input.variants[v].variant));
  }
  for (const Training& training : input.training) {
    if (training.op != op) continue;
    const auto first =
        std::find_if(cycles.begin(), cycles.end(), [&](const PersonCycle* cycle) { return cycle->day >= training.on; });
    const auto before = static_cast<std::size_t>(first - cycles.begin());
    if (first != cycles.end() && before >= enough) add_break(breaks, at(BreakKind::training, before, training.what));
  }
  std::sort(breaks.begin(), breaks.end(),
            [](const PracticeBreak& a, const PracticeBreak& b) { return a.after < b.after; });
  return breaks;
}

/// Marks the gaps in which hardly anybody is seen, where there are others at all.
void mark_holes(std::vector<PracticeBreak>& breaks, const Evidence& evidence, std::int32_t op) {
  const bool others =
      std::any_of(evidence.cycles.begin(), evidence.cycles.end(), [&](const PersonCycle& c) { return c.op != op; });
  if (!others) return;
  for (PracticeBreak& found : breaks) {
    if (found.kind != BreakKind::gap) continue;
    std::set<Date> days; // on which anybody is seen
    for (const PersonCycle& cycle : evidence.cycles)
      if (cycle.day > found.last_before && cycle.day < found.day) days.insert(cycle.day);
    const auto all = static_cast<double>((found.day - found.last_before).count() - 1);
    found.nobody_seen = static_cast<double>(days.size()) <= rules::hole_days_share * all;
  }
}

/// Calls `change` with every point of a series.
template <class Change>
void for_each_point(PracticeSeries& series, Change change) {
  for (auto* points :
       {&series.plain, &series.bounds, &series.with_bounds, &series.with_helped, &series.with_helped_bounds})
    for (PracticePoint& point : *points) change(point);
}

} // namespace

PracticeSeries build_practice_series(const Case& input, const Evidence& evidence, std::int32_t op,
                                     const std::vector<double>& relative_content, double factor) {
  PracticeSeries series;
  series.op = op;
  const Operator& person = input.operators[static_cast<std::size_t>(op)];
  // No shift before is as good as no cycle before.
  series.first_cycle_estimated = !person.prior_cycles && person.shifts_before != 0;
  series.by_variant.resize(input.variants.size());
  series.breaks = find_breaks(input, counted_cycles(evidence, op), op);
  mark_holes(series.breaks, evidence, op);
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.op != op) continue;
    ++series.cycles;
    ++series.by_variant[static_cast<std::size_t>(cycle.variant)];
    if (cycle.own_count > 0) {
      if (series.first_cycle == 0) series.first_cycle = cycle.own_count;
      series.last_cycle = std::max(series.last_cycle, cycle.own_count);
    }
    if (cycle.condition >= 0) {
      ++series.under_condition;
      continue;
    }
    if (counted_only(cycle.marks)) continue;
    const double content = relative_content[static_cast<std::size_t>(cycle.variant)];
    const PracticePoint point{static_cast<double>(cycle.own_count), factor * cycle.work.count() / content, cycle.day};
    series.with_bounds.push_back(point);
    if (!cycle.marks.plain()) {
      ++series.lower_bounds;
      series.bounds.push_back(point);
      PracticePoint with_help = point;
      with_help.seconds += factor * cycle.helped.count() / content;
      const bool known = cycle.helped_given && !cycle.marks.has(Mark::cut_short);
      (known ? series.with_helped : series.with_helped_bounds).push_back(with_help);
      continue;
    }
    series.with_helped.push_back(point);
    if (series.plain.empty() || series.plain.back().day != point.day) ++series.days;
    series.plain.push_back(point);
  }
  series.before = series.first_cycle > 0 ? series.first_cycle - 1 : 0;
  return series;
}

PracticeSeries with_count_before(PracticeSeries series, std::int64_t before) {
  const auto shift = before - series.before;
  for_each_point(series, [&](PracticePoint& point) { point.n += static_cast<double>(shift); });
  for (PracticeBreak& found : series.breaks) found.after += shift;
  series.first_cycle += shift;
  series.last_cycle += shift;
  series.before = before;
  return series;
}

PracticeSeries with_holes_worked(PracticeSeries series) {
  std::int64_t added = 0; // through the gaps so far
  for (PracticeBreak& found : series.breaks) {
    const std::int64_t after = found.after + added;
    found.after = after;
    if (!found.nobody_seen || series.with_bounds.empty()) continue;
    const auto cycles = static_cast<double>(after - series.first_cycle + 1);
    const auto days = static_cast<double>((found.last_before - series.with_bounds.front().day).count() + 1);
    const auto gap = static_cast<double>((found.day - found.last_before).count() - 1);
    const std::int64_t missed = std::llround(cycles / days * gap);
    for_each_point(series, [&](PracticePoint& point) {
      if (point.n > static_cast<double>(after)) point.n += static_cast<double>(missed);
    });
    series.last_cycle += missed;
    added += missed;
  }
  return series;
}

} // namespace docket
