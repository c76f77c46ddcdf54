// Is a difference small enough to be of no account? Not the same as: was no difference found.
//
// Model     (difference - true difference)/u has Student's t distribution with df degrees of freedom
// Source    D. J. Schuirmann, A comparison of the two one-sided tests procedure and the power approach for assessing
//           the equivalence of average bioavailability, Journal of Pharmacokinetics and Biopharmaceutics 15 (1987),
//           657-680
// Method    two one-sided tests, each at alpha: true difference at or below -margin, at or above +margin; both must be
//           rejected, which is to say the interval with 1 - 2 alpha lies within -margin and +margin
// Spread    the chance of calling a true difference as large as the margin equivalent is alpha at most
// Assumes   the margin was fixed before the data were seen; u and df hold for the difference as it was measured
// Checked   tests/core/statistics/studies/equivalence_test.cpp: R's t.test on the sleep data, two samples and pairs; a printed
//           example
#pragma once

#include "core/statistics/distributions.h"

namespace docket {

struct EquivalenceTest {
  double p_lower = 0; ///< Of a true difference at or below -margin.
  double p_upper = 0; ///< Of a true difference at or above +margin.
  Bounds interval;    ///< Of the difference, with the confidence 1 - 2 alpha.
  bool equivalent = false;
};

/// u >= 0, df > 0 (+infinity: normal), margin > 0, 0 < alpha < 0.5. With u = 0 both p are 0 or 1.
EquivalenceTest test_equivalence(double difference, double u, double df, double margin, double alpha);

} // namespace docket
