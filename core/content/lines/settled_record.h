// One operator's cycles as A2 looks at them, and the level they give for the planned mix.
//
// Model     r_o = sum of p_v m_ov / S, m_ov the own mean of a variant; a variant with fewer than 20 own plain cycles takes
//           S_v f_v x the own mean of y / (S_v f), f the ratios measured on trained people with own means
//           ("bridged by others"), else 1 ("bridged by the standard's ratios")
// Source    standardisation by a fixed mix: common practice; effective number of cycles: core/statistics/autocorrelation.h
// Checked   tests/core/content/lines/settled_operators_test.cpp
#pragma once

#include "core/content/lines/settled_operators.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace docket {

/// One operator's cycles that may speak for A2: in time order, cut to the window.
struct OperatorRecord {
  std::int32_t op = -1;
  std::vector<const PersonCycle*> cycles;  ///< plain ones; in a row of its own, others too
  std::vector<const PersonCycle*> helped;  ///< helped or cut short and nothing else, of the same days
  std::vector<const PersonCycle*> foreign; ///< foreign and nothing else, of the same days
  std::int64_t helped_without_seconds = 0; ///< of `helped`
  double own_ratio = 0;                    ///< with `help_counts`: the person's plain level over the standard [1]
  bool help_counts = false;                ///< the seconds of help are added to each cycle
  bool met = false;                        ///< any cycle at all
  std::int64_t plain_seen = 0, before_count = 0;
};

/// The last worked days with plain cycles past `after_count` own cycles.
OperatorRecord find_record(const Evidence& evidence, std::int32_t op, std::int64_t after_count, bool with_differing);

/// Scaled times y / S_v by worked day, in order, with the allowance on them where the standard already holds it.
std::vector<std::vector<double>> by_day(const OperatorRecord& record, const StandardTime& standard,
                                        const TimeAvailable& time);

/// Own means by variant over S_v [1]; absent under `own_variant_cycles` cycles.
std::vector<std::optional<double>> own_ratios(const OperatorRecord& record, const StandardTime& standard,
                                              const TimeAvailable& time);

/// The level for the planned mix, whether or not the person is settled; `status` and fall are not set.
OperatorLevel level_of(const OperatorRecord& record, const VariantRatios& ratios, const Case& input,
                       const StandardTime& standard, const TimeAvailable& time);

/// d ln r_o / d ln f_v by variant: how the level leans on the ratios measured on others.
std::vector<double> leaning_on_ratios(const OperatorRecord& record, const VariantRatios& ratios,
                                      const StandardTime& standard, const TimeAvailable& time);

} // namespace docket
