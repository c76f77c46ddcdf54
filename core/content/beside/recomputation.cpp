#include "core/content/beside/recomputation.h"

#include "core/content/lines/settled_record.h"
#include "core/statistics/distributions.h"

namespace docket {
namespace {

std::vector<BridgedVariant> bridged_of(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                       const TimeAvailable& time, const SettledResult& settled) {
  std::vector<BridgedVariant> bridged;
  for (const OperatorLevel& level : settled.per_operator) {
    if (level.n == 0) continue;
    const OperatorRecord record = find_record(evidence, level.op, input.settings.settled_after_cycles, false);
    const std::vector<std::optional<double>> own = own_ratios(record, standard, time);
    for (std::size_t v = 0; v < own.size(); ++v) {
      if (own[v] || standard.variants[v].share <= 0) continue;
      BridgedVariant one{level.op, static_cast<std::int32_t>(v), 0, settled.line->variant_ratios.can_bridge(v)};
      for (const PersonCycle* cycle : record.cycles) one.own += cycle->variant == one.variant ? 1 : 0;
      bridged.push_back(one);
    }
  }
  return bridged;
}

} // namespace

Recomputation recompute(const Case& input, const Evidence& evidence, const StandardTime& standard,
                        const TimeAvailable& time, const SettledResult& settled, const WeighingBasis& basis,
                        const Weighing& weighing) {
  Recomputation again;
  if (settled.line) again.bridged = bridged_of(input, evidence, standard, time, settled);
  again.settled_and_restudied = basis.settled_and_restudied;
  again.reach = student_t_quantile(0.5 + basis.confidence / 2, weighing.combined.df);
  again.share = weighing.share_parts;
  again.ln_k_star = weighing.ln_k_star;
  again.facts = weighing.facts;
  again.without = weighing.without;
  return again;
}

} // namespace docket
