// Contrasts within blocks of unequal size, against R.
#include "core/statistics/fitting/block_contrasts.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

namespace docket {
namespace {

std::vector<BlockedValue> read_blocked() {
  std::vector<BlockedValue> values;
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/r_robust/blocked.csv");
  std::string line;
  for (std::getline(file, line); std::getline(file, line);) {
    std::istringstream cells(line);
    int block = 0, treatment = 0;
    char comma = 0;
    double y = 0;
    cells >> block >> comma >> treatment >> comma >> y;
    values.push_back({static_cast<std::size_t>(block - 1), static_cast<std::size_t>(treatment - 1), y});
  }
  return values;
}

// R, lm with both as factors; the contrasts by its covariance of coefficients (tests/reference/r_robust).
TEST(BlockContrasts, AgreeWithR) {
  const auto r = testing::read_reference_values("r_robust");
  const std::vector<double> weights{0.5, 0.3, 0.2};
  const BlockContrasts fit = fit_block_contrasts(read_blocked(), weights);
  ASSERT_TRUE(fit.possible);
  for (std::size_t t = 0; t < 3; ++t) {
    EXPECT_NEAR(fit.effect[t], r.at("blocked.effect." + std::to_string(t + 1)), 1e-12);
    EXPECT_NEAR(fit.se[t], r.at("blocked.se." + std::to_string(t + 1)), 1e-12);
  }
  EXPECT_EQ(fit.df, r.at("blocked.df"));
  EXPECT_NEAR(fit.sd, r.at("blocked.residual_sd"), 1e-12);
}

// What is the same for a whole day drops out: effects and spread stay as they are, whatever is added to the days.
TEST(BlockContrasts, WhatADayAddsDropsOut) {
  const std::vector<double> weights{0.5, 0.3, 0.2};
  std::vector<BlockedValue> values = read_blocked();
  const BlockContrasts before = fit_block_contrasts(values, weights);
  for (BlockedValue& value : values) value.y -= 0.4 * static_cast<double>(value.block * value.block);
  const BlockContrasts after = fit_block_contrasts(values, weights);
  for (std::size_t t = 0; t < 3; ++t) {
    EXPECT_NEAR(after.effect[t], before.effect[t], 1e-12);
    EXPECT_NEAR(after.se[t], before.se[t], 1e-12);
  }
}

// One treatment on one day, the other on the next: nothing joins them.
TEST(BlockContrasts, NothingWhereNothingJoins) {
  const std::vector<double> weights{0.5, 0.5};
  std::vector<BlockedValue> values;
  for (int i = 0; i < 6; ++i)
    values.push_back({static_cast<std::size_t>(i / 3), static_cast<std::size_t>(i / 3), 0.1 * i});
  EXPECT_FALSE(fit_block_contrasts(values, weights).possible);
  values.push_back({1, 0, 0.3});
  EXPECT_TRUE(fit_block_contrasts(values, weights).possible);
  EXPECT_FALSE(fit_block_contrasts({}, weights).possible);
  EXPECT_FALSE(fit_block_contrasts(std::vector<BlockedValue>{{0, 0, 1}, {0, 1, 2}}, weights).possible);
}

} // namespace
} // namespace docket
