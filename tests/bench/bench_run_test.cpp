// Tests of what the benches have in common.
#include "core/statistics/random.h"
#include "tests/bench/bench_run.h"
#include "tests/bench/cycles.h"
#include "tests/bench/rates.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>

namespace docket::bench {
namespace {

TEST(BenchRates, ARateIsAllowedItsSimulationError) {
  // 0.025 + 3 sqrt(0.025 x 0.975 / 2000) by hand: 0.03547
  EXPECT_NEAR(allowed_share(0.025, 2000), 0.03547, 1e-5);
}

TEST(BenchRates, CoverageIsAllowedTwoPercentOrItsSimulationError) {
  // 5,000 intervals: 0.05 + 3 sqrt(0.05 x 0.95 / 5000) = 0.05925, so that 93 % decides.
  EXPECT_TRUE(covers_enough(4650, 5000));
  EXPECT_FALSE(covers_enough(4649, 5000));
  // 100 intervals: 0.05 + 3 sqrt(0.05 x 0.95 / 100) = 0.1154.
  EXPECT_TRUE(covers_enough(89, 100));
  EXPECT_FALSE(covers_enough(88, 100));
  EXPECT_TRUE(covers_enough(0, 0));
}

TEST(BenchRates, MomentsOfThreeNumbers) {
  // 1, 2, 6: mean 3, squared deviations 4 + 1 + 9, SD sqrt(14 / 2). By hand.
  Moments moments;
  for (const double value : {1.0, 2.0, 6.0}) moments.add(value);
  EXPECT_DOUBLE_EQ(moments.mean(), 3);
  EXPECT_DOUBLE_EQ(moments.sd(), std::sqrt(7.0));
}

TEST(BenchRun, OptionsAreReadOrRefused) {
  const auto options = read_options(
      {"--runs", "7", "--points", "a,b", "--seconds", "9", "--threads", "1", "--out", "f", "--seed", "3", "--list"},
      "--runs");
  ASSERT_TRUE(options);
  EXPECT_EQ(options->runs, 7);
  EXPECT_EQ(options->points, (std::vector<std::string>{"a", "b"}));
  EXPECT_EQ(options->seconds, 9);
  EXPECT_EQ(options->threads, 1U);
  EXPECT_EQ(options->out, "f");
  EXPECT_EQ(options->seed, 3U);
  EXPECT_TRUE(options->list);
  EXPECT_FALSE(read_options({"--runs"}, "--runs"));
  EXPECT_FALSE(read_options({"--runs", "none"}, "--runs"));
  EXPECT_FALSE(read_options({"--stations", "5"}, "--runs"));
  EXPECT_FALSE(read_options({}, "--runs")->runs);
}

/// Its status, without its table.
int status_of(const Bench& bench, const std::vector<std::string>& words) {
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const int status = run_bench(bench, words);
  testing::internal::GetCapturedStdout();
  testing::internal::GetCapturedStderr();
  return status;
}

TEST(BenchRun, AFinishedPointIsNotRunAgain) {
  const auto file = std::filesystem::temp_directory_path() / "docket_bench_run_test.csv";
  std::filesystem::remove(file);
  int runs = 0;
  const Bench bench{"bench", "--runs", "table", "point,seed,runs,rest", [&](const BenchOptions&) {
                      return std::vector<PointToRun>{
                          {"one", 10, [&](std::int64_t n) {
                             ++runs;
                             return PointResult{"one", "one,1," + std::to_string(n) + ",x", false};
                           }}};
                    }};
  EXPECT_EQ(status_of(bench, {"--out", file.string()}), 0);
  EXPECT_EQ(status_of(bench, {"--out", file.string()}), 0);
  EXPECT_EQ(runs, 1);
  EXPECT_EQ(status_of(bench, {"--out", file.string(), "--runs", "11"}), 0); // another number is another result
  EXPECT_EQ(runs, 2);
  EXPECT_EQ(status_of(bench, {"--points", "two"}), 2);
  EXPECT_TRUE(is_finished(file.string(), "one", 1, 10));
  EXPECT_FALSE(is_finished(file.string(), "one", 2, 10));
  EXPECT_FALSE(is_finished(file.string(), "on", 1, 10));
  std::filesystem::remove(file);
}

TEST(BenchRun, AMissIsStatusOne) {
  const Bench bench{"bench", "--runs", "table", "csv", [](const BenchOptions&) {
                      return std::vector<PointToRun>{
                          {"said", 1, [](std::int64_t) { return std::optional<PointResult>(); }},
                          {"misses", 1, [](std::int64_t) {
                             return PointResult{"m", "m", true};
                           }}};
                    }};
  EXPECT_EQ(status_of(bench, {}), 1);
  EXPECT_EQ(status_of(bench, {"--points", "said"}), 0);
}

TEST(BenchCycles, SpreadAndHelpAreAsStated) {
  const Draws draws(5);
  constexpr int n = 40000;
  Spread spread{0.1, 0.4};
  Moments w, product, of_helped;
  double before = 0;
  for (std::uint64_t i = 0; i < n; ++i) {
    const double now = spread.next(draws.normal(1, 0, i), i == 0);
    w.add(now);
    if (i > 0) product.add(now * before);
    before = now;
    if (is_helped(0.2, now / 0.1, draws.normal(2, 0, i))) of_helped.add(now / 0.1);
  }
  // Four standard errors; those of an autoregression are wider by (1 + r)/(1 - r) at most.
  const double wider = std::sqrt(1.4 / 0.6);
  EXPECT_NEAR(w.mean(), 0, 4 * 0.1 * wider / std::sqrt(n));
  EXPECT_NEAR(w.sd(), 0.1, 4 * 0.1 * wider / std::sqrt(2.0 * n));
  EXPECT_NEAR(product.mean() / 0.01, 0.4, 0.03);
  EXPECT_NEAR(of_helped.n / n, 0.2, 0.01);
  // Mean of the upper fifth of a normal, 0.27996/0.2 = 1.400 (printed tables: density at 0.8416), times 0.7.
  EXPECT_NEAR(of_helped.mean(), 0.98, 0.06);
  EXPECT_FALSE(is_helped(0, 9, 9));
}

TEST(BenchCycles, HelpTakesItsShare) {
  LoggedCycle cycle;
  cycle.cycle = Seconds{60};
  help(cycle, 0.15);
  EXPECT_DOUBLE_EQ(cycle.cycle.count(), 51);
  EXPECT_DOUBLE_EQ(cycle.helped.count(), 9);
  EXPECT_TRUE(cycle.helped_given && cycle.marks.has(Mark::helped));
}

} // namespace
} // namespace docket::bench
