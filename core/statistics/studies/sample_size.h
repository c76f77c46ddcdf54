// How many readings a time study needs.
//
// Model     N = [(z/e) sqrt(n' sum x^2 - (sum x)^2) / sum x]^2
// Source    International Labour Office, Introduction to Work Study, 4th ed. (1992), number of observations; there with
//           z = 2 and e = 0.05, written as the factor 40
// Method    n' sum x^2 - (sum x)^2 is taken as n' times the sum of squared deviations, which loses no digits
// Spread    the standard deviation has the divisor n', as in the source
// Assumes   independent readings of one element, roughly symmetric, without a trend: a learner breaks it
// Checked   tests/core/statistics/studies/sample_size_test.cpp: ILO example and a second one
#pragma once

#include <span>

namespace docket {

/// Readings needed in all for a mean within +- `relative_precision` (0.05 is 5 %), z standard deviations of it. Not
/// rounded: the caller rounds up. NaN with fewer than two preliminary readings or where their mean is not above 0.
/// relative_precision > 0, z > 0.
double needed_readings(std::span<const double> preliminary, double relative_precision, double z);

} // namespace docket
