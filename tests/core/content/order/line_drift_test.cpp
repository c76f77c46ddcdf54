#include "core/content/order/line_drift.h"
#include "core/statistics/distributions.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

std::vector<Seconds> seconds(std::initializer_list<double> values) {
  std::vector<Seconds> out;
  for (const double v : values) out.emplace_back(v);
  return out;
}

std::vector<bool> one_run(std::size_t n) {
  std::vector<bool> starts(n, false);
  starts[0] = true;
  return starts;
}

// Worked by hand from the recursion of Yano & Rachamadugu 1991 (also Bard, Dar-El & Shtub 1992): launch interval 60,
// station 75 long, start at the upstream border. Starts 0 10 15 5 15 10 and 0 at the end; overload 5 and 10, sum 15.
TEST(LineDrift, RecursionWorkedByHand) {
  const WorkZone zone{Seconds{0}, Seconds{15}};
  const std::vector<Seconds> times = seconds({70, 70, 50, 80, 55, 40});
  const std::vector<DriftStep> steps = follow_drift(times, one_run(6), Seconds{60}, zone, Seconds{0.6});
  const double starts[] = {0, 10, 15, 5, 15, 10}, over[] = {0, 5, 0, 10, 0, 0};
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_DOUBLE_EQ(steps[i].start.count(), starts[i]) << "unit " << i + 1;
    EXPECT_DOUBLE_EQ(steps[i].over.count(), over[i]) << "unit " << i + 1;
    EXPECT_EQ(steps[i].overload, over[i] > 0) << "unit " << i + 1;
  }
  const DriftCount count = count_drift(times, one_run(6), Seconds{60}, zone, Seconds{0.6});
  EXPECT_EQ(count.overloads, 2);
  EXPECT_DOUBLE_EQ(count.lost.count(), 15);
  // Identity: sum of times - overload = 6 x 60 + last start - idle; here the last unit leaves 10 s idle.
  EXPECT_DOUBLE_EQ(365 - count.lost.count(), 6 * 60 - 10.0);
}

// The same six units in another order: overload 5 instead of 15.
TEST(LineDrift, OverloadDependsOnTheOrder) {
  const DriftCount count =
      count_drift(seconds({70, 50, 70, 40, 80, 55}), one_run(6), Seconds{60}, {Seconds{0}, Seconds{15}}, Seconds{0.6});
  EXPECT_DOUBLE_EQ(count.lost.count(), 5);
}

// Scholl, Balancing and Sequencing of Assembly Lines (1999): (75 - 60)/(70 - 60) = 1.5, so one heavy unit in a row fits.
TEST(LineDrift, LongestRunOfHeavyUnits) {
  const DriftCount count =
      count_drift(seconds({70, 70}), one_run(2), Seconds{60}, {Seconds{0}, Seconds{15}}, Seconds{0.6});
  EXPECT_EQ(count.overloads, 1);
}

TEST(LineDrift, ARunStartsAnewAtZeroAndEarlyStartIsLimited) {
  std::vector<bool> starts{true, false, true};
  const std::vector<DriftStep> steps =
      follow_drift(seconds({50, 50, 50}), starts, Seconds{60}, {Seconds{3}, Seconds{9}}, Seconds{0.6});
  EXPECT_DOUBLE_EQ(steps[1].start.count(), -3);
  EXPECT_DOUBLE_EQ(steps[2].start.count(), 0);
}

TEST(LineDrift, AnOverloadIsAtLeastHalfASecondOrOnePercentOfTheLineCycle) {
  EXPECT_DOUBLE_EQ(least_overload(Seconds{30}).count(), 0.5);
  EXPECT_DOUBLE_EQ(least_overload(Seconds{80}).count(), 0.8);
}

// Closed form: without spread a unit overloads in the long run exactly when k t - limit reaches the least overload.
TEST(LineDrift, SequenceMarginWithoutSpread) {
  const std::vector<Seconds> times = seconds({55});
  const std::vector<double> shares{1};
  const DrawnTimes drawn = draw_shifts(times, shares, {0, 0}, 0, 20, 450, 1);
  const SequenceMargin k =
      find_sequence_margin(drawn, 0.05, Seconds{60}, {Seconds{3}, Seconds{9}}, least_overload(Seconds{60}));
  EXPECT_NEAR(k.factor, 60.6 / 55, 0.001); // the bisection's own step
  EXPECT_FALSE(k.at_low_end || k.at_high_end);
}

// Closed form: without a zone and without autocorrelation every unit stands alone, and the rate is a normal tail:
// k* = (limit + least) / t x exp(sigma^2/2 - sigma z(1 - rate)).
TEST(LineDrift, SequenceMarginWithoutZoneIsANormalTail) {
  const std::vector<Seconds> times = seconds({50});
  const std::vector<double> shares{1};
  const double sigma = 0.06;
  const DrawnTimes drawn = draw_shifts(times, shares, {sigma, 0}, 0, 400, 450, 7);
  const SequenceMargin k = find_sequence_margin(drawn, 0.010, Seconds{60}, {}, Seconds{0.6});
  const double expected = 60.6 / 50 * std::exp(sigma * sigma / 2 - sigma * normal_quantile(0.99));
  // 180,000 units: the 1 % quantile of ln t has a standard error of 0.0005; 4 of these and the bisection's step.
  EXPECT_NEAR(k.factor, expected, 0.003);
}

TEST(LineDrift, AnEndOfTheSearchIsReported) {
  const std::vector<Seconds> times = seconds({20});
  const std::vector<double> shares{1};
  const DrawnTimes drawn = draw_shifts(times, shares, {0, 0}, 0, 2, 100, 1);
  EXPECT_TRUE(find_sequence_margin(drawn, 0.01, Seconds{60}, {}, Seconds{0.6}).at_high_end);
  EXPECT_TRUE(find_sequence_margin(drawn, 0.01, Seconds{5}, {}, Seconds{0.6}).at_low_end);
}

// Simulated: shares, mean, spread and lag-1 of what is drawn come back.
TEST(LineDrift, DrawnTimesHaveTheSharesAndSpreadAskedFor) {
  const std::vector<Seconds> times = seconds({40, 60});
  const std::vector<double> shares{0.75, 0.25};
  const DrawnTimes drawn = draw_shifts(times, shares, {1e-12, 0}, 0, 400, 450, 3);
  double heavy = 0;
  for (const Seconds t : drawn.times) heavy += t.count() > 50 ? 1 : 0;
  EXPECT_NEAR(heavy / static_cast<double>(drawn.times.size()), 0.25, 4 * std::sqrt(0.25 * 0.75 / 180000));

  const std::vector<Seconds> one = seconds({50});
  const std::vector<double> all{1};
  const DrawnTimes spread = draw_shifts(one, all, {0.08, 0.4}, 0, 400, 450, 3);
  double sum = 0, sum2 = 0, lag = 0, n = 0, pairs = 0, previous = 0;
  for (std::size_t i = 0; i < spread.times.size(); ++i) {
    const double w = std::log(spread.times[i].count() / 50) + 0.08 * 0.08 / 2;
    sum += w;
    sum2 += w * w;
    n += 1;
    if (!spread.new_run[i]) {
      lag += w * previous;
      pairs += 1;
    }
    previous = w;
  }
  EXPECT_NEAR(sum / n, 0, 0.0013); // 4 standard errors with n (1 - rho)/(1 + rho)
  EXPECT_NEAR(std::sqrt(sum2 / n), 0.08, 0.001);
  EXPECT_NEAR(lag / pairs / (0.08 * 0.08), 0.4, 0.012);
}

TEST(LineDrift, SameSeedSameDrawsAndTheGivenOrderIsRepeated) {
  const std::vector<Seconds> times = seconds({40, 60});
  const std::vector<std::int32_t> order{0, 1, 1};
  const std::vector<bool> starts{true, false, false};
  const DrawnTimes a = draw_given_order(times, order, starts, {0.05, 0.2}, 20000, 5);
  const DrawnTimes b = draw_given_order(times, order, starts, {0.05, 0.2}, 20000, 5);
  const DrawnTimes c = draw_given_order(times, order, starts, {0.05, 0.2}, 20000, 6);
  EXPECT_EQ(a.times, b.times);
  EXPECT_NE(a.times, c.times);
  EXPECT_GE(a.times.size(), 20000U);
  EXPECT_TRUE(a.new_run[3]);
}

} // namespace
} // namespace docket
