#include "core/statistics/studies/blocks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace docket {
namespace {

using Rows = std::vector<std::vector<double>>;

// G. E. P. Box, J. S. Hunter, W. G. Hunter, Statistics for Experimenters (2nd ed. 2005), table 4.4: penicillin yield,
// five blends, four treatments; sums of squares 264 (4), 70 (3), 226 (12), F 1.24. From memory, and it closes by hand.
TEST(Blocks, penicillin) {
  const BlockTest test = test_treatments_in_blocks(
      {{89, 88, 97, 94}, {84, 77, 92, 79}, {81, 87, 87, 85}, {87, 92, 89, 84}, {79, 81, 80, 88}});
  ASSERT_TRUE(test.possible);
  EXPECT_EQ(test.df1, 3);
  EXPECT_EQ(test.df2, 12);
  EXPECT_NEAR(test.f, (70 / 3.0) / (226 / 12.0), 1e-12);
  EXPECT_NEAR(test.f, 1.24, 0.005);
}

// A. R. Cushny, A. R. Peebles 1905 (Student 1908; R's data set sleep): paired t -4.0621, p 0.00283 with 9 degrees.
TEST(Blocks, two_treatments_are_the_paired_t) {
  const std::vector<double> first{.7, -1.6, -.2, -1.2, -.1, 3.4, 3.7, .8, 0, 2};
  const std::vector<double> second{1.9, .8, 1.1, .1, -.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  Rows rows;
  for (std::size_t i = 0; i < first.size(); ++i) rows.push_back({first[i], second[i]});
  const BlockTest test = test_treatments_in_blocks(rows);
  ASSERT_TRUE(test.possible);
  EXPECT_EQ(test.df1, 1);
  EXPECT_EQ(test.df2, 9);
  EXPECT_NEAR(std::sqrt(test.f), 4.0621, 5e-5);
  EXPECT_NEAR(test.p, 0.00283, 5e-6);
}

// Invariant: what is added to a whole block is of no account.
TEST(Blocks, block_level_is_of_no_account) {
  const BlockTest plain = test_treatments_in_blocks({{1, 2, 4}, {2, 2, 5}, {0, 3, 3}});
  const BlockTest moved = test_treatments_in_blocks({{101, 102, 104}, {-48, -48, -45}, {7, 10, 10}});
  EXPECT_NEAR(moved.f, plain.f, 1e-11);
  EXPECT_NEAR(moved.p, plain.p, 1e-12);
}

TEST(Blocks, not_possible) {
  for (const Rows& rows : {Rows{}, Rows{{1, 2}}, Rows{{1}, {2}, {3}}, Rows{{1, 2}, {1, 2, 3}}, Rows{{}, {}},
                           Rows{{1.1, 2.2}, {3.1, 4.2}}, Rows{{5, 5}, {5, 5}}}) {
    const BlockTest test = test_treatments_in_blocks(rows);
    EXPECT_FALSE(test.possible);
    EXPECT_TRUE(std::isnan(test.f));
    EXPECT_TRUE(std::isnan(test.p));
  }
}

} // namespace
} // namespace docket
