// The times of the basic motions, and the time of one motion.
//
// Model     reach, move, turn   straight line between the printed distances (degrees); over the last printed distance
//                               the time of each further inch, where the table gives it
//           move with weight    constant + factor x time, by the first row whose weight is not below the weight per hand
//           eye travel          15.2 T / D, at most 20;  T between the points, D from the eye to their line
//           leg, side step      the printed distance, and the time of each further inch
//           walk                the number of paces or feet times the time of one
// Source    the table of the basic motions as textbooks reprint it (ingest/motion_data/ORIGIN says which values were
//           found and which are from memory); weight rule: a published worked analysis; the straight line: common
//           practice, no printed rule at hand; weight of one object in two hands halved: from memory, found in print
//           for the simplified second generation of such times
// Method    3/4 in and less have the first row's time; a turn below the first row has none. A hand in motion at one end
//           has its own columns, A and B of a reach, B of a move; every other hand in motion, at both ends too, has no
//           time here, and says so. Weight with a hand in motion: the same rule, the table makes no exception
// Assumes   inches, pounds, TMU; trained people at normal pace, no allowances
// Checked   tests/core/content/motions/motion_table_test.cpp, tests/ingest/motion_data_test.cpp
#pragma once

#include "core/content/motions/motion_code.h"
#include "core/motion_times.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// In the words of the column `status`.
std::string_view words_of(MotionValueStatus status);

/// One value of the table that a time was made of.
struct MotionValueUsed {
  std::string what; ///< e.g. "move 10 in, B"
  MotionValueOrigin origin;
};

/// The time of one motion, or why it has none.
struct MotionTime {
  std::optional<double> tmu;
  std::string formula; ///< e.g. "2.2 + 1.06 x 12.2"
  std::vector<MotionValueUsed> used;
  std::string code;  ///< where it has no time: beyond_table, below_table, weight_beyond_table, not_in_table
  std::string wrong; ///< a sentence
  std::string right; ///< a sentence
};

/// `in_both_hands`: one object moved by the two hands together, so that each carries half its weight.
MotionTime time_of_motion(const MotionTimes& table, const MotionCode& motion, bool in_both_hands);

} // namespace docket
