// What a sample says of a share of the population, not of its mean: where a stated share of all cycles lies, and what
// share lies below a limit.
//
// Model     values normal with unknown mean and standard deviation
// Source    D. B. Owen, A survey of properties and applications of the noncentral t-distribution, Technometrics 10
//           (1968), 445-478; NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3 (one-sided factor by non-central
//           t)
// Method    factor: k = t'(confidence; n - 1, z sqrt n)/sqrt n, z the normal quantile of the share;
//           share: the shifts d with P(T' <= sqrt n (limit - mean)/sd; n - 1, d) at each end of the confidence, by
//           bisection; the ends of the share are Phi(d/sqrt n)
// Spread    exact under the model
// Assumes   normal, independent: the outer tail of the normal distribution is taken at its word, and for skewed times
//           it promises too much
// Checked   tests/core/statistics/studies/tolerance_test.cpp: printed factors, R's qt and pt with a shift
#pragma once

#include "core/statistics/distributions.h"

#include <cstdint>

namespace docket {

/// The k for which mean + k sd lies, with `confidence`, at or above the value that the share `coverage` of the
/// population stays below. n >= 2; 0 < coverage < 1, 0 < confidence < 1.
double tolerance_factor(std::int64_t n, double coverage, double confidence);

/// Two-sided interval of the population's share below `limit`, with (1 - confidence)/2 on each side, from the mean and
/// standard deviation (divisor n - 1) of n values. n < 2 or sd = 0 says nothing: 0 to 1. Equal values may be equal
/// because they were read too coarsely.
Bounds share_below(double mean, double sd, std::int64_t n, double limit, double confidence);

} // namespace docket
