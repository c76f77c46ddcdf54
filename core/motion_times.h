// A table of the times of the basic motions, as data. How a code is read and timed is in core/content/motions.
//
// Model     a printed value keeps where it stands and how it was come by
// Assumes   inches, pounds, TMU: 1 TMU = 0.00001 h = 0.036 s (the unit's definition)
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace docket {

inline constexpr double seconds_per_tmu = 0.036; ///< [s] 0.00001 h, exact

/// How a printed value was come by.
enum class MotionValueStatus : std::uint8_t { found, memory_sure, memory_fairly_sure };

/// Where a value stands in the table.
struct MotionValueOrigin {
  std::string file; ///< name without its folder
  std::int64_t line = 0;
  MotionValueStatus status = MotionValueStatus::found;
  std::string source;
};

/// One row of reach, move or turn: a time for each case.
struct DistanceRow {
  double distance = 0;                    ///< [in], or degrees
  std::vector<std::optional<double>> tmu; ///< by column; absent where none is printed
  MotionValueOrigin origin;
};

/// Columns of reach: A, B, C or D, E, in motion A, in motion B; of move: A, B, C, in motion B; of turn: S, M, L.
struct DistanceTable {
  std::vector<DistanceRow> rows;                  ///< ascending
  std::optional<DistanceRow> each_inch_over_last; ///< its distance has no meaning
};

struct WeightRow {
  double up_to = 0; ///< [lb] per hand
  double factor = 1;
  double constant = 0; ///< [TMU]
  MotionValueOrigin origin;
};

struct CodeTime {
  double tmu = 0;
  MotionValueOrigin origin;
};

/// The whole table. `by_code` holds what has one time, and the constants of ET, LM, SS and W under names with a _.
struct MotionTimes {
  DistanceTable reach, move, turn;
  std::vector<WeightRow> move_weight; ///< ascending
  std::map<std::string, CodeTime> by_code;
};

} // namespace docket
