// All learners are invented. Expected values are of R (tests/reference/r_nlme), or the truth learners were drawn from.
#include "core/adaptation/earlier_learners.h"
#include "core/statistics/random.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <limits>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace docket {
namespace {

Date day_of(int cycle) { return Date{std::chrono::days{20000 + cycle / 100}}; }

PracticeSeries series_of(std::int32_t op, const std::vector<double>& seconds) {
  PracticeSeries series;
  series.op = op;
  for (std::size_t i = 0; i < seconds.size(); ++i)
    series.plain.push_back({static_cast<double>(i + 1), seconds[i], day_of(static_cast<int>(i))});
  series.cycles = series.last_cycle = static_cast<std::int64_t>(seconds.size());
  series.first_cycle = 1;
  series.first_cycle_estimated = false;
  return series;
}

/// The nine of R; the last comes after the others.
std::vector<PracticeSeries> by_r() {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/r_nlme/learners.csv");
  std::map<std::int32_t, std::vector<double>> seconds;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    const std::size_t last = line.rfind(',');
    seconds[std::stoi(line)].push_back(std::stod(line.substr(last + 1)));
  }
  std::vector<PracticeSeries> all;
  for (const auto& [op, times] : seconds) all.push_back(series_of(op, times));
  return all;
}

/// One invented learner.
struct Truth {
  double c = 50, r = 0.5, tau = 100;
  double at(double n) const { return c * (1 + r * std::exp(-n / tau)); }
  double level(double n) const { return at(n) * std::exp(sigma * sigma / 2); }
  static constexpr double sigma = 0.08;
};

Truth drawn(const Draws& draws, std::uint64_t who) {
  return {52 * std::exp(0.05 * draws.normal(1, who, 0)), 0.5 * std::exp(0.3 * draws.normal(1, who, 1)),
          100 * std::exp(0.25 * draws.normal(1, who, 2))};
}

PracticeSeries simulated(const Draws& draws, std::uint64_t who, const Truth& truth, int cycles) {
  std::vector<double> seconds;
  for (int n = 1; n <= cycles; ++n)
    seconds.push_back(truth.at(n) * std::exp(Truth::sigma * draws.normal(2, who, static_cast<std::uint64_t>(n))));
  return series_of(static_cast<std::int32_t>(who), seconds);
}

std::vector<PracticeSeries> station(const Draws& draws, std::uint64_t people, int cycles) {
  std::vector<PracticeSeries> all;
  for (std::uint64_t i = 0; i < people; ++i)
    all.push_back(simulated(draws, i, drawn(draws, i), cycles + 25 * static_cast<int>(i)));
  return all;
}

bool holds(const TimeEstimate& estimate, double seconds) {
  return estimate.low->count() < seconds && seconds < estimate.high->count();
}

// R fits single cycles, the program blocks no wider than 3 % of n: over such a block the curve moves by at most
// r 0.03 n/tau exp(-n/tau) < 0.6 %, a fourteenth of the spread of a cycle, and its mean by a tenth of that. So 3 % of a
// standard error for the curve, and 1 % of a standard deviation or a half width.
TEST(EarlierLearners, BandAndBorrowedEstimateAgreeWithR) {
  const auto r = testing::read_reference_values("r_nlme");
  std::vector<PracticeSeries> all = by_r();
  const PracticeSeries newcomer = all.back();
  all.pop_back();
  const EarlierLearners earlier = fit_earlier_learners(all);
  ASSERT_EQ(earlier.outcome, EarlierLearnersOutcome::fitted) << earlier.reason;
  ASSERT_EQ(earlier.phi, 1); // so that R, which knows no phi, has the same model
  EXPECT_EQ(earlier.learners, 8);
  EXPECT_TRUE(earlier.course_differs);
  EXPECT_EQ(earlier.seen_to, 290); // the third longest record
  EXPECT_TRUE(earlier.population.groups.empty());
  EXPECT_NEAR(earlier.population.residual_sd / r.at("practice_three_reml.sigma"), 1, 0.002);
  for (std::size_t k = 0; k < 3; ++k) {
    const std::string at = std::to_string(k + 1);
    const double se = r.at("practice_three_reml.se." + at);
    EXPECT_NEAR(earlier.population.fixed[k], r.at("practice_three_reml.fixed." + at), 0.03 * se) << k;
    EXPECT_NEAR(earlier.population.fixed_se[k] / se, 1, 0.01) << k;
    EXPECT_NEAR(earlier.population.random_sd[k] / r.at("practice_three_reml.sd." + at), 1, 0.01) << k;
  }

  const auto band = find_band(earlier, std::vector<double>{25, 100, 200, 10000}, 0.95);
  ASSERT_TRUE(band);
  ASSERT_EQ(band->levels.size(), 3U); // nothing where nobody was
  const auto agrees = [&](const TimeEstimate& estimate, const std::string& key, const std::string& half_key) {
    const double middle = r.at(key), half = r.at(half_key);
    EXPECT_NEAR(std::log(estimate.time.count()), middle, 0.01 * half) << key;
    EXPECT_NEAR(std::log(estimate.low->count()), middle - half, 0.015 * half) << key;
    EXPECT_NEAR(std::log(estimate.high->count()), middle + half, 0.015 * half) << key;
  };
  for (const LearnersAtCycle& at : band->levels) {
    const std::string n = std::to_string(static_cast<int>(at.cycle));
    agrees(at.level, "band." + n, "band_half." + n);
  }
  agrees(band->settled, "band.settled", "band_half.settled");

  const auto borrowed = borrow_estimate(earlier, newcomer, Seconds{52}, 0.95);
  ASSERT_TRUE(borrowed);
  EXPECT_EQ(borrowed->learners, 8);
  EXPECT_EQ(borrowed->own_cycles, 40);
  EXPECT_NEAR(std::log(borrowed->settled.time.count()),
              r.at("newcomer.1") + std::pow(r.at("practice_three_reml.sigma"), 2) / 2, 0.01 * r.at("newcomer_se.1"));
  EXPECT_NEAR(std::log(*borrowed->settled.high / borrowed->settled.time), 2.364624 * r.at("newcomer_se.1"),
              0.025 * r.at("newcomer_se.1")); // t of R at 0.975 with 7 df
  agrees(borrowed->today, "newcomer.today", "newcomer_half.today");
  // Where R's curve of the newcomer meets the limit: in closed form.
  const double target = 52 / std::exp(std::pow(r.at("practice_three_reml.sigma"), 2) / 2 + r.at("newcomer.1")) - 1;
  if (target > 0) {
    const double cycle = std::exp(r.at("newcomer.3")) * (r.at("newcomer.2") - std::log(target));
    ASSERT_TRUE(borrowed->to_limit);
    EXPECT_NEAR(*borrowed->to_limit, cycle - 40, 0.02 * cycle);
  }
}

// Six stations of eight, each with a ninth who has 40 cycles. At 95 % one finds 4 or more inside but in 1 of 400 draws.
// What longer runs found stands in the header.
TEST(EarlierLearners, IntervalsHoldTheTruth) {
  std::array<int, 4> band_holds{};
  int settled = 0, today = 0, cycles_hold = 0;
  const std::vector<double> at{25, 100, 200};
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    const Draws draws(seed + 50);
    const EarlierLearners earlier = fit_earlier_learners(station(draws, 8, 250));
    ASSERT_EQ(earlier.outcome, EarlierLearnersOutcome::fitted) << seed << earlier.reason;
    const Truth truth = drawn(draws, 8);
    const auto band = find_band(earlier, at, 0.95);
    ASSERT_TRUE(band);
    for (std::size_t k = 0; k < at.size(); ++k)
      band_holds[k] += holds(band->levels[k].level, truth.level(at[k])) ? 1 : 0;
    band_holds[3] += holds(band->settled, truth.level(1e9)) ? 1 : 0;
    const double limit = 57;
    const auto borrowed = borrow_estimate(earlier, simulated(draws, 8, truth, 40), Seconds{limit}, 0.95);
    ASSERT_TRUE(borrowed);
    settled += holds(borrowed->settled, truth.level(1e9)) ? 1 : 0;
    today += holds(borrowed->today, truth.level(40)) ? 1 : 0;
    const double left = limit / (truth.c * std::exp(Truth::sigma * Truth::sigma / 2)) - 1;
    const double far = std::numeric_limits<double>::infinity();
    const double needed = left > 0 ? std::max(0.0, truth.tau * std::log(truth.r / left) - 40) : far;
    cycles_hold += borrowed->to_limit_low.value_or(borrowed->reach - 40) <= needed + 1 &&
                           borrowed->to_limit_high.value_or(far) >= needed - 1
                       ? 1
                       : 0;
    EXPECT_GT(borrowed->own_share, 0);
    EXPECT_LT(borrowed->own_share, 1);
  }
  for (const int n : band_holds) EXPECT_GE(n, 4);
  EXPECT_GE(settled, 4);
  EXPECT_GE(today, 4);
  EXPECT_GE(cycles_hold, 4);
}

// The more cycles of one's own, the less the others weigh: with many the own curve is what is seen.
TEST(EarlierLearners, OwnCyclesTakeOver) {
  const Draws draws(9);
  const EarlierLearners earlier = fit_earlier_learners(station(draws, 6, 300));
  ASSERT_EQ(earlier.outcome, EarlierLearnersOutcome::fitted) << earlier.reason;
  const Truth slow{70, 0.6, 120}; // far from the others
  double share = 0;
  for (const int cycles : {12, 60, 250, 1000}) {
    const auto borrowed = borrow_estimate(earlier, simulated(draws, 30, slow, cycles), Seconds{60}, 0.95);
    ASSERT_TRUE(borrowed);
    EXPECT_GT(borrowed->own_share, share) << cycles;
    share = borrowed->own_share;
    if (cycles < 1000) continue;
    // 1,000 cycles with a spread of 8 %: about 0.4 % on the level they end at.
    EXPECT_NEAR(borrowed->settled.time.count() / slow.level(1e9), 1, 0.012);
    EXPECT_FALSE(borrowed->to_limit);
    EXPECT_GT(borrowed->p_never, 0.99);
  }
}

TEST(EarlierLearners, WithinTheLimitTodayIsNoCyclesToGo) {
  const Draws draws(9);
  const EarlierLearners earlier = fit_earlier_learners(station(draws, 6, 300));
  const auto borrowed = borrow_estimate(earlier, simulated(draws, 30, {}, 60), Seconds{200}, 0.95);
  ASSERT_TRUE(borrowed);
  EXPECT_EQ(borrowed->to_limit, 0);
  EXPECT_EQ(borrowed->to_limit_high, 0);
  EXPECT_LT(borrowed->p_never, 1e-3);
}

TEST(EarlierLearners, UnderFiveThereIsNoBand) {
  const Draws draws(3);
  const std::vector<PracticeSeries> all = station(draws, 5, 300);
  const std::vector<double> at{50};
  const EarlierLearners four = fit_earlier_learners({all.data(), 4});
  ASSERT_EQ(four.outcome, EarlierLearnersOutcome::fitted) << four.reason;
  EXPECT_FALSE(four.course_differs);
  EXPECT_FALSE(find_band(four, at, 0.95));
  EXPECT_TRUE(borrow_estimate(four, simulated(draws, 30, {}, 30), Seconds{60}, 0.95));
  const EarlierLearners five = fit_earlier_learners(all);
  ASSERT_EQ(five.outcome, EarlierLearnersOutcome::fitted) << five.reason;
  EXPECT_TRUE(find_band(five, at, 0.95));
  EXPECT_EQ(cycles_for_band(five), (std::vector<double>{25, 50, 100, 200}));
}

TEST(EarlierLearners, WhoCounts) {
  const Draws draws(3);
  std::vector<PracticeSeries> all = station(draws, 6, 300);
  all[0].first_cycle_estimated = true; // and nothing came before, as far as is known
  all[1] = with_count_before(all[1], 200);
  all[2].plain.resize(59);
  all[3].first_cycle_estimated = true; // from shifts before: taken
  all[3] = with_count_before(all[3], 20);
  const EarlierLearners earlier = fit_earlier_learners(all);
  EXPECT_EQ(earlier.count_unknown, 1);
  EXPECT_EQ(earlier.begins_late, 1);
  EXPECT_EQ(earlier.too_short, 1);
  EXPECT_EQ(earlier.learners, 3);
  EXPECT_EQ(earlier.outcome, EarlierLearnersOutcome::fitted) << earlier.reason;
  const EarlierLearners two = fit_earlier_learners({all.data(), 5});
  EXPECT_EQ(two.outcome, EarlierLearnersOutcome::too_few);
  EXPECT_EQ(two.reason, "There are fewer than three earlier learners.");
  EXPECT_FALSE(borrow_estimate(two, all[5], Seconds{60}, 0.95));
  // The one asked about, too: with ten plain cycles, and a count that is known.
  EXPECT_TRUE(borrow_estimate(earlier, simulated(draws, 30, {}, 10), Seconds{60}, 0.95));
  EXPECT_FALSE(borrow_estimate(earlier, simulated(draws, 30, {}, 9), Seconds{60}, 0.95));
  EXPECT_FALSE(borrow_estimate(earlier, all[0], Seconds{60}, 0.95));
}

TEST(EarlierLearners, WithoutAFallOrASpreadNothingIsLent) {
  const Draws draws(3);
  std::vector<PracticeSeries> flat, alike;
  for (std::uint64_t i = 0; i < 6; ++i) {
    flat.push_back(simulated(draws, i, {50 + static_cast<double>(i), 0, 100}, 200));
    // The same times for everybody: no spread between them.
    alike.push_back(simulated(draws, 1, {}, 300));
  }
  const EarlierLearners none = fit_earlier_learners(flat);
  EXPECT_EQ(none.outcome, EarlierLearnersOutcome::no_practice);
  EXPECT_EQ(none.reason, "No fall with practice is to be seen that the earlier learners share.");
  const EarlierLearners same = fit_earlier_learners(alike);
  EXPECT_EQ(same.outcome, EarlierLearnersOutcome::spread_not_seen);
  EXPECT_EQ(same.reason,
            "The settled levels of the earlier learners can't be told apart, so their spread is not known.");
  EXPECT_FALSE(find_band(same, std::vector<double>{25}, 0.95));
  EXPECT_EQ(name_of(same.outcome), "spread_not_seen");
}

// The same input gives the same numbers, in whatever order the learners come.
TEST(EarlierLearners, OrderOfLearnersDoesNotMatter) {
  const Draws draws(12);
  std::vector<PracticeSeries> all = station(draws, 5, 200);
  const EarlierLearners one = fit_earlier_learners(all);
  std::swap(all[0], all[4]);
  const EarlierLearners other = fit_earlier_learners(all);
  ASSERT_TRUE(one.population.usable() && other.population.usable());
  for (std::size_t k = 0; k < 3; ++k)
    EXPECT_NEAR(one.population.fixed[k], other.population.fixed[k], 1e-4 * one.population.fixed_se[k]);
}

} // namespace
} // namespace docket
