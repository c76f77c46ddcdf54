// How many more cycles would tell. All learners are simulated.
#include "core/adaptation/cycles_to_tell.h"
#include "tests/core/adaptation/simulated_learner.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

PracticeMixture mixture_of(int cycles, double sigma, double (*curve)(double)) {
  const std::vector<double> times = made::simulated_times(cycles, 0, sigma, 2, curve);
  std::vector<PracticePoint> points;
  for (int i = 0; i < cycles; ++i) points.push_back({i + 1.0, times[static_cast<std::size_t>(i)], made::day(i / 50)});
  return fit_mixture(points);
}

TellBasis basis(int cycles) { return {cycles, static_cast<double>(cycles), 100, 0.03, 0.95}; }

double slow(double n) { return 52 + 10 * std::exp(-n / 150); }

// The horizon by its three branches: as many as observed; five shifts; three times the observed.
TEST(CyclesToTell, TheHorizonOfTheSettledLevel) {
  EXPECT_EQ(settled_horizon(800, 100), 800);
  EXPECT_EQ(settled_horizon(300, 100), 500);
  EXPECT_EQ(settled_horizon(100, 100), 300);
}

TEST(CyclesToTell, NoisierTimesTakeMore) {
  const auto quiet = find_cycles_to_tell(mixture_of(300, 0.03, slow), basis(300));
  const auto noisy = find_cycles_to_tell(mixture_of(300, 0.08, slow), basis(300));
  ASSERT_TRUE(quiet);
  EXPECT_TRUE(!noisy || *noisy > *quiet);
}

// What it promises comes true about as often as not: of 20 learners with as many more cycles of their own curve as it
// says for one of them, some are told and the rest lie close (the count is a middle value).
TEST(CyclesToTell, TheCountIsOfTheRightSize) {
  const auto more = find_cycles_to_tell(mixture_of(300, 0.05, slow), basis(300));
  ASSERT_TRUE(more);
  int told = 0;
  const int cycles = 300 + static_cast<int>(2 * *more);
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const std::vector<double> times = made::simulated_times(cycles, 0, 0.05, seed, slow);
    std::vector<PracticePoint> points;
    for (int i = 0; i < cycles; ++i) points.push_back({i + 1.0, times[static_cast<std::size_t>(i)], made::day(i / 50)});
    const PracticeMixture m = fit_mixture(points);
    const auto horizon = static_cast<double>(settled_horizon(cycles, 100));
    const double within = probability_improvement_within(m, m.last + horizon, 0.03);
    told += within <= 0.025 || within >= 0.975 ? 1 : 0;
  }
  EXPECT_GE(told, 10) << *more; // with twice the count, most are told
}

} // namespace
} // namespace docket
