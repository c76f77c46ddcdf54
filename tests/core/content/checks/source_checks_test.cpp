// The mixes behind the standard and the sources of its times: one case each that finds, one that passes, one that can't
// run. Expected numbers are sums by hand.
#include "core/content/checks/study_checks.h"
#include "tests/core/content/checks/made_checks.h"
#include "tests/core/content/motions/made_motion_times.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

using made::check_of;
using made::expect_found;
using made::expect_lacks;
using made::expect_numbers_only;
using made::expect_passed;
using made::two_variants;

void share_in_standard(Case& c, double light) {
  c.variants[0].share_in_standard = light;
  c.variants[1].share_in_standard = 1 - light;
}

/// 100 units, so many of them heavy.
void build(Case& c, int heavy) {
  c.build_sequence.clear();
  for (int i = 0; i < 100; ++i) c.build_sequence.push_back({i + 1, i < heavy ? 1 : 0, "", {}});
}

TEST(SourceChecks, MixOfTheStandardAgainstThePlannedOne) {
  Case c = two_variants();
  expect_lacks(check_of(c, "stale_mix"), "mix_of_standard");
  share_in_standard(c, 0.8); // 0.8 x 50 + 0.2 x 60 = 52 s in the standard, 55 s planned: it was set for less
  const StudyCheck lighter = check_of(c, "stale_mix");
  expect_found(lighter, Bias::too_light, "");
  EXPECT_NEAR(lighter.numbers.at("in_standard_s"), 52, 1e-9);
  EXPECT_NEAR(lighter.numbers.at("planned_less_in_standard_s"), 3, 1e-9);
  share_in_standard(c, 0.2); // 58 s
  const StudyCheck heavier = check_of(c, "stale_mix");
  expect_found(heavier, Bias::too_heavy, "");
  EXPECT_NEAR(heavier.numbers.at("planned_less_in_standard_s"), -3, 1e-9);
  share_in_standard(c, 0.48); // 55.2 s: 0.36 % of 55 s
  expect_passed(check_of(c, "stale_mix"));
  expect_passed(check_of(made::one_element_case(60, 50), "stale_mix"));
}

TEST(SourceChecks, MixBuiltAgainstThePlannedOne) {
  Case c = two_variants();
  expect_lacks(check_of(c, "mix_built"), "mix_built");
  build(c, 30); // 53 s, 2 s less; by chance up to 1.96 x 10 sqrt(0.21/100) = 0.898 s
  const StudyCheck lighter = check_of(c, "mix_built");
  expect_found(lighter, Bias::too_heavy, "");
  EXPECT_NEAR(lighter.numbers.at("built_s"), 53, 1e-9);
  EXPECT_NEAR(lighter.numbers.at("built_less_planned_s"), -2, 1e-9);
  EXPECT_NEAR(lighter.numbers.at("chance_s"), 0.898, 0.001);
  build(c, 70);
  expect_found(check_of(c, "mix_built"), Bias::too_light, "");
  // Three heavy of ten: the same 2 s, but by chance up to 2.84 s.
  build(c, 3);
  c.build_sequence.resize(10);
  expect_numbers_only(check_of(c, "mix_built"));
  build(c, 50);
  expect_passed(check_of(c, "mix_built"));
  // Plain cycles of the log come before the build order.
  c.operators = {made::trained("K1")};
  for (int i = 0; i < 40; ++i)
    c.cycle_log.push_back(made::logged(0, made::at(1, 6 + i * 0.02), 55 + i % 3, i + 2, i % 2));
  EXPECT_EQ(check_of(c, "mix_built").numbers.at("units"), 40);
  expect_passed(check_of(c, "mix_built"));
  expect_passed(check_of(made::one_element_case(60, 50), "mix_built"));
}

// The two can pull different ways in one case: each says its own.
TEST(SourceChecks, EachMixHasItsOwnDirection) {
  Case c = two_variants();
  share_in_standard(c, 0.8);
  build(c, 30);
  EXPECT_EQ(check_of(c, "stale_mix").bias, Bias::too_light);
  EXPECT_EQ(check_of(c, "mix_built").bias, Bias::too_heavy);
}

TEST(SourceChecks, TimesThatWereNotMeasured) {
  Case c = made::one_element_case(60, 40);
  c.standard.push_back(made::element("E2", 10, 0));
  expect_passed(check_of(c, "sources_of_times"));
  c.standard[1].time_source = TimeSource::estimate;
  const StudyCheck sources = check_of(c, "sources_of_times");
  expect_found(sources, Bias::either, "E2");
  EXPECT_NEAR(sources.numbers.at("estimate_share"), 0.2, 1e-12);
  for (StandardElement& element : c.standard) element.time = Seconds{0};
  expect_lacks(check_of(c, "sources_of_times"), "times");
}

MotionStep motion(std::int32_t element, std::int64_t step, const std::string& code) {
  MotionStep row;
  row.element = element;
  row.step = step;
  row.code = code;
  row.hand = Hand::right;
  return row;
}

/// E2 has motions R16C (17.0 TMU) and then G1A (2.0), by the reprinted table: 19.0 x 0.036 s = 0.684 s.
Case with_motions(double given_s) {
  Case c = made::one_element_case(60, 40);
  c.standard.push_back(made::element("E2", given_s, 0));
  c.shipped_motion_times = made::motion_times();
  c.motions = {motion(1, 1, "R16C"), motion(1, 2, "G1A")};
  return c;
}

TEST(SourceChecks, TimesGivenAgainstTheirMotions) {
  constexpr const char* code = "motions_against_given";
  expect_lacks(check_of(made::one_element_case(60, 50), code), "motions");
  expect_passed(check_of(with_motions(0.684), code));
  expect_passed(check_of(with_motions(0.76), code)); // 0.076 s: 10 % of the time given is not above it
  const StudyCheck longer = check_of(with_motions(0.8), code);
  expect_found(longer, Bias::too_heavy, "E2");
  EXPECT_NEAR(longer.numbers.at("given_longer_s"), 0.116, 1e-9);
  EXPECT_EQ(longer.numbers.at("given_shorter_s"), 0);
  Case c = with_motions(0.6);
  c.standard[1].times_per_unit = 2;
  const StudyCheck shorter = check_of(c, code);
  expect_found(shorter, Bias::too_light, "E2");
  EXPECT_NEAR(shorter.numbers.at("given_shorter_s"), 2 * 0.084, 1e-9);
  // One of each: both ways.
  c.motions.push_back(motion(0, 1, "R16C"));
  const StudyCheck both = check_of(c, code);
  expect_found(both, Bias::either, "E1, E2");
  EXPECT_NEAR(both.numbers.at("given_longer_s"), 40 - 0.612, 1e-9);
  EXPECT_EQ(both.numbers.at("compared"), 2);
  // A time that is the sum of its motions has nothing to be compared with.
  c = with_motions(0.684);
  c.standard[1].time_from_motions = true;
  expect_lacks(check_of(c, code), "given_and_motions");
}

// R16C was found in print, G2 (5.6 TMU = 0.2016 s) is from memory in the made table: of 22.6 TMU = 0.8136 s.
TEST(SourceChecks, MotionValuesNotConfirmedInPrint) {
  constexpr const char* code = "motion_values_not_confirmed";
  expect_lacks(check_of(made::one_element_case(60, 50), code), "motions");
  Case c = with_motions(0.8136);
  c.motions[1].code = "G2";
  const StudyCheck given = check_of(c, code); // the time given does not rest on them
  expect_passed(given);
  EXPECT_EQ(given.numbers.at("seconds_s"), 0);
  c.standard[1].time_from_motions = true;
  const StudyCheck little = check_of(c, code);
  expect_passed(little);
  EXPECT_EQ(little.names, "E2");
  EXPECT_NEAR(little.numbers.at("seconds_s"), 0.2016, 1e-9);
  EXPECT_NEAR(little.numbers.at("share"), 0.2016 / 40.8136, 1e-9);
  EXPECT_NEAR(little.numbers.at("from_motions_s"), 0.8136, 1e-9);
  c.standard[0].time = Seconds{1}; // 0.2016 of 1.8136 s: 11 %
  expect_found(check_of(c, code), Bias::either, "E2");
  // The plant's own table holds no value of ours.
  c.motion_table = {{"R16C", 17, {}}, {"G2", 5.6, {}}};
  const StudyCheck own = check_of(c, code);
  expect_passed(own);
  EXPECT_EQ(own.numbers.at("seconds_s"), 0);
  for (StandardElement& element : c.standard) element.time = Seconds{0};
  expect_lacks(check_of(c, code), "times");
}

} // namespace
} // namespace docket
