#include "core/content/lines/standard_time.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

Case two_variants() {
  Case c = made::one_element_case(60, 40, 0.05);
  c.variants = {made::variant("base", 0.7), made::variant("heater", 0.3, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.10, ElementClass::nnva);
  heater.any_option = {"H"};
  StandardElement cap = made::element("E3", 2, 0, ElementClass::nva);
  cap.not_option = "H";
  cap.times_per_unit = 2;
  c.standard.push_back(heater);
  c.standard.push_back(cap);
  return c;
}

// Sums by hand: base 40 + 2 x 2 = 44, heater 40 + 10 = 50, mix 0.7 x 44 + 0.3 x 50 = 45.8.
TEST(StandardTime, SumsByVariantClassAndMix) {
  const StandardTime s = build_standard_time(two_variants(), Seconds{60});
  EXPECT_NEAR(s.variants[0].time.count(), 44, 1e-12);
  EXPECT_NEAR(s.variants[1].time.count(), 50, 1e-12);
  EXPECT_NEAR(s.mean.count(), 45.8, 1e-12);
  EXPECT_NEAR(s.by_class[0].count(), 40, 1e-12);
  EXPECT_NEAR(s.by_class[1].count(), 3, 1e-12);
  EXPECT_NEAR(s.by_class[2].count(), 2.8, 1e-12);
  EXPECT_NEAR(s.efficiency, 45.8 / 60, 1e-12);
  EXPECT_NEAR(s.utilisation, 40.0 / 60, 1e-12);
}

// Law of propagation, JCGM 100:2008, 5.1.2, by hand: (1 x 1 x 2)^2 + (0.3 x 1 x 1)^2 + 0, and the level 5 % of 45.8.
TEST(StandardTime, UncertaintyIsOneErrorAnElementAndOneOfTheLevel) {
  const StandardTime s = build_standard_time(two_variants(), Seconds{60});
  EXPECT_NEAR(s.u_random.count(), std::sqrt(4 + 0.09), 1e-12);
  EXPECT_NEAR(s.u_systematic.count(), 2.29, 1e-12);
  EXPECT_NEAR(s.level.u, std::sqrt(4.09 + 2.29 * 2.29) / 45.8, 1e-12);
}

// 10 % for an element of 100 TMU; a tenth of its length has a tenth of its variance, so cutting changes nothing.
TEST(StandardTime, UncertaintyOfAnElementDoesNotDependOnHowItIsCut) {
  StandardElement whole = made::element("E", 3.6, 0), tenth = made::element("E", 0.36, 0);
  whole.uncertainty.reset();
  tenth.uncertainty.reset();
  EXPECT_NEAR(element_uncertainty(whole).count(), 0.36, 1e-12);
  EXPECT_NEAR(std::sqrt(10) * element_uncertainty(tenth).count(), 0.36, 1e-12);
}

TEST(StandardTime, AnElementSeenButNotInTheStandardMakesTheLineLean) {
  Case c = made::one_element_case(60, 40);
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0)};
  for (int i = 0; i < 2; ++i) {
    Reading in_standard = made::whole_reading(0, i + 1, 40, 2 + 2 * i);
    in_standard.element = 0;
    c.readings.push_back(in_standard);
  }
  Reading hose = made::whole_reading(0, 2, 3, 5);
  hose.seen_element = "fetch hose";
  c.readings.push_back(hose);
  const StandardTime s = build_standard_time(c, Seconds{60});
  EXPECT_EQ(s.unmatched, std::vector<std::string>{"fetch hose"});
  EXPECT_NEAR(s.unmatched_per_unit.count(), 1.5, 1e-12); // 3 s over two cycles timed by element
  ASSERT_EQ(s.level.leans.size(), 1U);
  EXPECT_EQ(s.level.leans[0].code, "elements_missing");
}

} // namespace
} // namespace docket
