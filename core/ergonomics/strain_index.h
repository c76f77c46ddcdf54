// Two indices of strain of hand, wrist and forearm.
//
// Model     1995: SI = product of six multipliers by rating: intensity, share of time exerted, efforts a minute, posture
//                 of the wrist, speed, hours a day                                                           (1)
//           2017: RSI = IM EM DM PM HM, of intensity I (share of the strength), efforts a minute E, seconds of one
//                 effort D, angle of the wrist P, hours a day H                                              (2)
//             IM  I <= 0.4: 30 I^3 - 15.6 I^2 + 13 I + 0.4;  else 36 I^3 - 33.3 I^2 + 24.77 I - 1.86
//             EM  E <= 90: 0.10 + 0.25 E;  else 0.00334 E^1.96
//             DM  D <= 60: 0.45 + 0.31 D;  else 19.17 ln D - 59.44
//             PM  flexion: 1.2 e^(0.009 P) - 0.2;  extension: 1 to 30 degrees, then 1 + 0.00028 (P - 30)^2
//             HM  H <= 0.05: 0.20;  else 0.042 H + 0.090 ln H + 0.477
// Source    J. S. Moore, A. Garg, AIHA Journal 56 (1995), 443-458: multipliers of intensity found in a lecture on the
//           paper, the others from memory, to be confirmed. A. Garg, J. S. Moore, J. M. Kapellusch, Ergonomics 60
//           (2017), 912-922: form found, equations (2) from memory, to be confirmed. Its index for several tasks
//           together is left out: no copy was at hand
// Method    (1) is computed only from ratings given as such, never from the force over strength, the three words of
//           posture or the free words of speed, which are not the ratings of the paper; share exerted and efforts a
//           minute are those of the seconds and counts given. (2) needs strength with its source, hours and the angle of
//           the wrist; the posture `neutral` is taken as an angle of 0, `bent` and `far` have none
// Spread    none is published
// Assumes   one task; the codes of range
// Checked   tests/core/ergonomics/strain_index_test.cpp: the product worked in the paper of 1995, joins of (2)
#pragma once

#include "core/ergonomics/efforts.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

struct StrainRatings {
  ExertionIntensity intensity = ExertionIntensity::light;
  double exerted = 0; ///< [1] share of the time, 0 to 1
  double per_min = 0; ///< [1/min]
  WristPosture posture = WristPosture::very_good;
  WorkSpeed speed = WorkSpeed::very_slow;
  double hours = 0; ///< [h] a day
};

struct StrainIndex {
  double intensity = 0, exerted = 0, per_min = 0, posture = 0, speed = 0, hours = 0; ///< [1] multipliers
  double index = 0;                                                                  ///< [1] (1)
};

/// Codes: exerted_out_of_range, per_min_not_positive, hours_not_positive, hours_beyond_range. Of an effort:
/// intensity_rating_not_given, posture_rating_not_given, speed_rating_not_given.
struct StrainScreening {
  std::optional<StrainIndex> result;
  std::vector<Reason> why_not;
};

/// (1). Ranges printed with a gap, as 10-29 and 30-49 %, meet at the start of the next.
StrainScreening screen_strain(const StrainRatings& ratings);

/// (1) of a row of `efforts`, where all its ratings are given; else what it lacks.
StrainScreening screen_strain(const Effort& effort, double exerted, double per_min);

/// Degrees from straight; flexion towards the palm.
struct WristAngle {
  double degrees = 0;
  bool flexion = true;
};

struct RevisedStrainInput {
  double intensity = 0; ///< [1] of the strength, above 0, at most 1
  double per_min = 0;   ///< [1/min]
  Seconds each{};
  WristAngle wrist;
  double hours = 0; ///< [h] a day, at most 8 here
};

struct RevisedStrain {
  double im = 0, em = 0, dm = 0, pm = 0, hm = 0; ///< [1]
  double index = 0;                              ///< [1] (2)
};

/// Codes: intensity_out_of_range, per_min_not_positive, seconds_not_positive, angle_out_of_range, hours_not_positive,
/// hours_beyond_range. Of an effort: force_not_positive, times_not_positive, share_out_of_range, cycle_not_positive,
/// strength_not_given, strength_not_positive, strength_source_not_given, hours_not_given, wrist_angle_not_given.
/// Notes: posture_neutral_taken_as_straight.
struct RevisedStrainScreening {
  std::string task;
  std::optional<RevisedStrain> result;
  std::vector<Reason> why_not;
  std::vector<Reason> notes;
};

/// (2)
RevisedStrainScreening screen_revised_strain(const RevisedStrainInput& input);

/// (2) of an effort on a line with this cycle. `wrist`: where it was measured.
RevisedStrainScreening screen_revised_strain(const HandEffort& effort, Seconds line_cycle,
                                             std::optional<WristAngle> wrist = std::nullopt);

} // namespace docket
