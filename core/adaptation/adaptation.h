// Question B, adaptation: where does an operator stand on the way to their own settled time? Computed only for those it is
// asked about, from their own cycles; never an answer to A, and without any result of A.
#pragma once

#include "core/adaptation/adaptation_decision.h"
#include "core/adaptation/interruptions.h"
#include "core/adaptation/late_slope.h"
#include "core/adaptation/practice_mixture.h"
#include "core/adaptation/practice_series.h"
#include "core/adaptation/residual_checks.h"
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

/// The averaged level at one own cycle.
struct LevelAtCycle {
  double cycle = 0;      ///< as done
  double counted_as = 0; ///< less the cycles lost in breaks before it
  TimeEstimate level;
};

/// What more cycles are expected to tell, if they go on as the averaged curves say.
struct Outlook {
  std::int64_t cycles = 0;                  ///< more plain cycles
  std::optional<Seconds> width, width_then; ///< of the interval of the settled level, now and then
};

struct AdaptationEstimates {
  std::vector<ModelAnswer> models;
  std::vector<LevelAtCycle> course; ///< the averaged level from the first plain cycle to the last
  std::int64_t horizon_cycles = 0;  ///< H: "settled" is the level this many cycles after the last one
  std::int64_t reach_cycles = 0;    ///< nothing is said further than this many cycles after the last one
  TimeEstimate settled, today;
  double improvement = 0, improvement_low = 0, improvement_high = 0; ///< G [1]
  std::optional<LateSlope> late_slope; ///< where there is nothing else to see of an improvement
  Outlook outlook;
  std::optional<ResidualChecks>
      checks;             ///< of the plain cycles around the curves, own cycles as done; beside, never instead
  double p_improving = 0; ///< P(G > delta)
  double p_within = 0;    ///< P(settled level <= limit)
  CyclesToGo to_limit;
  /// A loss after a break came back: levels, improvement and cycles to go hold both ways of counting it (interruptions.h).
  /// Models and course are those of the first.
  bool both_ways = false;
  double lag1 = 0, phi = 1;
  Seconds mean_seen{};           ///< mean of the plain cycles
  Seconds settled_with_helped{}; ///< the second row: helped cycles taken as y + helped_s
  double p_improving_with_helped = 0, p_within_with_helped = 0;
};

struct Adaptation {
  std::int32_t op = -1;
  AdaptationWord word = AdaptationWord::not_shown;
  std::optional<int> decision_row;           ///< absent under NOT ASSESSABLE NOW
  std::vector<Reason> reasons, would_decide; ///< `would_decide`: what would decide it, or change it
  PracticeSeries series;                     ///< as done
  std::vector<Interruption> interruptions;   ///< empty under NOT ASSESSABLE NOW, and where nothing was fitted
  std::vector<std::int64_t> before_tried;    ///< other counts before the first cycle seen with which the word was tried
  /// Absent where the record is too short to say anything of a level to come, and under NOT ASSESSABLE NOW.
  std::optional<AdaptationEstimates> estimates;
};

/// `headline` leaves out what only the document shows and simulations don't look at: each model's own answer, the course,
/// the outlook, the checks of the residuals and how many cycles would tell.
enum class AdaptationDetail : std::uint8_t { full, headline };

/// The word before the gate of core/findings.
Adaptation assess_adaptation(const Case& input, const Evidence& evidence, const AdaptationBasis& basis, std::int32_t op,
                             AdaptationDetail detail = AdaptationDetail::full);

/// Takes everything away from which a gated answer could be read.
void close_adaptation(Adaptation& adaptation);

} // namespace docket
