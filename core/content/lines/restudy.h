// A3, restudy: rated stopwatch readings of trained operators.
//
// Model     T3 = S x mean over operators of mean(y rating / S_v)
//           u^2(ln T3) = se^2 + (between_people^2 / m if m <= 2) + rating^2
//           se from operators; from sessions if one operator; from cycles with effective n if one session
// Source    ILO, Introduction to Work Study (4th ed., Kanawaty 1992): rating to normal pace; number of readings
// Assumes   rating errors are one shared error; readings of elements sum to the cycle
// Checked   tests/core/content/lines/restudy_test.cpp
#pragma once

#include "core/content/lines/line_of_evidence.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
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

struct Restudy {
  LineLevel level;
  std::vector<std::int32_t> operators; ///< indices into Case::operators
  std::int64_t cycles = 0;
  Seconds observed{};                  ///< unrated, scaled to the planned mix
  Seconds normal{};                    ///< rated: T3 before any allowance factor
  double s = 0;                        ///< SD of the operators' ln ratios; 0 where one operator
  std::optional<double> needed_cycles; ///< for +-5 % at 95 %, from the cycles seen
};

struct RestudyResult {
  std::optional<Restudy> line;
  std::vector<SeenElement> elements;
  std::string none_why; ///< code of the reason where `line` is absent
};

RestudyResult find_restudy(const Case& input, const Evidence& evidence, const StandardTime& standard,
                           const TimeAvailable& time, bool with_differing);

} // namespace docket
