// A small motion table made by hand for the tests: values of the reprinted handbook table, as far as a test needs them.
// tests/reference/motion_examples/ORIGIN says where they come from.
#pragma once

#include "core/content/motions/motion_table.h"

#include <initializer_list>
#include <string>
#include <utility>

namespace docket::made {

inline DistanceRow distance_row(double distance, std::vector<std::optional<double>> tmu) {
  return {distance, std::move(tmu), {"reach.csv", 2, MotionValueStatus::found, "reprinted"}};
}

inline MotionTimes motion_times() {
  MotionTimes table;
  table.reach.rows = {distance_row(0.75, {2, 2, 2, 2, 1.6, 1.6}),
                      distance_row(1, {2.5, 2.5, 3.6, 2.4, 2.3, 2.3}),
                      distance_row(10, {8.7, 11.5, 12.9, 10.5, 7.3, 8.6}),
                      distance_row(12, {9.6, 12.9, 14.2, 11.8, 8.1, 10.1}),
                      distance_row(14, {10.5, 14.4, 15.6, 13, 8.9, 11.5}),
                      distance_row(16, {11.4, 15.8, 17, 14.2, 9.7, 12.9}),
                      distance_row(30, {17.5, 25.8, 26.7, 22.9, 15.3, 23.2})};
  table.reach.each_inch_over_last = distance_row(0, {0.4, 0.7, 0.7, 0.6, std::nullopt, std::nullopt});
  table.move.rows = {distance_row(0.75, {2, 2, 2, 1.7}),        distance_row(1, {2.5, 2.9, 3.4, 2.3}),
                     distance_row(8, {9.7, 10.6, 11.8, 7.2}),   distance_row(9, {10.5, 11.5, 12.7, 7.9}),
                     distance_row(10, {11.3, 12.2, 13.5, 8.6}), distance_row(12, {12.9, 13.4, 15.2, 10}),
                     distance_row(30, {27.1, 24.3, 30.7, 22.7})};
  table.move.each_inch_over_last = distance_row(0, {0.8, 0.6, 0.85, std::nullopt});
  table.turn.rows = {distance_row(30, {2.8, 4.4, 8.4}), distance_row(90, {5.4, 8.5, 16.2}),
                     distance_row(105, {6.1, 9.6, 18.3}), distance_row(180, {9.4, 14.8, 28.2})};
  const MotionValueOrigin weights{"move_weight.csv", 2, MotionValueStatus::found, "reprinted"};
  table.move_weight = {
      {2.5, 1, 0, weights}, {7.5, 1.06, 2.2, weights}, {12.5, 1.11, 3.9, weights}, {47.5, 1.5, 16, weights}};
  const auto add = [&](std::initializer_list<std::pair<const char*, double>> codes, MotionValueStatus status) {
    for (const auto& [code, tmu] : codes) table.by_code[code] = {tmu, {"codes.csv", 2, status, "reprinted"}};
  };
  add({{"G1A", 2.0},
       {"G1B", 3.5},
       {"G4A", 7.3},
       {"G5", 0},
       {"RL1", 2.0},
       {"P1NSE", 10.4},
       {"SS12C2", 34.1},
       {"LM6", 7.1},
       {"EF", 7.3}},
      MotionValueStatus::found);
  add({{"G2", 5.6},
       {"RL2", 0},
       {"ET_factor", 15.2},
       {"ET_most", 20},
       {"SSC2_each_inch", 1.1},
       {"LM_each_inch", 1.2},
       {"W_P", 15},
       {"P2SE", 16.2}},
      MotionValueStatus::memory_sure);
  return table;
}

} // namespace docket::made
