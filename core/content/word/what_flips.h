// What flips the finding: the same evidence with one thing changed at a time, and the word it would get.
//
// Model     the weighing again with one line, one uncertainty, one person or one rule of counting changed; where the mix or
//           the allowance changes, everything from the standard on
// Source    one factor at a time: common practice (sensitivity analysis); the size of each change is in its code or detail
// Assumes   where only a level or an uncertainty changes, the sequence is not drawn again: its margin moves with the level
// Checked   tests/core/content/word/what_flips_test.cpp
#pragma once

#include "core/content/word/evaluation.h"

#include <optional>
#include <string>
#include <vector>

namespace docket {

struct Flip {
  /// rating_up, rating_down, with_missing_elements, standard_halved, standard_doubled, pace_above_normal, pace_below_normal, pace_halved, pace_doubled, without_allowance, built_mix,
  /// one_out_lowest, one_out_highest, with_help, with_leavers, with_too_short, with_foreign, with_differing
  std::string code;
  std::string detail; ///< a percentage or a count that the words need; empty: none
  ContentWord word = ContentWord::not_shown;
  Seconds margin{};               ///< limit less the combined time
  double p = 0;                   ///< P(T <= limit)
  std::optional<double> p_seq;    ///< of the order of units; absent: work zone or spread not known
  std::optional<double> p_zone{}; ///< that enough people are able in the zone; absent: share not known
};

/// In a fixed order. `all`: the evaluation with the cycles under differing conditions taken in, where there are any.
std::vector<Flip> find_flips(const Case& input, const Evidence& evidence, const StandardTime& standard,
                             const TimeAvailable& time, const std::vector<std::int32_t>& standing,
                             const Evaluation& found, const Evaluation* all);

/// The word without each settled operator, in order of code; `code` is one_out, `detail` the operator's code.
std::vector<Flip> find_left_out(const Case& input, const TimeAvailable& time, const Evaluation& found);

/// Shares of the variants in the plain cycles of all operators, else in the build sequence; empty where neither is given.
std::vector<double> built_mix(const Case& input, const Evidence& evidence);

} // namespace docket
