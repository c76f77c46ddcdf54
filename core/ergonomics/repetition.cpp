#include "core/ergonomics/repetition.h"

namespace docket {

namespace {

constexpr Seconds short_cycle{30};       ///< (1)
constexpr double share_of_pattern = 0.5; ///< (1)

RepetitionAtCycle at_cycle(const RepetitionInput& input, Seconds cycle) {
  RepetitionAtCycle result;
  result.cycle = cycle;
  result.below_30_s = cycle < short_cycle;
  std::vector<Reason>& why = result.why_not;

  // A share above 1 is not a share: on that line the unit can no longer be done so.
  const auto share_of_cycle = [&](const std::optional<Seconds>& seconds, const std::string& what) {
    std::optional<double> share;
    if (!seconds)
      why.push_back({what + "_not_given", {}});
    else if (!(seconds->count() >= 0))
      why.push_back({what + "_negative", {}});
    else if (*seconds > cycle)
      why.push_back({what + "_beyond_cycle", {}});
    else
      share = *seconds / cycle;
    return share;
  };

  result.pattern_share = share_of_cycle(input.pattern_per_unit, "pattern");
  if (result.pattern_share) result.half_in_one_pattern = *result.pattern_share >= share_of_pattern;
  if (const std::optional<double> busy = share_of_cycle(input.busy_per_unit, "busy")) {
    result.recovery_share = 1 - *busy;
    result.recovery = cycle - *input.busy_per_unit;
  }

  std::optional<Seconds> shift = input.work_per_shift;
  if (input.cycles_per_shift) shift = *input.cycles_per_shift * input.line_cycle;
  if (!shift)
    why.push_back({"cycles_per_shift_not_given", {}});
  else if (!(shift->count() > 0))
    why.push_back({"cycles_per_shift_not_positive", {}});
  else
    result.cycles_per_shift = *shift / cycle;
  return result;
}

} // namespace

RepetitionScreening screen_repetition(const RepetitionInput& input, std::optional<Seconds> asked_cycle) {
  RepetitionScreening result;
  if (!(input.line_cycle.count() > 0)) {
    result.why_not.push_back({"cycle_not_positive", {}});
    return result;
  }
  result.now = at_cycle(input, input.line_cycle);
  if (asked_cycle && !(asked_cycle->count() > 0))
    result.why_not.push_back({"asked_cycle_not_positive", {}});
  else if (asked_cycle)
    result.asked = at_cycle(input, *asked_cycle);
  return result;
}

} // namespace docket
