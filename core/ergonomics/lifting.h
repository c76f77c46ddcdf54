// The revised lifting equation: the weight that nearly all healthy people could lift so, and the load over it.
//
// Model     RWL = LC HM VM DM AM FM CM,  LI = load / RWL;  FIRWL and FILI the same without FM           (1)
//             LC  23 kg (51 lb);  HM = 25/H cm (10/H in);  VM = 1 - 0.003 |V - 75| (1 - 0.0075 |V - 30|)
//             DM = 0.82 + 4.5/D (0.82 + 1.8/D);  AM = 1 - 0.0032 A;  FM, CM from tables
//             H below 25 cm (10 in) counts as 25, D below 25 cm as 25, F below 0.2 a minute as 0.2
// Source    T. R. Waters, V. Putz-Anderson, A. Garg, Applications manual for the revised NIOSH lifting equation, DHHS
//           (NIOSH) 94-110, 1994, revised 9/2021 (United States government work, in the public domain). FM of 11 and
//           more lifts a minute, CM of poor coupling and the recovery rule: from memory, to be confirmed
// Method    twice: `exact` with unrounded multipliers; `as_printed` as the manual works, multipliers rounded to two
//           decimals (HM at 22 and 23 in and DM at 130 cm as its tables print them, which is not what the equations
//           give), RWL and FIRWL to one, and LI from that. The two differ by a few percent. FM between two rows
//           lies on a straight line (common practice); beyond the last row above zero there is none. Outside the
//           method's own range (H 63 cm, V 175 cm, D 175 cm, A 135 degrees, 15 lifts a minute, 8 hours) no number
// Spread    none is published
// Assumes   what the method assumes (codes in revised_lifting_equation().range). Not covered: lifting in bouts of less
//           than 15 minutes, whose frequency the manual averages first; its leave to count seldom lifts as of the
//           shortest class; work sessions that must be added up because
//           the pause between them is too short: a class of duration whose recovery is not there gives way to the next
// Checked   tests/core/ergonomics/lifting_test.cpp: worked examples of the manual by multiplier, its printed tables
#pragma once

#include "core/case.h"
#include "core/ergonomics/screening.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

enum class LiftUnits : std::uint8_t { metric, us }; ///< kg and cm, or lb and in
/// Classes of the frequency table.
enum class LiftDuration : std::uint8_t { up_to_1_h, up_to_2_h, up_to_8_h };

/// Where the load is taken up, or set down with control. Lengths in the units of the task.
struct LiftPlace {
  double h = 0;                     ///< hands from the middle between the ankles, level
  double v = 0;                     ///< hands above the floor
  double d = 0;                     ///< way of the load, up or down
  std::optional<double> a;          ///< [degree] turn to the side; absent: taken as 0, noted
  std::optional<Coupling> coupling; ///< absent: taken as poor, noted
};

struct LiftingTask {
  std::string task;
  LiftUnits units = LiftUnits::metric;
  double load = 0;
  LiftPlace origin;
  std::optional<LiftPlace> destination; ///< only where control is needed there
  double per_min = 0;                   ///< [1/min]
  std::optional<double> hours;          ///< [h] of it a shift; absent: taken as 2 to 8, noted
  std::optional<double> recovery_hours; ///< [h] rest or light work that follows; absent: taken as too little, noted
};

struct LiftMultipliers {
  double hm = 0, vm = 0, dm = 0, am = 0, fm = 0, cm = 0; ///< [1]
};

struct LiftLimit {
  LiftMultipliers multipliers;
  double firwl = 0, rwl = 0; ///< in the units of the task; without and with the frequency
  double fili = 0, li = 0;   ///< [1] load over each
};

/// Codes without a number: load_not_positive, h_not_positive, h_beyond_range, v_negative, v_beyond_range,
/// d_not_positive, d_beyond_range, a_negative, a_beyond_range, per_min_not_positive, per_min_beyond_table,
/// hours_not_positive, hours_beyond_range.
/// Notes: h_taken_as_least, d_taken_as_least, a_not_given, coupling_not_given, frequency_taken_as_least,
/// frequency_between_rows.
struct LiftAtPlace {
  std::optional<LiftLimit> exact;      ///< unrounded multipliers
  std::optional<LiftLimit> as_printed; ///< multipliers rounded as the manual does
  std::vector<Reason> why_not;         ///< all of them; empty where there is a number
  std::vector<Reason> notes;
};

/// Notes: hours_not_given, recovery_not_given, recovery_too_short, d_is_not_the_height_difference.
struct LiftScreening {
  std::string task;
  LiftUnits units = LiftUnits::metric;
  std::optional<LiftDuration> duration; ///< absent with hours out of range
  LiftAtPlace origin;
  std::optional<LiftAtPlace> destination;
  std::vector<Reason> notes;
};

/// FM, or absent beyond the table. `low`: hands below 75 cm (30 in). per_min > 0.
std::optional<double> frequency_multiplier(double per_min, LiftDuration duration, bool low);

/// A multiplier to two decimals, a half upwards.
double as_in_print(double multiplier);

/// The class by hours and recovery. Absent where hours are not above 0, or above 8.
std::optional<LiftDuration> lift_duration(std::optional<double> hours, std::optional<double> recovery_hours);

/// True where the hands are below the height at which the tables of frequency and coupling change.
bool hands_low(const LiftPlace& place, LiftUnits units);

/// `of_the_job`: the class of duration of the whole job in place of the task's own.
LiftScreening screen_lift(const LiftingTask& task, std::optional<LiftDuration> of_the_job = std::nullopt);

/// The same task on a line with another cycle: as many lifts a unit. Both times above 0.
LiftingTask lift_at_line_cycle(LiftingTask task, Seconds now, Seconds asked);

} // namespace docket
