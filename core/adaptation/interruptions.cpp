#include "core/adaptation/interruptions.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace docket {

namespace {

std::vector<PracticePoint> points_between(const std::vector<PracticePoint>& points, double above, double to) {
  std::vector<PracticePoint> out;
  for (const PracticePoint& point : points)
    if (point.n > above && point.n <= to) out.push_back(point);
  return out;
}

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

void estimate_loss(Interruption& found, const std::vector<PracticePoint>& before_points,
                   const std::vector<PracticePoint>& before_bounds, std::vector<PracticePoint> after,
                   double confidence) {
  const PracticeMixture before = fit_mixture(before_points, before_bounds);
  const TimeEstimate level = estimate_level(before, before.last, confidence);
  found.level_before = level;
  if (after.size() > static_cast<std::size_t>(rules::cycles_after_break))
    after.resize(static_cast<std::size_t>(rules::cycles_after_break));
  std::vector<double> residuals;
  double spread2 = 0; // a mean of logarithms lies half of it below the logarithm of the mean
  for (std::size_t m = 0; m < before.weights.size(); ++m)
    spread2 += before.weights[m] * before.fit(m).sigma * before.fit(m).sigma;
  for (const PracticePoint& point : after)
    residuals.push_back(std::log(point.seconds / level.time.count()) + spread2 / 2);
  const Summary summary = summarise(residuals);
  const double z = normal_quantile(0.5 + confidence / 2);
  const double u =
      std::hypot(summary.sd * std::sqrt(before.phi / static_cast<double>(residuals.size())), u_of(level, z));
  const double d = summary.mean;
  found.loss = Loss{std::expm1(d), std::expm1(d - z * u), std::expm1(d + z * u)};
  found.loss_shown = found.loss->low > 0;
  const double first = before_points.front().n;
  const auto lost = [&](double share) -> std::optional<double> {
    const std::optional<double> n = cycle_at_level(before, first, level.time.count() * (1 + share));
    return n ? std::optional(before.last - *n) : std::nullopt;
  };
  // A curve that has not fallen by as much as was lost can't tell the cycles.
  found.cycles_lost = lost(found.loss->share);
  if (!found.cycles_lost) return;
  found.least_lost = lost(std::max(0.0, found.loss->low));
  found.most_lost = lost(found.loss->high);
}

} // namespace

Interruptions find_interruptions(const PracticeSeries& series, double confidence) {
  Interruptions out{{}, series};
  for (std::size_t i = 0; i < series.breaks.size(); ++i) {
    Interruption found;
    found.at = series.breaks[i];
    const auto after = static_cast<double>(found.at.after);
    const double next = i + 1 < series.breaks.size() ? static_cast<double>(series.breaks[i + 1].after)
                                                     : static_cast<double>(series.last_cycle);
    found.since = series.last_cycle - found.at.after;
    // Counted as the record was before this break, earlier losses taken off.
    std::vector<PracticePoint> before_points, before_bounds;
    for (std::size_t k = 0; k < series.plain.size(); ++k)
      if (series.plain[k].n <= after) before_points.push_back(out.series.plain[k]);
    for (std::size_t k = 0; k < series.bounds.size(); ++k)
      if (series.bounds[k].n <= after) before_bounds.push_back(out.series.bounds[k]);
    const std::vector<PracticePoint> after_points = points_between(series.plain, after, next);
    if (!enough_before(before_points)) {
      found.none_why = "too_few_before";
    } else if (static_cast<std::int64_t>(after_points.size()) < rules::least_after_break) {
      found.none_why = "too_few_after";
    } else {
      estimate_loss(found, before_points, before_bounds, after_points, confidence);
    }
    if (found.loss_shown && found.cycles_lost) {
      const auto shift = [&](const std::vector<PracticePoint>& counted, std::vector<PracticePoint>& moved) {
        for (std::size_t k = 0; k < counted.size(); ++k)
          if (counted[k].n > after) moved[k].n -= *found.cycles_lost;
      };
      shift(series.plain, out.series.plain);
      shift(series.bounds, out.series.bounds);
      shift(series.with_bounds, out.series.with_bounds);
      shift(series.with_helped, out.series.with_helped);
      shift(series.with_helped_bounds, out.series.with_helped_bounds);
    }
    out.breaks.push_back(std::move(found));
  }
  return out;
}

bool learning_is_interrupted(const Interruptions& interruptions, const TimeEstimate& today) {
  if (interruptions.breaks.empty()) return false;
  const Interruption& last = interruptions.breaks.back();
  if (!last.loss_shown || !last.cycles_lost) return false;
  return today.time > last.level_before->time &&
         static_cast<double>(last.since) < rules::times_the_loss * *last.cycles_lost;
}

} // namespace docket
