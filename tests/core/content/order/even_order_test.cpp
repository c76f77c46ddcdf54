#include "core/content/order/even_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace docket {
namespace {

using Order = std::vector<std::int32_t>;
using Counts = std::vector<std::int64_t>;

Order spaced(const Counts& counts) { return space_evenly(counts); }

/// Sum over places of the squared distances from the even shares: what level schedules make small (Miltenburg 1989).
double unevenness(const Order& order, const Counts& counts) {
  std::vector<double> built(counts.size());
  const auto units = static_cast<double>(order.size());
  double sum = 0;
  for (std::size_t i = 0; i < order.size(); ++i) {
    built[static_cast<std::size_t>(order[i])] += 1;
    for (std::size_t v = 0; v < counts.size(); ++v)
      sum += std::pow(built[v] - static_cast<double>(i + 1) * static_cast<double>(counts[v]) / units, 2);
  }
  return sum;
}

// By hand, 2 : 1 : 1. Behind by 0.5, 0.25, 0.25: A. By 0, 0.5, 0.5: B, the first. By 0.5, -0.25, 0.75: C. Then A.
TEST(EvenOrder, TwoToOneToOne) { EXPECT_EQ(spaced({2, 1, 1}), (Order{0, 1, 2, 0})); }

// By hand, 3 : 1. Behind by 0.75, 0.25: A. By 0.5, 0.5: A, the first. By 0.25, 0.75: B. Then A.
TEST(EvenOrder, ThreeToOne) { EXPECT_EQ(spaced({3, 1}), (Order{0, 0, 1, 0})); }

TEST(EvenOrder, HalfAndHalfTakesTurns) { EXPECT_EQ(spaced({3, 3}), (Order{0, 1, 0, 1, 0, 1})); }

TEST(EvenOrder, NothingAndOneVariant) {
  EXPECT_EQ(spaced({}), Order{});
  EXPECT_EQ(spaced({0, 2, 0}), (Order{1, 1}));
}

// With two variants the nearest whole number to the even share can always be built: never more than half a unit off.
TEST(EvenOrder, TwoVariantsStayWithinHalfAUnit) {
  for (const Counts& counts : {Counts{7, 3}, Counts{11, 2}, Counts{50, 49}, Counts{1, 30}}) {
    const Order order = spaced(counts);
    ASSERT_EQ(std::count(order.begin(), order.end(), 0), counts[0]);
    double built = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      built += order[i] == 0 ? 1 : 0;
      const double share = static_cast<double>(counts[0]) / static_cast<double>(order.size());
      EXPECT_LE(std::abs(built - static_cast<double>(i + 1) * share), 0.5 + 1e-12);
    }
  }
}

/// The least unevenness of all orders, one by one.
double least_unevenness(const Counts& counts) {
  Order order;
  for (std::size_t v = 0; v < counts.size(); ++v)
    order.insert(order.end(), static_cast<std::size_t>(counts[v]), static_cast<std::int32_t>(v));
  double least = std::numeric_limits<double>::infinity();
  do least = std::min(least, unevenness(order, counts));
  while (std::next_permutation(order.begin(), order.end()));
  return least;
}

TEST(EvenOrder, NoOrderOfASmallExampleIsMoreEven) {
  for (const Counts& counts : {Counts{4, 3, 2}, Counts{5, 2, 1}, Counts{3, 3, 3}})
    EXPECT_NEAR(unevenness(spaced(counts), counts), least_unevenness(counts), 1e-9) << counts[0] << counts[1];
}

// One place after the other is not always the most even whole: of the 12012 orders of (6, 6, 1) the best has 60/13, this
// one 66/13.
TEST(EvenOrder, IsNotAlwaysTheMostEven) {
  const Counts counts{6, 6, 1};
  EXPECT_NEAR(least_unevenness(counts), 60.0 / 13, 1e-9);
  EXPECT_GT(unevenness(spaced(counts), counts), 60.0 / 13);
  EXPECT_LT(unevenness(spaced(counts), counts), 1.15 * 60.0 / 13);
}

TEST(EvenOrder, UnitsStayInTheirRun) {
  const Order order{0, 0, 1, 1, 1, 1, 0, 0};
  const std::vector<bool> starts{true, false, false, false, true, false, false, false};
  EXPECT_EQ(space_evenly_within_runs(order, starts, 2), (Order{0, 1, 0, 1, 0, 1, 0, 1}));
  const std::vector<bool> uneven{true, false, true, false, false, false, false, false};
  EXPECT_EQ(space_evenly_within_runs(order, uneven, 2), (Order{0, 0, 1, 0, 1, 1, 0, 1}));
}

} // namespace
} // namespace docket
