// One thing changed at a time, on stations whose answer can be worked out by hand.
#include "core/content/word/what_flips.h"
#include "core/findings.h"
#include "tests/core/content/steady_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

using made::steady_case;

Case with_zone(Case c) {
  c.facts.early_start = Seconds{10};
  c.facts.late_finish = Seconds{30};
  c.settings.cycle_spread = 0.02;
  return c;
}

ContentFindings answer(const Case& c) { return find_all(c).content; }

const Flip* flip_of(const ContentFindings& found, std::string_view code) {
  const auto at =
      std::find_if(found.flips.begin(), found.flips.end(), [&](const Flip& flip) { return flip.code == code; });
  return at == found.flips.end() ? nullptr : &*at;
}

// The standard alone at 55 s, 8.7 % below the limit: with 5 % on its level P = Phi(1.74), with 2.5 % Phi(3.48), with 10 %
// Phi(0.87) (normal table).
TEST(WhatFlips, TheLevelOfTheStandard) {
  const ContentFindings found = answer(with_zone(made::one_element_case(60, 55)));
  EXPECT_EQ(found.word, ContentWord::not_shown);
  const Flip* halved = flip_of(found, "standard_halved");
  const Flip* doubled = flip_of(found, "standard_doubled");
  ASSERT_TRUE(halved && doubled);
  EXPECT_EQ(halved->word, ContentWord::fits);
  EXPECT_EQ(halved->detail, "2.5");
  EXPECT_NEAR(halved->p, 0.9997, 1e-4);
  EXPECT_EQ(doubled->word, ContentWord::not_shown);
  EXPECT_NEAR(doubled->p, 0.808, 1e-3);
  EXPECT_NEAR(doubled->margin.count(), 5, 1e-9); // how sure it is does not move the level
}

TEST(WhatFlips, AnAllowanceInsideTheCycle) {
  Case c = with_zone(made::one_element_case(60, 52));
  c.facts.allowance = 0.10;
  c.facts.allowance_where = AllowanceWhere::in_cycle;
  const ContentFindings found = answer(c);
  EXPECT_EQ(found.word, ContentWord::not_shown); // limit 54.5: 4.8 % below it
  const Flip* without = flip_of(found, "without_allowance");
  ASSERT_TRUE(without);
  EXPECT_EQ(without->detail, "10");
  EXPECT_EQ(without->word, ContentWord::fits); // limit 60: 14 % below it
  EXPECT_NEAR(without->margin.count(), 8, 1e-9);
}

// 50 s and 60 s at 80:20 are 52 s; built half and half they are 55 s.
TEST(WhatFlips, TheMixAsBuilt) {
  Case c = with_zone(steady_case({}));
  c.variants = {made::variant("base", 0.8), made::variant("heater", 0.2, {"H"})};
  StandardElement heater = made::element("E2", 10, 0);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  for (int i = 0; i < 40; ++i) {
    SequenceUnit unit;
    unit.position = i + 1;
    unit.variant = i % 2;
    c.build_sequence.push_back(unit);
  }
  const ContentFindings found = answer(c);
  const Flip* built = flip_of(found, "built_mix");
  ASSERT_TRUE(built);
  EXPECT_NEAR(found.combined->margin.count(), 8, 1e-9);
  EXPECT_NEAR(built->margin.count(), 5, 1e-9);
}

TEST(WhatFlips, TheBuiltMixComesFromTheCyclesBeforeTheOrder) {
  Case c = steady_case({50});
  c.variants = {made::variant("base", 0.5), made::variant("heater", 0.5, {"H"})};
  for (std::size_t i = 0; i < c.cycle_log.size(); ++i) c.cycle_log[i].variant = i % 4 == 0 ? 1 : 0;
  EXPECT_EQ(built_mix(c, gather_evidence(c, Seconds{60})), (std::vector<double>{0.75, 0.25}));
  c.cycle_log.clear();
  EXPECT_TRUE(built_mix(c, gather_evidence(c, Seconds{60})).empty());
}

TEST(WhatFlips, OneOperatorOutIsNotNamed) {
  const ContentFindings found = answer(with_zone(steady_case({50, 51, 52, 58})));
  const Flip* lowest = flip_of(found, "one_out_lowest");
  const Flip* highest = flip_of(found, "one_out_highest");
  ASSERT_TRUE(lowest && highest);
  EXPECT_LT(lowest->margin, highest->margin);
  EXPECT_TRUE(lowest->detail.empty() && highest->detail.empty());
  // The section on the settled operators has each, in order of code.
  ASSERT_EQ(found.left_out.size(), 4U);
  EXPECT_EQ(found.left_out[3].detail, "K4");
  EXPECT_EQ(found.left_out[3].margin, highest->margin);
}

TEST(WhatFlips, HelpLeaversAndShortRecordsAsHeadline) {
  Case c = with_zone(steady_case({50, 51, 52, 58}));
  for (std::size_t i = 0; i < 1200; i += 4) {
    c.cycle_log[i].marks.set(Mark::helped);
    c.cycle_log[i].helped = Seconds{30};
    c.cycle_log[i].helped_given = true;
  }
  c.operators[3].left_station = made::day(3);
  const ContentFindings found = answer(c);
  const Flip* help = flip_of(found, "with_help");
  ASSERT_TRUE(help);
  EXPECT_EQ(help->detail, "300");
  EXPECT_LT(help->margin, found.combined->margin);
  EXPECT_FALSE(flip_of(found, "with_leavers")); // K4 left, but is settled and counted
}

TEST(WhatFlips, RatingsOfARestudy) {
  Case c = with_zone(made::one_element_case(60, 55));
  c.operators = {made::trained("K1"), made::trained("K2"), made::trained("K3")};
  std::int64_t row = 2;
  for (std::int32_t o = 0; o < 3; ++o) {
    c.sessions.push_back(made::session("S" + std::to_string(o), o, o));
    for (int i = 0; i < 10; ++i) c.readings.push_back(made::whole_reading(o, i + 1, 55 + o + 0.1 * i, row++));
  }
  const ContentFindings found = answer(c);
  const double w = found.combined->weights[2];
  const Flip* up = flip_of(found, "rating_up");
  ASSERT_TRUE(up);
  // Errors that go together leave less certain which side of the limit it is; the level hardly moves.
  const Flip* alike = flip_of(found, "errors_alike");
  ASSERT_TRUE(alike);
  EXPECT_LT(alike->p, found.combined->p_fits);
  EXPECT_GT(alike->p, 0.5);
  // The combined level moves by the weight of the restudy times ln 1.05.
  EXPECT_NEAR(std::log((60 - up->margin.count()) / found.combined->time.count()), w * std::log(1.05), 1e-9);
}

} // namespace
} // namespace docket
