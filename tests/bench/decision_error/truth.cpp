#include "tests/bench/decision_error/truth.h"

#include "core/content/order/line_drift.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace docket::bench {

namespace {

constexpr std::uint64_t truth_seed = 20260301;
constexpr double step = 1e-5; // of ln(T / limit)

/// ln of the factor on all times at which the rate is the tolerated one.
double just_met(const DrawnTimes& drawn, const StationShape& shape) {
  const WorkZone zone{shape.early, shape.late};
  const double tolerated = Settings{}.tolerated_overloads;
  double low = std::log(0.5), high = std::log(2.0);
  while (high - low > step) {
    const double middle = (low + high) / 2;
    const DriftCount count = count_drift_at(drawn, std::exp(middle), line_cycle, zone, least_overload(line_cycle));
    (count.rate() <= tolerated ? low : high) = middle;
  }
  return (low + high) / 2;
}

} // namespace

TrueBoundaries find_boundaries(const StationShape& shape, std::int64_t units) {
  const std::vector<Seconds> times = true_times(shape, line_cycle);
  const std::vector<double> shares = planned_shares(shape);
  const SpreadOfCycles spread{shape.within, shape.lag1};
  const auto shifts = static_cast<int>(units / shape.cycles_per_shift);
  const auto in_drawn_order = [&](double sd_between) {
    return just_met(draw_shifts(times, shares, spread, sd_between, shifts, shape.cycles_per_shift, truth_seed), shape);
  };
  TrueBoundaries out;
  out.rate = in_drawn_order(shape.day_effect);
  out.people = in_drawn_order(std::hypot(shape.day_effect, shape.between));
  if (const std::vector<std::int32_t> order = build_order(shape); !order.empty()) {
    std::vector<bool> starts(order.size());
    starts.front() = true;
    const double given = just_met(draw_given_order(times, order, starts, spread, units, truth_seed), shape);
    out.rate = std::min(out.rate, given);
    out.people = std::min(out.people, given);
  }
  out.share = -normal_quantile(shape.able) * shape.between;
  return out;
}

} // namespace docket::bench
