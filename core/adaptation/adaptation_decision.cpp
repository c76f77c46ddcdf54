#include "core/adaptation/adaptation_decision.h"

#include "core/rules.h"

namespace docket {

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
  const bool improving = facts.p_improving >= 1 - half_alpha;
  if (improving && facts.p_improving_with_helped >= 1 - half_alpha)
    return {AdaptationWord::still_learning, 5, "improving"};
  if (facts.p_improving <= half_alpha) return {AdaptationWord::not_shown, 6, "full_set_of_curves"};
  return {AdaptationWord::not_shown, 10, improving ? "differs_with_help" : "can_not_tell"};
}

} // namespace docket
