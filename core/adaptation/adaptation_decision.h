// The decision on B: the table of rows, first that holds, as one pure function.
//
//    1  an open matter; or more than a quarter of the own cycles under a differing condition      NOT ASSESSABLE NOW
//    2  fewer than 60 plain cycles, or on fewer than 3 days, or lag-1 above 0.8                   NOT SHOWN: too short
//    3  lower bounds above a fifth of the cycles, unless s is above the limit with bounds as values NOT SHOWN: helped
//    4  a loss across the last break, not yet made good                                           LEARNING INTERRUPTED
//    5  P(G > delta) >= 1 - alpha/2                                                               STILL LEARNING
//    6  P(G > delta) <= alpha/2, but the late slope could still be one                            NOT SHOWN: late slope
//    7  as 6, no late slope, P(s <= limit) >= 1 - alpha/2                                         AT LEVEL
//    8  as 6, no late slope, P(s <= limit) <= alpha/2                                             SETTLED ABOVE
//    9  as 6, no late slope, else                                                  NOT SHOWN: straddles the limit
//   10  else                                                                                      NOT SHOWN: can't tell
//
// Rows 5, 7 and 8 must hold with helped cycles taken as y + helped_s too; else row 10.
//
// Source    the table is ours; Burnham & Anderson 2002 for the averaged curves it looks at
// Checked   tests/core/adaptation/adaptation_decision_test.cpp, row by row
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace docket {

enum class AdaptationWord : std::uint8_t {
  at_level,
  still_learning,
  settled_above,
  learning_interrupted,
  not_shown,
  not_assessable_now,
};

/// What the averaged curves of one series say. Probabilities [1].
struct CurveFacts {
  double p_improving = 0.5; ///< P(G > delta)
  double p_within = 0.5;    ///< P(s <= limit)
  bool late_slope = false;  ///< the last half of the record could still be falling
};

/// What the rows look at. Shares and probabilities [1].
struct AdaptationFacts {
  bool matter_open = false;         ///< safety, health or accommodation
  double share_under_condition = 0; ///< of the own cycles
  std::int64_t plain_cycles = 0;
  int days = 0;
  double lag1 = 0;
  double share_lower_bounds = 0;
  std::optional<double> p_above_with_bounds; ///< P(s > limit) with bounds taken as values
  bool interrupted = false;                  ///< a loss across the last break, not yet made good
  CurveFacts curves;                         ///< helped and cut short as lower bounds
  std::optional<CurveFacts> with_helped;     ///< helped as y + helped_s, where anything was helped
  double confidence = 0.95;                  ///< 1 - alpha
};

struct AdaptationDecision {
  AdaptationWord word = AdaptationWord::not_shown;
  int row = 10;
  /// not_assessable_now; no_plain_cycle, no_cycle_without_help, too_few_cycles, too_few_days, cycles_hang_together;
  /// helped_too_often; interrupted; improving; late_slope; at_level; settled_above; straddles_limit;
  /// differs_with_help, can_not_tell
  std::string why;
};

AdaptationDecision decide_adaptation(const AdaptationFacts& facts);

} // namespace docket
