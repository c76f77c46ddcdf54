// The earlier learners of this station: how their level fell with practice, as one band, and what that lends to a
// learner with few cycles of their own.
//
// Model     ln y = ln c_i + ln(1 + r_i exp(-n/tau_i)) + e, n the own cycle, r what practice removes over what it
//           leaves; ln c_i normal between learners; from five learners on ln r_i and ln tau_i too, each on its own,
//           else the same for all
// Rules     a learner's record begins below own cycle 200, its count is not simply unknown, and it has 60 plain cycles
//           or more; three learners or more. No value of a single learner leaves this file; no band under five learners
// Source    core/statistics/fitting/nonlinear_mixed.h; exponential practice: Heathcote, Brown & Mewhort 2000,
//           Psychonomic Bulletin & Review 7, 185-207; interval for one more of a normal sample: G. J. Hahn, W. Q.
//           Meeker, Statistical Intervals, Wiley 1991 (from memory, to be confirmed); first order on ln level: common
//           practice
// Method    restricted likelihood on the blocks of practice_curve.h; weights over phi = max(1, (1 + r1)/(1 - r1)), r1
//           the lag-1 of the residuals within worked days. Borrowed: the fit as prior knowledge, with 0.3 at least as
//           SD of ln r and ln tau
// Spread    band: t with learners - 1 degrees of freedom, times the root of spread between learners and error of the
//           curve; borrowed: the same t, times the error of the learner's own curve drawn towards the others.
//           Simulated, at 95 %: the band held 93 to 98 %; the borrowed settled level was held in 34 to 53 %
//           with one r and one tau for learners who differ, in 75 % (short records) to 95 % without the
//           least SD, and as it is in 90 to 97 %
// Assumes   the learner asked about learns as the earlier ones did, under the same conditions; those who left before 60
//           plain cycles are not in it, so it may look too good; the exponential curve
// Checked   tests/core/adaptation/earlier_learners_test.cpp: R (nlme, nls) on invented learners, coverage of the truth
#pragma once

#include "core/adaptation/practice_series.h"
#include "core/estimate.h"
#include "core/statistics/fitting/nonlinear_mixed.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

enum class EarlierLearnersOutcome : std::uint8_t {
  fitted,
  too_few,         ///< learners
  no_practice,     ///< no common fall is to be seen
  spread_not_seen, ///< learners can't be told apart, or nearly: a band would be too narrow
};

std::string_view name_of(EarlierLearnersOutcome outcome);

struct EarlierLearners {
  EarlierLearnersOutcome outcome = EarlierLearnersOutcome::too_few;
  std::string reason;                                    ///< a sentence, for every outcome
  int learners = 0;                                      ///< used
  int begins_late = 0, count_unknown = 0, too_short = 0; ///< series left out, by the first reason that holds
  bool course_differs = false;                           ///< r and tau may differ between learners in the fit
  double seen_to = 0;                                    ///< own cycle that three learners or more have reached
  double lag1 = 0, phi = 1;
  /// ln c, ln r, ln tau; its `groups` are emptied. Meaningful where fitted.
  MixedFit population;
};

/// `series` of everybody but those who are asked about: a person is not compared with themselves.
EarlierLearners fit_earlier_learners(std::span<const PracticeSeries> series);

/// Where 95 % (or `confidence`) of learners are expected at one own cycle.
struct LearnersAtCycle {
  double cycle = 0;
  TimeEstimate level; ///< middle learner; what a person averages there
};

struct EarlierLearnersBand {
  int learners = 0;
  std::vector<LearnersAtCycle> levels; ///< at the cycles asked for, as far as three learners have reached
  TimeEstimate settled;                ///< what practice leaves, by the curve
};

/// Absent where nothing was fitted, and under five learners.
std::optional<EarlierLearnersBand> find_band(const EarlierLearners& earlier, std::span<const double> cycles,
                                             double confidence);

/// Own cycles for a band: 25, 50, 100 .. as far as three learners have reached.
std::vector<double> cycles_for_band(const EarlierLearners& earlier);

/// Borrowed from the earlier learners, and to be called so wherever it is shown: own cycles only correct it.
struct BorrowedEstimate {
  int learners = 0;            ///< borrowed from
  std::int64_t own_cycles = 0; ///< plain ones used
  double own_share = 0;        ///< [1] of what is known of the settled level, by variance: own cycles
  TimeEstimate settled, today; ///< today: at the last own cycle
  double reach = 0;            ///< own cycle beyond which nothing is said
  /// Cycles from the last one until the level is within the limit; absent: not before `reach`. 0: within it today.
  std::optional<double> to_limit, to_limit_low, to_limit_high;
  double p_never = 0; ///< P(level at `reach` above the limit)
};

/// `own` is of somebody who is not among the earlier learners. Absent where nothing was fitted, where nothing is known
/// of the cycles before the first, and with fewer than ten plain cycles.
std::optional<BorrowedEstimate> borrow_estimate(const EarlierLearners& earlier, const PracticeSeries& own,
                                                Seconds limit, double confidence);

} // namespace docket
