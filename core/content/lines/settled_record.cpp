#include "core/content/lines/settled_record.h"

#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

bool usable(const PersonCycle& cycle, bool with_differing) { return cycle.condition < 0 || with_differing; }

/// No mark but those of `allowed`, and one of them.
bool only_marked(Marks marks, std::initializer_list<Mark> allowed) {
  Marks all;
  for (const Mark mark : allowed) all.set(mark);
  return !marks.plain() && (marks.bits & ~all.bits) == 0;
}

double scaled(const OperatorRecord& record, const PersonCycle& cycle, const StandardTime& standard,
              const TimeAvailable& time) {
  const Seconds standard_time = standard.variants[static_cast<std::size_t>(cycle.variant)].time;
  const Seconds seconds = cycle.work + (record.help_counts ? cycle.helped : Seconds::zero());
  const double ratio = time.measured_factor * (seconds / standard_time);
  // Cut short, or helped for nobody knows how long: at least this time, which says nothing where the person usually takes
  // longer.
  const bool lower_bound = record.help_counts && !cycle.marks.plain() && !cycle.helped_given;
  return lower_bound ? std::max(ratio, record.own_ratio) : ratio;
}

double bridging_factor(const VariantRatios& ratios, std::size_t variant) {
  return ratios.can_bridge(variant) ? ratios.factor[variant] : 1;
}

/// y / (S_v f_v) by day: without what the standard's ratios between variants miss, as far as others show it.
std::vector<std::vector<double>> without_factors(const OperatorRecord& record, const VariantRatios& ratios,
                                                 const StandardTime& standard, const TimeAvailable& time) {
  std::vector<std::vector<double>> days = by_day(record, standard, time);
  std::size_t next = 0;
  for (std::vector<double>& day : days)
    for (double& y : day) y /= bridging_factor(ratios, static_cast<std::size_t>(record.cycles[next++]->variant));
  return days;
}

/// Variance of the mean of all cycles, days taken as they come: days of the same person differ by more than their cycles
/// do. Cochran 1977, Sampling Techniques, ch. 6 (ratio of day sums to day counts; from memory).
double variance_by_days(const std::vector<std::vector<double>>& days, double mean) {
  double n = 0, squares = 0;
  for (const std::vector<double>& day : days) {
    double off = 0;
    for (const double y : day) off += y - mean;
    squares += off * off;
    n += static_cast<double>(day.size());
  }
  const auto k = static_cast<double>(days.size());
  return k < 2 ? 0 : k / (k - 1) * squares / (n * n);
}

} // namespace

OperatorRecord find_record(const Evidence& evidence, std::int32_t op, std::int64_t after_count, bool with_differing) {
  OperatorRecord record;
  record.op = op;
  std::vector<const PersonCycle*> after;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.op != op) continue;
    record.met = true;
    if (!usable(cycle, with_differing)) continue;
    if (cycle.marks.plain()) ++record.plain_seen;
    if (cycle.own_count <= after_count) {
      if (cycle.marks.plain()) ++record.before_count;
      continue;
    }
    after.push_back(&cycle);
  }
  std::vector<Date> days;
  for (const PersonCycle* cycle : after)
    if (cycle->marks.plain() && (days.empty() || days.back() != cycle->day)) days.push_back(cycle->day);
  if (days.empty()) return record;
  const auto window = static_cast<std::ptrdiff_t>(std::min<std::size_t>(days.size(), rules::settled_window_days));
  const Date first = *(days.end() - window);
  for (const PersonCycle* cycle : after) {
    if (cycle->day < first) continue;
    if (cycle->marks.plain()) {
      record.cycles.push_back(cycle);
    } else if (only_marked(cycle->marks, {Mark::helped, Mark::cut_short})) {
      record.helped.push_back(cycle);
      if (!cycle->helped_given) ++record.helped_without_seconds;
    } else if (only_marked(cycle->marks, {Mark::foreign})) {
      record.foreign.push_back(cycle);
    }
  }
  return record;
}

std::vector<std::vector<double>> by_day(const OperatorRecord& record, const StandardTime& standard,
                                        const TimeAvailable& time) {
  std::vector<std::vector<double>> days;
  const PersonCycle* previous = nullptr;
  for (const PersonCycle* cycle : record.cycles) {
    if (!previous || previous->day != cycle->day) days.emplace_back();
    days.back().push_back(scaled(record, *cycle, standard, time));
    previous = cycle;
  }
  return days;
}

std::vector<std::optional<double>> own_ratios(const OperatorRecord& record, const StandardTime& standard,
                                              const TimeAvailable& time) {
  std::vector<std::int64_t> n(standard.variants.size());
  std::vector<double> sum(standard.variants.size());
  for (const PersonCycle* cycle : record.cycles) {
    const auto v = static_cast<std::size_t>(cycle->variant);
    ++n[v];
    sum[v] += scaled(record, *cycle, standard, time);
  }
  std::vector<std::optional<double>> ratios(n.size());
  for (std::size_t v = 0; v < n.size(); ++v)
    if (n[v] >= rules::own_variant_cycles) ratios[v] = sum[v] / static_cast<double>(n[v]);
  return ratios;
}

OperatorLevel level_of(const OperatorRecord& record, const VariantRatios& ratios, const Case& input,
                       const StandardTime& standard, const TimeAvailable& time) {
  OperatorLevel level;
  level.op = record.op;
  level.n = static_cast<std::int64_t>(record.cycles.size());
  level.plain_seen = record.plain_seen;
  const std::vector<std::vector<double>> days = without_factors(record, ratios, standard, time);
  level.days = static_cast<int>(days.size());
  if (record.cycles.empty()) return level;

  std::vector<double> values;
  for (const std::vector<double>& day : days) values.insert(values.end(), day.begin(), day.end());
  const Summary all = summarise(values);
  const std::vector<std::optional<double>> own = own_ratios(record, standard, time);
  for (std::size_t v = 0; v < own.size(); ++v) {
    const VariantTime& variant = standard.variants[v];
    level.ratio +=
        variant.share * own[v].value_or(all.mean * bridging_factor(ratios, v)) * (variant.time / standard.mean);
    if (!own[v] && variant.share >= rules::common_variant_share)
      (ratios.can_bridge(v) ? level.bridged_by_others : level.bridged) = true;
  }
  level.level.time = level.ratio * standard.mean;

  level.n_eff = static_cast<double>(all.n);
  if (all.n >= 3) {
    std::vector<std::vector<double>> residuals = days;
    for (std::vector<double>& day : residuals)
      for (double& value : day) value -= all.mean;
    level.lag1 = lag1_autocorrelation(residuals).corrected;
    level.n_eff = effective_count(static_cast<double>(all.n), level.lag1);
    double df = std::max(1.0, level.n_eff - 1);
    if (const double by_days = variance_by_days(days, all.mean);
        days.size() >= rules::least_days_as_blocks && by_days > all.sd * all.sd / level.n_eff) {
      level.n_eff = all.sd * all.sd / by_days;
      df = static_cast<double>(days.size()) - 1;
    }
    const double reach =
        student_t_quantile(0.5 + input.settings.confidence / 2, df) * all.sd / all.mean / std::sqrt(level.n_eff);
    level.level.low = level.level.time * std::exp(-reach);
    level.level.high = level.level.time * std::exp(reach);
  }
  return level;
}

std::vector<double> leaning_on_ratios(const OperatorRecord& record, const VariantRatios& ratios,
                                      const StandardTime& standard, const TimeAvailable& time) {
  std::vector<double> of_variant(standard.variants.size()), leaning(standard.variants.size());
  double of_all = 0;
  std::size_t next = 0;
  for (const std::vector<double>& day : without_factors(record, ratios, standard, time))
    for (const double y : day) {
      of_variant[static_cast<std::size_t>(record.cycles[next++]->variant)] += y;
      of_all += y;
    }
  const double mean = of_all / static_cast<double>(next);
  const std::vector<std::optional<double>> own = own_ratios(record, standard, time);
  double ratio = 0, bridged = 0;
  for (std::size_t v = 0; v < own.size(); ++v) {
    const double content = standard.variants[v].share * (standard.variants[v].time / standard.mean);
    const double part = content * own[v].value_or(mean * bridging_factor(ratios, v));
    ratio += part;
    if (own[v]) continue;
    bridged += part;
    if (ratios.can_bridge(v)) leaning[v] = part;
  }
  for (std::size_t v = 0; v < own.size(); ++v)
    leaning[v] = (leaning[v] - (ratios.can_bridge(v) ? bridged * of_variant[v] / of_all : 0)) / ratio;
  return leaning;
}

} // namespace docket
