#include "core/ergonomics/ergonomics.h"

#include <cassert>

namespace docket {

namespace {

double share_of(const Case& input, std::int32_t element) {
  if (element < 0) return 1;
  return share_of_units_with(input, input.standard[static_cast<std::size_t>(element)].element).value_or(0);
}

LiftPlace place_of(const LiftSpot& spot) { return {spot.h, spot.v, spot.d, spot.a, spot.coupling}; }

/// (1), or what the sheet says it is.
double lifts_per_min(const Lift& lift, double share, Seconds line_cycle) {
  return lift.per_min.value_or(share * lift.times_per_unit.value_or(1) * (Seconds{60} / line_cycle));
}

LiftingTask task_of(const Lift& lift, double per_min) {
  LiftingTask task;
  task.task = lift.task;
  task.load = lift.load;
  task.origin = place_of(lift.from);
  if (lift.to) task.destination = place_of(*lift.to);
  task.per_min = per_min;
  task.hours = lift.hours;
  task.recovery_hours = lift.recovery_hours;
  return task;
}

HandEffort effort_of(const Effort& effort, double share) {
  HandEffort made;
  made.task = effort.task;
  made.hand = effort.hand;
  made.force_n = effort.force_n;
  made.time = effort.time;
  made.times_per_unit = effort.times_per_unit;
  made.share_of_units = share;
  made.strength_n = effort.strength_n;
  made.strength_source = effort.strength_source;
  made.posture = effort.posture;
  made.speed = effort.speed;
  made.hours = effort.hours;
  return made;
}

std::vector<EffortAtCycle> efforts_at(const Case& input, const std::vector<HandEffort>& efforts,
                                      const EffortsScreening& screened, Seconds cycle) {
  std::vector<EffortAtCycle> result;
  for (std::size_t i = 0; i < efforts.size(); ++i) {
    const HandEffort& effort = efforts[i];
    const Effort& given = input.efforts[i];
    EffortAtCycle at;
    at.acceptable = screened.efforts[i];
    at.per_min = effort.share_of_units * effort.times_per_unit * (Seconds{60} / cycle);
    at.strain = screen_strain(given, effort.share_of_units * effort.times_per_unit * (effort.time / cycle), at.per_min);
    const auto wrist =
        given.wrist_deg ? std::optional(WristAngle{*given.wrist_deg, given.wrist_flexion}) : std::nullopt;
    at.revised_strain = screen_revised_strain(effort, cycle, wrist);
    result.push_back(std::move(at));
  }
  return result;
}

/// Without the elements in which a person stands by.
Seconds busy_in_the_mean_unit(const Case& input) {
  Seconds busy{};
  for (const Variant& variant : input.variants)
    for (const StandardElement& element : input.standard) {
      const bool stands_by = element.kind == ElementKind::wait || element.kind == ElementKind::machine;
      if (stands_by || !element.time || !carries(variant, element)) continue;
      busy += variant.share * element.times_per_unit * *element.time;
    }
  return busy;
}

void screen_lifts(Ergonomics& result, const Case& input) {
  std::vector<LiftingTask> tasks, asked;
  for (const Lift& lift : input.lifts) {
    tasks.push_back(task_of(lift, lifts_per_min(lift, share_of(input, lift.element), result.line_cycle)));
    if (result.asked_cycle) asked.push_back(lift_at_line_cycle(tasks.back(), result.line_cycle, *result.asked_cycle));
  }
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const Lift& lift = input.lifts[i];
    LiftCaution caution;
    caution.lift = static_cast<std::int32_t>(i);
    caution.share_of_units = share_of(input, lift.element);
    caution.per_min_from_units = !lift.per_min;
    caution.now = {tasks[i].per_min, screen_lift(tasks[i])};
    if (!asked.empty()) caution.asked = {asked[i].per_min, screen_lift(asked[i])};
    result.lifts.push_back(std::move(caution));
  }
  if (tasks.size() < 2) return;
  result.composite = screen_composite_lift(tasks);
  if (!asked.empty()) result.composite_asked = screen_composite_lift(asked);
}

void screen_all_efforts(Ergonomics& result, const Case& input) {
  if (input.efforts.empty()) return;
  std::vector<HandEffort> efforts, in_a_row;
  for (const Effort& effort : input.efforts) {
    efforts.push_back(effort_of(effort, share_of(input, effort.element)));
    in_a_row.push_back(effort_of(effort, 1));
  }
  const EffortsScreening screened = screen_efforts(efforts, result.line_cycle);
  const EffortsScreening every_unit = screen_efforts(in_a_row, result.line_cycle);
  const std::vector<EffortAtCycle> now = efforts_at(input, efforts, screened, result.line_cycle);
  std::vector<EffortAtCycle> asked;
  if (result.asked_cycle) {
    const EffortsScreening faster = screen_efforts(efforts, *result.asked_cycle);
    asked = efforts_at(input, efforts, faster, *result.asked_cycle);
    result.hands_asked = faster.hands;
  }
  result.hands = screened.hands;
  for (std::size_t i = 0; i < efforts.size(); ++i) {
    EffortCaution caution;
    caution.effort = static_cast<std::int32_t>(i);
    caution.share_of_units = efforts[i].share_of_units;
    caution.now = now[i];
    if (!asked.empty()) caution.asked = asked[i];
    if (caution.share_of_units < 1) caution.in_a_row = every_unit.efforts[i];
    result.efforts.push_back(std::move(caution));
  }
}

} // namespace

Ergonomics screen_ergonomics(const Case& input, Seconds line_cycle, std::optional<double> cycles_per_shift) {
  assert(line_cycle.count() > 0);
  Ergonomics result;
  result.line_cycle = line_cycle;
  if (input.facts.line_cycle_asked && input.facts.line_cycle_asked->count() > 0)
    result.asked_cycle = input.facts.line_cycle_asked;
  screen_lifts(result, input);
  screen_all_efforts(result, input);
  result.busy_per_unit = busy_in_the_mean_unit(input);
  RepetitionInput repetition;
  repetition.line_cycle = line_cycle;
  repetition.pattern_per_unit = input.facts.pattern;
  repetition.busy_per_unit = result.busy_per_unit;
  repetition.cycles_per_shift = cycles_per_shift;
  result.repetition = screen_repetition(repetition, result.asked_cycle);
  return result;
}

} // namespace docket
