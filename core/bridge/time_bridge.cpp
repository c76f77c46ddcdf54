#include "core/bridge/time_bridge.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace docket {

namespace {

/// A level with how far it may lie below and above.
struct Spread {
  Seconds level{}, below{}, above{};
};

/// a - b, taken as independent.
BridgeTerm difference(std::string_view term, const Spread& a, const Spread& b) {
  const auto both = [](Seconds x, Seconds y) { return Seconds{std::hypot(x.count(), y.count())}; };
  const Seconds seconds = a.level - b.level;
  return {term, seconds, seconds - both(a.below, b.above), seconds + both(a.above, b.below)};
}

Spread spread_of(const TimeEstimate& estimate, double scale) {
  constexpr Seconds no_end{std::numeric_limits<double>::infinity()};
  return {scale * estimate.time, estimate.low ? scale * (estimate.time - *estimate.low) : no_end,
          estimate.high ? scale * (*estimate.high - estimate.time) : no_end};
}

/// The standard for the mix of the operator's own plain cycles.
Seconds standard_of_own_mix(const Evidence& evidence, const StandardTime& standard, std::int32_t op) {
  Seconds sum{};
  double n = 0;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.op != op || !cycle.marks.plain() || cycle.condition >= 0) continue;
    sum += standard.variants[static_cast<std::size_t>(cycle.variant)].time;
    n += 1;
  }
  return n > 0 ? sum / n : standard.mean;
}

std::vector<double> ln_ratios_of_peers(const SettledResult& settled, std::int32_t op) {
  std::vector<double> ln_ratios;
  for (const OperatorLevel& level : settled.per_operator)
    if (level.status == OperatorStatus::settled && level.op != op) ln_ratios.push_back(std::log(level.ratio));
  return ln_ratios;
}

} // namespace

TimeBridge build_time_bridge(const Case& input, const Evidence& evidence, const ContentFindings& content,
                             const TimeAvailable& time, const Adaptation& adaptation) {
  TimeBridge bridge;
  bridge.op = adaptation.op;
  if (!adaptation.estimates) {
    bridge.absent_why = adaptation.word == AdaptationWord::not_assessable_now ? "not_assessable_now" : "no_estimates";
    return bridge;
  }
  const std::vector<double> ln_ratios = ln_ratios_of_peers(content.settled, adaptation.op);
  if (static_cast<std::int64_t>(ln_ratios.size()) < rules::least_peers) {
    bridge.absent_why = "too_few_peers";
    return bridge;
  }
  const AdaptationEstimates& own = *adaptation.estimates;
  const double upper = 0.5 + input.settings.confidence / 2;
  const Seconds s_mix = standard_of_own_mix(evidence, content.standard, adaptation.op);
  const double scale = s_mix / content.standard.mean;

  const auto around = [](Seconds level, double reach) {
    return Spread{level, level * (1 - std::exp(-reach)), level * (std::exp(reach) - 1)};
  };
  const Spread limit{time.limit, {}, {}};
  const Spread standard = around(s_mix, normal_quantile(upper) * content.standard.level.u);
  const Summary peers_ln = summarise(ln_ratios);
  const auto m = static_cast<double>(peers_ln.n);
  const Spread peers =
      around(std::exp(peers_ln.mean) * s_mix, student_t_quantile(upper, m - 1) * peers_ln.sd / std::sqrt(m));
  const Spread settled = spread_of(own.settled, scale), today = spread_of(own.today, scale);
  const Spread seen{scale * own.mean_seen, {}, {}};

  // Today and settled come from one curve: their difference has the interval of the improvement left.
  BridgeTerm left{bridge_terms[3], today.level - settled.level, today.level * own.improvement_low,
                  today.level * own.improvement_high};
  bridge.terms = {difference(bridge_terms[0], standard, limit), difference(bridge_terms[1], peers, standard),
                  difference(bridge_terms[2], settled, peers), left, difference(bridge_terms[4], seen, today)};
  bridge.sum = seen.level - time.limit;
  return bridge;
}

bool contradicts(const ContentFindings& content, const Adaptation& adaptation) {
  return adaptation.word == AdaptationWord::still_learning &&
         std::any_of(content.settled.per_operator.begin(), content.settled.per_operator.end(),
                     [&](const OperatorLevel& level) {
                       return level.op == adaptation.op && level.status == OperatorStatus::settled;
                     });
}

} // namespace docket
