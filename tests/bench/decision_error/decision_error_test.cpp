// Tests of the bench itself: its truth against closed forms, its stations against what they are said to be.
#include "core/content/lines/standard_time.h"
#include "core/content/order/line_drift.h"
#include "core/statistics/distributions.h"
#include "tests/bench/decision_error/grid.h"
#include "tests/bench/decision_error/results.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace docket::bench {
namespace {

TEST(BenchTruth, WithoutAWorkZoneTheRateIsTheTailOfALognormal) {
  StationShape shape;
  shape.early = shape.late = Seconds{0};
  shape.day_effect = 0;
  shape.between = 0.04;
  // Closed form: each unit starts on time, so P(T exp(w - s^2/2) >= L + 0.6 s) = 1 %. 0.6 s is 1 % of L.
  const auto level_for = [](double sd, double of_mean) {
    return std::log(60.6 / 60) - normal_quantile(0.99) * sd + of_mean * of_mean / 2;
  };
  const TrueBoundaries truth = find_boundaries(shape);
  // 12,000 overloads seen: the quantile is known to 0.04 SD of a cycle; two and a half of that.
  EXPECT_NEAR(truth.rate, level_for(0.06, 0.06), 0.006);
  // People drawn once a shift, 20,000 shifts: the two spreads add up.
  EXPECT_NEAR(truth.people, level_for(std::hypot(0.06, 0.04), 0.06), 0.006);
  EXPECT_DOUBLE_EQ(truth.mean, 0);
  // Standard normal quantile of 0.90, printed tables: 1.2816.
  EXPECT_NEAR(truth.share, -1.2816 * 0.04, 1e-5);
}

TEST(BenchTruth, AWiderZoneAllowsMore) {
  StationShape narrow, wide;
  wide.late = Seconds{18};
  EXPECT_LT(find_boundaries(narrow, 120'000).rate, find_boundaries(wide, 120'000).rate);
}

TEST(BenchTruth, VariantTimesKeepTheMeanOfTheMix) {
  StationShape shape;
  shape.variants = 3;
  shape.heavy_excess = 0.08;
  const std::vector<double> shares = planned_shares(shape);
  const std::vector<Seconds> times = true_times(shape, Seconds{60});
  Seconds mean{};
  for (std::size_t v = 0; v < times.size(); ++v) mean += shares[v] * times[v];
  EXPECT_NEAR(mean.count(), 60, 1e-9);
}

TEST(BenchTruth, PlacesAreTheBoundariesOfTheWrongWords) {
  const TrueBoundaries truth{0, -0.05, -0.08, -0.06};
  Tally tally;
  tally.truth = truth;
  tally.ln_ratio = true_ln_ratio({"", {}, Place::fits_boundary, 0}, truth);
  EXPECT_DOUBLE_EQ(tally.ln_ratio, -0.05);
  EXPECT_TRUE(tally.fits_is_false());
  EXPECT_FALSE(tally.unfit_is_false()); // the share is truly over
  tally.ln_ratio = true_ln_ratio({"", {}, Place::unfit_boundary, 0}, truth);
  EXPECT_DOUBLE_EQ(tally.ln_ratio, -0.06);
  EXPECT_FALSE(tally.fits_is_false());
  EXPECT_TRUE(tally.unfit_is_false());
  EXPECT_TRUE(tally.people_over());
}

TEST(BenchStation, SystematicErrorsHaveTheirStatedSizes) {
  // u(S)^2 = (5 %)^2 + what 15 elements of T / 15 add: one in 15 of (0.10 sqrt(3.6 s x 4 s) / 4 s)^2. JCGM 100, 5.1.2.
  const double u = std::hypot(0.05, 0.1 * std::sqrt(3.6 * 4) / 4 / std::sqrt(15));
  StationShape shape;
  shape.operators = 1;
  shape.days = 1;
  Moments ln_standard, ln_seen;
  for (std::uint64_t station = 0; station < 2000; ++station) {
    const Case c = simulate_station(shape, Seconds{60}, 1, 1, station);
    ln_standard.add(std::log(build_standard_time(c, line_cycle).mean.count() / 60));
    double seen = 0;
    for (const LoggedCycle& cycle : c.cycle_log) seen += cycle.cycle.count();
    ln_seen.add(std::log(seen / static_cast<double>(c.cycle_log.size()) / 60));
  }
  // Four standard errors of a mean and of an SD of 2,000.
  EXPECT_NEAR(ln_standard.mean(), 0, 4 * u / std::sqrt(2000));
  EXPECT_NEAR(ln_standard.sd(), u, 4 * u / std::sqrt(2 * 2000));
  // Pace 5 %, own pace 4 %, day 1 %, 15 cycles of 6 % and lag 0.2 in the mean: 6.7 %.
  EXPECT_NEAR(ln_seen.mean(), 0, 4 * 0.067 / std::sqrt(2000));
  EXPECT_NEAR(ln_seen.sd(), 0.067, 0.006);
}

TEST(BenchStation, HalfOfTheSlowLeave) {
  StationShape shape;
  shape.leavers = Leavers::named_unseen;
  shape.days = 1;
  double left = 0, all = 0;
  for (std::uint64_t station = 0; station < 500; ++station)
    for (const Operator& op : simulate_station(shape, Seconds{60}, 1, 1, station).operators) {
      left += op.left_station ? 1 : 0;
      all += 1;
    }
  // One in four of all who came; sampling stops at a stayer, which is worth less than the tolerance.
  EXPECT_NEAR(left / all, 0.25, 0.03);
}

TEST(BenchTally, ThreadsChangeNothing) {
  Point point{"threads", {}, Place::margin, 0.05};
  point.shape.cycles_per_shift = 10;
  point.shape.operators = 2;
  const TrueBoundaries truth{0, -0.05, -0.08, -0.06};
  const Result one{"threads", 1, run_point(point, truth, 6, 1, 1)},
      three{"threads", 1, run_point(point, truth, 6, 1, 3)};
  EXPECT_EQ(csv_line(one), csv_line(three));
}

TEST(BenchGrid, NamesAreUniqueAndThereAreThirtyCorners) {
  std::set<std::string> names;
  int corners = 0;
  for (const Point& point : make_grid(1)) {
    EXPECT_TRUE(names.insert(point.name).second) << point.name;
    corners += point.name.starts_with("corner") ? 1 : 0;
  }
  EXPECT_EQ(corners, 30);
}

} // namespace
} // namespace docket::bench
