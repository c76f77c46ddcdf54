#include "core/content/beside/overrun.h"

#include "core/content/lines/settled_record.h"
#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/studies/tolerance.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {

namespace {

/// A person's cycles in time order.
using OwnCycles = std::vector<const PersonCycle*>;

/// Helped or cut short and nothing else: at least this long for the person alone.
bool at_least(Marks marks) {
  Marks rest = marks;
  rest.bits = static_cast<std::uint16_t>(rest.bits & ~static_cast<unsigned>(Mark::helped) &
                                         ~static_cast<unsigned>(Mark::cut_short));
  return !marks.plain() && rest.plain();
}

bool beyond(const PersonCycle& cycle, const TimeAvailable& time) {
  return time.measured_factor * (cycle.work + cycle.helped) > time.limit + Seconds{1e-9};
}

void add_interval(CyclesBeyond& cycles, double confidence) {
  const auto n = static_cast<double>(cycles.n), k = static_cast<double>(cycles.k);
  cycles.n_effective = effective_count(n, cycles.lag1);
  cycles.share = k / n;
  const Bounds ends = share_interval(cycles.share * cycles.n_effective, cycles.n_effective, confidence);
  cycles.low = ends.low;
  cycles.high = ends.high;
}

std::optional<CyclesBeyond> count_beyond(const std::vector<OwnCycles>& people, const TimeAvailable& time,
                                         double confidence) {
  CyclesBeyond cycles;
  std::vector<std::vector<double>> residuals;
  for (const OwnCycles& own : people) {
    const auto k =
        std::count_if(own.begin(), own.end(), [&](const PersonCycle* cycle) { return beyond(*cycle, time); });
    cycles.n += static_cast<std::int64_t>(own.size());
    cycles.k += k;
    const PersonCycle* previous = nullptr;
    for (const PersonCycle* cycle : own) {
      if (!previous || previous->day != cycle->day) residuals.emplace_back();
      residuals.back().push_back((beyond(*cycle, time) ? 1.0 : 0.0) -
                                 static_cast<double>(k) / static_cast<double>(own.size()));
      previous = cycle;
    }
  }
  if (cycles.n == 0) return std::nullopt;
  cycles.lag1 = lag1_autocorrelation(residuals).corrected;
  add_interval(cycles, confidence);
  return cycles;
}

std::optional<BeyondByPerson> share_by_person(const std::vector<OwnCycles>& people, const TimeAvailable& time) {
  if (static_cast<std::int64_t>(people.size()) < rules::least_operators) return std::nullopt;
  BeyondByPerson shares{.mean = 0, .least = 1, .most = 0};
  for (const OwnCycles& own : people) {
    const auto k =
        std::count_if(own.begin(), own.end(), [&](const PersonCycle* cycle) { return beyond(*cycle, time); });
    const double share = static_cast<double>(k) / static_cast<double>(own.size());
    shares.mean += share / static_cast<double>(people.size());
    shares.least = std::min(shares.least, share);
    shares.most = std::max(shares.most, share);
  }
  return shares;
}

/// Among cycles that may have been longer than they read, k is a least count and the share has no upper end.
std::optional<CyclesBeyond> count_at_least(const std::vector<OwnCycles>& people, const TimeAvailable& time,
                                           double confidence) {
  std::optional<CyclesBeyond> cycles = count_beyond(people, time, confidence);
  if (cycles) cycles->high = 1;
  return cycles;
}

std::vector<VariantBeyond> beyond_by_variant(const std::vector<OwnCycles>& people, std::size_t variants,
                                             const CyclesBeyond& all, const TimeAvailable& time, double confidence) {
  std::vector<CyclesBeyond> counts(variants);
  for (const OwnCycles& own : people)
    for (const PersonCycle* cycle : own) {
      CyclesBeyond& count = counts[static_cast<std::size_t>(cycle->variant)];
      ++count.n;
      if (beyond(*cycle, time)) ++count.k;
    }
  std::vector<VariantBeyond> met;
  for (std::size_t v = 0; v < variants; ++v) {
    if (counts[v].n == 0) continue;
    counts[v].lag1 = all.lag1;
    add_interval(counts[v], confidence);
    met.push_back({static_cast<std::int32_t>(v), counts[v]});
  }
  return met;
}

std::vector<OwnCycles> everybody(const Evidence& evidence) {
  std::vector<OwnCycles> people;
  std::int32_t previous = -1;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.condition >= 0 || !(cycle.marks.plain() || at_least(cycle.marks))) continue;
    if (people.empty() || cycle.op != previous) people.emplace_back();
    previous = cycle.op;
    people.back().push_back(&cycle);
  }
  return people;
}

} // namespace

Bounds share_interval(double k, double n, double confidence) {
  assert(n > 0 && k >= 0 && k <= n);
  const double tail = (1 - confidence) / 2;
  Bounds ends{.low = 0, .high = 1};
  if (k > 0) {
    const double f = f_quantile(tail, 2 * k, 2 * (n - k + 1));
    ends.low = k * f / (n - k + 1 + k * f);
  }
  if (k < n) {
    const double f = f_quantile(1 - tail, 2 * (k + 1), 2 * (n - k));
    ends.high = (k + 1) * f / (n - k + (k + 1) * f);
  }
  return ends;
}

Overrun find_overrun(const Case& input, const Evidence& evidence, const TimeAvailable& time,
                     const SettledResult& settled) {
  Overrun overrun;
  std::vector<OwnCycles> plain, with_help;
  bool helped = false;
  for (const OperatorLevel& level : settled.per_operator) {
    if (level.status != OperatorStatus::settled) continue;
    ++overrun.operators;
    const OperatorRecord record = find_record(evidence, level.op, input.settings.settled_after_cycles, false);
    plain.push_back(record.cycles);
    OwnCycles both = record.cycles;
    both.insert(both.end(), record.helped.begin(), record.helped.end());
    // All point into evidence.cycles, which is in time order.
    std::sort(both.begin(), both.end());
    with_help.push_back(std::move(both));
    helped = helped || !record.helped.empty();
  }
  const double confidence = input.settings.confidence;
  overrun.plain = count_beyond(plain, time, confidence);
  overrun.by_person = share_by_person(plain, time);
  if (overrun.plain)
    overrun.by_variant = beyond_by_variant(plain, input.variants.size(), *overrun.plain, time, confidence);
  if (helped) overrun.with_help = count_at_least(with_help, time, confidence);
  const std::vector<OwnCycles> people = everybody(evidence);
  overrun.everybody_with_help = count_at_least(people, time, confidence);
  const std::optional<CyclesBeyond>& row_before = overrun.with_help ? overrun.with_help : overrun.plain;
  const std::int64_t others = static_cast<std::int64_t>(people.size()) - overrun.operators;
  if (!overrun.everybody_with_help || (row_before && overrun.everybody_with_help->n == row_before->n)) {
    overrun.no_everybody_why = "nothing_added";
  } else if (row_before && others < rules::least_others_in_band) {
    overrun.no_everybody_why = "few_others";
  }
  if (!overrun.no_everybody_why.empty()) overrun.everybody_with_help.reset();
  return overrun;
}

ShareWithin find_share_within(const SettledResult& settled, Seconds limit, double confidence) {
  std::vector<double> ln_levels;
  for (const OperatorLevel& level : settled.per_operator)
    if (level.status == OperatorStatus::settled) ln_levels.push_back(std::log(level.level.time.count()));
  ShareWithin share;
  share.n = static_cast<std::int64_t>(ln_levels.size());
  if (share.n < 2) return share;
  Summary people = summarise(ln_levels);
  if (people.sd < rules::identical_within) people.sd = 0;
  const double room = std::log(limit.count()) - people.mean;
  share.estimate = people.sd > 0 ? normal_cdf(room / people.sd) : room >= 0 ? 1.0 : 0.0;
  const Bounds ends = share_below(people.mean, people.sd, share.n, std::log(limit.count()), confidence);
  share.low = ends.low;
  share.high = ends.high;
  return share;
}

} // namespace docket
