// Question B in the document: its fixed sentences, what the pair allows, and that the gate leaves nothing to read.
#include "report/case_document/case_document.h"
#include "report/figures/practice_curve.h"
#include "report/html/html.h"
#include "report/wording/adaptation.h"
#include "report/wording/wording.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace docket {
namespace {

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

std::string text_of(const Findings& findings) {
  return bare_text(write_html(build_case_document(made_case(), findings, {})));
}

std::string page_one_of(const Findings& findings) {
  const std::string text = text_of(findings);
  return text.substr(0, text.find("The claim, and what people say"));
}

std::string section_of(const Findings& findings) {
  const std::string text = text_of(findings);
  const std::size_t from = text.rfind("Question B in detail"); // the list of contents names it too
  return text.substr(from, text.find("Conditions at the station", from) - from);
}

TEST(AdaptationPages, StillLearningSaysHowManyCyclesAreToGo) {
  const std::string text = page_one_of(made_findings_with_b(AdaptationWord::still_learning));
  EXPECT_TRUE(holds(text, "STILL LEARNING"));
  EXPECT_TRUE(holds(text, "Operator B-2. It says nothing about why."));
  EXPECT_TRUE(holds(text, "About 150 own cycles until the level is within the limit, 67 at least; no upper end can be "
                          "given."));
  EXPECT_TRUE(holds(text, "Today's level lies above the limit."));
  EXPECT_TRUE(holds(text, "A is FITS and B is STILL LEARNING: a plan of support with dates, in words without fault."));
}

TEST(AdaptationPages, SectionHoldsCurveCurvesAndBridge) {
  const std::string text = section_of(made_findings_with_b(AdaptationWord::still_learning));
  for (const char* wanted :
       {"Operator B-2: times against own cycles", "n = 77", "Short strokes upwards: 3 cycles",
        "The own count is estimated", "Dotted: breaks, gap of 21 days after own cycle 140",
        "the curves take them as lower bounds", "each of the 6 curves alone", "count less the cycles lost",
        "none: it falls without end", "differs by up to 9.9 s", "where the seconds lie",
        "The intervals do not add up as the seconds do. The bridge decides nothing.", "6 settled operators of A",
        "taken as time and seconds of help", "It says nothing about why."}) {
    EXPECT_TRUE(holds(text, wanted)) << wanted;
  }
}

// A word about the loss shown stands only where one is shown.
TEST(AdaptationPages, TheLossIsLargerThanShownOnlyWhereOneIsShown) {
  Findings findings = made_findings_with_b(AdaptationWord::at_level);
  const char* wanted = "rather larger than shown";
  EXPECT_TRUE(holds(section_of(findings), wanted));
  Interruption& gap = findings.adaptation.front().interruptions.front();
  gap.loss = Loss{-0.01, -0.03, 0.01};
  EXPECT_FALSE(holds(section_of(findings), wanted));
  gap.loss.reset();
  gap.none_why = "too_few_after";
  const std::string text = section_of(findings);
  EXPECT_FALSE(holds(text, wanted));
  EXPECT_TRUE(holds(text, "says nothing of why"));
}

// What stands beside the person's own: never mixed into it, and marked.
TEST(AdaptationPages, SectionHoldsBreaksOutlookChecksAndEarlierLearners) {
  const std::string text = section_of(made_findings_with_b(AdaptationWord::at_level));
  for (const char* wanted : {"Breaks in the record, and what was lost across them",
                             "+5.2 s (+2.0 to +8.4 s), +8.4 % (+3.3 % to +13.7 %)",
                             "32 (14 to all of them)",
                             "training: new driver",
                             "not estimated: too few plain cycles after it",
                             "light 51, heavy 32",
                             "By the last half of the plain cycles alone",
                             "at most 1.8 % is still to come",
                             "8.4 s wide now, 6.2 s wide then",
                             "within the limit: 70 %",
                             "falls to a floor, ever more slowly",
                             "in two phases",
                             "40.1 (31.4 to 47.2)",
                             "Checks of this record",
                             "likeness 0.14, n = 73 pairs",
                             "+4.5 % (+1.5 % to +7.5 %), on 5 worked days",
                             "133 on 2024-10-05, 94.7 s, longer",
                             "53.3 s (50.2 to 58.5), beside 53.",
                             "Beside: earlier learners of this station",
                             "7 earlier learners, at own cycle 100",
                             "where 95 % of learners like them are expected",
                             "borrowed from 7 earlier learners, not this person's own",
                             "own cycles bring 43.5 %"}) {
    EXPECT_TRUE(holds(text, wanted)) << wanted;
  }
}

TEST(AdaptationPages, NoEarlierLearnersSaysWhyOnce) {
  Findings findings = made_findings_with_b(AdaptationWord::at_level);
  findings.earlier_learners.reset();
  findings.earlier_learners_none_why = "too_few_for_band";
  findings.beside_adaptation.clear();
  const std::string text = section_of(findings);
  EXPECT_TRUE(holds(text, "Earlier learners of this station: not shown. It takes five earlier learners for a band"));
  EXPECT_FALSE(holds(text, "Beside: earlier learners"));
}

// Every word stands in the box on page one with what it rests on, and without a why.
TEST(AdaptationPages, EveryWordStandsOnPageOneWithWhatItRestsOn) {
  for (const AdaptationWord word : wording::adaptation_words) {
    if (word == AdaptationWord::not_assessable_now) continue;
    const Findings findings = made_findings_with_b(word);
    const std::string text = page_one_of(findings);
    EXPECT_TRUE(holds(text, wording::finding_word(word)));
    EXPECT_TRUE(holds(text, "Operator B-2. It says nothing about why.")) << wording::finding_word(word);
    EXPECT_TRUE(holds(text, wording::adaptation_reason_in_words(findings.adaptation[0].reasons[0])));
    EXPECT_TRUE(holds(text, "n = 77 plain cycles on 4 worked days"));
    EXPECT_EQ(holds(text, "Others above the limit too: 2 of the 5 other settled operators of A."),
              word == AdaptationWord::settled_above);
    EXPECT_EQ(holds(text, "Break: training: new driver, after own cycle 170"),
              word == AdaptationWord::learning_interrupted);
  }
}

TEST(AdaptationPages, BesideSettledAboveStandHowManyOthersAreAboveToo) {
  Findings findings = made_findings_with_b(AdaptationWord::settled_above);
  EXPECT_TRUE(holds(section_of(findings), "Others above the limit too: 2 of the 5 other settled operators of A."));
  findings.beside_adaptation[0].others_above.reset();
  for (const std::string& text : {page_one_of(findings), section_of(findings)})
    EXPECT_TRUE(holds(text, "Others above the limit too: not known, there are fewer than three"));
}

TEST(AdaptationPages, AnAbsentBridgeSaysWhy) {
  Findings findings = made_findings_with_b(AdaptationWord::not_shown);
  findings.bridges.front().terms.reset();
  findings.bridges.front().absent_why = "too_few_peers";
  EXPECT_TRUE(holds(section_of(findings), "Time bridge: none. It takes three other settled operators"));
}

TEST(AdaptationPages, SeveralOperatorsStandInShortLines) {
  Findings findings = made_findings_with_b(AdaptationWord::still_learning);
  Adaptation other = made_adaptation(AdaptationWord::not_shown);
  other.op = 0;
  findings.adaptation.push_back(other);
  const std::string text = page_one_of(findings);
  EXPECT_TRUE(holds(text, "B-2: STILL LEARNING. Today 59.1"));
  EXPECT_TRUE(
      holds(text, "A-1: NOT SHOWN. The cycles seen can't tell a level that is reached from one still improving."));
  EXPECT_TRUE(holds(text, "A is FITS and B, for B-2, is STILL LEARNING"));
  EXPECT_TRUE(holds(text, "A is FITS and B, for A-1, is NOT SHOWN"));
}

// What is gated must not be readable from what surrounds it: two closed findings are the same, whatever was behind them.
TEST(AdaptationPages, AGatedAnswerLeavesNothingToRead) {
  const Findings closed = made_findings_with_b_closed();
  const std::string section = section_of(closed);
  EXPECT_TRUE(holds(section, "Operator B-2: NOT ASSESSABLE NOW"));
  EXPECT_TRUE(holds(section, wording::not_assessable_line));
  EXPECT_FALSE(holds(section, wording::nothing_about_why));
  std::size_t digits = 0;
  for (const char c : section.substr(section.find("NOT ASSESSABLE NOW"))) digits += c >= '0' && c <= '9' ? 1U : 0U;
  EXPECT_LE(digits, 2U); // the number of the next section
  const std::string whole = text_of(closed);
  for (const char* number : {"53.6",
                             "53.7",
                             "54.2",
                             "54.3",
                             "53.8",
                             "53.9",
                             "94.6",
                             "94.7",
                             "61.5",
                             "61.6",
                             "8.4 %",
                             "gap of",
                             "earlier learners",
                             "borrowed",
                             "Checks of this record",
                             "Others above",
                             "new driver",
                             "59.1",
                             "59.2",
                             "9.3 %",
                             "9.4 %",
                             "61.9",
                             "62.0 s",
                             "52.4",
                             "62.2",
                             "145",
                             "SETTLED ABOVE",
                             "STILL LEARNING",
                             "where the seconds lie",
                             "Operator B-2: times against own cycles"}) {
    EXPECT_FALSE(holds(whole, number)) << number;
  }
  Findings same = closed;
  same.adaptation = {made_adaptation(AdaptationWord::still_learning)};
  close_adaptation(same.adaptation.front());
  EXPECT_EQ(whole, text_of(same));
}

TEST(AdaptationPages, PageOneHasNoMethodNamesOrAbbreviations) {
  const std::string text = page_one_of(made_findings_with_b(AdaptationWord::still_learning));
  for (const char* word : {"AIC", "Akaike", "power", "exponential", "likelihood", "phi", "P =", " CI", "lag", "median",
                           "asymptote", "model", "log"}) {
    EXPECT_FALSE(holds(text, word)) << word;
  }
}

TEST(AdaptationPages, EveryWordPrintsABalancedPage) {
  for (const AdaptationWord word : wording::adaptation_words) {
    const std::string page = write_html(build_case_document(made_case(), made_findings_with_b(word), {}));
    EXPECT_EQ(find_unbalanced(page), "");
    const std::vector<std::string> ids = attribute_values(page, "id");
    EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ids.size());
  }
}

TEST(AdaptationWording, EveryCodeHasWords) {
  for (const char* code : {"not_assessable_now", "no_plain_cycle", "no_cycle_without_help", "too_few_cycles",
                           "too_few_days", "cycles_hang_together", "helped_too_often", "improving", "interrupted",
                           "late_slope", "at_level", "settled_above", "straddles_limit", "differs_with_help",
                           "can_not_tell", "identical_times", "count_estimated", "count_not_known"})
    EXPECT_NE(wording::adaptation_reason_in_words({code, ""}), code);
  for (const char* code :
       {"cycles_without_help", "seconds_of_help", "more_cycles", "more_days", "what_ties_cycles", "cycles_after_these",
        "level_near_limit", "cycles_to_tell", "no_cycles_within_reach", "times_as_measured", "count_before"})
    EXPECT_NE(wording::would_decide_adaptation({code, ""}), code);
  EXPECT_EQ(wording::would_decide_adaptation({"more_cycles", "12"}),
            "12 more plain cycles, with help and stops marked.");
  for (const char* code : {"not_assessable_now", "no_estimates", "too_few_peers"})
    EXPECT_NE(wording::bridge_absent_in_words(code), code);
  for (const char* code : {"too_few_before", "too_few_after"}) EXPECT_NE(wording::no_loss_in_words(code), code);
  for (const char* code :
       {"not_asked", "not_assessable_now", "too_few", "too_few_for_band", "no_practice", "spread_not_seen"})
    EXPECT_NE(wording::no_earlier_learners_in_words(code), code);
  EXPECT_TRUE(holds(wording::adaptation_reason_in_words({"count_estimated", "400"}), "is estimated: 400."));
  EXPECT_EQ(wording::adaptation_reason_in_words({"new_code", "7"}), "new_code (7)");
  EXPECT_EQ(wording::adaptation_reason_in_words({"not_assessable_now", ""}), wording::not_assessable_line);
  for (const std::string_view term : bridge_terms) EXPECT_FALSE(wording::bridge_term_in_words(term).against.empty());
}

TEST(AdaptationWording, ABreakSaysWhatItIsAndWhatWasLost) {
  const std::vector<Interruption> breaks = made_interruptions();
  EXPECT_EQ(wording::interruption_in_words(breaks[0]),
            "Break: gap of 21 days, after own cycle 140. Against the level before, the first times after it: +8.4 % "
            "(+3.3 % to +13.7 %), as if about 32 own cycles had not been done. Own cycles since: 40.");
  EXPECT_EQ(wording::interruption_in_words(breaks[1]),
            "Break: training: new driver, after own cycle 170; what was lost is not estimated: too few plain cycles "
            "after it.");
  EXPECT_EQ(wording::break_in_words({BreakKind::new_variant, 90, {}, {}, "heavy"}), "new variant heavy");
}

TEST(AdaptationWording, CyclesToGoHaveEveryEnd) {
  EXPECT_EQ(wording::cycles_to_go_in_words({0.0, 0.0, 0.0, 0}, 900), "None: today's level is within the limit.");
  EXPECT_EQ(wording::cycles_to_go_in_words({0.0, 0.0, 84.0, 0}, 900),
            "None, or up to 84 own cycles: today's level is about at the limit.");
  EXPECT_EQ(wording::cycles_to_go_in_words({1234.0, 567.0, 8765.0, 0}, 900),
            "About 1200 own cycles, 570 to 8800, until the level is within the limit.");
  EXPECT_EQ(
      wording::cycles_to_go_in_words({{}, 567.0, {}, 0.6}, 900),
      "Not within the limit 900 own cycles after the last one seen, by the middle estimate; 570 at the earliest.");
  EXPECT_EQ(wording::cycles_to_go_in_words({{}, {}, {}, 1}, 900),
            "Not within the limit 900 own cycles after the last one seen. Nothing is said beyond these.");
}

TEST(PracticeCurve, ManyCyclesAreThinnedByAFixedRule) {
  EXPECT_EQ(drawn_every(0), 1U);
  EXPECT_EQ(drawn_every(600), 1U);
  EXPECT_EQ(drawn_every(601), 2U);
  EXPECT_EQ(drawn_every(6000), 10U);
}

} // namespace
} // namespace docket
