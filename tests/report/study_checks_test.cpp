// The words of the checks, and their table in the case file.
#include "core/content/checks/study_checks.h"
#include "report/case_document/pages.h"
#include "report/html/html.h"
#include "report/wording/study_checks.h"
#include "tests/core/made_case.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

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

TEST(CheckWording, EveryCheckHasWordsForWhatItFinds) {
  for (const wording::CheckRow& row : wording::check_table()) {
    for (const CheckOutcome outcome : {CheckOutcome::found, CheckOutcome::passed}) {
      if (outcome == CheckOutcome::found && row.found.empty()) continue; // numbers only
      StudyCheck check;
      check.code = row.code;
      check.outcome = outcome;
      check.bias = outcome == CheckOutcome::found ? Bias::either : Bias::none;
      const wording::CheckWords words = wording::check_in_words(check);
      expect_sentence(words.result, check.code);
      EXPECT_FALSE(words.check.empty() || words.direction.empty() || words.affects.empty() || words.remedy.empty())
          << check.code;
    }
  }
  for (const Bias bias : {Bias::none, Bias::too_light, Bias::too_heavy, Bias::either})
    EXPECT_FALSE(wording::bias_in_words(bias).empty());
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
    texts.insert(texts.end(), {row.check, row.found, row.passed, row.affects, row.remedy});
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
            "Found above 2 % of the mean, 10 % between the limits, or 5 % of rating (common practice).");
  check.numbers["icc"] = 0.957;
  check.numbers["rating_difference_share"] = -0.05;
  EXPECT_NE(wording::check_in_words(check).result.find("; agreement 0.96, 1 is full; ratings differ by \u22125 %."),
            std::string::npos);
  StudyCheck unnamed = check_that_ran("ratings_bunched", false, Bias::either);
  unnamed.numbers = {{"n", 20}, {"share", 0.4}, {"rating_share", 1.05}};
  EXPECT_EQ(wording::check_in_words(unnamed).result, "Observer not named: the commonest rating is 105 %, 40 % of 20.");
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
  findings.content.checks = {plan, check_that_lacks("warm_up", "log"), seen};
  CasePages pages;
  add_study_checks(pages, CaseView{input, findings, {}});
  Document document;
  document.blocks = pages.take();
  const std::string text = bare_text(write_html(document));
  const std::size_t found = text.find("Found. fetch box: seen, not in the standard; 2.0 s a unit over 30 cycles");
  const std::size_t lacks = text.find("Could not run. No cycle log.");
  const std::size_t passed = text.find("Passed. The plan was agreed");
  ASSERT_NE(found, std::string::npos) << text;
  ASSERT_NE(lacks, std::string::npos);
  ASSERT_NE(passed, std::string::npos);
  EXPECT_LT(found, lacks);
  EXPECT_LT(lacks, passed);
  EXPECT_NE(text.find("1 found something, 1 could not run, 1 passed"), std::string::npos);
  EXPECT_NE(text.find("station looks lighter than it is"), std::string::npos);
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
