// Motions of a whole case: by element and analyst.
#include "core/content/lines/standard_time.h"
#include "core/content/motions/standard_motions.h"
#include "tests/core/content/motions/made_motion_times.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

MotionStep motion(std::int32_t element, std::int64_t step, const std::string& code, const std::string& analyst) {
  MotionStep row;
  row.element = element;
  row.step = step;
  row.code = code;
  row.hand = Hand::right;
  row.analyst = analyst;
  return row;
}

/// The second element of two has motions, by two analysts, their rows mixed.
Case two_analysts() {
  Case c = made::one_element_case(60, 40);
  c.standard.push_back(made::element("E2", 10, 0.10));
  c.shipped_motion_times = made::motion_times();
  c.motions = {motion(1, 1, "R16C", "IE1"), motion(1, 1, "R14B", "IE2"), motion(1, 2, "G1A", "IE1"),
               motion(1, 2, "G1A", "IE2")};
  return c;
}

// Values of the reprinted table: R16C 17.0, R14B 14.4, G1A 2.0. 1 TMU = 0.036 s.
TEST(StandardMotions, AnalystsAreApartAndTheFirstInTheSheetComesFirst) {
  const std::vector<ElementMotions> found = analyse_motions(two_analysts());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].element, 1);
  ASSERT_EQ(found[0].analyses.size(), 2U);
  EXPECT_EQ(found[0].first().analyst, "IE1");
  EXPECT_EQ(found[0].first().rows, (std::vector<std::size_t>{0, 2}));
  EXPECT_NEAR(found[0].first().time()->count(), 19.0 * 0.036, 1e-12);
  EXPECT_NEAR(found[0].second()->time()->count(), 16.4 * 0.036, 1e-12);
}

// Two values: experimental standard deviation |a - b| / sqrt 2, JCGM 100:2008, 4.2.2, equation 4.
TEST(StandardMotions, TwoAnalysesGiveAnUncertaintyWhereTheyDiffer) {
  Case c = two_analysts();
  EXPECT_NEAR(analyse_motions(c)[0].uncertainty()->count(), 2.6 * 0.036 / std::sqrt(2.0), 1e-12);
  c.motions[1].code = "R16C";
  EXPECT_FALSE(analyse_motions(c)[0].uncertainty());
  c.motions.resize(1);
  EXPECT_FALSE(analyse_motions(c)[0].uncertainty());
}

TEST(StandardMotions, ThePlantsOwnTableComesFirst) {
  Case c = two_analysts();
  c.motion_table = {{"r16c", 18, {}}, {"G1A", 3, {}}};
  const std::vector<ElementMotions> found = analyse_motions(c);
  EXPECT_NEAR(*found[0].first().result.tmu, 21, 1e-12);
  EXPECT_FALSE(found[0].second()->time()); // R14B is not in it
}

TEST(StandardMotions, StandWithTheStandard) {
  EXPECT_EQ(build_standard_time(two_analysts(), Seconds{60}).motions.size(), 1U);
  EXPECT_TRUE(build_standard_time(made::one_element_case(60, 40), Seconds{60}).motions.empty());
}

} // namespace
} // namespace docket
