// What a reviewer needs to compute A again by hand and no other part gives: which levels are bridged, and what the rows of
// the table looked at. It decides nothing; everything here went into the answer.
//
// Model     bridged: fewer than 20 own plain cycles of a variant (see settled_record.h)
// Source    as the parts it repeats
// Checked   tests/core/content/beside/recomputation_test.cpp
#pragma once

#include "core/content/lines/settled_operators.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/word/weighing.h"
#include "core/evidence.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace docket {

/// A level that took a ratio that is not the person's own for a variant.
struct BridgedVariant {
  std::int32_t op = -1, variant = -1;
  std::int64_t own = 0;   ///< plain cycles of the variant that were looked at
  bool by_others = false; ///< by the ratio measured on others; else by the standard's
};

struct Recomputation {
  std::vector<BridgedVariant> bridged; ///< of everybody with a level, in order of code; variants with a planned share
  std::int64_t settled_and_restudied = 0; ///< people of both lines
  double reach = 0;                       ///< quantile of t that makes the range of the combined level
  std::optional<ShareParts> share;        ///< absent: no share able
  std::optional<double> ln_k_star;        ///< at the combined level
  DecisionFacts facts;
  std::vector<std::vector<Line>> without; ///< the lines left out of each of facts.without_leaning
};

/// Cycles touched by a differing condition are left out, as in the finding.
Recomputation recompute(const Case& input, const Evidence& evidence, const StandardTime& standard,
                        const TimeAvailable& time, const SettledResult& settled, const WeighingBasis& basis,
                        const Weighing& weighing);

} // namespace docket
