#include "core/content/lines/restudy.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

RestudyResult find(const Case& c) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  return find_restudy(c, evidence, build_standard_time(c, time.line_cycle), time, false);
}

/// Sessions of three readings 1 s apart around `observed`, rated.
Case rated_case(const std::vector<std::pair<std::string, std::pair<double, double>>>& sessions) {
  Case c = made::one_element_case(60, 50);
  std::int64_t row = 2;
  for (const auto& [code, session] : sessions) {
    std::int32_t op = -1;
    for (std::size_t i = 0; i < c.operators.size(); ++i)
      if (c.operators[i].code == code) op = static_cast<std::int32_t>(i);
    if (op < 0) {
      op = static_cast<std::int32_t>(c.operators.size());
      c.operators.push_back(made::trained(code));
    }
    const auto s = static_cast<std::int32_t>(c.sessions.size());
    c.sessions.push_back(made::session("S" + std::to_string(s + 1), op, s, session.second));
    for (int i = -1; i <= 1; ++i) c.readings.push_back(made::whole_reading(s, i + 2, session.first + i, row++));
  }
  return c;
}

// Normal time = observed time x rating (ILO, Introduction to Work Study, 4th ed.): 48 x 1.10 = 52.8, 55 x 0.95 = 52.25.
TEST(Restudy, NormalTimeIsTheMeanOverOperatorsOfRatedTimes) {
  const RestudyResult r = find(rated_case({{"K1", {48, 1.10}}, {"K2", {55, 0.95}}}));
  ASSERT_TRUE(r.line);
  EXPECT_NEAR(r.line->normal.count(), (52.8 + 52.25) / 2, 1e-9);
  EXPECT_NEAR(r.line->observed.count(), (48.0 + 55.0) / 2, 1e-9);
  EXPECT_EQ(r.line->cycles, 6);
  EXPECT_EQ(r.line->operators.size(), 2U);
}

// Combination of JCGM 100 by hand: from operators, spread between people shared by two, rating 5 %.
TEST(Restudy, UncertaintyFromOperators) {
  const RestudyResult r = find(rated_case({{"K1", {48, 1.10}}, {"K2", {55, 0.95}}}));
  const double d = std::log(52.8 / 52.25);
  EXPECT_NEAR(r.line->level.se, std::abs(d) / 2, 1e-9); // SD of two values is |d|/sqrt 2, over sqrt 2
  EXPECT_EQ(r.line->level.df, 1);
  EXPECT_NEAR(r.line->level.u, std::hypot(d / 2, 0.04 / std::sqrt(2.0), 0.05), 1e-9);
}

TEST(Restudy, OneOperatorTakesItsRandomPartFromSessions) {
  const RestudyResult r = find(rated_case({{"K1", {48, 1}}, {"K1", {50, 1}}, {"K1", {52, 1}}}));
  ASSERT_TRUE(r.line);
  const double mean = (std::log(48.0) + std::log(50.0) + std::log(52.0)) / 3;
  const double ss =
      std::pow(std::log(48.0) - mean, 2) + std::pow(std::log(50.0) - mean, 2) + std::pow(std::log(52.0) - mean, 2);
  EXPECT_NEAR(r.line->level.se, std::sqrt(ss / 2 / 3), 1e-9);
  EXPECT_EQ(r.line->level.df, 2);
}

TEST(Restudy, UntrainedUnratedAndMarkedReadingsAreNotUsed) {
  Case c = rated_case({{"K1", {48, 1}}, {"K2", {50, 1}}, {"K3", {52, 1}}, {"K4", {54, 1}}});
  c.operators[1].trained = YesNo::unknown;
  c.sessions[2].rating.reset();
  for (Reading& reading : c.readings)
    if (reading.session == 3) reading.marks.set(Mark::foreign);
  const RestudyResult r = find(c);
  ASSERT_TRUE(r.line);
  EXPECT_EQ(r.line->operators, std::vector<std::int32_t>{0});
  EXPECT_EQ(r.line->cycles, 3);
}

TEST(Restudy, LeansWhereTheMethodIsNotKnown) {
  Case c = rated_case({{"K1", {48, 1}}, {"K2", {50, 1}}, {"K3", {52, 1}}});
  EXPECT_TRUE(find(c).line->level.leans.empty());
  c.sessions[1].method_as_standard = YesNo::unknown;
  EXPECT_EQ(find(c).line->level.leans.at(0).code, "method_not_known");
}

// ILO sample size (Introduction to Work Study, 4th ed.): readings 7 6 7 7 6 need 8.8; the form takes z = 2, here 1.96:
// 8.815 x (1.959964/2)^2 = 8.466.
TEST(Restudy, ReadingsNeeded) {
  Case c = made::one_element_case(10, 7);
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0)};
  const double readings[] = {7, 6, 7, 7, 6};
  for (int i = 0; i < 5; ++i) c.readings.push_back(made::whole_reading(0, i + 1, readings[i], i + 2));
  EXPECT_NEAR(find(c).line->needed_cycles.value(), 8.815 * std::pow(1.959964 / 2, 2), 0.001);
}

TEST(Restudy, OneReadingHasNoRandomPartToEstimate) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0)};
  c.readings = {made::whole_reading(0, 1, 49, 2)};
  const RestudyResult r = find(c);
  ASSERT_TRUE(r.line);
  EXPECT_FALSE(r.line->needed_cycles);
  EXPECT_TRUE(r.line->level.identical_values);
}

TEST(Restudy, ElementsAreSeenRatedPerOccurrence) {
  Case c = made::one_element_case(60, 30);
  c.standard.push_back(made::element("E2", 20, 0));
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0, 1.1)};
  const double e1[] = {29, 31};
  std::int64_t row = 2;
  for (int i = 0; i < 2; ++i)
    for (std::int32_t e = 0; e < 2; ++e) {
      Reading r = made::whole_reading(0, i + 1, e == 0 ? e1[i] : 20, row++);
      r.element = e;
      c.readings.push_back(r);
    }
  const RestudyResult r = find(c);
  ASSERT_EQ(r.elements.size(), 2U);
  EXPECT_NEAR(r.elements[0].seen.time.count(), 33, 1e-9);
  // t(0.975; 1) = 12.706 (any t table) x SD 1.5556 / sqrt 2
  EXPECT_NEAR(r.elements[0].seen.high->count(), 33 + 12.7062 * 1.1, 0.001);
  EXPECT_EQ(r.elements[0].n, 2);
}

TEST(Restudy, RowsOfAnElementDoneSeveralTimesAddUpToAllItsOccurrences) {
  Case c = made::one_element_case(60, 30);
  c.standard.push_back(made::element("E2", 5, 0));
  c.standard[1].times_per_unit = 4;
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0)};
  const double seconds[] = {30, 12, 8, 30, 21}; // cycle 1: E2 in two rows, 20 s; cycle 2: in one row, 21 s
  const std::int32_t elements[] = {0, 1, 1, 0, 1};
  const std::int64_t cycles[] = {1, 1, 1, 2, 2};
  for (int i = 0; i < 5; ++i) {
    Reading r = made::whole_reading(0, cycles[i], seconds[i], i + 2);
    r.element = elements[i];
    c.readings.push_back(r);
  }
  const RestudyResult r = find(c);
  EXPECT_NEAR(r.elements.at(1).seen.time.count(), (20.0 / 4 + 21.0 / 4) / 2, 1e-9);
  EXPECT_EQ(r.elements.at(1).n, 2);
  EXPECT_NEAR(r.line->normal.count(), 50.5, 1e-9);
}

TEST(Restudy, LevelsByOperatorInOrderOfCode) {
  const RestudyResult r = find(rated_case({{"K10", {48, 1.10}}, {"K2", {55, 0.95}}, {"K10", {50, 1.00}}}));
  ASSERT_EQ(r.line->per_operator.size(), 2U);
  const RestudiedOperator &first = r.line->per_operator[0], &second = r.line->per_operator[1];
  EXPECT_EQ(first.op, 1);
  EXPECT_EQ(first.n, 3);
  EXPECT_NEAR(first.normal.count(), 52.25, 1e-9);
  EXPECT_NEAR(first.observed.count(), 55, 1e-9);
  EXPECT_EQ(second.n, 6);
  EXPECT_EQ(second.sessions, 2);
  EXPECT_NEAR(second.normal.count(), (52.8 + 50) / 2, 1e-9); // equal counts, so the mean of both
}

// Without one, the line is the one that the others alone would give.
TEST(Restudy, WithoutAnyOneOperator) {
  const RestudyResult r = find(rated_case({{"K1", {48, 1.10}}, {"K3", {58, 1.00}}, {"K2", {55, 0.95}}}));
  ASSERT_EQ(r.left_out_one.size(), 3U);
  EXPECT_EQ(r.left_out_one[1].op, 2); // K2, in order of code
  const Restudy& without_k2 = r.left_out_one[1].line;
  EXPECT_NEAR(without_k2.normal.count(), (52.8 + 58) / 2, 1e-9);
  EXPECT_EQ(without_k2.cycles, 6);
  // JCGM 100 by hand: two operators share the spread between people, and the rating.
  const double d = std::log(58 / 52.8);
  EXPECT_NEAR(without_k2.level.u, std::hypot(d / 2, 0.04 / std::sqrt(2.0), 0.05), 1e-9);
  EXPECT_NEAR(without_k2.level.against.margin.count(), 60 - 55.4, 1e-9);
  const Restudy others = *find(rated_case({{"K1", {48, 1.10}}, {"K3", {58, 1.00}}})).line;
  EXPECT_NEAR(without_k2.level.against.p_fits, compare_with_limit(others.level, Seconds{60}, 0.95).p_fits, 1e-12);
  EXPECT_TRUE(find(rated_case({{"K1", {48, 1}}, {"K1", {50, 1}}})).left_out_one.empty());
}

// S1 reads 47, 48 and 49 s at 110 %; a second observer reads the first two of these cycles as 50 and 51 s at 100 %.
TEST(Restudy, WithTheSecondObserversSheet) {
  Case c = rated_case({{"K1", {48, 1.10}}});
  EXPECT_TRUE(find(c).rows.empty());
  c.sessions.push_back(made::session("S1R", 0, 0, 1.00));
  c.sessions[1].same_as = "S1";
  c.readings.push_back(made::whole_reading(1, 1, 50, 20));
  c.readings.push_back(made::whole_reading(1, 2, 51, 21));
  RestudyResult r = find(c);
  EXPECT_NEAR(r.line->normal.count(), 52.8, 1e-9); // the session named counts
  ASSERT_EQ(r.rows.size(), 1U);
  EXPECT_EQ(r.rows[0].code, "second_sheets");
  EXPECT_EQ(r.rows[0].changed, 2);
  EXPECT_EQ(r.rows[0].sessions, "S1R");
  const double normal = (50 + 51 + 49 * 1.10) / 3;
  EXPECT_NEAR(r.rows[0].line.normal.count(), normal, 1e-9);
  EXPECT_NEAR(r.rows[0].line.level.against.margin.count(), 60 - normal, 1e-9);
  EXPECT_EQ(r.rows[0].line.per_operator[0].sessions, 1); // one spell of one person
  // What the second observer marked goes out with the sheet.
  c.readings[3].marks.set(Mark::foreign);
  EXPECT_NEAR(find(c).rows.at(0).line.normal.count(), (51 + 49 * 1.10) / 2, 1e-9);
  // Evidence without its readings, as where one thing is changed and all is evaluated again: no row.
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  Case without_readings = c;
  without_readings.readings.clear();
  r = find_restudy(without_readings, evidence, build_standard_time(c, time.line_cycle), time, false);
  EXPECT_TRUE(r.line);
  EXPECT_TRUE(r.rows.empty());
  // Nothing left to count: no row.
  c.readings.push_back(made::whole_reading(1, 3, 52, 22));
  c.sessions[1].rating.reset();
  r = find(c);
  EXPECT_TRUE(r.line);
  EXPECT_TRUE(r.rows.empty());
}

TEST(Restudy, SaysWhyThereIsNone) {
  Case c = made::one_element_case(60, 50);
  EXPECT_EQ(find(c).none_why, "no_readings");
  c = rated_case({{"K1", {48, 1}}});
  c.sessions[0].rating.reset();
  EXPECT_EQ(find(c).none_why, "no_rated_readings");
  c.operators[0].trained = YesNo::no;
  EXPECT_EQ(find(c).none_why, "nobody_trained");
}

// By hand: two people, 20 readings of each variant, the heater 8 % longer against the base than the standard says.
TEST(Restudy, TheRatiosBetweenVariantsAreThoseSeen) {
  Case c = made::one_element_case(60, 50);
  c.variants = {made::variant("base", 0.5), made::variant("heater", 0.5, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.10);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  std::int64_t row = 2;
  for (int o = 0; o < 2; ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
    c.sessions.push_back(made::session("S" + std::to_string(o + 1), o, o, 1.0));
    for (int i = 0; i < 20; ++i) {
      Reading reading = made::whole_reading(o, i + 1, (o == 0 ? 1.0 : 1.1) * (i % 2 == 0 ? 50 : 60 * 1.08), row++);
      reading.variant = i % 2;
      c.readings.push_back(reading);
    }
  }
  const auto find = [&] {
    const TimeAvailable time = *find_time_available(c.facts).time;
    return find_restudy(c, gather_evidence(c, time.line_cycle), build_standard_time(c, time.line_cycle), time, false);
  };
  const RestudyResult found = find();
  ASSERT_TRUE(found.line && found.line->variant_ratios);
  EXPECT_NEAR(found.line->variant_ratios->factor[1] / found.line->variant_ratios->factor[0], 1.08, 1e-9);
  c.readings.resize(39); // 19 heaters
  EXPECT_FALSE(find().line->variant_ratios) << "20 readings of each";
}

} // namespace
} // namespace docket
