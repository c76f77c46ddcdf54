// The checks of stopwatch readings: one case each that finds, one that passes, one that can't run.
#include "core/content/checks/study_checks.h"
#include "tests/core/content/checks/made_checks.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

namespace docket {
namespace {

using made::check_of;
using made::expect_found;
using made::expect_lacks;
using made::expect_numbers_only;
using made::expect_passed;

double by_r(const std::string& key) {
  static const auto values = testing::read_reference_values("r_content_checks");
  return values.at(key);
}

/// Two operators, ten cycles each; ratings by `rate` of the cycle number and the raw time.
template <class Rate>
Case rated_one_by_one(Rate&& rate) {
  Case c = made::session_of({});
  c.operators.push_back(made::trained("K2"));
  Session second = c.sessions[0];
  second.session = "S2";
  second.op = 1;
  c.sessions.push_back(second);
  for (int i = 1; i <= 20; ++i) {
    const double raw = 50 + 4 * std::sin(i) + (i > 10 ? 3 : 0);
    c.readings.push_back(made::whole_reading(i > 10 ? 1 : 0, i > 10 ? i - 10 : i, raw, i + 1));
    c.readings.back().rating = rate(i, raw);
  }
  return c;
}

// R's lm with a term for the operator, and its confint (tests/reference/r_content_checks).
TEST(ReadingChecks, FlatRating) {
  const StudyCheck flat =
      check_of(rated_one_by_one([](int i, double) { return 1 + 0.05 * std::cos(3 * i); }), "flat_rating");
  EXPECT_EQ(flat.outcome, CheckOutcome::found);
  EXPECT_EQ(flat.names, "O1");
  EXPECT_EQ(flat.numbers.at("n"), 20);
  EXPECT_NEAR(flat.numbers.at("slope"), by_r("rating.slope"), 1e-9);
  EXPECT_NEAR(flat.numbers.at("slope_low"), by_r("rating.slope_low"), 1e-9);
  EXPECT_NEAR(flat.numbers.at("slope_high"), by_r("rating.slope_high"), 1e-9);
}

// Closed form: a rating in inverse proportion to the raw time gives slope 0; to its square, slope -1; none gives 1.
TEST(ReadingChecks, RatingThatFollowsOrOverdoes) {
  const StudyCheck follows = check_of(rated_one_by_one([](int, double raw) { return 50 / raw; }), "flat_rating");
  EXPECT_EQ(follows.outcome, CheckOutcome::passed);
  EXPECT_NEAR(follows.numbers.at("slope"), 0, 1e-9);
  const StudyCheck over = check_of(rated_one_by_one([](int, double raw) { return 2500 / raw / raw; }), "flat_rating");
  EXPECT_EQ(over.outcome, CheckOutcome::found);
  EXPECT_NEAR(over.numbers.at("slope"), -1, 1e-9);
  EXPECT_NEAR(check_of(rated_one_by_one([](int, double) { return 1.0; }), "flat_rating").numbers.at("slope"), 1, 1e-9);
}

// A rating in inverse proportion, but for errors wide enough that the interval reaches across 0.5.
TEST(ReadingChecks, RatingOfWhichNeitherIsShown) {
  const StudyCheck check = check_of(
      rated_one_by_one([](int i, double raw) { return 50 / raw * (1 + 0.1 * std::cos(3 * i)); }), "flat_rating");
  expect_numbers_only(check);
  EXPECT_LT(check.numbers.at("slope_low"), 0.5);
  EXPECT_TRUE(check.numbers.at("slope_high") > 0.5 || check.numbers.at("slope_low") < -0.5);
}

TEST(ReadingChecks, FlatRatingThatCanNotRun) {
  expect_lacks(check_of(made::one_element_case(60, 50), "flat_rating"), "readings");
  expect_lacks(check_of(made::session_of({50, 51}), "flat_rating"), "ratings");
  Case c = made::session_of({50, 51});
  c.sessions[0].rating = 1;
  expect_lacks(check_of(c, "flat_rating"), "ratings_by_cycle");
  c = rated_one_by_one([](int, double) { return 1.0; });
  for (Reading& reading : c.readings) reading.time = Seconds{50};
  expect_lacks(check_of(c, "flat_rating"), "spread_of_raw_times");
  c.readings.resize(14);
  expect_lacks(check_of(c, "flat_rating"), "enough_ratings");
}

TEST(ReadingChecks, RatingsOfOneValue) {
  const StudyCheck bunched =
      check_of(rated_one_by_one([](int i, double) { return i <= 11 ? 1.0 : 1.05; }), "ratings_bunched");
  EXPECT_EQ(bunched.outcome, CheckOutcome::found);
  EXPECT_NEAR(bunched.numbers.at("share"), 0.55, 1e-12);
  EXPECT_NEAR(bunched.numbers.at("rating_share"), 1, 1e-12);
  EXPECT_EQ(check_of(rated_one_by_one([](int i, double) { return i <= 10 ? 1.0 : 1.05; }), "ratings_bunched").outcome,
            CheckOutcome::passed);
  // A rating of a whole session is one rating.
  Case c = made::session_of(std::vector<double>(20, 50));
  expect_lacks(check_of(c, "ratings_bunched"), "ratings");
  c.sessions[0].rating = 1;
  expect_lacks(check_of(c, "ratings_bunched"), "enough_ratings");
  expect_lacks(check_of(made::one_element_case(60, 50), "ratings_bunched"), "readings");
}

// Closed form: exp(0.01 i) is a straight line in the logs; from cycle 1 to 20 it grows by e^0.19 - 1.
TEST(ReadingChecks, DriftInsideASession) {
  std::vector<double> rising, level, wide;
  for (int i = 1; i <= 20; ++i) {
    rising.push_back(50 * std::exp(0.01 * i));
    level.push_back(50 + (i % 2));
    wide.push_back(50 + 6 * (i % 2));
  }
  StudyCheck check = check_of(made::session_of(rising), "drift_in_sessions");
  EXPECT_EQ(check.outcome, CheckOutcome::found);
  EXPECT_EQ(check.names, "S1");
  EXPECT_EQ(check.numbers.at("rising"), 1);
  EXPECT_NEAR(check.numbers.at("change_share"), std::exp(0.19) - 1, 1e-9);
  // +-1 % from cycle to cycle: the slope of 20 cycles has about 1.0 % sd sqrt(12/20) = 0.8 % from end to end, and the
  // interval 2.1 of them either side; at +-6 % six times as much, which leaves room for more than 5 %.
  expect_passed(check_of(made::session_of(level), "drift_in_sessions"));
  check = check_of(made::session_of(wide), "drift_in_sessions");
  expect_numbers_only(check);
  EXPECT_GT(check.numbers.at("reach_share"), 0.05);
  expect_lacks(check_of(made::session_of({50, 51, 52}), "drift_in_sessions"), "long_sessions");
  expect_lacks(check_of(made::one_element_case(60, 50), "drift_in_sessions"), "readings");
}

Case two_sheets(const std::vector<double>& first, const std::vector<double>& second) {
  Case c = made::session_of(first);
  Session other = c.sessions[0];
  other.session = "S1R";
  other.observer = "O2";
  other.same_as = "S1";
  c.sessions.push_back(other);
  for (std::size_t i = 0; i < second.size(); ++i)
    c.readings.push_back(
        made::whole_reading(1, static_cast<std::int64_t>(i) + 1, second[i], static_cast<std::int64_t>(i) + 200));
  return c;
}

// Peak flows of Bland & Altman 1986 as if they were seconds; limits at 1.96 sd and ICC(2,1) by R
// (tests/reference/r_content_checks).
TEST(ReadingChecks, TwoObserversOfTheSameCycles) {
  const std::vector<double> large{494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427};
  const std::vector<double> mini{512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451};
  const StudyCheck check = check_of(two_sheets(large, mini), "observers_apart");
  EXPECT_EQ(check.outcome, CheckOutcome::found); // the limits
  EXPECT_EQ(check.names, "S1 and S1R");
  EXPECT_EQ(check.numbers.at("n"), 17);
  EXPECT_NEAR(check.numbers.at("difference_s"), by_r("pairs.difference"), 1e-9);
  EXPECT_NEAR(check.numbers.at("lower_s"), by_r("pairs.lower"), 1e-9);
  EXPECT_NEAR(check.numbers.at("upper_s"), by_r("pairs.upper"), 1e-9);
  EXPECT_NEAR(check.numbers.at("icc"), by_r("pairs.icc"), 1e-9);
}

TEST(ReadingChecks, ObserversThatAgreeOrDifferByAConstant) {
  const std::vector<double> first{50, 52, 49, 53, 51, 50};
  std::vector<double> near = first, off = first;
  for (double& seconds : near) seconds += 0.2;
  for (double& seconds : off) seconds += 1.2; // 2.3 % of the mean
  expect_passed(check_of(two_sheets(first, near), "observers_apart"));
  expect_found(check_of(two_sheets(first, off), "observers_apart"), Bias::either, "S1 and S1R");
  expect_lacks(check_of(two_sheets(first, {50, 51}), "observers_apart"), "enough_pairs");
  expect_lacks(check_of(made::session_of(first), "observers_apart"), "second_observer");
  // Differences of +1 and -1 s in turn: none on average and sd 1.1 s, 8.6 % between the limits; of six pairs the
  // interval of the mean is +-1.15 s (Student's t, 5 degrees of freedom: 2.571 x 1.095/sqrt 6), above 2 % of 51 s.
  std::vector<double> scattered = first;
  for (std::size_t i = 0; i < scattered.size(); ++i) scattered[i] += i % 2 == 0 ? 1 : -1;
  expect_numbers_only(check_of(two_sheets(first, scattered), "observers_apart"));
}

/// Both rate every cycle: the first as given, the second at 100 %.
Case both_rate(const std::vector<double>& first) {
  Case c = two_sheets(std::vector<double>(first.size(), 50), std::vector<double>(first.size(), 50));
  for (std::size_t i = 0; i < first.size(); ++i) {
    c.readings[i].rating = first[i];
    c.readings[first.size() + i].rating = 1;
  }
  return c;
}

// Times and ratings are apart, so that each has its own remedy.
TEST(ReadingChecks, ObserversWhoseRatingsDiffer) {
  const Case apart = both_rate({1.10, 1.12, 1.08, 1.10, 1.11, 1.09});
  const StudyCheck check = check_of(apart, "ratings_apart");
  expect_found(check, Bias::either, "S1 and S1R");
  EXPECT_NEAR(check.numbers.at("rating_difference_share"), 0.1, 1e-12);
  expect_passed(check_of(apart, "observers_apart"));
  expect_passed(check_of(both_rate({1.00, 1.01, 0.99, 1.00, 1.01, 0.99}), "ratings_apart"));
  // +5 % as written is not above 5 %.
  expect_passed(check_of(both_rate(std::vector<double>(6, 1.05)), "ratings_apart"));
  // Mean 0, but 5.5 % sd over six: 2.571 x 5.48/sqrt 6 = 5.75 % either side.
  expect_numbers_only(check_of(both_rate({1.05, 0.95, 1.05, 0.95, 1.05, 0.95}), "ratings_apart"));
  // The first rates 86 to 114, the second always 100: the same on average, and no agreement on any cycle.
  std::vector<double> up_and_down;
  for (int i = 0; i < 60; ++i) up_and_down.push_back(i % 2 == 0 ? 0.86 : 1.14);
  expect_numbers_only(check_of(both_rate(up_and_down), "ratings_apart"));
  expect_lacks(check_of(two_sheets({50, 51}, {50, 51}), "ratings_apart"), "ratings_by_both");
  expect_lacks(check_of(both_rate({1.0, 1.1}), "ratings_apart"), "enough_rated_pairs");
  expect_lacks(check_of(made::session_of({50}), "ratings_apart"), "second_observer");
  // A rating of the whole session has no interval: it can be found, and can't pass.
  Case by_session = two_sheets(std::vector<double>(6, 50), std::vector<double>(6, 50));
  by_session.sessions[0].rating = 1.10;
  by_session.sessions[1].rating = 1.00;
  expect_found(check_of(by_session, "ratings_apart"), Bias::either, "S1 and S1R");
  EXPECT_FALSE(check_of(by_session, "ratings_apart").numbers.contains("n")); // one rating, however many cycles
  by_session.sessions[0].rating = 1.00;
  expect_numbers_only(check_of(by_session, "ratings_apart"));
}

// Counts of last digits and their chi-square by R's chisq.test (tests/reference/r_study_checks).
TEST(ReadingChecks, LastDigits) {
  const std::array<int, 10> counts{31, 12, 18, 9, 14, 27, 11, 13, 16, 9};
  std::vector<double> heaped, even;
  for (std::size_t digit = 0; digit < 10; ++digit) {
    for (int i = 0; i < counts[digit]; ++i) heaped.push_back(40 + i % 20 + static_cast<double>(digit) / 10);
    for (int i = 0; i < 16; ++i) even.push_back(40 + i % 20 + static_cast<double>(digit) / 10);
  }
  const auto by_r_digits = testing::read_reference_values("r_study_checks");
  const StudyCheck check = check_of(made::session_of(heaped), "digit_preference");
  EXPECT_EQ(check.outcome, CheckOutcome::found);
  EXPECT_EQ(check.names, "O1");
  EXPECT_EQ(check.numbers.at("n"), 160);
  EXPECT_EQ(check.numbers.at("resolution"), 0.1);
  EXPECT_NEAR(check.numbers.at("chi_square"), by_r_digits.at("digits.chi_square"), 1e-9);
  expect_passed(check_of(made::session_of(even), "digit_preference"));
}

// Exact interval of a share (Clopper & Pearson): 15 of 50 reaches up to 44.6 % (any table), above 40 %.
TEST(ReadingChecks, LastDigitsOfWhichNothingIsShown) {
  const std::array<int, 10> counts{8, 5, 4, 4, 5, 7, 4, 4, 5, 4};
  std::vector<double> times;
  for (std::size_t digit = 0; digit < 10; ++digit)
    for (int i = 0; i < counts[digit]; ++i) times.push_back(40 + 2 * i + static_cast<double>(digit) / 10);
  const StudyCheck check = check_of(made::session_of(times), "digit_preference");
  expect_numbers_only(check);
  EXPECT_NEAR(check.numbers.at("on_0_and_5_high_share"), 0.446, 0.001);
}

TEST(ReadingChecks, LastDigitsThatSayNothing) {
  expect_lacks(check_of(made::one_element_case(60, 50), "digit_preference"), "readings");
  expect_lacks(check_of(made::session_of({50.1, 51.2}), "digit_preference"), "enough_digits");
  expect_lacks(check_of(made::session_of({50.1234, 51.2}), "digit_preference"), "resolution");
  std::vector<double> whole; // whole seconds, sd about 1.4 s: far narrower than ten steps
  for (int i = 0; i < 100; ++i) whole.push_back(48 + i % 5);
  expect_lacks(check_of(made::session_of(whole), "digit_preference"), "wide_readings");
}

// Rosner's 54 values (NIST/SEMATECH e-Handbook 1.3.5.17.3) as ln(time/standard): three outliers, 5.34, 5.42 and 6.01.
TEST(ReadingChecks, ExtremeReadings) {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/rosner54/rosner54.csv");
  std::string header;
  std::getline(file, header);
  std::vector<double> times;
  std::string expected;
  for (double value = 0; file >> value;) {
    times.push_back(50 * std::exp(value));
    if (value > 5.3) expected += (expected.empty() ? "S1 cycle " : ", S1 cycle ") + std::to_string(times.size());
  }
  ASSERT_EQ(times.size(), 54U);
  const StudyCheck check = check_of(made::session_of(times), "extreme_readings");
  EXPECT_EQ(check.outcome, CheckOutcome::found);
  EXPECT_EQ(check.bias, Bias::too_heavy); // all of them long
  EXPECT_EQ(check.names, expected);
  EXPECT_EQ(check.numbers.at("longer"), 3);
  std::vector<double> even;
  for (int i = 0; i < 30; ++i) even.push_back(50 + i % 5);
  EXPECT_EQ(check_of(made::session_of(even), "extreme_readings").outcome, CheckOutcome::passed);
  even.resize(24);
  expect_lacks(check_of(made::session_of(even), "extreme_readings"), "enough_readings");
  expect_lacks(check_of(made::one_element_case(60, 50), "extreme_readings"), "readings");
}

TEST(ReadingChecks, ReadingsAgainstTheClock) {
  Case c = made::session_of(std::vector<double>(12, 60)); // 720 s
  expect_lacks(check_of(c, "closure"), "session_times");
  c.sessions[0].start = made::at(1, 6) + std::chrono::seconds{1};
  c.sessions[0].end = *c.sessions[0].start + std::chrono::seconds{700};
  StudyCheck check = check_of(c, "closure");
  EXPECT_EQ(check.outcome, CheckOutcome::found);
  EXPECT_EQ(check.bias, Bias::too_heavy);
  EXPECT_EQ(check.names, "S1");
  EXPECT_NEAR(check.numbers.at("most_over_share"), 720.0 / 700 - 1, 1e-12);
  c.sessions[0].end = *c.sessions[0].start + std::chrono::seconds{800};
  check = check_of(c, "closure");
  EXPECT_EQ(check.outcome, CheckOutcome::passed);
  EXPECT_NEAR(check.numbers.at("unaccounted_share"), 0.1, 1e-12);
  // Waits and help fill it up.
  c.readings[0].wait = Seconds{100};
  c.readings[0].helped = Seconds{60};
  EXPECT_EQ(check_of(c, "closure").outcome, CheckOutcome::found);
  // 40 s over between ends in whole minutes may be the writing alone.
  c.readings[0].wait = c.readings[0].helped = Seconds{20};
  c.sessions[0].start = made::at(1, 6);
  c.sessions[0].end = made::at(1, 6.2);
  expect_numbers_only(check_of(c, "closure"));
  expect_lacks(check_of(made::one_element_case(60, 50), "closure"), "readings");
}

} // namespace
} // namespace docket
