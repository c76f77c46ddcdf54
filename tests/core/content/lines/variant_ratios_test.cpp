#include "core/content/lines/variant_ratios.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

namespace docket {
namespace {

using testing::read_reference_values;

/// Penicillin yields, Box, Hunter & Hunter, Statistics for Experimenters, 2nd ed. (2005), section 4.2, with four cells
/// left out, as the script of the reference has them.
std::vector<VariantCell> penicillin() {
  constexpr double yields[5][4] = {
      {89, 88, 97, 94}, {84, 77, 92, 79}, {81, 87, 87, 85}, {87, 92, 89, 84}, {79, 81, 80, 88}};
  std::vector<VariantCell> cells;
  for (std::size_t p = 0; p < 5; ++p)
    for (std::size_t v = 0; v < 4; ++v) {
      const bool out = (p == 0 && v == 2) || (p == 1 && v == 2) || (p == 3 && v == 0) || (p == 4 && v == 3);
      if (!out) cells.push_back({p, v, yields[p][v] / 100});
    }
  return cells;
}

constexpr double content[] = {0.5 * 50, 0.3 * 58, 0.15 * 66, 0.05 * 70};

TEST(VariantRatios, AsRFitsAnAdditiveTableWithEmptyCells) {
  std::map<std::string, double> expected = read_reference_values("r_two_way");
  ASSERT_FALSE(expected.empty());
  std::vector<VariantCell> cells = penicillin();
  const VariantRatios ratios = find_variant_ratios(cells, content);
  EXPECT_EQ(ratios.df, expected.at("df"));
  EXPECT_EQ(ratios.persons, (std::vector<int>{4, 5, 3, 4}));
  for (std::size_t a = 0; a < 4; ++a) {
    EXPECT_NEAR(ratios.factor[a], expected.at("factor" + std::to_string(a + 1)), 1e-10);
    for (std::size_t b = a; b < 4; ++b)
      EXPECT_NEAR(ratios.covariance[a * 4 + b], expected.at("cov" + std::to_string(a + 1) + std::to_string(b + 1)),
                  1e-13);
  }
  const double weights[] = {0, 1, 0, -1};
  EXPECT_NEAR(ratios.variance_of(weights), expected.at("cov22") + expected.at("cov44") - 2 * expected.at("cov24"),
              1e-13);

  for (VariantCell& cell : cells) cell.weight = cell.person < 2 ? 2 : 1;
  const VariantRatios weighted = find_variant_ratios(cells, content);
  for (std::size_t v = 0; v < 4; ++v)
    EXPECT_NEAR(weighted.factor[v], expected.at("weighted" + std::to_string(v + 1)), 1e-10);
}

// Closed form: an exact additive table gives its own ratios back, whoever is missing where.
TEST(VariantRatios, AnExactTableGivesItsRatiosBack) {
  const double truth[] = {1.00, 1.08, 0.95, 1.02};
  std::vector<VariantCell> cells;
  const std::pair<std::size_t, std::size_t> seen[] = {{0, 0}, {0, 1}, {1, 1}, {1, 2}, {2, 2}, {2, 3}, {2, 0}};
  for (const auto& [p, v] : seen) cells.push_back({p, v, 0.1 * static_cast<double>(p) + std::log(truth[v])});
  const VariantRatios ratios = find_variant_ratios(cells, content);
  double sum = 0;
  for (std::size_t v = 0; v < 4; ++v) {
    EXPECT_NEAR(ratios.factor[v] / ratios.factor[0], truth[v] / truth[0], 1e-12);
    sum += content[v] * ratios.factor[v];
  }
  EXPECT_NEAR(sum, std::accumulate(std::begin(content), std::end(content), 0.0), 1e-10)
      << "the scale is the standard's";
}

TEST(VariantRatios, WhatDoesNotHangTogetherIsNotMeasured) {
  // Persons 0 and 1 do variants 0 and 1; person 2 alone does variants 2 and 3.
  const std::vector<VariantCell> cells{{0, 0, 0.0}, {0, 1, 0.1}, {1, 0, 0.02}, {1, 1, 0.11}, {2, 2, 0}, {2, 3, 0.3}};
  const VariantRatios ratios = find_variant_ratios(cells, content);
  EXPECT_EQ(ratios.persons, (std::vector<int>{2, 2, 0, 0}));
  EXPECT_EQ(ratios.factor[2], 1);
  EXPECT_EQ(ratios.factor[3], 1);
  EXPECT_TRUE(ratios.can_bridge(1));
  EXPECT_FALSE(ratios.can_bridge(3));
}

TEST(VariantRatios, OnePersonAloneMeasuresButCannotStandInForOthers) {
  const VariantRatios ratios = find_variant_ratios({{0, 0, 0.0}, {0, 1, 0.1}}, std::array{10.0, 10.0});
  EXPECT_NEAR(ratios.factor[1] / ratios.factor[0], std::exp(0.1), 1e-12);
  EXPECT_EQ(ratios.df, 0);
  EXPECT_FALSE(ratios.can_bridge(1));
  // A second person with one of the two still leaves nothing to tell how people differ.
  const VariantRatios two = find_variant_ratios({{0, 0, 0.0}, {0, 1, 0.1}, {1, 0, 0.03}}, std::array{10.0, 10.0});
  EXPECT_FALSE(two.can_bridge(1));
  EXPECT_EQ(find_variant_ratios({}, std::array{10.0, 10.0}).factor, (std::vector<double>{1, 1}));
}

} // namespace
} // namespace docket
