// The checks of the standard, of what a study covered, and of the log: one case each that finds, one that passes, one
// that can't run. Expected numbers are sums by hand unless a source stands beside them.
#include "core/content/checks/study_checks.h"
#include "tests/core/content/checks/made_checks.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace docket {
namespace {

using made::check_of;
using made::expect_found;
using made::expect_lacks;
using made::expect_numbers_only;
using made::expect_passed;
using made::two_variants;

/// Elements of 20, 20 and 10 s; three cycles read by element, the first two elements only, plus `+other` where asked.
Case read_by_element(bool other) {
  Case c = made::session_of({});
  c.standard = {made::element("E1", 20, 0), made::element("E2", 20, 0), made::element("E3", 10, 0)};
  c.sessions[0].rating = 1;
  std::int64_t row = 2;
  for (int cycle = 1; cycle <= 3; ++cycle) {
    c.readings.push_back(made::element_reading(0, cycle, 0, 19 + cycle, row++));
    c.readings.push_back(made::element_reading(0, cycle, 1, 29 + cycle, row++));
    if (!other) continue;
    c.readings.push_back(made::element_reading(0, cycle, -1, 2, row++));
    c.readings.back().seen_element = "fetch box";
  }
  return c;
}

TEST(StudyChecks, ElementsOfTheStandardThatWereNotSeen) {
  Case c = read_by_element(false);
  const StudyCheck check = check_of(c, "elements_not_seen");
  expect_found(check, Bias::too_heavy, "E3");
  EXPECT_NEAR(check.numbers.at("seconds_s"), 10, 1e-12);
  EXPECT_EQ(check.numbers.at("cycles"), 3);
  // Once in two units, so 1.5 times in three cycles: too seldom to tell.
  c.standard[2].times_per_unit = 0.5;
  expect_numbers_only(check_of(c, "elements_not_seen"));
  EXPECT_EQ(check_of(c, "elements_not_seen").numbers.at("too_rare_to_tell"), 1);
  c.standard.pop_back();
  expect_passed(check_of(c, "elements_not_seen"));
  expect_lacks(check_of(made::session_of({50, 51}), "elements_not_seen"), "element_readings");
}

TEST(StudyChecks, ElementsSeenThatTheStandardLacks) {
  const StudyCheck check = check_of(read_by_element(true), "elements_not_in_standard");
  expect_found(check, Bias::too_light, "fetch box");
  EXPECT_NEAR(check.numbers.at("seconds_s"), 2, 1e-12);
  expect_passed(check_of(read_by_element(false), "elements_not_in_standard"));
  expect_lacks(check_of(made::session_of({50, 51}), "elements_not_in_standard"), "element_readings");
}

// E1 was seen at 20, 21, 22 s: 21 -+ 4.303 x 1/sqrt 3 holds 20; E2 at 30, 31, 32 s does not (Student's t, any table).
TEST(StudyChecks, ElementsWhoseIntervalExcludesTheStandard) {
  Case c = read_by_element(false);
  const StudyCheck check = check_of(c, "elements_off_standard");
  expect_found(check, Bias::too_light, "E2");
  EXPECT_NEAR(check.numbers.at("seconds_s"), 11, 1e-9);
  EXPECT_EQ(check.numbers.at("compared"), 2);
  EXPECT_NEAR(check.numbers.at("by_chance"), 0.1, 1e-12);
  // 2.48 s are more than 10 % of 20 s, and less than 10 % of 31 s and of 25 s.
  c.standard[1].time = Seconds{31};
  expect_numbers_only(check_of(c, "elements_off_standard"));
  EXPECT_EQ(check_of(c, "elements_off_standard").numbers.at("wide"), 1);
  Case tells = c;
  for (Reading& reading : tells.readings)
    if (reading.element == 0) reading.time += Seconds{4};
  tells.standard[0].time = Seconds{25};
  expect_passed(check_of(tells, "elements_off_standard"));
  c.standard[1].time = Seconds{40};
  EXPECT_EQ(check_of(c, "elements_off_standard").bias, Bias::too_heavy);
  c.sessions[0].rating.reset();
  expect_lacks(check_of(c, "elements_off_standard"), "element_intervals");
}

TEST(StudyChecks, BreaksCountedTwice) {
  Case c = made::one_element_case(60, 50);
  expect_passed(check_of(c, "allowance_twice"));
  expect_found(check_of(c, "allowance_absent"), Bias::too_light, "");
  c.facts.allowance = 0.05;
  c.facts.allowance_where = AllowanceWhere::in_cycle;
  expect_lacks(check_of(c, "allowance_twice"), "oee");
  expect_passed(check_of(c, "allowance_absent"));
  c.facts.takt = Seconds{75};
  c.facts.oee = 0.8;
  const StudyCheck check = check_of(c, "allowance_twice");
  expect_found(check, Bias::too_heavy, "");
  EXPECT_EQ(check.numbers.at("oee_share"), 0.8);
  c.facts.allowance_where = AllowanceWhere::by_relief;
  expect_passed(check_of(c, "allowance_twice"));
}

TEST(StudyChecks, ElementsAndWaitingOfAnotherPost) {
  Case c = read_by_element(false);
  expect_lacks(check_of(c, "other_post_elements"), "case_post");
  expect_lacks(check_of(c, "waits_on_other_post"), "case_post");
  expect_lacks(check_of(c, "order_impossible"), "after");
  c.facts.post = "left";
  expect_lacks(check_of(c, "other_post_elements"), "element_posts");
  c.standard[0].post = c.standard[1].post = "left";
  expect_passed(check_of(c, "other_post_elements"));
  expect_lacks(check_of(c, "waits_on_other_post"), "after");
  c.standard[1].after = {"E1"};
  expect_passed(check_of(c, "waits_on_other_post"));
  expect_passed(check_of(c, "order_impossible"));
  c.standard[2].post = "right";
  const StudyCheck check = check_of(c, "other_post_elements");
  expect_found(check, Bias::too_heavy, "E3");
  EXPECT_NEAR(check.numbers.at("seconds_s"), 10, 1e-12);
  c.standard[1].after = {"E1", "E3"};
  expect_found(check_of(c, "waits_on_other_post"), Bias::too_light, "E2 after E3");
  c.standard[0].after = {"E2"};
  expect_found(check_of(c, "order_impossible"), Bias::either, "E1, E2");
}

TEST(StudyChecks, EfficiencyUtilisationAndStandby) {
  Case c = read_by_element(false);
  c.standard[1].element_class = ElementClass::nnva;
  c.standard[2].element_class = ElementClass::nva;
  const StudyCheck numbers = check_of(c, "efficiency_and_utilisation");
  expect_numbers_only(numbers); // it has no threshold
  EXPECT_NEAR(numbers.numbers.at("efficiency_share"), 50.0 / 60, 1e-12);
  EXPECT_NEAR(numbers.numbers.at("utilisation_share"), 20.0 / 60, 1e-12);
  EXPECT_NEAR(numbers.numbers.at("nnva_s"), 20, 1e-12);
  EXPECT_NEAR(numbers.numbers.at("nva_s"), 10, 1e-12);

  expect_passed(check_of(c, "standby_seconds"));
  c.standard[2].kind = ElementKind::machine;
  const StudyCheck standby = check_of(c, "standby_seconds");
  expect_found(standby, Bias::too_heavy, "E3");
  EXPECT_NEAR(standby.numbers.at("machine_s"), 10, 1e-12);

  for (StandardElement& element : c.standard) element.time = Seconds{0};
  c.readings.clear();
  for (const char* code : {"efficiency_and_utilisation", "standby_seconds"}) expect_lacks(check_of(c, code), "times");
}

// ILO, Introduction to Work Study, 4th ed.: 7 6 7 7 6 needs 8.81 readings at the factor 40, that is z = 2; here z = 1.96,
// so 8.815 x 0.96 = 8.47, and 9 readings either way.
TEST(StudyChecks, NumberOfReadings) {
  Case c = made::session_of({7, 6, 7, 7, 6});
  c.standard[0].time = Seconds{7};
  expect_lacks(check_of(c, "enough_readings"), "rated_readings");
  c.sessions[0].rating = 1;
  const StudyCheck check = check_of(c, "enough_readings");
  expect_found(check, Bias::either, "K1");
  EXPECT_EQ(check.numbers.at("needed"), 9);
  EXPECT_EQ(check.numbers.at("n"), 5);
  c.readings.resize(1);
  expect_lacks(check_of(c, "enough_readings"), "more_than_one_reading");
  c = made::session_of({50, 51, 50, 51, 50});
  c.sessions[0].rating = 1;
  expect_numbers_only(check_of(c, "enough_readings")); // five do not tell how many are needed
  c = made::session_of({50, 51, 50, 51, 50, 51, 50, 51, 50, 51});
  c.sessions[0].rating = 1;
  expect_passed(check_of(c, "enough_readings"));
}

TEST(StudyChecks, OperatorsDaysShiftsAndParts) {
  Case c = made::session_of({50, 51});
  expect_lacks(check_of(made::one_element_case(60, 50), "coverage"), "readings");
  StudyCheck check = check_of(c, "coverage");
  expect_found(check, Bias::either, "");
  EXPECT_EQ(check.numbers.at("operators"), 1);
  EXPECT_FALSE(check.numbers.contains("parts"));
  for (std::int32_t s = 1; s <= 2; ++s) {
    c.operators.push_back(made::trained("L" + std::to_string(s)));
    c.sessions.push_back(made::session("T" + std::to_string(s), s, s + 1));
    c.readings.push_back(made::whole_reading(s, 1, 50, 20 + s));
  }
  c.sessions[0].shift = c.sessions[1].shift = "early";
  c.sessions[2].shift = "late";
  expect_numbers_only(check_of(c, "coverage")); // which part of the shift is not known
  // The log shows the early shift of day 1 from 6 to 14; a session around 7 is in its first third: one part of three.
  for (const double hour : {6.0, 10.0, 13.99}) {
    c.cycle_log.push_back(made::logged(-1, made::at(1, hour), 36, static_cast<std::int64_t>(hour) + 100));
    c.cycle_log.back().shift = add_log_word(c, "early");
  }
  c.sessions[0].start = made::at(1, 6.75);
  c.sessions[0].end = made::at(1, 7.25);
  check = check_of(c, "coverage");
  expect_found(check, Bias::either, "");
  EXPECT_EQ(check.numbers.at("parts"), 1);
  // The other two in the middle and at the end.
  for (const int s : {1, 2}) {
    Session& session = c.sessions[static_cast<std::size_t>(s)];
    session.date = made::day(1);
    session.start = made::at(1, s == 1 ? 9.5 : 13);
    session.end = *session.start + std::chrono::minutes{15};
    session.shift = "early";
  }
  expect_found(check_of(c, "coverage"), Bias::either, ""); // one day
  c.sessions[2].date = made::day(2);
  expect_passed(check_of(c, "coverage"));
}

// The settled rule takes cycles after the count set (1,000): the restudy asks only for `trained`.
TEST(StudyChecks, TimedWhilePossiblyStillLearning) {
  constexpr const char* code = "timed_while_learning";
  Case c = made::session_of({50, 51});
  expect_lacks(check_of(c, code), "rated_readings");
  c.sessions[0].rating = 1;
  expect_passed(check_of(c, code)); // 5,000 before
  c.operators[0].prior_cycles = 1000;
  expect_passed(check_of(c, code));
  c.operators[0].prior_cycles = 999;
  StudyCheck check = check_of(c, code);
  expect_found(check, Bias::too_heavy, "K1 (999 cycles before)");
  EXPECT_EQ(check.numbers.at("below"), 1);
  c.sessions[0].first_cycle = 1001; // the session's own count comes first
  expect_passed(check_of(c, code));
  c.sessions[0].first_cycle = 1000;
  expect_found(check_of(c, code), Bias::too_heavy, "K1 (999 cycles before)");
  c.sessions[0].first_cycle.reset();
  c.operators[0].prior_cycles.reset();
  check = check_of(c, code);
  expect_found(check, Bias::too_heavy, "K1 (count not known)");
  EXPECT_EQ(check.numbers.at("not_known"), 1);
  c.facts.cycles_per_shift = 450;
  c.operators[0].shifts_before = 2;
  expect_found(check_of(c, code), Bias::too_heavy, "K1 (900 cycles before)");
  // 100 cycles of the log on the day before make it 1,000.
  for (int i = 0; i < 100; ++i) c.cycle_log.push_back(made::logged(0, made::at(0, 6 + i / 60.0), 50, i + 100));
  expect_passed(check_of(c, code));
  // Of a second person nothing is known.
  c.operators.push_back(made::trained("K2"));
  c.operators[1].prior_cycles.reset();
  c.sessions.push_back(made::session("S2", 1, 2));
  c.readings.push_back(made::whole_reading(1, 1, 52, 50));
  expect_found(check_of(c, code), Bias::too_heavy, "K2 (count not known)");
}

TEST(StudyChecks, VariantsSeen) {
  Case c = two_variants();
  expect_lacks(check_of(c, "variants_seen"), "readings");
  c.variants[0].share = 0.98;
  c.variants[1].share = 0.02; // the heaviest, whatever its share
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 1)};
  c.readings = {made::whole_reading(0, 1, 50, 2)};
  const StudyCheck check = check_of(c, "variants_seen");
  expect_found(check, Bias::either, "heavy");
  EXPECT_NEAR(check.numbers.at("missing_share"), 0.02, 1e-12);
  c.readings.push_back(made::whole_reading(0, 2, 60, 3));
  c.readings.back().variant = 1;
  expect_passed(check_of(c, "variants_seen"));
}

TEST(StudyChecks, SessionsNearACondition) {
  expect_lacks(check_of(made::one_element_case(60, 50), "near_a_condition"), "readings");
  Case c = made::session_of({50, 51}); // on day 1
  expect_lacks(check_of(c, "near_a_condition"), "conditions");
  Condition condition;
  condition.check = "Torque driver";
  condition.state = ConditionState::differs;
  condition.from = Instant{made::day(11)};
  c.conditions = {condition};
  expect_found(check_of(c, "near_a_condition"), Bias::either, "S1");
  c.conditions[0].from = Instant{made::day(16)};
  expect_passed(check_of(c, "near_a_condition"));
  c.conditions[0].from = Instant{made::day(-20)};
  c.conditions[0].to = made::at(-6, 23.99);
  expect_found(check_of(c, "near_a_condition"), Bias::either, "S1");
  c.conditions[0].state = ConditionState::as_standard;
  expect_passed(check_of(c, "near_a_condition"));
}

TEST(StudyChecks, PlanBlindRatingAndDateOfThePlan) {
  const Case nothing = made::one_element_case(60, 50);
  expect_lacks(check_of(nothing, "planned_cycles"), "readings");
  expect_lacks(check_of(nothing, "blind_rating"), "rated_readings");
  expect_lacks(check_of(nothing, "plan_agreed"), "readings");
  Case c = made::session_of({50, 51});
  c.sessions[0].rating = 1;
  expect_lacks(check_of(c, "planned_cycles"), "planned_cycles");
  expect_lacks(check_of(c, "plan_agreed"), "plan_date");
  c.sessions[0].planned_cycles = 3;
  StudyCheck check = check_of(c, "planned_cycles");
  expect_found(check, Bias::either, "S1");
  EXPECT_EQ(check.numbers.at("fewer"), 1);
  c.sessions[0].planned_cycles = 1;
  EXPECT_EQ(check_of(c, "planned_cycles").numbers.at("more"), 1);
  c.sessions[0].planned_cycles = 2;
  expect_passed(check_of(c, "planned_cycles"));

  expect_found(check_of(c, "blind_rating"), Bias::either, "S1");
  EXPECT_EQ(check_of(c, "blind_rating").numbers.at("not_said"), 1);
  c.sessions[0].blind_rating = YesNo::no;
  EXPECT_EQ(check_of(c, "blind_rating").numbers.at("not_blind"), 1);
  c.sessions[0].blind_rating = YesNo::yes;
  expect_passed(check_of(c, "blind_rating"));

  c.facts.plan_agreed_on = made::day(1);
  expect_passed(check_of(c, "plan_agreed"));
  c.facts.plan_agreed_on = made::day(2);
  expect_found(check_of(c, "plan_agreed"), Bias::either, "S1");
}

TEST(StudyChecks, LeaversAndTrainingRecords) {
  Case c = made::one_element_case(60, 50);
  expect_lacks(check_of(c, "leavers_named"), "operators");
  expect_lacks(check_of(c, "training_records"), "trained_operators");
  c = made::session_of({50, 51});
  c.sessions[0].rating = 1;
  expect_found(check_of(c, "leavers_named"), Bias::too_light, "");
  c.operators[0].left_station = made::day(30);
  expect_passed(check_of(c, "leavers_named"));
  expect_lacks(check_of(c, "training_records"), "training");
  Training row;
  row.op = -1;
  c.training = {row};
  const StudyCheck check = check_of(c, "training_records");
  expect_found(check, Bias::either, "K1");
  EXPECT_EQ(check.numbers.at("without"), 1);
  c.training[0].op = 0;
  expect_passed(check_of(c, "training_records"));
}

/// One settled operator, ten days of 60 cycles: the first five times `first`, the others around 50 s.
Case warm_up_case(const std::array<double, 6>& first) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  std::int64_t row = 2;
  for (int d = 0; d < 6; ++d) {
    for (int i = 0; i < 60; ++i) {
      const double usual = 50 * (i % 2 == 0 ? 1.01 : 1 / 1.01); // ln mean 0 over pairs
      const bool starts = i < 5;
      const double seconds = starts ? 50 * first[static_cast<std::size_t>(d)] : i == 5 ? 50 : usual;
      c.cycle_log.push_back(made::logged(0, made::at(d, 6 + i / 60.0), seconds, row++));
    }
  }
  return c;
}

// By R's t.test on the logs (tests/reference/r_content_checks).
TEST(StudyChecks, FirstCyclesAfterAStart) {
  const auto by_r = testing::read_reference_values("r_content_checks");
  expect_lacks(check_of(made::one_element_case(60, 50), "warm_up"), "log");
  const Case c = warm_up_case({1.031, 1.044, 1.027, 1.052, 1.038, 1.035});
  const StudyCheck check = check_of(c, "warm_up");
  expect_found(check, Bias::either, "");
  EXPECT_EQ(check.numbers.at("n"), 6);
  EXPECT_NEAR(check.numbers.at("ratio"), by_r.at("warm_up.ratio"), 1e-9);
  EXPECT_NEAR(check.numbers.at("ratio_low"), by_r.at("warm_up.low"), 1e-9);
  EXPECT_NEAR(check.numbers.at("ratio_high"), by_r.at("warm_up.high"), 1e-9);
  expect_passed(check_of(warm_up_case({1.004, 0.996, 1.003, 0.997, 1.004, 0.996}), "warm_up"));
  expect_numbers_only(check_of(warm_up_case({1.03, 0.97, 1.02, 0.98, 1.03, 0.97}), "warm_up"));
  Case untrained = c;
  untrained.operators[0].trained = YesNo::no;
  expect_lacks(check_of(untrained, "warm_up"), "settled_operators");
  Case short_log = c;
  short_log.cycle_log.resize(240);
  expect_lacks(check_of(short_log, "warm_up"), "enough_days");
}

// A pause of more than ten minutes starts anew: with one before the second half of each day, its first cycles count too.
TEST(StudyChecks, FirstCyclesAfterAPause) {
  Case c = warm_up_case({1, 1, 1, 1, 1, 1});
  for (std::size_t i = 0; i < c.cycle_log.size(); ++i) {
    const std::size_t in_day = i % 60;
    if (in_day < 30) continue;
    c.cycle_log[i].started_at += std::chrono::minutes{12};
    if (in_day < 35) c.cycle_log[i].cycle = Seconds{55};
  }
  const StudyCheck check = check_of(c, "warm_up");
  EXPECT_EQ(check.outcome, CheckOutcome::found);
  EXPECT_NEAR(check.numbers.at("ratio"), std::sqrt(1.1), 5e-4); // half of the first cycles 10 % longer
}

/// One settled operator, ten days of 60 cycles, each day's times a tenth of `rise` longer than the day before.
Case rising_case(double rise) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  std::int64_t row = 2;
  for (int d = 0; d < 10; ++d)
    for (int i = 0; i < 60; ++i)
      c.cycle_log.push_back(
          made::logged(0, made::at(d, 6 + i / 60.0), 50 * (1 + rise * d / 10) * (i % 2 == 0 ? 1.01 : 1 / 1.01), row++));
  return c;
}

// By hand: with 18 % over the days more than 3 % of it is shown, with none a rise of 3 % is ruled out.
TEST(StudyChecks, SettledTimesThatRise) {
  expect_lacks(check_of(made::one_element_case(60, 50), "settled_times_rise"), "settled_operators");
  const StudyCheck check = check_of(rising_case(0.20), "settled_times_rise");
  expect_found(check, Bias::too_light, ""); // nobody is named
  EXPECT_EQ(check.numbers.at("rising"), 1);
  EXPECT_EQ(check.numbers.at("operators"), 1);
  expect_passed(check_of(rising_case(0), "settled_times_rise"));
  expect_passed(check_of(rising_case(-0.01), "settled_times_rise"));
  expect_numbers_only(check_of(rising_case(0.03), "settled_times_rise"));
}

/// Settled operators with these own means [s]; four days of 60 cycles each.
Case people_with(const std::vector<double>& means) {
  Case c = made::one_element_case(60, 50);
  c.settings.improvement_left = 0.5;
  std::int64_t row = 2;
  for (std::size_t o = 0; o < means.size(); ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
    for (int i = 0; i < 240; ++i)
      c.cycle_log.push_back(made::logged(static_cast<std::int32_t>(o), made::at(i / 60, 6 + (i % 60) / 60.0),
                                         means[o] * (i % 2 == 0 ? 1.01 : 1 / 1.01), row++));
  }
  return c;
}

// By hand: six between 49 and 51 s, mean 50 s, and one of 58 s, 16 % off; its distance over the standard deviation of all is
// 2.21, above the 2.02 of Grubbs 1969 for seven values (2.5 % each side; from memory).
TEST(StudyChecks, OnePersonFarFromTheRest) {
  expect_lacks(check_of(made::one_element_case(60, 50), "one_far_from_the_rest"), "settled_operators");
  expect_lacks(check_of(people_with({50, 50, 50, 58}), "one_far_from_the_rest"), "enough_settled_operators");
  const StudyCheck slow = check_of(people_with({49, 49.5, 50, 50, 50.5, 51, 58}), "one_far_from_the_rest");
  expect_found(slow, Bias::either, ""); // nobody is named
  EXPECT_NEAR(slow.numbers.at("off_share"), 0.16, 0.001);
  EXPECT_EQ(slow.numbers.at("operators"), 7);
  expect_found(check_of(people_with({49, 49.5, 50, 50, 50.5, 51, 42}), "one_far_from_the_rest"), Bias::either, "");
  // Nobody is 5 % off, however close the others lie together.
  expect_passed(check_of(people_with({50, 50, 50, 50, 52}), "one_far_from_the_rest"));
  // Spread evenly: far apart, and nobody stands out.
  expect_numbers_only(check_of(people_with({44, 47, 50, 53, 56}), "one_far_from_the_rest"));
}

// By hand: four days of 60 cycles, and one person with 60 cycles a day on one day in four.
TEST(StudyChecks, HowMuchOfADayPeopleWork) {
  expect_lacks(check_of(people_with({50}), "unlike_days"), "two_settled_operators");
  expect_passed(check_of(people_with({50, 51, 52}), "unlike_days"));
  Case c = people_with({50, 51});
  for (int i = 0; i < 240; ++i) { // twelve days of 20 cycles
    LoggedCycle cycle = made::logged(2, made::at(i / 20, 14 + (i % 20) / 60.0), 50 + i % 2, 1000 + i);
    c.cycle_log.push_back(cycle);
  }
  c.operators.push_back(made::trained("K3"));
  const StudyCheck check = check_of(c, "unlike_days");
  expect_found(check, Bias::either, "");
  EXPECT_EQ(check.numbers.at("least"), 20);
  EXPECT_EQ(check.numbers.at("most"), 60);
}

TEST(StudyChecks, TimesThatAreAllTheSame) {
  expect_lacks(check_of(made::one_element_case(60, 50), "times_all_alike"), "trained_operators");
  expect_passed(check_of(people_with({50, 51}), "times_all_alike"));
  Case c = made::session_of(std::vector<double>(12, 50));
  c.sessions[0].rating = 1;
  expect_found(check_of(c, "times_all_alike"), Bias::either, "S1");
  c = made::session_of(std::vector<double>(9, 50)); // nine may be alike by a coarse clock
  c.sessions[0].rating = 1;
  expect_passed(check_of(c, "times_all_alike"));
}

TEST(StudyChecks, NobodyLeftWhereItIsSaid) {
  Case c = people_with({50, 51});
  expect_found(check_of(c, "leavers_named"), Bias::too_light, "");
  c.facts.leavers_listed = true;
  expect_passed(check_of(c, "leavers_named"));
}

TEST(StudyChecks, EveryNumberIsFinite) {
  for (const Case& c : {made::one_element_case(60, 50), read_by_element(true), made::session_of({50, 50, 50}),
                        warm_up_case({1, 1, 1, 1, 1, 1}), people_with({50, 50, 50, 50, 50})}) {
    for (const StudyCheck& check : made::checks_of(c)) {
      for (const auto& [name, value] : check.numbers) EXPECT_TRUE(std::isfinite(value)) << check.code << " " << name;
      EXPECT_EQ(check.outcome == CheckOutcome::could_not_run, !check.lacks.empty()) << check.code;
    }
  }
}

} // namespace
} // namespace docket
