#include "core/adaptation/adaptation_decision.h"

#include "core/rules.h"

namespace docket {

AdaptationDecision decide_adaptation(const AdaptationFacts& facts) {
  const double half_alpha = (1 - facts.confidence) / 2;
  if (facts.matter_open || facts.share_under_condition > rules::most_under_condition)
    return {AdaptationWord::not_assessable_now, 1, "not_assessable_now"};
  if (facts.plain_cycles < rules::least_practice_cycles || facts.days < rules::least_practice_days ||
      facts.lag1 > rules::most_lag1)
    return {AdaptationWord::not_shown, 2, "too_short"};
  if (facts.share_lower_bounds > rules::most_lower_bounds && facts.p_above_with_bounds.value_or(0) < 1 - half_alpha)
    return {AdaptationWord::not_shown, 3, "helped_too_often"};
  if (facts.p_improving >= 1 - half_alpha && facts.p_improving_with_helped >= 1 - half_alpha)
    return {AdaptationWord::still_learning, 5, "improving"};
  if (facts.p_improving <= half_alpha) return {AdaptationWord::not_shown, 6, "full_set_of_curves"};
  return {AdaptationWord::not_shown, 10, "can_not_tell"};
}

} // namespace docket
