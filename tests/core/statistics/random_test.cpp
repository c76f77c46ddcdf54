#include "core/statistics/distributions.h"
#include "core/statistics/random.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <set>
#include <vector>

namespace docket {
namespace {

using Words = std::array<std::uint32_t, 4>;

// Random123 (the authors' own code of Salmon et al. 2011), file kat_vectors, lines philox4x32 10.
TEST(Philox, published_known_answers) {
  EXPECT_EQ(philox4x32_10({0, 0, 0, 0}, {0, 0}), (Words{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}));
  EXPECT_EQ(philox4x32_10({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}),
            (Words{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}));
  EXPECT_EQ(philox4x32_10({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}),
            (Words{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}));
}

// Invariant: an address gives its number whatever was asked before.
TEST(Draws, order_is_of_no_account) {
  const Draws draws(1);
  std::vector<double> forwards(500), backwards(500);
  for (std::size_t i = 0; i < 500; ++i) forwards[i] = draws.normal(3, i % 7, i);
  for (std::size_t i = 500; i-- > 0;) backwards[i] = Draws(1).normal(3, i % 7, i);
  EXPECT_EQ(forwards, backwards);
}

// Invariant: every bit of seed, stream, block and index counts.
TEST(Draws, every_part_of_the_address_counts) {
  std::set<double> seen{Draws(0).uniform(0, 0, 0)};
  for (int bit = 0; bit < 64; ++bit) {
    const std::uint64_t flag = std::uint64_t{1} << bit;
    seen.insert(Draws(flag).uniform(0, 0, 0));
    seen.insert(Draws(0).uniform(flag, 0, 0));
    seen.insert(Draws(0).uniform(0, flag, 0));
    seen.insert(Draws(0).uniform(0, 0, flag));
  }
  EXPECT_EQ(seen.size(), 1 + 4 * 64U);
}

constexpr std::uint64_t many = 40'000;

// Closed form: moments of the uniform distribution, 1/2, 1/12 and no correlation between neighbours. Five standard
// errors: a fixed seed, so it fails once and for all or never.
TEST(Draws, uniform_moments) {
  const Draws draws(20'240'501);
  const double n = static_cast<double>(many);
  double sum = 0, squares = 0, products = 0, last = 0.5;
  for (std::uint64_t i = 0; i < many; ++i) {
    const double value = draws.uniform(1, 2, i);
    ASSERT_GT(value, 0);
    ASSERT_LT(value, 1);
    sum += value - 0.5;
    squares += (value - 0.5) * (value - 0.5);
    products += (value - 0.5) * (last - 0.5);
    last = value;
  }
  EXPECT_NEAR(sum / n, 0, 5 * std::sqrt(1 / 12.0 / n));
  EXPECT_NEAR(squares / n, 1 / 12.0, 5 * std::sqrt(1 / 180.0 / n));
  EXPECT_NEAR(products / n, 0, 5 / 12.0 / std::sqrt(n));
}

// Closed form: moments of the standard normal, 0, 1, 0, 3; streams and blocks do not correlate.
TEST(Draws, normal_moments) {
  const Draws draws(7);
  const double n = static_cast<double>(many);
  double sum = 0, squares = 0, cubes = 0, fourths = 0, streams = 0, blocks = 0;
  for (std::uint64_t i = 0; i < many; ++i) {
    const double value = draws.normal(0, i, 0);
    sum += value;
    squares += value * value;
    cubes += value * value * value;
    fourths += value * value * value * value;
    streams += value * draws.normal(1, i, 0);
    blocks += value * draws.normal(0, i + 1, 0);
  }
  EXPECT_NEAR(sum / n, 0, 5 / std::sqrt(n));
  EXPECT_NEAR(squares / n, 1, 5 * std::sqrt(2 / n));
  EXPECT_NEAR(cubes / n, 0, 5 * std::sqrt(15 / n));
  EXPECT_NEAR(fourths / n, 3, 5 * std::sqrt(96 / n));
  EXPECT_NEAR(streams / n, 0, 5 / std::sqrt(n));
  EXPECT_NEAR(blocks / n, 0, 5 / std::sqrt(n));
}

TEST(Draws, normal_is_the_quantile_of_uniform) {
  const Draws draws(7);
  EXPECT_EQ(draws.normal(4, 5, 6), normal_quantile(draws.uniform(4, 5, 6)));
}

// Closed form: chi-squared of equal shares; its 0.9999 quantile with 6 degrees of freedom is 27.86 (printed tables).
TEST(Draws, below_gives_every_value_alike) {
  const Draws draws(99);
  std::array<double, 7> counts{};
  for (std::uint64_t i = 0; i < many; ++i) {
    const std::uint64_t value = draws.below(7, 0, 0, i);
    ASSERT_LT(value, 7U);
    counts[static_cast<std::size_t>(value)] += 1;
  }
  const double expected = static_cast<double>(many) / 7;
  double chi_squared = 0;
  for (const double count : counts) chi_squared += (count - expected) * (count - expected) / expected;
  EXPECT_LT(chi_squared, 27.86);
  EXPECT_EQ(draws.below(1, 2, 3, 4), 0U);
}

// Closed form: the share of all 64 bits, floor(n u) for a power of two, agrees with the uniform of the same address.
TEST(Draws, below_agrees_with_uniform) {
  const Draws draws(5);
  for (std::uint64_t i = 0; i < 1'000; ++i) {
    const double share = draws.uniform(0, 1, i);
    EXPECT_EQ(draws.below(1024, 0, 1, i), static_cast<std::uint64_t>(share * 1024));
    const std::uint64_t large = draws.below(std::uint64_t{1} << 63, 0, 1, i);
    EXPECT_NEAR(static_cast<double>(large) * 0x1p-63, share, 0x1p-51);
  }
}

} // namespace
} // namespace docket
