#include "core/adaptation/adaptation_decision.h"

#include "core/rules.h"

namespace docket {

namespace {

/// Rows 5 to 10 of one series.
AdaptationDecision by_curves(const CurveFacts& facts, double half_alpha) {
  if (facts.p_improving >= 1 - half_alpha) return {AdaptationWord::still_learning, 5, "improving"};
  if (facts.p_improving > half_alpha) return {AdaptationWord::not_shown, 10, "can_not_tell"};
  if (facts.late_slope) return {AdaptationWord::not_shown, 6, "late_slope"};
  if (facts.p_within >= 1 - half_alpha) return {AdaptationWord::at_level, 7, "at_level"};
  if (facts.p_within <= half_alpha) return {AdaptationWord::settled_above, 8, "settled_above"};
  return {AdaptationWord::not_shown, 9, "straddles_limit"};
}

} // namespace

AdaptationDecision decide_adaptation(const AdaptationFacts& facts) {
  const double half_alpha = (1 - facts.confidence) / 2;
  if (facts.matter_open || facts.share_under_condition > rules::most_under_condition)
    return {AdaptationWord::not_assessable_now, 1, "not_assessable_now"};
  if (facts.plain_cycles == 0)
    return {AdaptationWord::not_shown, 2, facts.share_lower_bounds > 0 ? "no_cycle_without_help" : "no_plain_cycle"};
  if (facts.plain_cycles < rules::least_practice_cycles) return {AdaptationWord::not_shown, 2, "too_few_cycles"};
  if (facts.days < rules::least_practice_days) return {AdaptationWord::not_shown, 2, "too_few_days"};
  if (facts.lag1 > rules::most_lag1) return {AdaptationWord::not_shown, 2, "cycles_hang_together"};
  if (facts.share_lower_bounds > rules::most_lower_bounds && facts.p_above_with_bounds.value_or(0) < 1 - half_alpha)
    return {AdaptationWord::not_shown, 3, "helped_too_often"};
  if (facts.interrupted) return {AdaptationWord::learning_interrupted, 4, "interrupted"};
  const AdaptationDecision decision = by_curves(facts.curves, half_alpha);
  if (decision.word != AdaptationWord::not_shown && facts.with_helped &&
      by_curves(*facts.with_helped, half_alpha).word != decision.word)
    return {AdaptationWord::not_shown, 10, "differs_with_help"};
  return decision;
}

} // namespace docket
