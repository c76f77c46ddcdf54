// The words of the checks, and their table in the case file.
#include "core/content/checks/study_checks.h"
#include "core/rules.h"
#include "report/case_document/pages.h"
#include "report/case_document/restudy_rows.h"
#include "report/format.h"
#include "report/html/html.h"
#include "report/wording/study_checks.h"
#include "tests/core/made_case.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace docket {
namespace {

/// Every check there is: on a case that has a standard and nothing else.
std::vector<StudyCheck> all_checks() {
  const Case c = made::one_element_case(60, 50);
  const TimeAvailable time = *find_time_available(c.facts).time;
  return check_study(c, gather_evidence(c, time.line_cycle), build_standard_time(c, time.line_cycle), time, {}, {});
}

void expect_sentence(const std::string& text, const std::string& code) {
  EXPECT_NE(text.find(' '), std::string::npos) << code;
  for (const char left_over : {'[', ']', '{', '}'}) EXPECT_EQ(text.find(left_over), std::string::npos) << text;
}

TEST(CheckWording, EveryCheckHasItsRowAndEveryRowItsCheck) {
  std::set<std::string> made, worded;
  for (const StudyCheck& check : all_checks()) made.insert(check.code);
  for (const wording::CheckRow& row : wording::check_table())
    EXPECT_TRUE(worded.insert(std::string(row.code)).second) << row.code;
  EXPECT_EQ(made, worded);
}

TEST(CheckWording, EveryCheckHasWordsForEachOfItsResults) {
  for (const wording::CheckRow& row : wording::check_table()) {
    EXPECT_EQ(row.found.empty(), row.passed.empty()) << row.code; // a check with a threshold has both
    for (const auto& [outcome, text] : {std::pair(CheckOutcome::found, row.found),
                                        {CheckOutcome::passed, row.passed},
                                        {CheckOutcome::numbers_only, row.numbers}}) {
      if (text.empty()) continue;
      StudyCheck check;
      check.code = row.code;
      check.outcome = outcome;
      check.bias = outcome == CheckOutcome::found ? Bias::either : Bias::none;
      const wording::CheckWords words = wording::check_in_words(check);
      expect_sentence(words.result, check.code);
      EXPECT_FALSE(words.check.empty() || words.direction.empty() || words.affects.empty() || words.remedy.empty())
          << check.code;
    }
    EXPECT_FALSE(row.found.empty() && row.numbers.empty()) << row.code;
    EXPECT_FALSE(!row.to_tell.empty() && row.numbers.empty()) << row.code;
  }
  for (const Bias bias : {Bias::none, Bias::too_light, Bias::too_heavy, Bias::either})
    EXPECT_FALSE(wording::bias_in_words(bias).empty());
}

TEST(CheckWording, NumbersOnlySaysWhatWouldTell) {
  StudyCheck check = check_that_ran("enough_readings", false, false, Bias::either);
  check.numbers = {{"n", 5}, {"needed", 1}};
  EXPECT_EQ(wording::outcome_code(check.outcome), "numbers_only");
  EXPECT_EQ(wording::check_in_words(check).direction, "not shown");
  EXPECT_EQ(wording::check_in_words(check).remedy, "take ten cycles at least");
  const StudyCheck no_threshold = check_that_ran("efficiency_and_utilisation", false, false, Bias::none);
  EXPECT_EQ(wording::check_in_words(no_threshold).direction, "none");
  EXPECT_EQ(wording::check_in_words(no_threshold).remedy, "none needed");
}

// A reader sees what "passed" means: the threshold stands in every text, and it is that of core/rules.h.
TEST(CheckWording, TheThresholdOfTheRulesStandsInEveryText) {
  const std::map<std::string_view, std::vector<std::string>> thresholds{
      {"stale_mix", {format_fixed(100 * rules::stale_mix_share, 1) + " %"}},
      {"mix_built", {format_fixed(100 * rules::stale_mix_share, 1) + " %"}},
      {"sources_of_times", {format_percent(rules::unmeasured_share)}},
      {"motion_values_not_confirmed", {format_percent(rules::unmeasured_share)}},
      {"motions_against_given", {format_percent(rules::motions_differ_share)}},
      {"flat_rating", {format_fixed(rules::flat_rating_slope, 1)}},
      {"ratings_bunched", {"half"}},
      {"drift_in_sessions", {"p < " + format_fixed(rules::drift_p, 2)}},
      {"observers_apart", {format_percent(rules::observers_bias_share), format_percent(rules::observers_limits_share)}},
      {"ratings_apart", {format_percent(rules::observers_rating_difference)}},
      {"digit_preference", {"p < " + format_fixed(rules::digit_p, 2)}},
      {"closure", {format_percent(rules::closure_share)}},
      {"coverage",
       {std::to_string(rules::usual_operators) + " operators", std::to_string(rules::usual_days) + " days",
        std::to_string(rules::usual_shifts) + " shifts"}},
      {"variants_seen", {format_percent(rules::common_variant_share)}},
      {"near_a_condition", {std::to_string(rules::near_condition_days) + " days"}},
      {"warm_up", {format_percent(rules::warm_up_share)}}};
  std::size_t met = 0;
  for (const wording::CheckRow& row : wording::check_table()) {
    const auto wanted = thresholds.find(row.code);
    if (wanted == thresholds.end()) continue;
    ++met;
    for (const std::string& threshold : wanted->second) {
      for (const std::string_view text : {row.found, row.passed}) {
        EXPECT_NE(text.find(threshold), std::string_view::npos) << row.code << " without " << threshold;
        EXPECT_NE(text.find("common practice"), std::string_view::npos) << row.code;
      }
      EXPECT_TRUE(row.numbers.empty() || row.numbers.find(threshold) != std::string_view::npos) << row.code;
    }
  }
  EXPECT_EQ(met, thresholds.size());
  const auto row_of = [](std::string_view code) {
    const auto rows = wording::check_table();
    return *std::find_if(rows.begin(), rows.end(), [&](const wording::CheckRow& row) { return row.code == code; });
  };
  EXPECT_NE(row_of("drift_in_sessions").passed.find(format_percent(rules::drift_share)), std::string_view::npos);
  EXPECT_NE(row_of("digit_preference").passed.find(format_percent(rules::heaped_share)), std::string_view::npos);
  EXPECT_NE(row_of("elements_off_standard").numbers.find(format_percent(rules::element_tells_share)),
            std::string_view::npos);
}

// Times apart: break points and clocks. Ratings apart: the same films or cycles rated together.
TEST(CheckWording, EachDifferenceOfObserversHasItsOwnRemedy) {
  const std::string times = wording::check_in_words(check_that_ran("observers_apart", true, Bias::either)).remedy;
  const std::string ratings = wording::check_in_words(check_that_ran("ratings_apart", true, Bias::either)).remedy;
  EXPECT_NE(times.find("break points"), std::string::npos);
  EXPECT_NE(times.find("clocks"), std::string::npos);
  EXPECT_EQ(times.find("pace"), std::string::npos);
  EXPECT_NE(ratings.find("normal pace"), std::string::npos);
  EXPECT_EQ(ratings.find("clock"), std::string::npos);
}

TEST(CheckWording, WhatACheckLacksIsSaid) {
  for (const StudyCheck& check : all_checks()) {
    if (check.outcome != CheckOutcome::could_not_run) continue;
    const wording::CheckWords words = wording::check_in_words(check);
    expect_sentence(words.result, check.lacks);
    EXPECT_NE(words.remedy, "not known") << check.lacks;
  }
  for (const wording::LackRow& row : wording::lack_table()) {
    StudyCheck check = check_that_lacks("flat_rating", row.code);
    expect_sentence(wording::check_in_words(check).result, check.lacks);
    check.names = "O1";
    check.numbers = {{"n", 7}, {"needs", 15}};
    expect_sentence(wording::check_in_words(check).result, check.lacks);
  }
}

TEST(CheckWording, NoWordJudgesAPerson) {
  std::vector<std::string_view> texts;
  for (const wording::CheckRow& row : wording::check_table())
    texts.insert(texts.end(), {row.check, row.found, row.passed, row.affects, row.remedy, row.numbers, row.to_tell});
  for (const wording::LackRow& row : wording::lack_table()) texts.insert(texts.end(), {row.words, row.remedy});
  for (const std::string_view text : texts) {
    for (const char* word : {"lazy", "unwilling", "slow", "restrict", "incapable", "careless", "wrong", "mistake",
                             "bad ", "fault", "invent", "cheat", "manipulat", "is safe"})
      EXPECT_EQ(text.find(word), std::string_view::npos) << word << " in: " << text;
  }
}

TEST(CheckWording, NumbersAreFilledIn) {
  StudyCheck check = check_that_ran("observers_apart", true, Bias::either);
  check.names = "S1 and S1R";
  check.numbers = {{"n", 12}, {"mean_s", 51.26}, {"difference_s", 1.24}, {"lower_s", -0.5}, {"upper_s", 2.98}};
  EXPECT_EQ(wording::check_in_words(check).result,
            "S1 and S1R: first less second +1.2 s on 51.3 s, 95 % of differences within \u22120.5 s to +3.0 s, n = 12. "
            "Above 2 % of the mean, or 10 % between the limits (common practice).");
  check.numbers["icc"] = 0.957;
  EXPECT_NE(wording::check_in_words(check).result.find("; agreement 0.96, 1 is full."), std::string::npos);
  StudyCheck ratings = check_that_ran("ratings_apart", true, Bias::either);
  ratings.names = "S1 and S1R";
  ratings.numbers = {{"n", 12}, {"rating_difference_share", -0.06}};
  EXPECT_EQ(
      wording::check_in_words(ratings).result,
      "S1 and S1R: ratings differ by \u22126 % on average, first less second, n = 12. Above 5 % (common practice).");
  StudyCheck unnamed = check_that_ran("ratings_bunched", false, Bias::either);
  unnamed.numbers = {{"n", 20}, {"share", 0.4}, {"rating_share", 1.05}};
  EXPECT_EQ(wording::check_in_words(unnamed).result,
            "Observer not named: the commonest rating is 105 %, 40 % of 20. No more than half (common practice).");
}

TEST(CheckWording, WhatTheFirstCyclesShowIsSaidAndWhatNot) {
  StudyCheck check = check_that_ran("warm_up", false, false, Bias::either);
  const auto said = [&](double low, double high) {
    check.numbers = {{"first_cycles", 10}, {"n", 40}, {"ratio", 1}, {"ratio_low", low}, {"ratio_high", high}};
    return wording::check_in_words(check).result;
  };
  EXPECT_NE(said(1.003, 1.015).find("They take longer, but that it is more than 1 % is not shown"), std::string::npos);
  EXPECT_NE(said(0.980, 0.995).find("They take less time, but"), std::string::npos);
  EXPECT_NE(said(0.995, 1.015).find("Whether they take more or less time is not shown"), std::string::npos);
}

TEST(CheckWording, AnUnknownCodeIsPrintedAsItIs) {
  EXPECT_EQ(wording::check_in_words(check_that_lacks("new_check", "new_lack")).check, "new_check");
}

TEST(CheckPages, FoundComesFirstThenWhatCouldNotRun) {
  const Case input = made_case();
  Findings findings = made_findings(ContentWord::not_shown);
  StudyCheck plan = check_that_ran("plan_agreed", false, Bias::either);
  plan.numbers = {{"sessions", 3}, {"before", 0}};
  StudyCheck seen = check_that_ran("elements_not_in_standard", true, Bias::too_light);
  seen.names = "fetch box";
  seen.numbers = {{"elements", 1}, {"seconds_s", 2.04}, {"cycles", 30}};
  StudyCheck few = check_that_ran("enough_readings", false, false, Bias::either);
  few.numbers = {{"n", 5}, {"needed", 1}};
  findings.content.checks = {plan, few, check_that_lacks("warm_up", "log"), seen};
  CasePages pages;
  add_study_checks(pages, CaseView{input, findings, {}});
  Document document;
  document.blocks = pages.take();
  const std::string text = bare_text(write_html(document));
  const std::size_t found = text.find("Found. fetch box: seen, not in the standard; 2.0 s a unit over 30 cycles");
  const std::size_t lacks = text.find("Could not run. No cycle log.");
  const std::size_t numbers = text.find("Numbers only. 5 rated cycles; by these 1 are needed");
  const std::size_t passed = text.find("Passed. The plan was agreed");
  ASSERT_NE(found, std::string::npos) << text;
  ASSERT_NE(lacks, std::string::npos);
  ASSERT_NE(numbers, std::string::npos);
  ASSERT_NE(passed, std::string::npos);
  EXPECT_LT(found, lacks);
  EXPECT_LT(lacks, numbers);
  EXPECT_LT(numbers, passed);
  EXPECT_NE(text.find("1 found something, 1 could not run, 1 show numbers only, 1 passed"), std::string::npos);
  EXPECT_NE(text.find("station looks lighter than it is"), std::string::npos);
}

TEST(RestudyRows, ByOperatorWithoutOneAndByTheSecondSheet) {
  const Case input = made_case();
  Findings findings = made_findings(ContentWord::not_shown);
  Restudy line;
  line.operators = {0, 1};
  line.cycles = 40;
  line.level.time = Seconds{54.25};
  line.per_operator = {{0, 15, 1, Seconds{51.35}, Seconds{53.15}}, {1, 25, 2, Seconds{56.75}, Seconds{55.35}}};
  Restudy one = line;
  one.operators = {1};
  one.cycles = 25;
  one.level.time = Seconds{55.35};
  one.level.against = {Seconds{-0.35}, Seconds{-6.15}, Seconds{5.05}, 0.44};
  RestudyResult& restudy = findings.content.restudy;
  restudy.line = line;
  restudy.left_out_one = {{0, one}};
  restudy.rows = {{"second_sheets", line, 12, "S1R"}};
  CasePages pages;
  add_restudy_rows(pages, CaseView{input, findings, {}});
  Document document;
  document.blocks = pages.take();
  const std::string text = bare_text(write_html(document));
  const std::string first = input.operators[0].code;
  EXPECT_NE(text.find("The restudy by operator and by observer"), std::string::npos);
  EXPECT_NE(text.find("Without " + first), std::string::npos) << text;
  EXPECT_NE(text.find("Second observer's sheet for 12 cycles: S1R"), std::string::npos) << text;
  EXPECT_NE(text.find("44 %"), std::string::npos) << text;
  EXPECT_NE(text.find("decide nothing"), std::string::npos);
  restudy.left_out_one.clear();
  restudy.rows.clear();
  CasePages none;
  add_restudy_rows(none, CaseView{input, findings, {}});
  EXPECT_TRUE(none.take().empty());
}

TEST(CheckPages, NothingWithoutChecks) {
  const Case input = made_case();
  const Findings findings = made_findings(ContentWord::fits);
  CasePages pages;
  add_study_checks(pages, CaseView{input, findings, {}});
  EXPECT_TRUE(pages.take().empty());
}

} // namespace
} // namespace docket
