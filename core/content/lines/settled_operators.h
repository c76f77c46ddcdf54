// A2, settled operators: what trained people with no improvement left to see take for the planned mix.
//
// Model     r_o = sum of p_v m_ov / S;  mu, s mean and SD of ln r_o;  T2 = e^mu S
//           u^2(ln T2) = s^2/m + bridged part + u_pace^2;  ln(y/S_v) one-way random effects for the spreads
// Source    JCGM 100:2008; Theil-Sen slope: Helsel & Hirsch, Statistical Methods in Water Resources, ch. 10;
//           REML: Searle, Casella & McCulloch, Variance Components (1992); the settled rule is ours
// Method    settled: fall of block medians over the last days <= the improvement left, with a bound from resampled days
// Assumes   the standard gives the relative content of the variants; its level cancels
// Checked   tests/core/content/lines/settled_operators_test.cpp
#pragma once

#include "core/content/lines/line_of_evidence.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/lines/variant_ratios.h"
#include "core/evidence.h"

#include <optional>
#include <string>
#include <vector>

namespace docket {

/// `not_said`: somebody who is not counted in the line, and whose answer to B is closed; only core/findings sets it.
enum class OperatorStatus : std::uint8_t { settled, too_short, falling, untrained, left, not_said };

struct OperatorLevel {
  std::int32_t op = -1; ///< index into Case::operators
  OperatorStatus status = OperatorStatus::too_short;
  std::int64_t n = 0;                     ///< plain cycles looked at
  int days = 0;                           ///< worked days with plain cycles among them
  std::optional<double> fall, fall_bound; ///< [1] over the window; absent where the rule could not be tried
  /// Independent cycles the record is worth: by the lag-1 autocorrelation, or by how days differ, whichever leaves fewer.
  double n_eff = 0, lag1 = 0;
  double ratio = 0;   ///< r_o
  TimeEstimate level; ///< own level for the planned mix, at own pace, allowance on it where the standard holds it
  bool bridged_by_others = false; ///< some variant of 5 % or more took the ratio measured on others
  bool bridged = false;           ///< some variant of 5 % or more took the standard's ratio
  std::int64_t plain_seen = 0;    ///< plain cycles of this person in all, inside and outside what is looked at
};

/// Share of trained people whose own mean is within the limit.
struct ShareAble {
  std::optional<double> estimate, low, high; ///< [1]
  double required = 0;                       ///< [1]
  std::optional<double> p_able, p_zone;      ///< [1]
};

struct SettledOperators {
  LineLevel level;
  std::int64_t operators = 0, cycles = 0;
  double ratio = 0;                     ///< e^mu
  double ratio_se = 0;                  ///< of ln ratio
  double s = 0;                         ///< SD of ln r_o; 0 where one operator
  double sd_between = 0, sd_within = 0; ///< REML, of ln(y/S_v)
  double lag1 = 0;                      ///< of the residuals within operators, pooled
  double u_bridged = 0;                 ///< [1]
  std::optional<double> variant_test_p; ///< ratio by variant, operators as blocks
  VariantRatios variant_ratios;         ///< of those with own means; bridges the others, and shapes the build order
  std::int64_t within_limit = 0;        ///< k of m whose own mean is within the limit
  double within_limit_lower = 0;        ///< exact lower bound at 1 - alpha/2
};

/// The line had other cycles or people counted: the second rows. Spreads of cycles are those of the line.
struct SettledRow {
  std::string code; ///< with_help, with_leavers, with_too_short, with_foreign
  SettledOperators line;
  std::int64_t added = 0; ///< cycles, or people for with_leavers and with_too_short
  /// Of them, leavers without any cycle (taken as the slowest stayer and one s more), or cycles without seconds of help.
  std::int64_t unseen = 0;
  std::string who; ///< codes of the people added, ", " between
};

/// The line without one of its operators.
struct LeftOutOne {
  std::int32_t op = -1;
  SettledOperators line;
};

/// Every operator met in the evidence, settled or not, in order of code; and the line where anyone is settled.
struct SettledResult {
  /// Plain cycles of persons that are not in the line, by why: first that holds.
  std::int64_t before_count = 0;   ///< before the own count from which somebody can be settled
  std::int64_t outside_window = 0; ///< before the last worked days looked at
  std::int64_t not_settled = 0;    ///< of people who are not trained or not settled
  std::optional<SettledOperators> line;
  std::vector<SettledRow> rows;         ///< those that have anything to add
  std::vector<LeftOutOne> left_out_one; ///< in order of code; empty where one operator is settled
  std::vector<OperatorLevel> per_operator;
  std::string none_why; ///< code of the reason where `line` is absent
};

/// `with_differing`: cycles touched by a differing condition are taken in.
SettledResult find_settled_operators(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                     const TimeAvailable& time, bool with_differing);

} // namespace docket
