#include "core/content/lines/time_available.h"

#include "core/rules.h"

#include <cmath>

namespace docket {

std::optional<Seconds> computed_takt(const CaseFacts& facts) {
  if (!facts.working_min_per_day || !facts.units_per_day) return std::nullopt;
  return Seconds{60 * *facts.working_min_per_day / *facts.units_per_day};
}

bool times_agree(Seconds a, Seconds b) { return std::abs(a / b - 1) <= rules::times_agree_within; }

TimeAvailableResult find_time_available(const CaseFacts& facts) {
  std::optional<Seconds> takt = facts.takt;
  if (const std::optional<Seconds> computed = computed_takt(facts)) {
    if (takt && !times_agree(*takt, *computed)) return {{}, TimeDisagreement{"takt", *takt, *computed}};
    if (!takt) takt = computed;
  }
  std::optional<Seconds> line_cycle = facts.line_cycle;
  if (takt && facts.oee) {
    const Seconds computed = *takt * *facts.oee;
    if (line_cycle && !times_agree(*line_cycle, computed))
      return {{}, TimeDisagreement{"line cycle time", *line_cycle, computed}};
    if (!line_cycle) line_cycle = computed;
  }
  if (!line_cycle || *line_cycle <= Seconds::zero()) return {};

  TimeAvailable time;
  time.line_cycle = *line_cycle;
  time.takt = takt;
  time.oee = facts.oee;
  if (takt) time.over_speed = 1 - *line_cycle / *takt;
  time.allowance = facts.allowance;
  time.allowance_where = facts.allowance_where;
  time.limit = *line_cycle;
  if (facts.allowance_where == AllowanceWhere::in_cycle) time.limit = *line_cycle / (1 + facts.allowance);
  if (facts.allowance_where == AllowanceWhere::in_standard) time.measured_factor = 1 + facts.allowance;
  return {time, {}};
}

} // namespace docket
