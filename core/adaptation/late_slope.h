// The guard against a slow late fall: before a record is called settled, its last half alone must not still be falling.
//
// Model     b the slope of ln y on ln n over the last half of the plain cycles; with its lower bound the improvement to come
//           is 1 - ((n_last + H)/n_last)^b. Beside it the averaged curves of the last half alone
// Source    ours; a straight line by weighted least squares: NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3
// Spread    the standard error of b times root phi
// Checked   tests/core/adaptation/late_slope_test.cpp
#pragma once

#include "core/adaptation/practice_mixture.h"

namespace docket {

struct LateSlope {
  double improvement_bound = 0; ///< [1] to come by the straight line, at its bound
  double p_improving = 0;       ///< P(G > delta) of the averaged curves of the last half
  bool could_fall = false;      ///< either is too large to call the record settled
};

/// The last half by count: blocks that lie wholly or in part in it, and the lower bounds of its cycles.
CurveData last_half(const CurveData& data);

/// `horizon`: H. `improvement_left`: delta.
LateSlope find_late_slope(const PracticeMixture& mixture, double horizon, double improvement_left, double confidence);

} // namespace docket
