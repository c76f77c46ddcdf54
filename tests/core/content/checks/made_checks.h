// Runs the checks of the standard and of the study on a made case. All data are invented.
#pragma once

#include "core/content/checks/study_checks.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace docket::made {

inline std::vector<StudyCheck> checks_of(const Case& c) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  const StandardTime standard = build_standard_time(c, time.line_cycle);
  return check_study(c, evidence, standard, time, find_settled_operators(c, evidence, standard, time, false),
                     find_restudy(c, evidence, standard, time, false));
}

/// The first of this code.
inline StudyCheck check_of(const Case& c, const std::string& code) {
  for (StudyCheck& check : checks_of(c))
    if (check.code == code) return check;
  return {};
}

inline Reading element_reading(std::int32_t session, std::int64_t number, std::int32_t element, double seconds,
                               std::int64_t row) {
  Reading reading = whole_reading(session, number, seconds, row);
  reading.element = element;
  return reading;
}

/// One trained operator, one session of observer O1 with these whole-cycle readings, unrated.
inline Case session_of(const std::vector<double>& times) {
  Case c = one_element_case(60, 50);
  c.operators.push_back(trained("K1"));
  Session s = session("S1", 0, 1);
  s.observer = "O1";
  s.rating.reset();
  c.sessions.push_back(s);
  for (std::size_t i = 0; i < times.size(); ++i)
    c.readings.push_back(
        whole_reading(0, static_cast<std::int64_t>(i) + 1, times[i], static_cast<std::int64_t>(i) + 2));
  return c;
}

inline void expect_lacks(const StudyCheck& check, const std::string& lacks) {
  EXPECT_EQ(check.outcome, CheckOutcome::could_not_run) << check.code;
  EXPECT_EQ(check.lacks, lacks) << check.code;
  EXPECT_EQ(check.bias, Bias::none);
}

inline void expect_passed(const StudyCheck& check) {
  EXPECT_EQ(check.outcome, CheckOutcome::passed) << check.code;
  EXPECT_TRUE(check.lacks.empty());
  EXPECT_EQ(check.bias, Bias::none);
}

inline void expect_numbers_only(const StudyCheck& check) {
  EXPECT_EQ(check.outcome, CheckOutcome::numbers_only) << check.code;
  EXPECT_TRUE(check.lacks.empty());
  EXPECT_EQ(check.bias, Bias::none);
}

inline void expect_found(const StudyCheck& check, Bias bias, const std::string& names) {
  EXPECT_EQ(check.outcome, CheckOutcome::found) << check.code;
  EXPECT_EQ(check.bias, bias) << check.code;
  EXPECT_EQ(check.names, names) << check.code;
}

/// Light 50 s, heavy 60 s, half each: 55 s.
inline Case two_variants() {
  Case c = one_element_case(60, 50);
  c.standard.push_back(element("E2", 10, 0));
  c.standard[1].any_option = {"tank"};
  c.variants = {variant("light", 0.5), variant("heavy", 0.5, {"tank"})};
  return c;
}

} // namespace docket::made
