#include "core/ergonomics/composite_lifting.h"

#include <algorithm>

namespace docket {

namespace {

using Limit = std::optional<LiftLimit> LiftAtPlace::*;

CompositeLiftStep step_of(const LiftScreening& screened, std::size_t task, Limit which) {
  const LiftLimit& origin = *(screened.origin.*which);
  CompositeLiftStep step;
  step.task = task;
  const LiftLimit* counts = &origin;
  if (screened.destination) {
    const LiftLimit& destination = *((*screened.destination).*which);
    step.at_destination = destination.li > origin.li;
    if (step.at_destination) counts = &destination;
  }
  step.firwl = counts->firwl;
  step.strwl = counts->rwl;
  step.fili = counts->fili;
  step.stli = counts->li;
  return step;
}

/// (1). Absent with the task in `beyond` where a sum of frequencies has no FM.
std::optional<CompositeLift> composite(std::span<const LiftingTask> tasks, std::span<const LiftScreening> screened,
                                       LiftDuration duration, Limit which, std::size_t& beyond) {
  CompositeLift result;
  for (std::size_t i = 0; i < tasks.size(); ++i) result.steps.push_back(step_of(screened[i], i, which));
  std::stable_sort(result.steps.begin(), result.steps.end(),
                   [](const CompositeLiftStep& a, const CompositeLiftStep& b) { return a.stli > b.stli; });
  double sum = 0;
  for (CompositeLiftStep& step : result.steps) {
    const LiftingTask& task = tasks[step.task];
    const bool low = hands_low(step.at_destination ? *task.destination : task.origin, task.units);
    const double before = sum;
    sum += task.per_min;
    step.per_min_sum = sum;
    const auto multiplier = [&](double per_min) {
      const std::optional<double> fm = frequency_multiplier(per_min, duration, low);
      return fm && which == &LiftAtPlace::as_printed ? as_in_print(*fm) : fm;
    };
    const std::optional<double> fm = multiplier(sum);
    if (!fm) {
      beyond = step.task;
      return std::nullopt;
    }
    step.fm_sum = *fm;
    if (before == 0)
      step.adds = step.stli;
    else {
      // A larger sum had an FM, so the smaller has one.
      step.fm_sum_before = *multiplier(before);
      step.adds = step.fili * (1 / step.fm_sum - 1 / step.fm_sum_before);
    }
    result.cli += step.adds;
  }
  return result;
}

} // namespace

CompositeLiftScreening screen_composite_lift(std::span<const LiftingTask> tasks) {
  CompositeLiftScreening result;
  if (tasks.size() < 2) {
    result.why_not.push_back({"fewer_than_two_tasks", {}});
    return result;
  }
  LiftDuration longest = LiftDuration::up_to_1_h;
  bool known = true;
  for (const LiftingTask& task : tasks) {
    const std::optional<LiftDuration> own = lift_duration(task.hours, task.recovery_hours);
    if (own)
      longest = std::max(longest, *own);
    else
      known = false;
  }
  if (known) result.duration = longest;

  std::vector<LiftScreening> screened;
  for (const LiftingTask& task : tasks) {
    screened.push_back(screen_lift(task, longest));
    const LiftScreening& s = screened.back();
    if (!s.origin.exact || (s.destination && !s.destination->exact))
      result.why_not.push_back({"task_without_number", task.task});
  }
  if (!result.why_not.empty()) return result;

  std::size_t beyond = 0;
  result.exact = composite(tasks, screened, longest, &LiftAtPlace::exact, beyond);
  if (result.exact) result.as_printed = composite(tasks, screened, longest, &LiftAtPlace::as_printed, beyond);
  if (!result.exact || !result.as_printed) {
    result.exact = result.as_printed = std::nullopt;
    result.why_not.push_back({"sum_of_frequencies_beyond_table", tasks[beyond].task});
  }
  return result;
}

} // namespace docket
