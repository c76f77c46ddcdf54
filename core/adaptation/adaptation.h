// Question B, adaptation: where does an operator stand on the way to their own settled time? Computed only for those it is
// asked about, from their own cycles; never an answer to A, and without any result of A.
#pragma once

#include "core/adaptation/adaptation_decision.h"
#include "core/adaptation/practice_mixture.h"
#include "core/adaptation/practice_series.h"
#include "core/case.h"
#include "core/estimate.h"
#include "core/evidence.h"

#include <optional>
#include <vector>

namespace docket {

/// What B needs to know of the station.
struct AdaptationBasis {
  Seconds limit{};
  std::vector<double> relative_content; ///< S_v / S by variant
  double measured_factor = 1;           ///< on measured times, where the standard already holds an allowance
};

/// One model's own answer.
struct ModelAnswer {
  CurveFit fit;
  double aicc = 0, weight = 0;
  TimeEstimate settled;                  ///< level at the horizon
  std::optional<TimeEstimate> asymptote; ///< absent for power, which has none
};

struct AdaptationEstimates {
  std::vector<ModelAnswer> models;
  std::int64_t horizon_cycles = 0; ///< H: "settled" is the level this many cycles after the last one
  TimeEstimate settled, today;
  double improvement = 0, improvement_low = 0, improvement_high = 0; ///< G [1]
  double p_improving = 0;                                            ///< P(G > delta)
  double p_within = 0;                                               ///< P(settled level <= limit)
  CyclesToGo to_limit;
  double lag1 = 0, phi = 1;
  Seconds mean_seen{};           ///< mean of the plain cycles
  Seconds settled_with_helped{}; ///< the second row: helped cycles taken as y + helped_s
  double p_improving_with_helped = 0;
};

struct Adaptation {
  std::int32_t op = -1;
  AdaptationWord word = AdaptationWord::not_shown;
  std::optional<int> decision_row; ///< absent under NOT ASSESSABLE NOW
  std::vector<Reason> reasons;
  PracticeSeries series;
  std::optional<AdaptationEstimates> estimates; ///< absent where too short to fit, and under NOT ASSESSABLE NOW
};

/// The word before the gate of core/findings.
Adaptation assess_adaptation(const Case& input, const Evidence& evidence, const AdaptationBasis& basis,
                             std::int32_t op);

/// Takes everything away from which a gated answer could be read.
void close_adaptation(Adaptation& adaptation);

/// The settled level of somebody B is not asked about, for the band of others; absent where it can't be fitted.
std::optional<Seconds> settled_level_of(const Case& input, const Evidence& evidence, const AdaptationBasis& basis,
                                        std::int32_t op);

} // namespace docket
