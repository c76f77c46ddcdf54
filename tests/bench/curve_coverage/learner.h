// A simulated learner: the log of one operator that an observer would bring home.
//
// Model     ln of a cycle = ln level(n) + w - sigma^2/2, w as in cycles.h. Help to long cycles as in cycles.h. Help to
//           whoever is late: it comes at a moment, w = sigma (t + z/2), whatever the cycle would have been; the log has
//           that moment as time and what the person would still have taken as help
// Source    the second is random censoring: Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data,
//           ch. 3 (from memory)
// Method    numbers drawn by address (seed, learner, purpose, day, cycle): order and thread change nothing
// Assumes   one variant, no loss between days, everybody's prior cycles known
// Checked   tests/bench/curve_coverage/curve_coverage_test.cpp
#pragma once

#include "core/case.h"
#include "tests/bench/curve_coverage/true_curve.h"

namespace docket::bench {

/// Learner number `run` of a point; `stream` keeps points apart.
Case simulate_learner(const LearnerShape& shape, const TrueCurve& curve, std::uint64_t seed, std::uint64_t stream,
                      std::uint64_t run);

} // namespace docket::bench
