// Every fixed threshold of the method, once. A change here changes results: `rule_version` goes up with it, and
// DEVELOPERS.md says what changed and why. What a user may set is in Settings, not here.
//
// The sections are those of the method: 1 time available, 2 the standard, 3 settled operators, 4 restudy, 5 sequence,
// 6 the decision, 7 practice curves, 8 time bridge.
#pragma once

#include <cstddef>
#include <cstdint>

namespace docket::rules {

inline constexpr const char* rule_version = "5";

// 1 Time available
inline constexpr double times_agree_within = 0.005; ///< [1] takt, OEE and line cycle time as given

// 2 The standard
inline constexpr double element_uncertainty = 0.10;        ///< [1] of an element as long as the next line
inline constexpr double element_uncertainty_at_s = 3.6;    ///< [s] 100 TMU
inline constexpr double least_standard_uncertainty = 0.03; ///< [1] below it a reason is required
inline constexpr double least_expected_seen = 3;           ///< an element is missed where so many were to be expected
inline constexpr double stale_mix_share = 0.005;           ///< [1] of the station time (common practice)
inline constexpr double mix_by_chance_z = 1.96;            ///< a built mix this far off may be so by chance
inline constexpr double unmeasured_share = 0.10;           ///< [1] of the station time not measured (common practice)
inline constexpr double element_tells_share = 0.10;        ///< [1] of an element's time: a wider interval can't tell
inline constexpr double motions_differ_share = 0.10;       ///< [1] of the time given (common practice)

// 3 Settled operators
inline constexpr int settled_window_days = 20;             ///< worked days looked at
inline constexpr std::int64_t settled_least_cycles = 200;  ///< plain cycles
inline constexpr int settled_least_days = 3;               ///< days with plain cycles
inline constexpr int settled_blocks = 8;                   ///< blocks of equal count
inline constexpr double settled_bound_z = 1.645;           ///< one-sided 95 % of a normal
inline constexpr int settled_resamples = 400;              ///< of whole days in random order
inline constexpr std::int64_t own_variant_cycles = 20;     ///< fewer: the level is bridged by the standard's ratios
inline constexpr double common_variant_share = 0.05;       ///< [1] variants that must be own means
inline constexpr double help_without_seconds_share = 0.02; ///< [1] of a settled operator's cycles
/// [1] of the settled operators' cycles, as for question B: with more, nobody saw the station worked without help.
inline constexpr double most_help_of_unknown_length = 0.20;
inline constexpr double variant_test_p = 0.05;     ///< below it bridged levels lean
inline constexpr double identical_within = 1e-9;   ///< [1] relative; closer values are the same
inline constexpr std::int64_t least_operators = 3; ///< fewer settled operators: the line leans
inline constexpr int first_cycles = 5;             ///< warm-up: after a start or a pause (common practice)
inline constexpr double pause_s = 600;             ///< [s] a pause is longer (common practice)
inline constexpr double warm_up_share = 0.01;      ///< [1] the interval must lie so far from 1 (common practice)
inline constexpr double least_first_cycles = 3, least_rest_cycles = 20, least_warm_up_days = 5;

// 4 Restudy: checks of the study; all of them common practice but where a test of core/statistics has its own range
inline constexpr int usual_operators = 3, usual_days = 2, usual_shifts = 2, usual_parts = 3; ///< a study covers
inline constexpr int near_condition_days = 14;              ///< days before or after a condition that differs
inline constexpr double least_ratings = 15;                 ///< by one observer
inline constexpr double least_raw_spread = 0.01;            ///< [1] SD of raw times within operators
inline constexpr double flat_rating_slope = 0.5;            ///< [1] of ln rated on ln raw time
inline constexpr double bunched_share = 0.5;                ///< [1] of ratings with one value
inline constexpr double least_session_cycles = 10;          ///< for a slope inside a session
inline constexpr double drift_p = 0.01;                     ///< [1] two-sided
inline constexpr double drift_share = 0.05;                 ///< [1] first to last cycle: what passes reaches no further
inline constexpr double least_pilot_readings = 10;          ///< fewer do not tell how many are needed
inline constexpr double least_pairs = 5;                    ///< cycles two observers both timed
inline constexpr double observers_bias_share = 0.02;        ///< [1] mean difference, of the mean time
inline constexpr double observers_limits_share = 0.10;      ///< [1] from limit to limit, of the mean time
inline constexpr double observers_rating_difference = 0.05; ///< [1] mean difference of ratings
inline constexpr double digit_ripple = 0.05;                ///< [1] unevenness of honest last digits, at most
inline constexpr double digit_p = 0.01;                     ///< [1]
inline constexpr double least_digits = 50;                  ///< readings (five expected of each digit)
inline constexpr double heaped_share = 0.40;                ///< [1] in 0 or 5, twice the usual: passed rules it out
inline constexpr double least_for_spread = 5;               ///< readings of one element and variant
inline constexpr double least_for_extremes = 25;            ///< readings, generalized ESD
inline constexpr double extremes_alpha = 0.05;              ///< [1]
inline constexpr std::size_t least_days_as_blocks = 5;      ///< fewer days don't tell how days differ
inline constexpr double unlike_days_factor = 2;          ///< [1] most cycles a worked day over least (common practice)
inline constexpr std::size_t least_alike = 10;           ///< times of one person or session that are all the same
inline constexpr std::int64_t least_people_compared = 5; ///< settled operators, one of them against the rest
inline constexpr std::size_t most_extremes = 10;         ///< and at most a tenth of the readings
inline constexpr double closure_share = 0.01;            ///< [1] of the time from start to end
inline constexpr double minute_ends_s = 60;              ///< [s] where start and end are whole minutes

// 5 Sequence
inline constexpr double overload_least_s = 0.5;      ///< [s] an overload is at least this long
inline constexpr double overload_least_share = 0.01; ///< [1] or this share of the line cycle time
inline constexpr int drawn_shifts = 400;
inline constexpr std::int64_t cycles_per_shift_assumed = 450;
inline constexpr std::int64_t given_order_least_units = 20000;
inline constexpr double margin_factor_low = 0.5, margin_factor_high = 2.0; ///< [1] where k* is looked for
inline constexpr double margin_factor_step = 0.001;                        ///< [1]
/// [1] Likeness of neighbouring cycles where their spread is stated and no log shows it: a choice, for one person's
/// cycles are seldom independent, and runs of long ones use up the work zone.
inline constexpr double stated_spread_lag1 = 0.2;
inline constexpr double shown_rates[3] = {0.001, 0.010, 0.050}; ///< [1] overloads per unit

// 6 The decision
inline constexpr double clash_factor_two = 2.0;   ///< two lines
inline constexpr double clash_factor_three = 2.4; ///< three lines
inline constexpr double covariance_condition = 1e10;
inline constexpr double zone_able = 0.8;                    ///< [1] P_zone asked for by FITS
inline constexpr double leans_fits = 0.6, leans_over = 0.4; ///< [1] P
inline constexpr double not_object = 0.5;         ///< [1] P of the other lines beside exactly two settled operators
inline constexpr double zero_spread_weight = 0.5; ///< [1] weight from which identical values stop the decision

// 7 Practice curves
inline constexpr std::int64_t least_practice_cycles = 60; ///< plain cycles
inline constexpr int least_practice_days = 3;
inline constexpr double most_lag1 = 0.8;
inline constexpr double most_under_condition = 0.25; ///< [1] of the own cycles
inline constexpr double most_lower_bounds = 0.20;    ///< [1] of the own cycles
inline constexpr double horizon_shifts = 5;          ///< shifts after the last cycle at which the level is "settled"
inline constexpr double horizon_times_observed = 3;  ///< nothing is said beyond
inline constexpr std::int64_t least_others_in_band = 5;
inline constexpr std::int64_t outlook_cycles = 200;    ///< what so many more would tell
inline constexpr double most_late_improving = 0.10;    ///< [1] P(G > delta) of the last half, for "settled"
inline constexpr std::int64_t cycles_after_break = 60; ///< first plain cycles after a break that show a loss
inline constexpr double hole_days_share = 0.1;         ///< [1] of a gap's days on which anybody may be seen in a hole
inline constexpr std::int64_t least_after_break = 20;  ///< fewer show nothing
inline constexpr double times_the_loss = 3;            ///< so many times the cycles lost make it good

// 7 Earlier learners of the station, and what they lend
inline constexpr std::int64_t learners_begin_below = 200; ///< own cycle of the first cycle seen (common practice)
inline constexpr std::size_t least_learner_cycles = 60;   ///< plain cycles, as for a person's own curve
inline constexpr int least_learners = 3;                  ///< to fit at all
inline constexpr int least_learners_for_band = 5;         ///< fewer: a single one might be read from it
inline constexpr int least_learners_for_course = 5;       ///< r and tau differ between learners
inline constexpr std::size_t least_borrowing_cycles = 10; ///< own plain cycles (common practice)
/// [1] SD between learners of ln r and of ln tau, at least, where borrowed: a choice, so that short records or few
/// learners do not make all learners alike.
inline constexpr double least_spread_borrowed = 0.3;
inline constexpr double least_excess_in_errors = 2; ///< r over its standard error: practice is to be seen

// 7 Beside B: others
/// Fewer own plain cycles are few: an estimate is borrowed from earlier learners, where there are any (common practice).
inline constexpr std::size_t few_own_cycles = 200;
/// Fewer others: how many of them are above the limit is not said, for a single one might be read from it.
inline constexpr std::int64_t least_others_counted = 3;

// 6 What flips it
inline constexpr double errors_alike = 0.5; ///< [1] correlation of the errors of level, pace and rating that is tried

// 8 Time bridge
inline constexpr std::int64_t least_peers = 3;

// What would bring it within the limit, and what the line speed costs: for planning, they decide nothing
inline constexpr double planning_step_s = 0.02;    ///< [s] bisection
inline constexpr double target_efficiency = 0.95;  ///< [1] common practice
inline constexpr double target_utilisation = 0.70; ///< [1] common practice

} // namespace docket::rules
