#include "core/content/beside/recomputation.h"
#include "core/content/content.h"
#include "tests/core/content/steady_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

ContentFindings answer(const Case& c) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  return answer_content(c, gather_evidence(c, time.line_cycle), time);
}

/// Base 80 %, heater 20 %; the first `both` operators build a heater every other cycle.
Case with_heater(const std::vector<double>& levels, std::int32_t both) {
  Case c = made::steady_case(levels);
  c.variants = {made::variant("base", 0.8), made::variant("heater", 0.2, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.10);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  for (std::size_t i = 0; i < c.cycle_log.size(); i += 2)
    if (c.cycle_log[i].op < both) c.cycle_log[i].variant = 1;
  return c;
}

// The range is symmetrical in logarithms: t u is half its width.
TEST(Recomputation, HoldsWhatTheRowsLookedAt) {
  const ContentFindings found = answer(made::steady_case({50, 52, 54}));
  const CombinedLine& combined = *found.combined;
  const double width = std::log((Seconds{60} - combined.margin_low) / (Seconds{60} - combined.margin_high));
  EXPECT_NEAR(found.again.reach, width / 2 / combined.u, 1e-9);
  EXPECT_EQ(found.again.facts.all.p, found.combined->p_fits);
  EXPECT_EQ(found.again.facts.without_leaning.size(), found.again.without.size());
  ASSERT_TRUE(found.again.share);
  EXPECT_NEAR(found.again.share->z_able, 1.2815515655446004, 1e-12); // 90 %, R: qnorm(0.9)
  EXPECT_NEAR(found.again.share->u_spread, 1.2815515655446004 * found.settled.line->s / 2,
              1e-12); // sqrt(2 (3 - 1)) = 2
}

TEST(Recomputation, SaysWhichLevelsAreBridgedAndByWhat) {
  const ContentFindings none = answer(made::steady_case({50, 51, 52}));
  EXPECT_TRUE(none.again.bridged.empty());
  const ContentFindings all = answer(with_heater({50, 51, 52}, 0));
  ASSERT_EQ(all.again.bridged.size(), 3U);
  EXPECT_EQ(all.again.bridged[1].op, 1);
  EXPECT_EQ(all.again.bridged[1].variant, 1);
  EXPECT_EQ(all.again.bridged[1].own, 0);
  EXPECT_FALSE(all.again.bridged[1].by_others) << "nobody does it";
  const ContentFindings one = answer(with_heater({50, 51, 52, 50}, 3));
  ASSERT_EQ(one.again.bridged.size(), 1U);
  EXPECT_EQ(one.again.bridged[0].op, 3);
  EXPECT_TRUE(one.again.bridged[0].by_others);
}

// The line of the settled operators leans, so the rows look at the rest without it.
TEST(Recomputation, NamesTheLinesLeftOut) {
  const ContentFindings found = answer(made::steady_case({50}));
  ASSERT_EQ(found.again.without.size(), 1U);
  EXPECT_EQ(found.again.without[0], std::vector<Line>{Line::settled});
  EXPECT_FALSE(found.again.share) << "one person";
}

} // namespace
} // namespace docket
