// Efforts of hands and arms against what is acceptable for as large a part of the cycle.
//
// Model     MAE = 1 - (DC - 1/28800)^0.24,  a share of the strength                                          (1)
//           DC  = sum of w n t / L: share of the line cycle in which the effort is held; w share of units, n times a
//           unit, t seconds each, L line cycle time                                                          (2)
// Source    J. R. Potvin, Predicting maximum acceptable efforts for repetitive tasks: an equation based on duty cycle,
//           Human Factors 54 (2012), 175-188. Equation (1) from memory, to be confirmed. That only some 6 % of its data
//           had DC of 0.5 and more: M. W. Sonne, J. R. Potvin, Ergonomics 58 (2015), 118-127
// Method    each effort with its own DC; and by hand, all efforts of the hand together with the sum of their DC. The
//           equation is for one kind of effort repeated: over the sum it is held beside the largest force (the careful
//           reading) and beside the mean over the seconds held. DC below 1/28800, one second in 8 hours, or above 1: no
//           number
// Spread    root mean square difference between equation and studies 0.07 of the strength (Sonne & Potvin 2015)
// Assumes   the seconds of an effort stay the same when the line runs faster; the strength value is of the population,
//           posture and direction of the effort, which is why its source must be given
// Checked   tests/core/ergonomics/efforts_test.cpp: closed form and end points; no published example was at hand
#pragma once

#include "core/case.h"
#include "core/ergonomics/screening.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct HandEffort {
  std::string task;
  Hand hand = Hand::both;
  double force_n = 0; ///< [N]
  Seconds time{};     ///< held, each time
  double times_per_unit = 0;
  double share_of_units = 1;        ///< [1] 0 to 1, of the planned mix; 1 for one variant that has it
  std::optional<double> strength_n; ///< [N]
  std::string strength_source;
  EffortPosture posture = EffortPosture::not_given;
  std::string speed; ///< free words
  std::optional<double> hours;
};

/// Codes without a number: force_not_positive, seconds_not_positive, times_not_positive, share_out_of_range,
/// hours_not_positive, hours_beyond_range, duty_below_range, duty_above_one (no MAE); strength_not_given,
/// strength_not_positive, strength_source_not_given (MAE, but nothing it is compared with).
/// Notes: few_data_at_this_duty, force_above_strength, hours_not_given.
struct EffortScreening {
  std::string task;
  Hand hand = Hand::both;
  std::optional<double> duty_cycle;    ///< [1]
  std::optional<double> mae;           ///< [1] of the strength
  std::optional<double> acceptable_n;  ///< [N]
  std::optional<double> force_share;   ///< [1] force / strength
  std::optional<double> of_acceptable; ///< [1] force / acceptable force
  std::vector<Reason> why_not;
  std::vector<Reason> notes;
};

/// All efforts of one hand; those of both hands count in each. Codes without a number: effort_not_usable with the task
/// (nothing is summed), duty_above_one, duty_below_range; effort_without_strength with the task (sum and MAE stand).
/// Notes: few_data_at_this_duty, equation_is_for_one_effort.
struct HandScreening {
  Hand hand = Hand::left;
  std::size_t efforts = 0;
  std::optional<double> duty_cycle;          ///< [1] sum
  std::optional<double> mae;                 ///< [1] of the strength, at the sum
  std::optional<double> largest_force_share; ///< [1]
  std::optional<double> mean_force_share;    ///< [1] over the seconds held
  std::vector<Reason> why_not;
  std::vector<Reason> notes;
};

struct EffortsScreening {
  Seconds cycle{};
  std::vector<EffortScreening> efforts; ///< in the order given
  std::vector<HandScreening> hands;     ///< left, right; only where there is an effort
  std::vector<Reason> why_not;          ///< cycle_not_positive: nothing is computed
};

/// (1), or absent where DC is below 1/28800 or above 1.
std::optional<double> maximum_acceptable_effort(double duty_cycle);

/// Share of the units of the planned mix that carry the element of this name. Absent where the standard has none.
std::optional<double> share_of_units_with(const Case& input, std::string_view element);

/// At one line cycle time. For a faster line: again with the shorter one.
EffortsScreening screen_efforts(std::span<const HandEffort> efforts, Seconds line_cycle);

} // namespace docket
