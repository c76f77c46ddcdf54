// Every fixed threshold of the method, once. A change here changes results: `rule_version` goes up with it, and
// DEVELOPERS.md says what changed and why. What a user may set is in Settings, not here.
//
// The sections are those of the method: 1 time available, 2 the standard, 3 settled operators, 4 restudy, 5 sequence,
// 6 the decision, 7 practice curves, 8 time bridge.
#pragma once

#include <cstdint>

namespace docket::rules {

inline constexpr const char* rule_version = "1";

// 1 Time available
inline constexpr double times_agree_within = 0.005; ///< [1] takt, OEE and line cycle time as given

// 2 The standard
inline constexpr double element_uncertainty = 0.10;        ///< [1] of an element as long as the next line
inline constexpr double element_uncertainty_at_s = 3.6;    ///< [s] 100 TMU
inline constexpr double least_standard_uncertainty = 0.03; ///< [1] below it a reason is required

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
inline constexpr double variant_test_p = 0.05;             ///< below it bridged levels lean
inline constexpr double identical_within = 1e-9;           ///< [1] relative; closer values are the same
inline constexpr std::int64_t least_operators = 3;         ///< fewer settled operators: the line leans

// 5 Sequence
inline constexpr double overload_least_s = 0.5;      ///< [s] an overload is at least this long
inline constexpr double overload_least_share = 0.01; ///< [1] or this share of the line cycle time
inline constexpr int drawn_shifts = 400;
inline constexpr std::int64_t cycles_per_shift_assumed = 450;
inline constexpr std::int64_t given_order_least_units = 20000;
inline constexpr double margin_factor_low = 0.5, margin_factor_high = 2.0; ///< [1] where k* is looked for
inline constexpr double margin_factor_step = 0.001;                        ///< [1]
inline constexpr double shown_rates[3] = {0.001, 0.010, 0.050};            ///< [1] overloads per unit

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

// 8 Time bridge
inline constexpr std::int64_t least_peers = 3;

} // namespace docket::rules
