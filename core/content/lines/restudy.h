// A3, restudy: rated stopwatch readings of trained operators.
//
// Model     T3 = S x mean over operators of mean(y rating / S_v)
//           u^2(ln T3) = se^2 + (between_people^2 / m if m <= 2) + rating^2
//           se from operators; from sessions if one operator; from cycles with effective n if one session
// Rows      without any one operator, where two or more were timed: the line from the others alone
//           second_sheets: where two observers timed the same cycle, the second one's time, rating and marks instead of
//           the first one's (the sheet of the session named counts in the line itself)
// Source    ILO, Introduction to Work Study (4th ed., Kanawaty 1992): rating to normal pace; number of readings;
//           leave one out, and the other observer's sheet: common practice (sensitivity analysis). The rows decide nothing
// Assumes   rating errors are one shared error; readings of elements sum to the cycle
// Checked   tests/core/content/lines/restudy_test.cpp
#pragma once

#include "core/content/lines/line_of_evidence.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/lines/variant_ratios.h"
#include "core/evidence.h"

#include <optional>
#include <string>
#include <vector>

namespace docket {

/// An element as seen with the stopwatch, rated, against the standard. A reading of an element holds all its
/// occurrences in the cycle; several rows add up.
struct SeenElement {
  std::int32_t element = -1; ///< index into Case::standard
  TimeEstimate seen;         ///< per occurrence
  std::int64_t n = 0;        ///< cycles
};

/// One operator of the restudy.
struct RestudiedOperator {
  std::int32_t op = -1; ///< index into Case::operators
  std::int64_t n = 0, sessions = 0;
  Seconds observed{}; ///< unrated, scaled to the planned mix
  Seconds normal{};   ///< rated, before any allowance factor
};

struct Restudy {
  LineLevel level;
  std::vector<std::int32_t> operators; ///< indices into Case::operators
  std::int64_t cycles = 0;
  Seconds observed{};                          ///< unrated, scaled to the planned mix
  Seconds normal{};                            ///< rated: T3 before any allowance factor
  double s = 0;                                ///< SD of the operators' ln ratios; 0 where one operator
  std::optional<double> needed_cycles;         ///< for +-5 % at 95 %, from the cycles seen
  std::vector<RestudiedOperator> per_operator; ///< in order of code
  /// How the times of the variants lie to one another; only with 20 readings or more of every variant of 5 % or more.
  std::optional<VariantRatios> variant_ratios;
};

/// The line with other sheets taken, compared with the limit.
struct RestudyRow {
  std::string code; ///< second_sheets
  Restudy line;
  std::int64_t changed = 0; ///< cycles for which the other sheet was taken
  std::string sessions;     ///< the sessions taken instead, ", " between
};

/// The line without one of its operators, compared with the limit.
struct RestudyWithoutOne {
  std::int32_t op = -1; ///< index into Case::operators
  Restudy line;
};

struct RestudyResult {
  std::optional<Restudy> line;
  std::vector<RestudyRow> rows;                ///< those that have anything to change
  std::vector<RestudyWithoutOne> left_out_one; ///< in order of code; empty where one operator was timed
  std::vector<SeenElement> elements;
  std::string none_why; ///< code of the reason where `line` is absent
};

RestudyResult find_restudy(const Case& input, const Evidence& evidence, const StandardTime& standard,
                           const TimeAvailable& time, bool with_differing);

} // namespace docket
