#include "core/content/beside/alternatives.h"

#include "core/content/order/even_order.h"
#include "core/rules.h"
#include "core/statistics/conformity.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace docket {

namespace {

struct GivenOrder {
  std::vector<std::int32_t> variants;
  std::vector<bool> starts;
};

GivenOrder order_of(const std::vector<SequenceUnit>& units) {
  GivenOrder order;
  for (std::size_t i = 0; i < units.size(); ++i) {
    order.variants.push_back(units[i].variant);
    order.starts.push_back(i == 0 || units[i].run != units[i - 1].run);
  }
  return order;
}

std::vector<Seconds> times_of(const GivenOrder& order, const StandardTime& standard) {
  std::vector<Seconds> times;
  for (const std::int32_t variant : order.variants)
    times.push_back(standard.variants[static_cast<std::size_t>(variant)].time);
  return times;
}

std::int32_t heaviest_of(const StandardTime& standard) {
  return std::max_element(standard.variants.begin(), standard.variants.end(),
                          [](const VariantTime& a, const VariantTime& b) { return a.time < b.time; })
      ->variant;
}

/// The longest row of units that are `heavy`, within a run; the first of equals.
template <class Heavy>
std::optional<Stretch> longest_row(const GivenOrder& order, Heavy heavy) {
  std::optional<Stretch> longest;
  std::size_t begin = 0;
  for (std::size_t i = 0; i < order.variants.size(); ++i) {
    if (order.starts[i]) begin = i;
    if (!heavy(order.variants[i])) {
      begin = i + 1;
    } else if (!longest || i - begin > longest->last - longest->first) {
      longest = Stretch{begin, i};
    }
  }
  return longest;
}

HeaviestStretches find_stretches(const GivenOrder& order, const StandardTime& standard, Seconds limit,
                                 const std::vector<DriftStep>& steps) {
  HeaviestStretches found;
  const std::vector<Seconds> times = times_of(order, standard);
  std::size_t worst = 0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const Seconds finish = steps[i].start + times[i] - limit;
    if (finish <= found.finish) continue;
    found.finish = finish;
    found.over_zone = steps[i].over;
    worst = i;
  }
  if (found.finish > Seconds::zero()) {
    std::size_t first = worst;
    while (!order.starts[first] && steps[first].start > Seconds::zero()) --first;
    found.worst = Stretch{first, worst};
    for (std::size_t i = first; i <= worst; ++i) found.over_limit += times[i] - limit;
  }
  const std::int32_t heaviest = heaviest_of(standard);
  found.longest_heaviest = longest_row(order, [&](std::int32_t v) { return v == heaviest; });
  found.longest_above =
      longest_row(order, [&](std::int32_t v) { return standard.variants[static_cast<std::size_t>(v)].time > limit; });
  return found;
}

EnoughForOrder find_enough(const DrawnUnits& units, std::span<const Seconds> times, const DriftTask& task,
                           Seconds line_cycle) {
  EnoughForOrder enough;
  enough.units = static_cast<std::int64_t>(units.variant.size());
  enough.rate_per_1000 = 1000 * overload_rate(units, times, task);
  enough.late_finish = find_late_finish(units, times, task, line_cycle);
  const std::set<std::int32_t> present(units.variant.begin(), units.variant.end());
  for (const std::int32_t variant : present)
    enough.out_of_variant.push_back(find_out_of_variant(units, times, variant, task, line_cycle));
  return enough;
}

/// Work that a person does and that could be done elsewhere or not at all.
bool is_content(const StandardElement& element) {
  return element.kind != ElementKind::wait && element.kind != ElementKind::machine;
}

Seconds per_unit(const ElementTime& element) { return element.share_of_units * element.times_per_unit * element.time; }

std::vector<WasteElement> find_waste(const Case& input, const StandardTime& standard, Seconds limit, Seconds level) {
  std::vector<WasteElement> waste;
  for (const ElementClass element_class : {ElementClass::nva, ElementClass::nnva}) {
    std::vector<WasteElement> of_class;
    for (const ElementTime& time : standard.elements) {
      const StandardElement& element = input.standard[static_cast<std::size_t>(time.element)];
      if (element.element_class != element_class || !is_content(element) || per_unit(time) <= Seconds::zero()) continue;
      if (element.kind == ElementKind::inspect) continue; // a check stays, whatever its class
      WasteElement line;
      line.element = time.element;
      line.per_unit = per_unit(time);
      of_class.push_back(line);
    }
    std::stable_sort(of_class.begin(), of_class.end(),
                     [](const WasteElement& a, const WasteElement& b) { return a.per_unit > b.per_unit; });
    waste.insert(waste.end(), of_class.begin(), of_class.end());
  }
  Seconds sum{};
  for (WasteElement& line : waste) {
    sum += line.per_unit;
    line.sum = sum;
    line.margin_standard = limit - (standard.mean - sum);
    line.margin = limit - level * (1 - sum / standard.mean);
  }
  return waste;
}

OrderCount count_order(const GivenOrder& order, const StandardTime& standard, const DriftTask& task) {
  const DriftCount count = count_drift(times_of(order, standard), order.starts, task.limit, task.zone, task.least);
  const std::int32_t heaviest = heaviest_of(standard);
  const std::optional<Stretch> row = longest_row(order, [&](std::int32_t v) { return v == heaviest; });
  return {count.overloads, count.lost, row ? static_cast<std::int64_t>(row->last - row->first + 1) : 0};
}

EvenOrder find_even_order(const Case& input, const GivenOrder& given, const StandardTime& standard,
                          const SequenceBasis& basis, const DriftTask& task) {
  GivenOrder even = given;
  even.variants = space_evenly_within_runs(given.variants, given.starts, input.variants.size());
  EvenOrder found;
  found.units = static_cast<std::int64_t>(given.variants.size());
  for (std::size_t i = 0; i < given.variants.size(); ++i)
    found.changed += even.variants[i] != given.variants[i] ? 1 : 0;
  found.before = count_order(given, standard, task);
  found.after = count_order(even, standard, task);
  if (!basis.spread_known) return found;
  const std::vector<Seconds> times = variant_times(standard, basis);
  const DrawnTimes drawn = draw_given_order(times, even.variants, even.starts, basis.spread,
                                            rules::given_order_least_units, input.settings.seed);
  found.k_star = find_sequence_margin(drawn, task.tolerated, task.limit, task.zone, task.least);
  found.p = probability_within(std::log(found.k_star->factor), 0, basis.u, basis.df);
  return found;
}

std::vector<MovableElement> find_movable(const Case& input, const StandardTime& standard) {
  std::set<std::string> here, waited_for;
  for (const StandardElement& element : input.standard) here.insert(element.element);
  for (const StandardElement& element : input.standard) waited_for.insert(element.after.begin(), element.after.end());
  const Variant& heaviest = input.variants[static_cast<std::size_t>(heaviest_of(standard))];

  std::vector<MovableElement> movable;
  for (const ElementTime& time : standard.elements) {
    const StandardElement& element = input.standard[static_cast<std::size_t>(time.element)];
    if (!is_content(element) || per_unit(time) <= Seconds::zero()) continue;
    MovableElement line;
    line.element = time.element;
    line.later = !waited_for.contains(element.element);
    line.earlier = std::none_of(element.after.begin(), element.after.end(),
                                [&](const std::string& before) { return here.contains(before); });
    line.per_unit = per_unit(time);
    if (carries(heaviest, element)) line.in_heaviest = time.times_per_unit * time.time;
    if (line.later || line.earlier) movable.push_back(line);
  }
  std::stable_sort(movable.begin(), movable.end(),
                   [](const MovableElement& a, const MovableElement& b) { return a.per_unit > b.per_unit; });
  return movable;
}

} // namespace

Alternatives find_alternatives(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SequenceBasis& basis,
                               const SequenceFindings& sequence) {
  Alternatives found;
  found.tolerated_per_1000 = 1000 * input.settings.tolerated_overloads;
  found.out_of_every_unit = find_out_of_every_unit(basis, sequence.k_star, time.limit, input.settings.confidence);
  found.waste = find_waste(input, standard, time.limit, basis.level);
  found.precedence_given = std::any_of(input.standard.begin(), input.standard.end(),
                                       [](const StandardElement& element) { return !element.after.empty(); });
  if (found.precedence_given) found.movable = find_movable(input, standard);
  if (!sequence.zone_given) return found;

  const DriftTask task{time.limit,
                       {*input.facts.early_start, *input.facts.late_finish},
                       least_overload(time.line_cycle),
                       input.settings.tolerated_overloads};
  const GivenOrder given = order_of(input.build_sequence);
  if (sequence.given) {
    found.stretches = find_stretches(given, standard, time.limit, sequence.given->steps);
    if (input.variants.size() > 1) found.even = find_even_order(input, given, standard, basis, task);
  }
  if (!basis.spread_known) return found;

  const std::vector<Seconds> times = variant_times(standard, basis);
  std::vector<double> shares;
  for (const Variant& variant : input.variants) shares.push_back(variant.share);
  found.enough.push_back(find_enough(
      draw_planned_units(shares, basis.spread, rules::drawn_shifts, evidence.cycles_per_shift, input.settings.seed),
      times, task, time.line_cycle));
  found.enough.back().drawn = true;
  if (sequence.given)
    found.enough.push_back(find_enough(draw_ordered_units(given.variants, given.starts, basis.spread,
                                                          rules::given_order_least_units, input.settings.seed),
                                       times, task, time.line_cycle));
  return found;
}

} // namespace docket
