#include "core/bridge/excess.h"

#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/fitting/block_contrasts.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace docket {
namespace {

constexpr std::size_t least_days = 3; ///< of means, for a variance from days

std::set<std::int32_t> peers_of(const SettledResult& settled, std::int32_t op) {
  std::set<std::int32_t> peers;
  for (const OperatorLevel& level : settled.per_operator)
    if (level.status == OperatorStatus::settled && level.op != op) peers.insert(level.op);
  return peers;
}

/// The ends of the ratio; `seconds` turns a ratio into seconds and rises with it.
template <class ToSeconds>
void put_interval(ExcessPart& part, const BesidePeers& beside, double confidence, ToSeconds seconds) {
  const double reach = beside.u > 0 ? student_t_quantile(0.5 + confidence / 2, beside.df) * beside.u : 0;
  part.ratio = std::exp(beside.difference);
  part.low = std::exp(beside.difference - reach);
  part.high = std::exp(beside.difference + reach);
  part.seconds = seconds(part.ratio);
  part.seconds_low = seconds(part.low);
  part.seconds_high = seconds(part.high);
}

ExcessParts absent(std::string why) {
  ExcessParts parts;
  parts.absent_why = std::move(why);
  return parts;
}

void count(ExcessParts& parts, double confidence) {
  parts.by_chance = (1 - confidence) * static_cast<double>(parts.parts.size());
  parts.standing_out =
      std::count_if(parts.parts.begin(), parts.parts.end(), [](const ExcessPart& part) { return part.stands_out(); });
}

// By element.

/// Seconds of one occurrence of an element in each timed cycle of one person, by session, in order of cycles.
struct TimedElement {
  std::map<std::int32_t, std::vector<double>> by_session;
  std::map<Date, std::vector<double>> by_day;
  std::int64_t n = 0;
};

using TimedElements = std::map<std::int32_t, std::map<std::int32_t, TimedElement>>; ///< by element and operator

TimedElements time_elements(const Case& input, const Evidence& evidence) {
  // Element readings that do not make up a whole cycle still time their elements.
  std::set<std::pair<std::int32_t, std::int64_t>> set_apart;
  for (const ExcludedRow& row : evidence.excluded)
    if (row.origin.table == TableName::readings && row.why != Exclusion::elements_missing)
      set_apart.insert({row.origin.source, row.origin.row});
  std::set<std::pair<std::int32_t, std::int64_t>> marked; // a mark on one row holds for the whole cycle
  for (const Reading& reading : input.readings)
    if (!reading.marks.plain()) marked.insert({reading.session, reading.cycle});
  std::map<std::tuple<std::int32_t, std::int32_t, std::int64_t>, double> in_cycle;
  for (const Reading& reading : input.readings) {
    if (reading.element < 0 || marked.contains({reading.session, reading.cycle}) ||
        set_apart.contains({reading.origin.source, reading.origin.row}))
      continue;
    const double times = input.standard[static_cast<std::size_t>(reading.element)].times_per_unit;
    in_cycle[{reading.element, reading.session, reading.cycle}] += reading.time.count() / std::max(1.0, times);
  }
  TimedElements timed;
  for (const auto& [key, seconds] : in_cycle) {
    const auto& [element, session, cycle] = key;
    if (seconds <= 0) continue;
    const Session& where = input.sessions[static_cast<std::size_t>(session)];
    TimedElement& one = timed[element][where.op];
    one.by_session[session].push_back(seconds);
    one.by_day[where.date].push_back(seconds);
    ++one.n;
  }
  return timed;
}

bool enough(const TimedElement& timed) { return static_cast<double>(timed.n) >= rules::least_for_spread; }

/// ln of the mean, and its variance: from days where there are three, else from cycles.
OwnValue ln_mean_of(const TimedElement& timed) {
  if (timed.by_day.size() >= least_days) {
    std::vector<double> means;
    for (const auto& [day, seconds] : timed.by_day) means.push_back(summarise(seconds).mean);
    const Summary days = summarise(means);
    const auto n = static_cast<double>(days.n);
    return {std::log(days.mean), std::pow(days.sd / days.mean, 2) / n, n - 1};
  }
  std::vector<double> all;
  std::vector<std::vector<double>> stretches;
  for (const auto& [session, seconds] : timed.by_session) {
    all.insert(all.end(), seconds.begin(), seconds.end());
    stretches.push_back(seconds);
  }
  const Summary cycles = summarise(all);
  const double n = effective_count(static_cast<double>(cycles.n), lag1_autocorrelation(stretches).corrected);
  return {std::log(cycles.mean), std::pow(cycles.sd / cycles.mean, 2) / n, std::max(1.0, n - 1)};
}

ExcessParts excess_by_element(const Case& input, const Evidence& evidence, const ContentFindings& content,
                              const std::set<std::int32_t>& peers, std::int32_t op) {
  ExcessParts found;
  bool own_timed = false;
  for (const auto& [element, by_operator] : time_elements(input, evidence)) {
    const auto own = by_operator.find(op);
    if (own == by_operator.end() || !enough(own->second)) continue;
    own_timed = true;
    ExcessPart part;
    part.index = element;
    part.n = own->second.n;
    std::vector<OwnValue> others;
    double ln_peers = 0;
    for (const auto& [person, timed] : by_operator) {
      if (!peers.contains(person) || !enough(timed)) continue;
      others.push_back(ln_mean_of(timed));
      ln_peers += others.back().value;
      part.peers_n += timed.n;
    }
    part.peers = static_cast<std::int64_t>(others.size());
    if (part.peers < rules::least_peers) continue;
    const ElementTime& standard = content.standard.elements[static_cast<std::size_t>(element)];
    const double a_unit =
        std::exp(ln_peers / static_cast<double>(part.peers)) * standard.times_per_unit * standard.share_of_units;
    put_interval(part, compare_with_peers(ln_mean_of(own->second), others), input.settings.confidence,
                 [&](double ratio) { return Seconds{a_unit * (ratio - 1)}; });
    found.parts.push_back(part);
  }
  if (found.parts.empty()) return absent(own_timed ? "too_few_peers_timed" : "no_element_readings");
  count(found, input.settings.confidence);
  return found;
}

// By variant.

std::vector<const PersonCycle*> plain_cycles(const Evidence& evidence, std::int32_t op, std::int64_t after_count) {
  std::vector<const PersonCycle*> cycles;
  for (const PersonCycle& cycle : evidence.cycles)
    if (cycle.op == op && cycle.variant >= 0 && cycle.marks.plain() && cycle.condition < 0 &&
        cycle.own_count > after_count && cycle.work > Seconds::zero())
      cycles.push_back(&cycle);
  return cycles;
}

struct PersonRecord {
  std::vector<const PersonCycle*> cycles;
  std::vector<std::int64_t> n; ///< by variant

  bool has(std::size_t variant) const { return n[variant] >= rules::own_variant_cycles; }
};

PersonRecord record_of(const Case& input, const Evidence& evidence, std::int32_t op, std::int64_t after_count) {
  PersonRecord record{plain_cycles(evidence, op, after_count), std::vector<std::int64_t>(input.variants.size())};
  for (const PersonCycle* cycle : record.cycles) ++record.n[static_cast<std::size_t>(cycle->variant)];
  return record;
}

bool has_all(const PersonRecord& record, const std::vector<std::size_t>& variants) {
  return std::all_of(variants.begin(), variants.end(), [&](std::size_t v) { return record.has(v); });
}

/// The variants that this person and three peers have all of: of those in the way the one fewest peers have goes first.
std::vector<std::size_t> variants_to_compare(const PersonRecord& own, const std::vector<PersonRecord>& peers) {
  std::vector<std::size_t> variants;
  for (std::size_t v = 0; v < own.n.size(); ++v)
    if (own.has(v)) variants.push_back(v);
  const auto with = [&](auto&& holds) { return std::count_if(peers.begin(), peers.end(), holds); };
  while (variants.size() >= 2 &&
         with([&](const PersonRecord& r) { return has_all(r, variants); }) < rules::least_peers) {
    const auto peers_with = [&](std::size_t v) { return with([&](const PersonRecord& r) { return r.has(v); }); };
    variants.erase(std::min_element(variants.begin(), variants.end(),
                                    [&](std::size_t a, std::size_t b) { return peers_with(a) < peers_with(b); }));
  }
  return variants;
}

/// Effects of the variants within worked days, each with its variance. Absent: the days do not join them.
std::optional<std::vector<OwnValue>> effects_of(const PersonRecord& record, const std::vector<std::size_t>& variants,
                                                const StandardTime& standard) {
  std::vector<double> weights;
  double sum = 0;
  for (const std::size_t v : variants)
    sum += weights.emplace_back(standard.variants[v].share * standard.variants[v].time.count());
  for (double& weight : weights) weight = sum > 0 ? weight / sum : 1 / static_cast<double>(variants.size());

  std::vector<BlockedValue> values;
  std::size_t day = 0;
  const PersonCycle* previous = nullptr;
  for (const PersonCycle* cycle : record.cycles) {
    const auto place = std::find(variants.begin(), variants.end(), static_cast<std::size_t>(cycle->variant));
    const Seconds base = standard.variants[static_cast<std::size_t>(cycle->variant)].time;
    if (place == variants.end() || base <= Seconds::zero()) continue;
    if (previous && previous->day != cycle->day) ++day;
    previous = cycle;
    values.push_back({day, static_cast<std::size_t>(place - variants.begin()), std::log(cycle->work / base)});
  }
  const BlockContrasts fit = fit_block_contrasts(values, weights);
  if (!fit.possible) return std::nullopt;
  std::vector<std::vector<double>> days(day + 1);
  for (std::size_t i = 0; i < values.size(); ++i) days[values[i].block].push_back(fit.residuals[i]);
  const auto n = static_cast<double>(values.size());
  const double worth = effective_count(n, lag1_autocorrelation(days).corrected) / n;
  std::vector<OwnValue> effects;
  for (std::size_t i = 0; i < variants.size(); ++i)
    effects.push_back({fit.effect[i], fit.se[i] * fit.se[i] / worth, std::max(1.0, fit.df * worth)});
  return effects;
}

double mean_work(const PersonRecord& record, std::size_t variant) {
  double sum = 0;
  for (const PersonCycle* cycle : record.cycles)
    if (static_cast<std::size_t>(cycle->variant) == variant) sum += cycle->work.count();
  return sum / static_cast<double>(record.n[variant]);
}

ExcessParts excess_by_variant(const Case& input, const Evidence& evidence, const ContentFindings& content,
                              const std::set<std::int32_t>& peers, std::int32_t op) {
  const PersonRecord own = record_of(input, evidence, op, 0);
  if (std::count_if(own.n.begin(), own.n.end(), [](std::int64_t n) { return n >= rules::own_variant_cycles; }) < 2)
    return absent("one_variant");
  std::vector<PersonRecord> others;
  for (const std::int32_t peer : peers)
    others.push_back(record_of(input, evidence, peer, input.settings.settled_after_cycles));
  const std::vector<std::size_t> variants = variants_to_compare(own, others);
  if (variants.size() < 2) return absent("too_few_peers_by_variant");
  const auto own_effects = effects_of(own, variants, content.standard);
  if (!own_effects) return absent("variants_apart");

  std::vector<std::vector<OwnValue>> peer_effects(variants.size());
  std::vector<std::int64_t> peers_n(variants.size());
  for (const PersonRecord& record : others) {
    if (!has_all(record, variants)) continue;
    const auto effects = effects_of(record, variants, content.standard);
    if (!effects) continue;
    for (std::size_t i = 0; i < variants.size(); ++i) {
      peer_effects[i].push_back((*effects)[i]);
      peers_n[i] += record.n[variants[i]];
    }
  }
  if (static_cast<std::int64_t>(peer_effects[0].size()) < rules::least_peers) return absent("too_few_peers_by_variant");
  ExcessParts found;
  for (std::size_t i = 0; i < variants.size(); ++i) {
    ExcessPart part;
    part.index = static_cast<std::int32_t>(variants[i]);
    part.n = own.n[variants[i]];
    part.peers = static_cast<std::int64_t>(peer_effects[i].size());
    part.peers_n = peers_n[i];
    const double mean = mean_work(own, variants[i]);
    put_interval(part, compare_with_peers((*own_effects)[i], peer_effects[i]), input.settings.confidence,
                 [&](double ratio) { return Seconds{mean * (1 - 1 / ratio)}; });
    found.parts.push_back(part);
  }
  count(found, input.settings.confidence);
  return found;
}

} // namespace

BesidePeers compare_with_peers(const OwnValue& own, std::span<const OwnValue> peers) {
  std::vector<double> values;
  double variances = 0;
  for (const OwnValue& peer : peers) {
    values.push_back(peer.value);
    variances += peer.variance;
  }
  const Summary summary = summarise(values);
  const auto m = static_cast<double>(summary.n);
  // The spread seen between peers holds their own errors; where this person's are larger, the rest is added.
  const double between = summary.sd * summary.sd * (1 + 1 / m);
  const double more = std::max(0.0, own.variance - variances / m);
  BesidePeers beside{own.value - summary.mean, std::sqrt(between + more), m - 1};
  // Welch-Satterthwaite.
  if (more > 0) beside.df = std::pow(between + more, 2) / (between * between / (m - 1) + more * more / own.df);
  return beside;
}

Excess find_excess(const Case& input, const Evidence& evidence, const ContentFindings& content,
                   const Adaptation& adaptation) {
  Excess excess;
  excess.op = adaptation.op;
  if (adaptation.word == AdaptationWord::not_assessable_now) {
    excess.elements = excess.variants = absent("not_assessable_now");
    return excess;
  }
  const std::set<std::int32_t> peers = peers_of(content.settled, adaptation.op);
  excess.elements = excess_by_element(input, evidence, content, peers, adaptation.op);
  excess.variants = excess_by_variant(input, evidence, content, peers, adaptation.op);
  return excess;
}

} // namespace docket
