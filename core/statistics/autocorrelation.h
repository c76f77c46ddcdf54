// How much a cycle resembles the one before it, and how many independent cycles a record is worth.
//
// Model     first-order dependence within stretches of consecutive cycles, one mean and one variance over all
// Source    r(1): NIST StRD univariate, as used in time series analysis; bias: F. H. C. Marriott, J. A. Pope, Bias in
//           the estimation of autocorrelations, Biometrika 41 (1954), 390-402, and M. G. Kendall, Note on bias in the
//           estimation of autocorrelation, ibid. 403-404; effective number: G. V. Bayley, J. M. Hammersley, The
//           "effective" number of independent observations in an autocorrelated time series, Suppl. J. Roy. Stat. Soc.
//           8 (1946), 184-197, in the form for many observations
// Method    deviations from the mean of all; lag products within a stretch only, (n - 1) times their mean over the sum
//           of squares: cutting a record into stretches does not pull the value towards 0
// Spread    none here; the value widens the intervals of others. For r(1) as it is here the bias is nearer
//           (1 + 4 rho)/n: about rho/n is left
// Assumes   the same mean in every stretch: a trend left in the values reads as dependence
// Checked   tests/core/statistics/autocorrelation_test.cpp: NIST Michelso, Lew, Lottery, NumAcc4; closed forms
#pragma once

#include <span>
#include <vector>

namespace docket {

struct Lag1 {
  double raw = 0;       ///< [1], -1 to 1; of one stretch it is the usual r(1).
  double corrected = 0; ///< [1], raw + (1 + 3 raw)/n, held within -0.99 and 0.99.
};

/// Pooled over stretches of consecutive values. Without any spread, or without two values in a row, both are 0: nothing
/// is seen of dependence, which does not say there is none.
Lag1 lag1_autocorrelation(std::span<const std::vector<double>> stretches);

/// How many independent values n dependent ones are worth for the mean: n (1 - rho)/(1 + rho), never above n, never
/// below 1. n >= 1, rho > -1 and < 1.
double effective_count(double n, double rho);

} // namespace docket
