#include "core/content/order/line_drift.h"

#include "core/rules.h"
#include "core/statistics/random.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {

namespace {

/// Addresses of the counter-based draws: which kind of number is drawn.
enum Stream : std::uint64_t { variant_stream = 1, spread_stream = 2, shift_stream = 3 };

/// The one recursion. `visit(start, over_limit, overload)` sees every unit.
template <class Visit>
void drift(std::span<const Seconds> times, const std::vector<bool>& new_run, double factor, Seconds limit,
           const WorkZone& zone, Seconds least, Visit visit) {
  const double early = -zone.early_start.count(), late = zone.late_finish.count();
  double x = 0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    if (new_run[i]) x = 0;
    const double beyond = x + factor * times[i].count() - limit.count();
    visit(i, x, beyond, beyond - late >= least.count());
    x = std::clamp(beyond, early, late);
  }
}

DriftCount count(std::span<const Seconds> times, const std::vector<bool>& new_run, double factor, Seconds limit,
                 const WorkZone& zone, Seconds least) {
  DriftCount out;
  out.units = static_cast<std::int64_t>(times.size());
  double lost = 0, worst = 0;
  drift(times, new_run, factor, limit, zone, least, [&](std::size_t, double, double beyond, bool overload) {
    out.overloads += overload ? 1 : 0;
    lost += std::max(0.0, beyond - zone.late_finish.count());
    worst = std::max(worst, beyond);
  });
  out.lost = Seconds{lost};
  out.worst = Seconds{worst};
  return out;
}

/// ln factors of the units of one run, mean of the factor 1.
class Autoregression {
public:
  explicit Autoregression(SpreadOfCycles spread)
      : sigma_(spread.sigma), rho_(std::clamp(spread.rho, -0.95, 0.95)), fresh_(std::sqrt(1 - rho_ * rho_)) {}

  double next(double normal, bool new_run) {
    w_ = new_run ? sigma_ * normal : rho_ * w_ + fresh_ * sigma_ * normal;
    return std::exp(w_ - sigma_ * sigma_ / 2);
  }

private:
  double sigma_, rho_, fresh_, w_ = 0;
};

} // namespace

std::vector<DriftStep> follow_drift(std::span<const Seconds> times, const std::vector<bool>& new_run, Seconds limit,
                                    const WorkZone& zone, Seconds least) {
  std::vector<DriftStep> steps;
  steps.reserve(times.size());
  drift(times, new_run, 1, limit, zone, least, [&](std::size_t, double start, double beyond, bool overload) {
    steps.push_back({Seconds{start}, Seconds{std::max(0.0, beyond - zone.late_finish.count())}, overload});
  });
  return steps;
}

DriftCount count_drift(std::span<const Seconds> times, const std::vector<bool>& new_run, Seconds limit,
                       const WorkZone& zone, Seconds least) {
  return count(times, new_run, 1, limit, zone, least);
}

Seconds least_overload(Seconds line_cycle) {
  return std::max(Seconds{rules::overload_least_s}, rules::overload_least_share * line_cycle);
}

DrawnTimes draw_shifts(std::span<const Seconds> variant_times, std::span<const double> shares, SpreadOfCycles spread,
                       double sigma_between, int shifts, std::int64_t cycles_per_shift, std::uint64_t seed) {
  assert(!shares.empty() && shares.size() == variant_times.size());
  const Draws draws(seed);
  std::vector<double> cumulative(shares.begin(), shares.end());
  for (std::size_t v = 1; v < cumulative.size(); ++v) cumulative[v] += cumulative[v - 1];

  DrawnTimes out;
  const auto units = static_cast<std::size_t>(shifts) * static_cast<std::size_t>(cycles_per_shift);
  out.times.reserve(units);
  out.new_run.reserve(units);
  for (int shift = 0; shift < shifts; ++shift) {
    const auto block = static_cast<std::uint64_t>(shift);
    const double of_shift = sigma_between > 0 ? std::exp(sigma_between * draws.normal(shift_stream, block, 0)) : 1.0;
    Autoregression within(spread);
    for (std::int64_t unit = 0; unit < cycles_per_shift; ++unit) {
      const auto index = static_cast<std::uint64_t>(unit);
      const double pick = draws.uniform(variant_stream, block, index) * cumulative.back();
      const auto v =
          std::min<std::ptrdiff_t>(std::upper_bound(cumulative.begin(), cumulative.end(), pick) - cumulative.begin(),
                                   static_cast<std::ptrdiff_t>(cumulative.size()) - 1);
      const double factor = spread.sigma > 0 ? within.next(draws.normal(spread_stream, block, index), unit == 0) : 1.0;
      out.times.push_back(variant_times[static_cast<std::size_t>(v)] * (factor * of_shift));
      out.new_run.push_back(unit == 0);
    }
  }
  return out;
}

DrawnTimes draw_given_order(std::span<const Seconds> variant_times, std::span<const std::int32_t> order,
                            const std::vector<bool>& new_run, SpreadOfCycles spread, std::int64_t least_units,
                            std::uint64_t seed) {
  assert(!order.empty() && order.size() == new_run.size());
  const Draws draws(seed);
  DrawnTimes out;
  for (std::uint64_t replicate = 0; static_cast<std::int64_t>(out.times.size()) < least_units; ++replicate) {
    Autoregression within(spread);
    for (std::size_t i = 0; i < order.size(); ++i) {
      const bool starts = i == 0 || new_run[i];
      const double factor = spread.sigma > 0 ? within.next(draws.normal(spread_stream, replicate, i), starts) : 1.0;
      out.times.push_back(variant_times[static_cast<std::size_t>(order[i])] * factor);
      out.new_run.push_back(starts);
    }
  }
  return out;
}

DriftCount count_drift_at(const DrawnTimes& drawn, double factor, Seconds limit, const WorkZone& zone, Seconds least) {
  return count(drawn.times, drawn.new_run, factor, limit, zone, least);
}

SequenceMargin find_sequence_margin(const DrawnTimes& drawn, double tolerated, Seconds limit, const WorkZone& zone,
                                    Seconds least) {
  const auto within = [&](double factor) {
    return count_drift_at(drawn, factor, limit, zone, least).rate() <= tolerated;
  };
  double low = rules::margin_factor_low, high = rules::margin_factor_high;
  if (!within(low)) return {low, true, false};
  if (within(high)) return {high, false, true};
  while (high - low > rules::margin_factor_step) {
    const double middle = (low + high) / 2;
    (within(middle) ? low : high) = middle;
  }
  return {(low + high) / 2, false, false};
}

} // namespace docket
