#include "core/content/beside/shift_comparison.h"

#include "core/content/lines/operator_order.h"
#include "core/content/lines/settled_record.h"
#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/studies/equivalence.h"
#include "core/statistics/summary.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace docket {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

struct ByName {
  bool operator()(const std::string& a, const std::string& b) const { return code_before(a, b); }
};

/// One settled operator's plain cycles in one shift, in time order.
struct OperatorInShift {
  std::int32_t op = -1;
  std::vector<const PersonCycle*> cycles;
};

struct Shift {
  std::vector<OperatorInShift> settled;
  /// Plain cycles of trained people past the count from which they can be settled, touched by a condition or not.
  std::int64_t could_count_touched = 0, could_count_untouched = 0;
};

using Shifts = std::map<std::string, Shift, ByName>;
using VariantSet = std::vector<std::int32_t>;

/// A shift's level over some variants.
struct Level {
  std::vector<std::int32_t> ops;
  double ln_ratio = 0; ///< mean over operators
  bool bridged = false;
  ShiftSpread spread = ShiftSpread::none;
  std::vector<UncertaintyPart> parts; ///< of ln_ratio; the first one is random
};

const std::string& shift_of(const Case& input, const PersonCycle& cycle) {
  return cycle.shift.empty() ? input.operators[static_cast<std::size_t>(cycle.op)].shift : cycle.shift;
}

Shifts sort_into_shifts(const Case& input, const Evidence& evidence, const SettledResult& settled) {
  Shifts shifts;
  std::set<std::int32_t> seen;
  for (const PersonCycle& cycle : evidence.cycles) {
    const std::string& name = shift_of(input, cycle);
    if (name.empty()) continue;
    seen.insert(cycle.op);
    Shift& shift = shifts[name];
    const bool trained = input.operators[static_cast<std::size_t>(cycle.op)].trained == YesNo::yes;
    if (!cycle.marks.plain() || !trained || cycle.own_count <= input.settings.settled_after_cycles) continue;
    ++(cycle.condition < 0 ? shift.could_count_untouched : shift.could_count_touched);
  }
  // A shift of which no cycle was seen is named all the same.
  for (std::size_t i = 0; i < input.operators.size(); ++i) {
    const std::string& name = input.operators[i].shift;
    if (!name.empty() && !seen.contains(static_cast<std::int32_t>(i))) shifts[name];
  }
  for (const OperatorLevel& level : settled.per_operator) {
    if (level.status != OperatorStatus::settled) continue;
    const OperatorRecord record = find_record(evidence, level.op, input.settings.settled_after_cycles, false);
    for (const PersonCycle* cycle : record.cycles) {
      const std::string& name = shift_of(input, *cycle);
      if (name.empty()) continue;
      std::vector<OperatorInShift>& people = shifts[name].settled;
      if (people.empty() || people.back().op != level.op) people.push_back({level.op, {}});
      people.back().cycles.push_back(cycle);
    }
  }
  return shifts;
}

std::vector<std::int64_t> plain_by_variant(const Shift& shift, std::size_t variants) {
  std::vector<std::int64_t> n(variants);
  for (const OperatorInShift& person : shift.settled)
    for (const PersonCycle* cycle : person.cycles) ++n[static_cast<std::size_t>(cycle->variant)];
  return n;
}

VariantSet common_variants(const std::vector<const Shift*>& shifts, const StandardTime& standard) {
  VariantSet common;
  for (std::size_t v = 0; v < standard.variants.size(); ++v) {
    if (standard.variants[v].share < rules::common_variant_share) continue;
    const bool everywhere = std::all_of(shifts.begin(), shifts.end(), [&](const Shift* shift) {
      return plain_by_variant(*shift, standard.variants.size())[v] >= rules::own_variant_cycles;
    });
    if (everywhere) common.push_back(static_cast<std::int32_t>(v));
  }
  return common;
}

double share_of(const VariantSet& variants, const StandardTime& standard) {
  double share = 0;
  for (const std::int32_t v : variants) share += standard.variants[static_cast<std::size_t>(v)].share;
  return share;
}

/// Planned mix of these variants alone, by the standard: sum of p_v S_v / sum of p_v.
Seconds mix_time(const VariantSet& variants, const StandardTime& standard) {
  Seconds sum{};
  for (const std::int32_t v : variants) {
    const VariantTime& variant = standard.variants[static_cast<std::size_t>(v)];
    sum += variant.share * variant.time;
  }
  return sum / share_of(variants, standard);
}

/// y / S_v of the cycles of these variants, by worked day.
std::vector<std::vector<double>> scaled_by_day(const OperatorInShift& person, const VariantSet& variants,
                                               const StandardTime& standard, const TimeAvailable& time) {
  std::vector<std::vector<double>> days;
  std::optional<Date> previous;
  for (const PersonCycle* cycle : person.cycles) {
    if (std::find(variants.begin(), variants.end(), cycle->variant) == variants.end()) continue;
    if (previous != cycle->day) days.emplace_back();
    previous = cycle->day;
    days.back().push_back(time.measured_factor *
                          (cycle->work / standard.variants[static_cast<std::size_t>(cycle->variant)].time));
  }
  return days;
}

/// r_o, or nothing where the person has own means for none of the variants.
std::optional<double> ratio_of(const OperatorInShift& person, const VariantSet& variants, const StandardTime& standard,
                               const TimeAvailable& time, bool& bridged) {
  std::vector<double> all;
  for (const std::vector<double>& day : scaled_by_day(person, variants, standard, time))
    all.insert(all.end(), day.begin(), day.end());
  Seconds sum{};
  double share = 0;
  bool any_own = false, any_bridged = false;
  for (const std::int32_t v : variants) {
    const VariantTime& variant = standard.variants[static_cast<std::size_t>(v)];
    std::vector<double> own;
    for (const std::vector<double>& day : scaled_by_day(person, {v}, standard, time))
      own.insert(own.end(), day.begin(), day.end());
    const bool enough = static_cast<std::int64_t>(own.size()) >= rules::own_variant_cycles;
    (enough ? any_own : any_bridged) = true;
    if (all.empty()) return std::nullopt;
    sum += variant.share * variant.time * summarise(enough ? own : all).mean;
    share += variant.share;
  }
  if (!any_own) return std::nullopt;
  bridged = bridged || any_bridged;
  return sum / share / mix_time(variants, standard);
}

/// One person's spread: from days, or from cycles where there is one day.
UncertaintyPart own_spread(const OperatorInShift& person, const VariantSet& variants, const StandardTime& standard,
                           const TimeAvailable& time, ShiftSpread& from) {
  std::vector<std::vector<double>> days = scaled_by_day(person, variants, standard, time);
  std::vector<double> values;
  double n = static_cast<double>(days.size());
  if (days.size() >= 2) {
    from = ShiftSpread::days;
    for (const std::vector<double>& day : days) values.push_back(std::log(summarise(day).mean));
  } else {
    from = ShiftSpread::cycles;
    for (std::vector<double>& day : days)
      for (double& y : day) values.push_back(y = std::log(y));
    n = effective_count(static_cast<double>(values.size()), lag1_autocorrelation(days).corrected);
  }
  return {summarise(values).sd / std::sqrt(n), std::max(1.0, n - 1)};
}

std::optional<Level> level_over(const Shift& shift, const VariantSet& variants, const Case& input,
                                const StandardTime& standard, const TimeAvailable& time) {
  if (variants.empty()) return std::nullopt;
  Level level;
  std::vector<double> ln_ratios;
  const OperatorInShift* last = nullptr;
  for (const OperatorInShift& person : shift.settled) {
    const std::optional<double> ratio = ratio_of(person, variants, standard, time, level.bridged);
    if (!ratio) continue;
    ln_ratios.push_back(std::log(*ratio));
    level.ops.push_back(person.op);
    last = &person;
  }
  if (ln_ratios.empty()) return std::nullopt;
  const Summary people = summarise(ln_ratios);
  level.ln_ratio = people.mean;
  if (people.n >= 2) {
    level.spread = ShiftSpread::operators;
    const auto m = static_cast<double>(people.n);
    level.parts = {{people.sd / std::sqrt(m), m - 1}};
  } else {
    level.parts = {own_spread(*last, variants, standard, time, level.spread),
                   {input.settings.between_people, infinite}};
  }
  if (level.parts.front().u < rules::identical_within) level.spread = ShiftSpread::none;
  return level;
}

std::string no_level_why(const Shift& shift) {
  if (!shift.settled.empty()) return "no_common_variant";
  return shift.could_count_touched > 0 && shift.could_count_untouched == 0 ? "all_under_condition"
                                                                           : "no_settled_operator";
}

ShiftFacts facts_of(const std::string& name, const Shift& shift, const Case& input, const Evidence& evidence) {
  ShiftFacts facts;
  facts.shift = name;
  facts.operators = static_cast<std::int64_t>(shift.settled.size());
  std::set<Date> days;
  for (const OperatorInShift& person : shift.settled)
    for (const PersonCycle* cycle : person.cycles) {
      ++facts.cycles;
      days.insert(cycle->day);
    }
  facts.days = static_cast<int>(days.size());
  facts.built.resize(input.variants.size());
  std::map<std::int32_t, std::int64_t> touched;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (shift_of(input, cycle) != name) continue;
    ++facts.built[static_cast<std::size_t>(cycle.variant)];
    if (cycle.condition >= 0) ++touched[cycle.condition];
  }
  for (const auto& [condition, cycles] : touched) facts.conditions.push_back({condition, cycles});
  return facts;
}

void add_level(ShiftFacts& facts, const Shift& shift, const VariantSet& common, const Case& input,
               const StandardTime& standard, const TimeAvailable& time) {
  const std::optional<Level> level = level_over(shift, common, input, standard, time);
  if (!level) {
    facts.no_level_why = no_level_why(shift);
    return;
  }
  facts.level_operators = static_cast<std::int64_t>(level->ops.size());
  facts.bridged = level->bridged;
  facts.spread = level->spread;
  TimeEstimate estimate;
  estimate.time = std::exp(level->ln_ratio) * mix_time(common, standard);
  if (level->spread != ShiftSpread::none) {
    const double reach =
        student_t_quantile(0.5 + input.settings.confidence / 2, effective_degrees_of_freedom(level->parts)) *
        combined_uncertainty(level->parts);
    estimate.low = estimate.time * std::exp(-reach);
    estimate.high = estimate.time * std::exp(reach);
  }
  facts.level = estimate;
}

ShiftOutcome outcome_of(const ShiftDifference& difference, double margin, bool equivalent) {
  if (equivalent) return ShiftOutcome::equivalent;
  if (difference.low > margin || difference.high < -margin) return ShiftOutcome::different;
  return ShiftOutcome::not_shown;
}

void compare(ShiftPair& pair, const Level& first, const Level& second, const Settings& settings) {
  std::vector<UncertaintyPart> parts = first.parts;
  parts.insert(parts.end(), second.parts.begin(), second.parts.end());
  // The same one person in both: what sets people apart is in both levels and goes out of the difference.
  if (first.ops.size() == 1 && first.ops == second.ops) parts = {first.parts.front(), second.parts.front()};
  ShiftDifference difference;
  difference.ln_ratio = first.ln_ratio - second.ln_ratio;
  difference.u = combined_uncertainty(parts);
  difference.df = effective_degrees_of_freedom(parts);
  const double margin = std::log1p(settings.equivalence);
  const EquivalenceTest test =
      test_equivalence(difference.ln_ratio, difference.u, difference.df, margin, (1 - settings.confidence) / 2);
  difference.low = test.interval.low;
  difference.high = test.interval.high;
  difference.p_lower = test.p_lower;
  difference.p_upper = test.p_upper;
  pair.outcome = outcome_of(difference, margin, test.equivalent);
  pair.difference = difference;
}

ShiftPair compare_pair(std::size_t a, std::size_t b, const std::vector<ShiftFacts>& facts, const Shifts& shifts,
                       const Case& input, const StandardTime& standard, const TimeAvailable& time) {
  ShiftPair pair;
  pair.first = a;
  pair.second = b;
  const Shift& first = shifts.at(facts[a].shift);
  const Shift& second = shifts.at(facts[b].shift);
  for (const std::size_t i : {a, b}) {
    const Shift& shift = i == a ? first : second;
    // The reason that can be put right comes first.
    if (shift.settled.empty() && (pair.why.code.empty() || no_level_why(shift) == "all_under_condition"))
      pair.why = {no_level_why(shift), facts[i].shift};
  }
  if (!pair.why.code.empty()) return pair;
  pair.variants = common_variants({&first, &second}, standard);
  pair.share = share_of(pair.variants, standard);
  const std::optional<Level> level_first = level_over(first, pair.variants, input, standard, time);
  const std::optional<Level> level_second = level_over(second, pair.variants, input, standard, time);
  if (!level_first || !level_second) {
    pair.why = {"no_common_variant", ""};
    return pair;
  }
  pair.operators_first = static_cast<std::int64_t>(level_first->ops.size());
  pair.operators_second = static_cast<std::int64_t>(level_second->ops.size());
  pair.spread_first = level_first->spread;
  pair.spread_second = level_second->spread;
  pair.in_both = std::count_if(level_first->ops.begin(), level_first->ops.end(), [&](std::int32_t op) {
    return std::find(level_second->ops.begin(), level_second->ops.end(), op) != level_second->ops.end();
  });
  for (const std::size_t i : {a, b}) {
    if ((i == a ? level_first : level_second)->spread == ShiftSpread::none && pair.why.code.empty())
      pair.why = {"no_spread", facts[i].shift};
  }
  if (pair.why.code.empty()) compare(pair, *level_first, *level_second, input.settings);
  return pair;
}

} // namespace

ShiftComparison compare_shifts(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SettledResult& settled) {
  ShiftComparison comparison;
  comparison.overrun = find_overrun(input, evidence, time, settled);
  comparison.share_within_at_own_pace = find_share_within(settled, time.limit, input.settings.confidence);
  comparison.without_shift = std::count_if(evidence.cycles.begin(), evidence.cycles.end(),
                                           [&](const PersonCycle& cycle) { return shift_of(input, cycle).empty(); });

  const Shifts shifts = sort_into_shifts(input, evidence, settled);
  std::vector<const Shift*> with_settled;
  for (const auto& [name, shift] : shifts)
    if (!shift.settled.empty()) with_settled.push_back(&shift);
  if (!with_settled.empty()) comparison.common = common_variants(with_settled, standard);
  comparison.common_share = share_of(comparison.common, standard);
  for (const auto& [name, shift] : shifts) {
    comparison.shifts.push_back(facts_of(name, shift, input, evidence));
    add_level(comparison.shifts.back(), shift, comparison.common, input, standard, time);
  }
  for (std::size_t a = 0; a < comparison.shifts.size(); ++a)
    for (std::size_t b = a + 1; b < comparison.shifts.size(); ++b)
      comparison.pairs.push_back(compare_pair(a, b, comparison.shifts, shifts, input, standard, time));
  return comparison;
}

} // namespace docket
