// The truth of a simulated station: at which level of its mean each thing that a word is about is just met.
//
// Model     mean: T = limit. Rate: overloads of the average trained person, variant times in proportion to T, equal the
//           tolerated rate; with a build order given, the smaller level of drawn and given order. People: the same with
//           the factor of a person drawn once a shift. Share: T = limit exp(-z SD between), z the normal quantile of
//           the share that must be able
// Method    rates by one long simulation, bisected with the same random numbers
// Assumes   the day effect belongs to the average trained person: it is drawn once a shift
// Checked   tests/bench/decision_error/decision_error_test.cpp: closed form without a work zone
#pragma once

#include "tests/bench/decision_error/station.h"

namespace docket::bench {

/// ln(T / limit) at which each is just met; above it, it is over.
struct TrueBoundaries {
  double mean = 0, rate = 0, people = 0, share = 0;
};

/// `units`: how many a simulation follows. The result depends on the shape alone.
TrueBoundaries find_boundaries(const StationShape& shape, std::int64_t units = 1'200'000);

} // namespace docket::bench
