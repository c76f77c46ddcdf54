#include "core/ergonomics/efforts.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

constexpr double one_second_in_8_hours = 1.0 / 28800, exponent = 0.24; ///< (1)
constexpr double few_data_from = 0.5;                                  ///< [1] Sonne & Potvin 2015
constexpr double hours_most = 8;                                       ///< the equation is for a day of 8 hours

/// Written so that a value that is no number fails too.
std::vector<Reason> not_usable(const HandEffort& effort) {
  std::vector<Reason> why;
  if (!(effort.force_n > 0)) why.push_back({"force_not_positive", {}});
  if (!(effort.time.count() > 0)) why.push_back({"seconds_not_positive", {}});
  if (!(effort.times_per_unit > 0)) why.push_back({"times_not_positive", {}});
  if (!(effort.share_of_units > 0 && effort.share_of_units <= 1)) why.push_back({"share_out_of_range", {}});
  if (effort.hours && !(*effort.hours > 0)) why.push_back({"hours_not_positive", {}});
  if (effort.hours && *effort.hours > hours_most) why.push_back({"hours_beyond_range", {}});
  return why;
}

void judge_duty(double duty_cycle, std::vector<Reason>& why_not, std::vector<Reason>& notes) {
  if (duty_cycle < one_second_in_8_hours)
    why_not.push_back({"duty_below_range", {}});
  else if (duty_cycle > 1)
    why_not.push_back({"duty_above_one", {}});
  else if (duty_cycle >= few_data_from)
    notes.push_back({"few_data_at_this_duty", {}});
}

EffortScreening screen_effort(const HandEffort& effort, Seconds line_cycle) {
  EffortScreening result;
  result.task = effort.task;
  result.hand = effort.hand;
  result.why_not = not_usable(effort);
  if (result.why_not.empty()) {
    result.duty_cycle = effort.share_of_units * effort.times_per_unit * (effort.time / line_cycle); // (2)
    judge_duty(*result.duty_cycle, result.why_not, result.notes);
    result.mae = maximum_acceptable_effort(*result.duty_cycle);
  }
  if (!effort.hours) result.notes.push_back({"hours_not_given", {}});
  if (!effort.strength_n)
    result.why_not.push_back({"strength_not_given", {}});
  else if (!(*effort.strength_n > 0))
    result.why_not.push_back({"strength_not_positive", {}});
  else if (effort.strength_source.empty())
    result.why_not.push_back({"strength_source_not_given", {}});
  else if (result.duty_cycle) {
    result.force_share = effort.force_n / *effort.strength_n;
    if (*result.force_share > 1) result.notes.push_back({"force_above_strength", {}});
    if (result.mae) {
      result.acceptable_n = *result.mae * *effort.strength_n;
      result.of_acceptable = *result.force_share / *result.mae;
    }
  }
  return result;
}

bool with_hand(const EffortScreening& effort, Hand hand) {
  return effort.hand == hand || effort.hand == Hand::both || effort.hand == Hand::not_given;
}

HandScreening screen_hand(std::span<const EffortScreening> efforts, Hand hand) {
  HandScreening result;
  result.hand = hand;
  double duty = 0, weighted = 0, largest = 0;
  bool usable = true, strengths = true;
  for (const EffortScreening& effort : efforts) {
    if (!with_hand(effort, hand)) continue;
    ++result.efforts;
    if (!effort.duty_cycle) {
      usable = false;
      result.why_not.push_back({"effort_not_usable", effort.task});
      continue;
    }
    duty += *effort.duty_cycle;
    if (!effort.force_share) {
      strengths = false;
      result.why_not.push_back({"effort_without_strength", effort.task});
      continue;
    }
    weighted += *effort.duty_cycle * *effort.force_share;
    largest = std::max(largest, *effort.force_share);
  }
  if (!usable || result.efforts == 0) return result;
  result.duty_cycle = duty;
  judge_duty(duty, result.why_not, result.notes);
  result.mae = maximum_acceptable_effort(duty);
  if (result.efforts > 1) result.notes.push_back({"equation_is_for_one_effort", {}});
  if (strengths) {
    result.largest_force_share = largest;
    result.mean_force_share = weighted / duty;
  }
  return result;
}

} // namespace

std::optional<double> maximum_acceptable_effort(double duty_cycle) {
  if (!(duty_cycle >= one_second_in_8_hours && duty_cycle <= 1)) return std::nullopt;
  return 1 - std::pow(duty_cycle - one_second_in_8_hours, exponent);
}

std::optional<double> share_of_units_with(const Case& input, std::string_view element) {
  const auto named = [&](const StandardElement& e) { return e.element == element; };
  if (std::none_of(input.standard.begin(), input.standard.end(), named)) return std::nullopt;
  double share = 0;
  for (const Variant& variant : input.variants)
    if (std::any_of(input.standard.begin(), input.standard.end(),
                    [&](const StandardElement& e) { return named(e) && carries(variant, e); }))
      share += variant.share;
  return std::min(share, 1.0);
}

EffortsScreening screen_efforts(std::span<const HandEffort> efforts, Seconds line_cycle) {
  EffortsScreening result;
  result.cycle = line_cycle;
  if (!(line_cycle.count() > 0)) {
    result.why_not.push_back({"cycle_not_positive", {}});
    return result;
  }
  for (const HandEffort& effort : efforts) result.efforts.push_back(screen_effort(effort, line_cycle));
  for (const Hand hand : {Hand::left, Hand::right}) {
    HandScreening screened = screen_hand(result.efforts, hand);
    if (screened.efforts > 0) result.hands.push_back(std::move(screened));
  }
  return result;
}

} // namespace docket
