#include "core/content/lines/settled_rule.h"
#include "core/statistics/random.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

// Closed form: a straight line from 1.04 down to 1.00 over 800 values; the block medians lie 1/8 of the way apart, so
// the fall over 7 steps is 7/8 of the whole, over the middle value 1.02.
TEST(FallOverBlocks, OfAStraightLine) {
  std::vector<double> values;
  for (int i = 0; i < 800; ++i) values.push_back(1.04 - 0.04 * (i + 0.5) / 800);
  EXPECT_NEAR(fall_over_blocks(values), 0.04 * 7 / 8 / 1.02, 1e-9);
}

// Theil-Sen takes no notice of one wild block in eight (Helsel & Hirsch, ch. 10: resistant to outliers).
TEST(FallOverBlocks, OneWildBlockDoesNotMakeATrend) {
  std::vector<double> values(800, 1.0);
  for (int i = 400; i < 500; ++i) values[static_cast<std::size_t>(i)] = 3.0;
  EXPECT_NEAR(fall_over_blocks(values), 0, 1e-12);
}

std::vector<std::vector<double>> simulated_days(int days, int cycles, double fall, std::uint64_t seed) {
  const Draws draws(seed);
  std::vector<std::vector<double>> out;
  for (int d = 0; d < days; ++d) {
    std::vector<double>& day = out.emplace_back();
    for (int i = 0; i < cycles; ++i) {
      const double position = (d + static_cast<double>(i) / cycles) / days;
      day.push_back((1 - fall * position) *
                    std::exp(0.07 * draws.normal(1, static_cast<std::uint64_t>(d), static_cast<std::uint64_t>(i))));
    }
  }
  return out;
}

// Simulated: nothing left to learn, 7 % cycle spread, 10 days of 100 cycles: the bound stays under 3 %.
TEST(FindFall, NothingLeftToLearn) {
  int settled = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed)
    settled += find_fall(simulated_days(10, 100, 0, seed), 1, seed).bound <= 0.03 ? 1 : 0;
  EXPECT_GE(settled, 36);
}

// Simulated: 8 % of improvement over the record is not missed.
TEST(FindFall, ImprovementIsSeen) {
  int settled = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed)
    settled += find_fall(simulated_days(10, 100, 0.08, seed), 1, seed).bound <= 0.03 ? 1 : 0;
  EXPECT_EQ(settled, 0);
}

TEST(FindFall, SameSeedSameBoundAnotherPersonOtherDraws) {
  const auto days = simulated_days(5, 60, 0, 3);
  EXPECT_EQ(find_fall(days, 1, 7).bound, find_fall(days, 1, 7).bound);
  EXPECT_NE(find_fall(days, 1, 7).bound, find_fall(days, 1, 8).bound);
}

TEST(FindFall, IdenticalValuesHaveNoFall) {
  const std::vector<std::vector<double>> days(4, std::vector<double>(60, 1.0));
  const FallWithBound fall = find_fall(days, 1, 1);
  EXPECT_EQ(fall.fall, 0);
  EXPECT_EQ(fall.bound, 0);
}

} // namespace
} // namespace docket
