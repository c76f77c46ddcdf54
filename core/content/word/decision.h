// The decision on A: the table of rows, first that holds, as one pure function.
//
//   1  no usable line; or a clash                                                                       NOT SHOWN
//   2  P <= alpha/2; or P_seq <= alpha/2; or P_able <= alpha/2 with three operators or more             DOES NOT FIT
//   3  work zone not given; or cycle spread not known; or the line that weighs most has no spread at all NOT SHOWN
//   4  P and P_seq >= 1 - alpha/2, P_zone >= 0.8 or share not known, the same with the help and with the
//      leavers counted in, help of unknown length on few cycles only, no condition differs now           FITS
//   5  as 4, but one does, and the restored state has evidence of its own                               FITS ONLY IF
//   6  else                                                                                             NOT SHOWN
//
// Rows 2, 4 and 5 must also hold without each line that leans. Beside exactly two settled operators the other lines
// must only not object.
// Source    JCGM 106:2012 and ILAC-G8:09/2019 (decision rules with guard bands); the table is ours
// Checked   tests/core/content/word/decision_test.cpp, row by row
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace docket {

enum class ContentWord : std::uint8_t { fits, fits_only_if, does_not_fit, not_shown };

/// The probabilities the rows look at, for one set of lines. All [1].
struct DecisionView {
  double p = 0.5;
  std::optional<double> p_seq;  ///< absent: work zone or spread not known
  std::optional<double> p_able; ///< absent: fewer than three settled operators
  std::optional<double> p_zone; ///< absent: share not known
};

struct DecisionFacts {
  bool usable_line = false;
  bool clash = false;
  DecisionView all;
  std::vector<std::optional<DecisionView>> without_leaning; ///< one a set left out; absent: no line remains
  std::optional<DecisionView> others;                       ///< the lines beside exactly two settled operators
  std::vector<DecisionView> must_agree;                     ///< with the help counted in, with the leavers counted in
  bool help_of_unknown_length = false; ///< on so many cycles of the settled operators that no row can count it in
  bool zone_given = false;
  bool spread_known = false;
  bool identical_values = false;
  bool condition_differs_now = false;
  bool restored_state_has_evidence = false;
  double confidence = 0.95; ///< 1 - alpha
};

struct Decision {
  ContentWord word = ContentWord::not_shown;
  int row = 6;
};

// What rows 2 and 4 ask of one set of lines; `half_alpha` is what may be wrong on each side.
bool surely_over(const DecisionView& view, double half_alpha);
bool surely_within(const DecisionView& view, double half_alpha);
// Whether the lines beside exactly two settled operators object.
bool others_object_to_fits(const DecisionFacts& facts);
bool others_object_to_does_not_fit(const DecisionFacts& facts);

Decision decide_content(const DecisionFacts& facts);

} // namespace docket
