#include "core/adaptation/interruptions.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <span>
#include <utility>

namespace docket {

namespace {

std::vector<PracticePoint> points_between(const std::vector<PracticePoint>& points, double above, double to) {
  std::vector<PracticePoint> out;
  for (const PracticePoint& point : points)
    if (point.n > above && point.n <= to) out.push_back(point);
  return out;
}

/// From cycles as done to cycles as counted.
struct Recount {
  std::vector<std::pair<double, double>> lost; ///< after which own cycle, and how many
  double dropped_until = 0;                    ///< those up to here are not looked at

  std::vector<PracticePoint> operator()(const std::vector<PracticePoint>& as_done) const {
    std::vector<PracticePoint> counted;
    for (PracticePoint point : as_done) {
      if (point.n <= dropped_until) continue;
      double less = 0;
      for (const auto& [after, cycles] : lost)
        if (point.n > after) less += cycles;
      point.n -= less;
      counted.push_back(point);
    }
    return counted;
  }
};

bool enough_before(const std::vector<PracticePoint>& points) {
  std::set<Date> days;
  for (const PracticePoint& point : points) days.insert(point.day);
  return static_cast<std::int64_t>(points.size()) >= rules::least_practice_cycles &&
         static_cast<int>(days.size()) >= rules::least_practice_days;
}

/// Own cycle at which the averaged curve before the break stood at `level`: absent where it never was so high.
std::optional<double> cycle_at_level(const PracticeMixture& before, double first, double level) {
  double low = first, high = before.last;
  if (before.middle_level(low) <= level) return std::nullopt;
  if (before.middle_level(high) >= level) return high;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (before.middle_level(middle) > level ? low : high) = middle;
  }
  return (low + high) / 2;
}

/// Half the width of an interval on the logarithm, over the normal deviate; where an end is missing, from the other.
double u_of(const TimeEstimate& level, double z) {
  const double middle = std::log(level.time.count());
  double widest = 0;
  if (level.low) widest = std::max(widest, middle - std::log(level.low->count()));
  if (level.high) widest = std::max(widest, std::log(level.high->count()) - middle);
  return widest / z;
}

/// Own cycles after the break until the first 60 plain ones in a row lie at `level` or below.
std::optional<std::int64_t> cycles_until_back(const std::vector<PracticePoint>& after, double break_at, double level,
                                              double spread2) {
  const auto window = static_cast<std::size_t>(rules::cycles_after_break);
  double sum = 0;
  for (std::size_t i = 0; i < after.size(); ++i) {
    sum += std::log(after[i].seconds / level) + spread2 / 2;
    if (i >= window) sum -= std::log(after[i - window].seconds / level) + spread2 / 2;
    if (i + 1 >= window && sum <= 0) return std::llround(after[i].n - break_at);
  }
  return std::nullopt;
}

void estimate_loss(Interruption& found, const std::vector<PracticePoint>& before_points,
                   const std::vector<PracticePoint>& before_bounds, const std::vector<PracticePoint>& after,
                   double confidence) {
  const PracticeMixture before = fit_mixture(before_points, before_bounds);
  const TimeEstimate level = estimate_level(before, before.last, confidence);
  found.level_before = level;
  const std::size_t looked_at = std::min(after.size(), static_cast<std::size_t>(rules::cycles_after_break));
  std::vector<double> residuals;
  // A mean of logarithms lies half of it below the logarithm of the mean.
  const double spread2 = before.middle_variance();
  for (const PracticePoint& point : std::span(after).first(looked_at))
    residuals.push_back(std::log(point.seconds / level.time.count()) + spread2 / 2);
  const Summary summary = summarise(residuals);
  const double z = normal_quantile(0.5 + confidence / 2);
  const double u =
      std::hypot(summary.sd * std::sqrt(before.phi / static_cast<double>(residuals.size())), u_of(level, z));
  const double d = summary.mean;
  found.loss = Loss{std::expm1(d), std::expm1(d - z * u), std::expm1(d + z * u)};
  found.loss_shown = found.loss->low > 0;
  if (found.loss_shown)
    found.back_after = cycles_until_back(after, static_cast<double>(found.at.after), level.time.count(), spread2);
  const double first = before_points.front().n;
  found.cycles_before = before.last - first;
  const auto lost = [&](double share) -> std::optional<double> {
    const std::optional<double> n = cycle_at_level(before, first, level.time.count() * (1 + share));
    return n ? std::optional(before.last - *n) : std::nullopt;
  };
  found.cycles_lost = lost(found.loss->share);
  found.least_lost = lost(std::max(0.0, found.loss->low));
  found.most_lost = lost(found.loss->high);
}

} // namespace

Interruptions find_interruptions(const PracticeSeries& series, double confidence) {
  Interruptions out{{}, series, {}};
  Recount recount;
  for (std::size_t i = 0; i < series.breaks.size(); ++i) {
    Interruption found;
    found.at = series.breaks[i];
    const auto after = static_cast<double>(found.at.after);
    const double next = i + 1 < series.breaks.size() ? static_cast<double>(series.breaks[i + 1].after)
                                                     : static_cast<double>(series.last_cycle);
    found.since = series.last_cycle - found.at.after;
    // Counted as the record was before this break: earlier losses taken off.
    const std::vector<PracticePoint> before_points = recount(points_between(series.plain, 0, after));
    const std::vector<PracticePoint> after_points = points_between(series.plain, after, next);
    if (!enough_before(before_points)) {
      found.none_why = "too_few_before";
    } else if (static_cast<std::int64_t>(after_points.size()) < rules::least_after_break) {
      found.none_why = "too_few_after";
    } else {
      estimate_loss(found, before_points, recount(points_between(series.bounds, 0, after)), after_points, confidence);
    }
    if (found.loss_shown && found.cycles_lost) recount.lost.emplace_back(after, *found.cycles_lost);
    if (found.loss_shown && !found.cycles_lost) recount.dropped_until = after;
    out.breaks.push_back(std::move(found));
  }
  const auto every_list = [](PracticeSeries& of, const auto& change) {
    for (auto* points : {&of.plain, &of.bounds, &of.with_bounds, &of.with_helped, &of.with_helped_bounds})
      change(*points);
  };
  every_list(out.series, [&](std::vector<PracticePoint>& points) { points = recount(points); });
  for (const Interruption& found : out.breaks) {
    if (!found.back_after) continue;
    if (!out.came_back) out.came_back = series;
    const auto from = static_cast<double>(found.at.after), to = from + static_cast<double>(*found.back_after);
    every_list(*out.came_back, [&](std::vector<PracticePoint>& points) {
      std::erase_if(points, [&](const PracticePoint& point) { return point.n > from && point.n <= to; });
    });
  }
  return out;
}

bool learning_is_interrupted(const Interruptions& interruptions, const std::optional<TimeEstimate>& today) {
  if (interruptions.breaks.empty()) return false;
  const Interruption& last = interruptions.breaks.back();
  if (!last.loss_shown || (today && today->time <= last.level_before->time)) return false;
  return static_cast<double>(last.since) < rules::times_the_loss * last.cycles_lost.value_or(last.cycles_before);
}

} // namespace docket
