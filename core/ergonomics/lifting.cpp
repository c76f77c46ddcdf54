#include "core/ergonomics/lifting.h"

#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>

namespace docket {

namespace {

/// DHHS (NIOSH) 94-110, table 5. Columns: up to 1 h, 2 h, 8 h, each with the hands below and from 75 cm on. Rows of 11
/// and more from memory, to be confirmed.
struct FrequencyRow {
  double per_min;
  std::array<double, 6> fm;
};
constexpr std::array<FrequencyRow, 17> frequency_rows{{
    {0.2, {1.00, 1.00, 0.95, 0.95, 0.85, 0.85}},
    {0.5, {0.97, 0.97, 0.92, 0.92, 0.81, 0.81}},
    {1, {0.94, 0.94, 0.88, 0.88, 0.75, 0.75}},
    {2, {0.91, 0.91, 0.84, 0.84, 0.65, 0.65}},
    {3, {0.88, 0.88, 0.79, 0.79, 0.55, 0.55}},
    {4, {0.84, 0.84, 0.72, 0.72, 0.45, 0.45}},
    {5, {0.80, 0.80, 0.60, 0.60, 0.35, 0.35}},
    {6, {0.75, 0.75, 0.50, 0.50, 0.27, 0.27}},
    {7, {0.70, 0.70, 0.42, 0.42, 0.22, 0.22}},
    {8, {0.60, 0.60, 0.35, 0.35, 0.18, 0.18}},
    {9, {0.52, 0.52, 0.30, 0.30, 0.00, 0.15}},
    {10, {0.45, 0.45, 0.26, 0.26, 0.00, 0.13}},
    {11, {0.41, 0.41, 0.00, 0.23, 0.00, 0.00}},
    {12, {0.37, 0.37, 0.00, 0.21, 0.00, 0.00}},
    {13, {0.00, 0.34, 0.00, 0.00, 0.00, 0.00}},
    {14, {0.00, 0.31, 0.00, 0.00, 0.00, 0.00}},
    {15, {0.00, 0.28, 0.00, 0.00, 0.00, 0.00}},
}};

/// The constants of equation (1) and the range of the method, in one system of units.
struct Constants {
  double load, h_least, h_most, v_middle, v_slope, v_most, d_least, d_most, d_slope;
};
constexpr Constants metric_constants{23, 25, 63, 75, 0.003, 175, 25, 175, 4.5};
constexpr Constants us_constants{51, 10, 25, 30, 0.0075, 70, 10, 70, 1.8};
constexpr double a_most = 135, hours_most = 8, least_per_min = 0.2;
constexpr double short_recovery = 1.2, moderate_recovery = 0.3; ///< of the work time; from memory, to be confirmed

const Constants& constants_of(LiftUnits units) { return units == LiftUnits::metric ? metric_constants : us_constants; }

/// Half up as printed tables do it; 0.985 is to become 0.99 although its double lies below.
double rounded(double value, double steps) { return std::floor(value * steps + 0.5 + 1e-9) / steps; }

/// DHHS (NIOSH) 94-110, table 7; poor from memory, to be confirmed.
double coupling_multiplier(Coupling coupling, bool low) {
  switch (coupling) {
  case Coupling::good:
    return 1;
  case Coupling::fair:
    return low ? 0.95 : 1;
  case Coupling::poor:
    return 0.90;
  }
  return 0.90;
}

/// What speaks against a number at this place. Written so that a value that is no number fails too.
std::vector<Reason> outside_at(const LiftPlace& place, const Constants& c) {
  std::vector<Reason> why;
  if (!(place.h > 0)) why.push_back({"h_not_positive", {}});
  if (place.h > c.h_most) why.push_back({"h_beyond_range", {}});
  if (!(place.v >= 0)) why.push_back({"v_negative", {}});
  if (place.v > c.v_most) why.push_back({"v_beyond_range", {}});
  if (!(place.d > 0)) why.push_back({"d_not_positive", {}});
  if (place.d > c.d_most) why.push_back({"d_beyond_range", {}});
  if (place.a && !(*place.a >= 0)) why.push_back({"a_negative", {}});
  if (place.a && *place.a > a_most) why.push_back({"a_beyond_range", {}});
  return why;
}

LiftMultipliers multipliers_at(const LiftPlace& place, const Constants& c, double fm, bool low) {
  return {.hm = c.h_least / std::max(place.h, c.h_least),
          .vm = 1 - c.v_slope * std::abs(place.v - c.v_middle),
          .dm = place.d <= c.d_least ? 1 : 0.82 + c.d_slope / place.d,
          .am = 1 - 0.0032 * place.a.value_or(0),
          .fm = fm,
          .cm = coupling_multiplier(place.coupling.value_or(Coupling::poor), low)};
}

/// Where the manual's tables print another value than its equations give: HM at 22 in (10/22 = 0.4545) and 23 in
/// (0.4348), DM at 130 cm (0.8546). Its worked examples use the tables.
void take_from_tables(LiftMultipliers& printed, const LiftPlace& place, LiftUnits units) {
  if (units == LiftUnits::us && place.h == 22) printed.hm = 0.46;
  if (units == LiftUnits::us && place.h == 23) printed.hm = 0.44;
  if (units == LiftUnits::metric && place.d == 130) printed.dm = 0.86;
}

/// (1)
LiftLimit limit_from(const LiftMultipliers& m, double load_constant, double load, bool as_printed) {
  LiftLimit limit;
  limit.multipliers = m;
  if (as_printed)
    for (double* value : {&limit.multipliers.hm, &limit.multipliers.vm, &limit.multipliers.dm, &limit.multipliers.am,
                          &limit.multipliers.fm, &limit.multipliers.cm})
      *value = as_in_print(*value);
  const LiftMultipliers& used = limit.multipliers;
  limit.firwl = load_constant * used.hm * used.vm * used.dm * used.am * used.cm;
  limit.rwl = limit.firwl * used.fm;
  if (as_printed) {
    limit.firwl = rounded(limit.firwl, 10);
    limit.rwl = rounded(limit.rwl, 10);
  }
  limit.fili = load / limit.firwl;
  limit.li = load / limit.rwl;
  return limit;
}

LiftAtPlace screen_at(const LiftPlace& place, const LiftingTask& task, std::optional<LiftDuration> duration) {
  const Constants& c = constants_of(task.units);
  LiftAtPlace result;
  result.why_not = outside_at(place, c);
  if (!(task.load > 0)) result.why_not.insert(result.why_not.begin(), {"load_not_positive", {}});
  const bool low = hands_low(place, task.units);
  std::optional<double> fm;
  if (!(task.per_min > 0))
    result.why_not.push_back({"per_min_not_positive", {}});
  else if (duration) {
    fm = frequency_multiplier(task.per_min, *duration, low);
    if (!fm) result.why_not.push_back({"per_min_beyond_table", {}});
  }
  if (!duration) result.why_not.push_back({*task.hours > hours_most ? "hours_beyond_range" : "hours_not_positive", {}});
  if (!result.why_not.empty()) return result;

  if (place.h < c.h_least) result.notes.push_back({"h_taken_as_least", {}});
  if (place.d < c.d_least) result.notes.push_back({"d_taken_as_least", {}});
  if (!place.a) result.notes.push_back({"a_not_given", {}});
  if (!place.coupling) result.notes.push_back({"coupling_not_given", {}});
  const bool in_a_row = std::any_of(frequency_rows.begin(), frequency_rows.end(),
                                    [&](const FrequencyRow& row) { return row.per_min == task.per_min; });
  if (task.per_min < least_per_min)
    result.notes.push_back({"frequency_taken_as_least", {}});
  else if (!in_a_row)
    result.notes.push_back({"frequency_between_rows", {}});

  LiftMultipliers m = multipliers_at(place, c, *fm, low);
  result.exact = limit_from(m, c.load, task.load, false);
  take_from_tables(m, place, task.units);
  result.as_printed = limit_from(m, c.load, task.load, true);
  return result;
}

} // namespace

std::optional<double> frequency_multiplier(double per_min, LiftDuration duration, bool low) {
  assert(per_min > 0);
  const std::size_t column = 2 * static_cast<std::size_t>(duration) + (low ? 0 : 1);
  if (per_min <= frequency_rows.front().per_min) return frequency_rows.front().fm[column];
  for (std::size_t i = 1; i < frequency_rows.size(); ++i) {
    const FrequencyRow &below = frequency_rows[i - 1], &above = frequency_rows[i];
    if (per_min > above.per_min) continue;
    if (above.fm[column] == 0) return std::nullopt;
    const double part = (per_min - below.per_min) / (above.per_min - below.per_min);
    return below.fm[column] + part * (above.fm[column] - below.fm[column]);
  }
  return std::nullopt;
}

double as_in_print(double multiplier) { return rounded(multiplier, 100); }

std::optional<LiftDuration> lift_duration(std::optional<double> hours, std::optional<double> recovery_hours) {
  if (!hours) return LiftDuration::up_to_8_h;
  if (!(*hours > 0) || *hours > hours_most) return std::nullopt;
  const auto recovered = [&](double share) { return recovery_hours && *recovery_hours >= share * *hours; };
  if (*hours <= 1 && recovered(short_recovery)) return LiftDuration::up_to_1_h;
  if (*hours <= 2 && recovered(moderate_recovery)) return LiftDuration::up_to_2_h;
  return LiftDuration::up_to_8_h;
}

bool hands_low(const LiftPlace& place, LiftUnits units) { return place.v < constants_of(units).v_middle; }

LiftScreening screen_lift(const LiftingTask& task, std::optional<LiftDuration> of_the_job) {
  LiftScreening result;
  result.task = task.task;
  result.units = task.units;
  const std::optional<LiftDuration> own = lift_duration(task.hours, task.recovery_hours);
  result.duration = own && of_the_job ? of_the_job : own;
  result.origin = screen_at(task.origin, task, result.duration);
  if (task.destination) result.destination = screen_at(*task.destination, task, result.duration);

  if (!task.hours)
    result.notes.push_back({"hours_not_given", {}});
  else if (own && *own != lift_duration(task.hours, std::numeric_limits<double>::infinity()))
    result.notes.push_back({task.recovery_hours ? "recovery_too_short" : "recovery_not_given", {}});
  // The way is the difference of the two heights; a centimetre or half an inch is what a tape reads.
  const double tape = task.units == LiftUnits::metric ? 1 : 0.5;
  if (task.destination && std::abs(std::abs(task.destination->v - task.origin.v) - task.origin.d) > tape)
    result.notes.push_back({"d_is_not_the_height_difference", {}});
  return result;
}

LiftingTask lift_at_line_cycle(LiftingTask task, Seconds now, Seconds asked) {
  assert(now.count() > 0 && asked.count() > 0);
  task.per_min *= now / asked;
  return task;
}

} // namespace docket
