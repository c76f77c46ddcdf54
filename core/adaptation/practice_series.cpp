#include "core/adaptation/practice_series.h"

#include <algorithm>

namespace docket {

namespace {

bool counted_only(Marks marks) {
  return marks.has(Mark::foreign) || marks.has(Mark::defect) || marks.has(Mark::skipped) || marks.has(Mark::starved) ||
         marks.has(Mark::blocked) || marks.has(Mark::instrument);
}

} // namespace

PracticeSeries build_practice_series(const Case& input, const Evidence& evidence, std::int32_t op,
                                     const std::vector<double>& relative_content, double factor) {
  PracticeSeries series;
  series.op = op;
  const Operator& person = input.operators[static_cast<std::size_t>(op)];
  series.first_cycle_estimated = !person.prior_cycles;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.op != op) continue;
    ++series.cycles;
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
    PracticePoint with_help = point;
    with_help.seconds += factor * cycle.helped.count() / content;
    series.with_helped.push_back(with_help);
    series.with_bounds.push_back(point);
    if (!cycle.marks.plain()) {
      ++series.lower_bounds;
      continue;
    }
    if (series.plain.empty() || series.plain.back().day != point.day) ++series.days;
    series.plain.push_back(point);
  }
  series.before = series.first_cycle > 0 ? series.first_cycle - 1 : 0;
  return series;
}

PracticeSeries with_count_before(PracticeSeries series, std::int64_t before) {
  const auto shift = before - series.before;
  for (auto* points : {&series.plain, &series.with_bounds, &series.with_helped})
    for (PracticePoint& point : *points) point.n += static_cast<double>(shift);
  series.first_cycle += shift;
  series.last_cycle += shift;
  series.before = before;
  return series;
}

} // namespace docket
