#include "core/content/beside/pace_price.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

StandardTime standard_of(double mean, double value_adding) {
  StandardTime standard;
  standard.mean = Seconds{mean};
  standard.by_class = {Seconds{value_adding}, Seconds{mean - value_adding}, Seconds{0}};
  return standard;
}

TimeAvailable time_of(double line_cycle, std::optional<Seconds> takt) {
  TimeAvailable time;
  time.line_cycle = time.limit = Seconds{line_cycle};
  time.takt = takt;
  return time;
}

TEST(PacePrice, NothingWithoutTakt) { EXPECT_FALSE(find_pace_price(standard_of(57, 42), time_of(60, {}))); }

// By hand: takt 75 s, line cycle 60 s: a fifth faster, 15 s a unit. 57 s of content are 57/60 = 0.95 posts at the line
// cycle and 57/75 = 0.76 at takt. At 95 % efficiency 0.95/0.95 = 1 and 0.76/0.95 = 0.8; 42 s of value-adding work at
// 70 % utilisation 42/(0.7 x 60) = 1 and 42/(0.7 x 75) = 0.8.
TEST(PacePrice, OverSpeedInSecondsAndInPosts) {
  const std::optional<PacePrice> price = find_pace_price(standard_of(57, 42), time_of(60, Seconds{75}));
  ASSERT_TRUE(price);
  EXPECT_NEAR(price->over_speed, 0.2, 1e-12);
  EXPECT_NEAR(price->per_unit.count(), 15, 1e-12);
  EXPECT_NEAR(price->at_line_cycle.filled, 0.95, 1e-12);
  EXPECT_NEAR(price->at_takt.filled, 0.76, 1e-12);
  EXPECT_NEAR(price->at_line_cycle.at_efficiency, 1, 1e-12);
  EXPECT_NEAR(price->at_takt.at_efficiency, 0.8, 1e-12);
  EXPECT_NEAR(price->at_line_cycle.at_utilisation, 1, 1e-12);
  EXPECT_NEAR(price->at_takt.at_utilisation, 0.8, 1e-12);
}

TEST(PacePrice, ASlowerLineHasANegativePrice) {
  const std::optional<PacePrice> price = find_pace_price(standard_of(57, 42), time_of(75, Seconds{60}));
  EXPECT_NEAR(price->over_speed, -0.25, 1e-12);
  EXPECT_NEAR(price->per_unit.count(), -15, 1e-12);
}

} // namespace
} // namespace docket
