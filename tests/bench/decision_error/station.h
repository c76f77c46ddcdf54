// A simulated station: what is true of it, and one set of tables that an observer would bring home from it.
//
// Model     ln of a cycle = ln true time of the variant + pace of the people there + own pace + day + w - SD^2/2, w a
//           first-order autoregression within a day. The standard's elements are the true times with one error each and
//           one error of level; a rating takes out the pace of the people there and has one error
// Source    the sizes of the systematic errors: the project's settings; the model is the one the rules state, and the
//           factors below are departures from it
// Method    numbers drawn by address (seed, station, purpose, person, cycle): order and thread change nothing
// Assumes   the true variant times belong to the point, so that the truth is one number a point
// Checked   tests/bench/decision_error/decision_error_test.cpp
#pragma once

#include "core/case.h"

#include <cstdint>
#include <vector>

namespace docket::bench {

inline constexpr Seconds line_cycle{60};

enum class BuiltMix { as_planned, by_shift };
enum class Leavers { none, named_seen, named_unseen, not_named };
enum class BuildOrder { none, even, in_pairs };

/// Everything that is true of a station but the level of its times.
struct StationShape {
  int operators = 5;        ///< trained people there, all settled
  double between = 0.04;    ///< SD of ln own mean
  double within = 0.06;     ///< SD of ln cycle within a person and day
  double lag1 = 0.2;        ///< of w
  double day_effect = 0.01; ///< SD of ln, a person and day
  int variants = 1;         ///< one, or three
  BuiltMix mix = BuiltMix::as_planned;
  double heavy_excess = 0; ///< [1] by how much the heaviest variant takes longer than its content says; the rest less
  double helped = 0;       ///< [1] of cycles; the long ones rather than the short
  Leavers leavers = Leavers::none; ///< half of those above the mean leave
  Seconds early{3}, late{9};       ///< the work zone
  BuildOrder order = BuildOrder::none;
  bool condition = false;          ///< times are 8 % longer in the last quarter of the days, and the table says so
  bool settled = true;             ///< there is a cycle log
  int restudied = 0;               ///< operators of the restudy
  bool rating_in_standard = false; ///< the standard was set by stopwatch: its level has the error of the rating
  double able = 0.90;              ///< [1] share of trained people that must be able
  int days = 20, cycles_a_day = 30;
  std::int64_t cycles_per_shift = 60;
};

/// Shares of the planned mix.
std::vector<double> planned_shares(const StationShape& shape);

/// True time of each variant where the mean over the planned mix is `level`.
std::vector<Seconds> true_times(const StationShape& shape, Seconds level);

/// The build order as indices of variants, one run; empty where none is given.
std::vector<std::int32_t> build_order(const StationShape& shape);

/// One station whose average trained person takes `level` for the planned mix at normal pace. `stream` keeps points
/// apart; every systematic error is drawn afresh for each station.
Case simulate_station(const StationShape& shape, Seconds level, std::uint64_t seed, std::uint64_t stream,
                      std::uint64_t station);

} // namespace docket::bench
