// Single cycles beyond the limit, and the share of people whose own mean is within it. Both beside A: they decide nothing.
//
// Model     k of n cycles beyond the limit, each independent of the others after n is cut to what it is worth;
//           people: ln of own levels normal between people
// Source    C. J. Clopper, E. S. Pearson, Biometrika 26 (1934), 404-413, in the form with F of L. M. Leemis, K. S. Trivedi,
//           A comparison of approximate interval estimators for the Bernoulli parameter, The American Statistician 50
//           (1996), 63-68, which takes counts that are not whole; effective number: core/statistics/autocorrelation.h;
//           share of people: core/statistics/studies/tolerance.h
// Method    by person: the plain mean, the least and the most of the people's own shares;
//           lag-1 of "beyond or not" within operators and days gives n_eff; the interval is that of k n_eff/n of n_eff
// Spread    of the cycles of these people: says nothing of other people
// Assumes   neighbours resemble one another in first order; the mix is the one worked, not the planned one
// Checked   tests/core/content/beside/overrun_test.cpp: R and Newcombe 1998
#pragma once

#include "core/content/lines/settled_operators.h"
#include "core/content/lines/time_available.h"
#include "core/evidence.h"
#include "core/statistics/distributions.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// k of n cycles beyond the limit. A cycle as long as the limit is within it.
struct CyclesBeyond {
  std::int64_t n = 0, k = 0;
  double lag1 = 0;        ///< of "beyond or not", within operators and days
  double n_effective = 0; ///< what n is worth as independent cycles
  double share = 0;       ///< [1] k/n
  double low = 0, high = 1;
};

struct VariantBeyond {
  std::int32_t variant = -1; ///< index into Case::variants
  CyclesBeyond cycles;       ///< worth as much a cycle as all plain ones are
};

/// Shares of people, each weighing the same, so that whoever has the most cycles does not carry the others.
struct BeyondByPerson {
  double mean = 0;            ///< [1] of the people's own shares
  double least = 0, most = 0; ///< [1] of one person; whose it is stays unsaid
};

struct Overrun {
  std::int64_t operators = 0;        ///< settled ones
  std::optional<CyclesBeyond> plain; ///< of settled operators; absent where nobody is settled
  /// Of the same cycles; absent with fewer than three settled operators.
  std::optional<BeyondByPerson> by_person;
  std::vector<VariantBeyond> by_variant; ///< the same, in the order of Case::variants; those met only
  /// Settled operators, with cycles helped or cut short as time + help: at least so many, for the person alone would
  /// have taken as long or longer; so the high end is 1. Absent where there are none of these.
  std::optional<CyclesBeyond> with_help;
  /// The same of everybody seen, settled or not, all days; absent where that adds nothing, or adds so few people that one
  /// of them could be read from the difference.
  std::optional<CyclesBeyond> everybody_with_help;
  std::string no_everybody_why; ///< code where it is absent: nothing_added, few_others
};

/// Share of trained people whose own mean is within the limit at their own pace, from the settled ones.
struct ShareWithin {
  std::int64_t n = 0;             ///< people
  std::optional<double> estimate; ///< [1] absent with fewer than two
  double low = 0, high = 1;       ///< [1]
};

/// Exact two-sided interval of a share seen as k of n, neither necessarily whole; 0 <= k <= n, n > 0.
Bounds share_interval(double k, double n, double confidence);

/// Cycles touched by a differing condition are left out.
Overrun find_overrun(const Case& input, const Evidence& evidence, const TimeAvailable& time,
                     const SettledResult& settled);

ShareWithin find_share_within(const SettledResult& settled, Seconds limit, double confidence);

} // namespace docket
