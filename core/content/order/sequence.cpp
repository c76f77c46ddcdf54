#include "core/content/order/sequence.h"

#include "core/rules.h"
#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

constexpr double per_thousand = 1000;

std::vector<bool> runs_of(const std::vector<SequenceUnit>& units) {
  std::vector<bool> starts(units.size());
  for (std::size_t i = 0; i < units.size(); ++i) starts[i] = i == 0 || units[i].run != units[i - 1].run;
  return starts;
}

/// exp of how far the level may lie from T on the log scale, at 1 - alpha.
double reach_of(const SequenceBasis& basis, double confidence) {
  return std::exp(student_t_quantile(0.5 + confidence / 2, basis.df) * basis.u);
}

/// k* T is the level at which the rate equals the tolerated one; the true level lies within the reach of T.
SequenceRoom room_of(const SequenceMargin& margin, const SequenceBasis& basis, double confidence) {
  const Seconds tolerated_level = margin.factor * basis.level;
  const double reach = reach_of(basis, confidence);
  return {tolerated_level - basis.level, tolerated_level - basis.level * reach, tolerated_level - basis.level / reach};
}

double p_of(const SequenceMargin& margin, const SequenceBasis& basis) {
  return probability_within(std::log(margin.factor), 0, basis.u, basis.df);
}

GivenSequence follow_given(const Case& input, const StandardTime& standard, const TimeAvailable& time,
                           const WorkZone& zone) {
  std::vector<Seconds> times;
  for (const SequenceUnit& unit : input.build_sequence)
    times.push_back(standard.variants[static_cast<std::size_t>(unit.variant)].time);
  const std::vector<bool> starts = runs_of(input.build_sequence);
  const Seconds least = least_overload(time.line_cycle);

  GivenSequence given;
  const DriftCount count = count_drift(times, starts, time.limit, zone, least);
  given.units = count.units;
  given.overloads = count.overloads;
  given.overloads_per_1000 = per_thousand * count.rate();
  given.lost = count.lost;
  given.steps = follow_drift(times, starts, time.limit, zone, least);
  Seconds worst{};
  for (std::size_t i = 0; i < times.size(); ++i) {
    const Seconds finish = given.steps[i].start + times[i] - time.limit;
    if (i == 0 || finish > worst) {
      worst = finish;
      given.worst_position = input.build_sequence[i].position;
    }
  }
  return given;
}

} // namespace

std::vector<Seconds> variant_times(const StandardTime& standard, const SequenceBasis& basis) {
  std::vector<Seconds> times;
  Seconds mean{};
  for (std::size_t v = 0; v < standard.variants.size(); ++v) {
    const double factor = basis.variant_factors.empty() ? 1 : basis.variant_factors[v];
    times.push_back(standard.variants[v].time * factor);
    mean += standard.variants[v].share * times.back();
  }
  for (Seconds& time : times) time *= basis.level / mean;
  return times;
}

SequenceFindings find_sequence(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SequenceBasis& basis) {
  SequenceFindings found;
  found.zone_given = input.facts.early_start && input.facts.late_finish;
  found.spread_known = basis.spread_known;
  if (!found.zone_given) return found;
  const WorkZone zone{*input.facts.early_start, *input.facts.late_finish};
  const Seconds least = least_overload(time.line_cycle);
  if (!input.build_sequence.empty()) found.given = follow_given(input, standard, time, zone);
  if (!basis.spread_known) return found;

  const double tolerated = input.settings.tolerated_overloads;
  const std::vector<Seconds> times = variant_times(standard, basis);
  if (found.given) {
    std::vector<std::int32_t> order;
    for (const SequenceUnit& unit : input.build_sequence) order.push_back(unit.variant);
    const DrawnTimes drawn = draw_given_order(times, order, runs_of(input.build_sequence), basis.spread,
                                              rules::given_order_least_units, input.settings.seed);
    found.given->k_star = find_sequence_margin(drawn, tolerated, time.limit, zone, least);
    found.given->room = room_of(found.given->k_star, basis, input.settings.confidence);
    found.given->p = p_of(found.given->k_star, basis);
  }

  std::vector<double> shares;
  for (const Variant& variant : input.variants) shares.push_back(variant.share);
  const auto draw = [&](double sd_between) {
    return draw_shifts(times, shares, basis.spread, sd_between, rules::drawn_shifts, evidence.cycles_per_shift,
                       input.settings.seed);
  };
  const DrawnTimes drawn = draw(0);
  const auto rate_at = [&](double factor) {
    return per_thousand * count_drift_at(drawn, factor, time.limit, zone, least).rate();
  };
  DrawnSequence out;
  const DriftCount at_level = count_drift_at(drawn, 1, time.limit, zone, least);
  const double reach = reach_of(basis, input.settings.confidence);
  out.units = at_level.units;
  out.overloads_per_1000 = per_thousand * at_level.rate();
  out.lost_per_1000 = at_level.lost * (per_thousand / static_cast<double>(at_level.units));
  out.low = rate_at(1 / reach);
  out.high = rate_at(reach);
  out.people_averaged_per_1000 =
      basis.sd_between > 0 ? per_thousand * count_drift_at(draw(basis.sd_between), 1, time.limit, zone, least).rate()
                           : out.overloads_per_1000;
  for (const double rate : rules::shown_rates) {
    const SequenceMargin margin = find_sequence_margin(drawn, rate, time.limit, zone, least);
    out.at_rates.push_back(
        {per_thousand * rate, margin, room_of(margin, basis, input.settings.confidence), p_of(margin, basis)});
  }
  out.k_star = find_sequence_margin(drawn, tolerated, time.limit, zone, least);
  out.room = room_of(out.k_star, basis, input.settings.confidence);
  out.p = p_of(out.k_star, basis);
  out.tolerated_per_1000 = per_thousand * tolerated;
  out.spread = basis.spread;
  out.cycles_per_shift = evidence.cycles_per_shift;
  found.drawn = out;
  const bool given_decides = found.given && found.given->p <= out.p;
  found.p = given_decides ? found.given->p : out.p;
  found.k_star = given_decides ? found.given->k_star : out.k_star;
  found.room = given_decides ? found.given->room : out.room;
  return found;
}

HeaviestVariant find_heaviest(const Case& input, const StandardTime& standard, const TimeAvailable& time,
                              const SequenceBasis& basis) {
  HeaviestVariant heaviest;
  const std::vector<Seconds> times = variant_times(standard, basis);
  const auto longest = std::max_element(times.begin(), times.end());
  heaviest.variant = standard.variants[static_cast<std::size_t>(longest - times.begin())].variant;
  heaviest.time = *longest;
  const Seconds late = input.facts.late_finish.value_or(Seconds::zero());
  const double reach = reach_of(basis, input.settings.confidence);
  heaviest.margin = time.limit + late - heaviest.time;
  heaviest.margin_low = time.limit + late - heaviest.time * reach;
  heaviest.margin_high = time.limit + late - heaviest.time / reach;
  if (heaviest.time > time.limit)
    heaviest.run_that_fits = static_cast<std::int64_t>(std::floor(late / (heaviest.time - time.limit)));

  const std::vector<bool> starts = runs_of(input.build_sequence);
  std::int64_t run = 0;
  for (std::size_t i = 0; i < input.build_sequence.size(); ++i) {
    const bool heavy = input.build_sequence[i].variant == heaviest.variant;
    run = heavy ? (starts[i] ? 1 : run + 1) : 0;
    heaviest.longest_run = std::max(heaviest.longest_run.value_or(0), run);
  }
  return heaviest;
}

} // namespace docket
