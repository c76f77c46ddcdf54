// How far two observers of the same thing lie apart, and how much of the spread of their values is the thing itself.
//
// Model     limits of agreement: difference = bias + error, normal, one sd
//           intraclass correlation: y_ij = mean + target_i + (rater_j +) error_ij; the share of the variance that is
//           the targets'
// Source    J. M. Bland, D. G. Altman, Statistical methods for assessing agreement between two methods of clinical
//           measurement, The Lancet 327 (1986), 307-310; the same, Measuring agreement in method comparison studies,
//           Statistical Methods in Medical Research 8 (1999), 135-160 (standard error of a limit); exact intervals of
//           each limit: A. Carkeet, Optometry and Vision Science 92 (2015), e71-e80.
//           P. E. Shrout, J. L. Fleiss, Intraclass correlations: uses in assessing rater reliability, Psychological
//           Bulletin 86 (1979), 420-428, with their intervals
// Method    limits: mean -+ width sd. Correlations: mean squares of a complete table; ICC(2,1) with Satterthwaite's
//           degrees of freedom, where a negative estimate counts as 0
// Spread    the interval of a limit is that of a normal quantile, by non-central t, and exact for each limit alone
// Assumes   limits: differences independent and unrelated to the size of what is measured, so one pair an object.
//           Correlations: normal, and they speak of these targets: the more alike the targets, the lower
// Checked   tests/core/statistics/studies/agreement_test.cpp: both papers of Bland & Altman, Shrout & Fleiss table 4, R's psych
#pragma once

#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <vector>

namespace docket {

struct LimitOfAgreement {
  double value = 0;
  double se = 0; ///< Bland & Altman 1999, large samples: sd sqrt(1/n + width^2/(2 (n - 1))).
  Bounds interval;
};

/// In the unit of the differences; NaN throughout with fewer than two of them.
struct LimitsOfAgreement {
  double bias = 0;
  double bias_se = 0;
  Bounds bias_interval;
  LimitOfAgreement lower, upper;
};

/// `differences`: of the pairs, first less second. width > 0 in standard deviations: 1.96 for 95 % of differences, 2 in
/// the paper of 1986. 0 < confidence < 1, two-sided.
LimitsOfAgreement limits_of_agreement(const Summary& differences, double width, double confidence);

struct Correlation {
  double value = 0; ///< [1], 1 or less; below 0 where targets differ less than errors would make them: read it as 0.
  Bounds interval;
};

struct RaterAgreement {
  double ms_targets = 0;
  double ms_within = 0; ///< Within targets: raters and error together.
  double ms_raters = 0;
  double ms_error = 0;
  Correlation one_way; ///< ICC(1,1): every target has other raters.
  Correlation random;  ///< ICC(2,1): the raters are drawn from many; their differences count as disagreement.
  Correlation fixed;   ///< ICC(3,1): these raters only; a constant difference between them does not count.
  /// False: fewer than two targets or raters, rows of unequal length, or no spread at all; then all numbers are NaN.
  bool possible = false;
};

/// Of one rating, not of an average. `rows`: a row a target, a column a rater. 0 < confidence < 1, two-sided.
RaterAgreement rater_agreement(const std::vector<std::vector<double>>& rows, double confidence);

} // namespace docket
