#include "core/content/order/seconds_needed.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {

namespace {

DrawnTimes timed(const DrawnUnits& units, std::span<const Seconds> times) {
  DrawnTimes drawn;
  drawn.times.reserve(units.variant.size());
  for (std::size_t i = 0; i < units.variant.size(); ++i)
    drawn.times.push_back(units.factor[i] * times[static_cast<std::size_t>(units.variant[i])]);
  drawn.new_run = units.new_run;
  return drawn;
}

double rate_of(const DrawnTimes& drawn, const DriftTask& task) {
  return count_drift_at(drawn, 1, task.limit, task.zone, task.least).rate();
}

/// The smallest value at which `enough` holds, to one step; it holds at `high` and not at `low`, and from some value on.
template <class Enough>
Seconds find_smallest(Seconds low, Seconds high, Enough enough) {
  while (high - low > Seconds{rules::planning_step_s}) {
    const Seconds middle = (low + high) / 2;
    (enough(middle) ? high : low) = middle;
  }
  return high;
}

} // namespace

OutOfEveryUnit find_out_of_every_unit(const SequenceBasis& basis, const std::optional<SequenceMargin>& k_star,
                                      Seconds limit, double confidence) {
  const double shorter = std::exp(-student_t_quantile(0.5 + confidence / 2, basis.df) * basis.u);
  OutOfEveryUnit out;
  out.mean = out.both = basis.level - limit * shorter;
  if (!k_star) return out;
  out.k_star = *k_star;
  out.sequence = basis.level * (1 - k_star->factor * shorter);
  out.both = std::max(out.mean, *out.sequence);
  return out;
}

DrawnUnits draw_planned_units(std::span<const double> shares, SpreadOfCycles spread, int shifts,
                              std::int64_t cycles_per_shift, std::uint64_t seed) {
  // The draws of line_drift.h once with times that tell the variant and no spread, once with one second for all.
  std::vector<Seconds> numbered, ones(shares.size(), Seconds{1});
  for (std::size_t v = 0; v < shares.size(); ++v) numbered.push_back(Seconds{static_cast<double>(v)});
  const DrawnTimes variants = draw_shifts(numbered, shares, {}, 0, shifts, cycles_per_shift, seed);
  const DrawnTimes factors = draw_shifts(ones, shares, spread, 0, shifts, cycles_per_shift, seed);
  DrawnUnits units;
  for (const Seconds number : variants.times) units.variant.push_back(static_cast<std::int32_t>(number.count()));
  for (const Seconds factor : factors.times) units.factor.push_back(factor.count());
  units.new_run = factors.new_run;
  return units;
}

DrawnUnits draw_ordered_units(std::span<const std::int32_t> order, const std::vector<bool>& new_run,
                              SpreadOfCycles spread, std::int64_t least_units, std::uint64_t seed) {
  const std::vector<std::int32_t> one_variant(order.size(), 0);
  const std::vector<Seconds> one{Seconds{1}};
  const DrawnTimes factors = draw_given_order(one, one_variant, new_run, spread, least_units, seed);
  DrawnUnits units;
  for (std::size_t i = 0; i < factors.times.size(); ++i) {
    units.variant.push_back(order[i % order.size()]);
    units.factor.push_back(factors.times[i].count());
  }
  units.new_run = factors.new_run;
  return units;
}

double overload_rate(const DrawnUnits& units, std::span<const Seconds> times, const DriftTask& task) {
  return rate_of(timed(units, times), task);
}

LateFinishNeeded find_late_finish(const DrawnUnits& units, std::span<const Seconds> times, const DriftTask& task,
                                  Seconds highest) {
  assert(!units.variant.empty());
  double mean = 0; // [s] of the units in this order, without their spread
  for (const std::int32_t variant : units.variant) mean += times[static_cast<std::size_t>(variant)].count();
  if (mean / static_cast<double>(units.variant.size()) > task.limit.count()) return {{}, "mean_above_limit"};

  const DrawnTimes drawn = timed(units, times);
  const auto enough = [&](Seconds late) {
    DriftTask with = task;
    with.zone.late_finish = late;
    return rate_of(drawn, with) <= task.tolerated;
  };
  if (enough(Seconds::zero())) return {Seconds::zero(), {}};
  if (!enough(highest)) return {{}, "not_within_a_line_cycle"};
  return {find_smallest(Seconds::zero(), highest, enough), {}};
}

OutOfVariant find_out_of_variant(const DrawnUnits& units, std::span<const Seconds> times, std::int32_t variant,
                                 const DriftTask& task, Seconds most_spare) {
  const auto index = static_cast<std::size_t>(variant);
  std::vector<Seconds> changed(times.begin(), times.end());
  const auto enough = [&](Seconds out) {
    changed[index] = times[index] - out;
    return overload_rate(units, changed, task) <= task.tolerated;
  };
  OutOfVariant result;
  result.variant = variant;
  if (enough(Seconds::zero())) {
    result.at_least_spare = enough(-most_spare);
    result.seconds = result.at_least_spare ? -most_spare : find_smallest(-most_spare, Seconds::zero(), enough);
  } else if (enough(times[index])) {
    result.seconds = find_smallest(Seconds::zero(), times[index], enough);
  }
  return result;
}

} // namespace docket
