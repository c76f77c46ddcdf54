// Question A step by step, from findings filled by hand: the numbers stand in the formulas, and each row says why.
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/wording.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

std::string text_of(const Findings& findings) {
  return bare_text(write_html(build_case_document(made_case(), findings, {})));
}

/// The standard alone, 53 s against 55 s, with u = 5 %: z = ln(53/55) = -0.03704, -z/u = 0.7408, normal table 0.7706.
Findings standard_alone() {
  Findings made = made_findings(ContentWord::not_shown);
  ContentFindings& content = made.content;
  content.settled = {};
  content.clashes.clear();
  content.standard.u_systematic = Seconds{2.65};
  content.standard.level.df = std::numeric_limits<double>::infinity();
  CombinedLine& combined = *content.combined;
  combined.weights = {1, 0, 0};
  combined.time = Seconds{53};
  combined.ln_ratio = std::log(53.0 / 55);
  combined.u = 0.05;
  combined.df = std::numeric_limits<double>::infinity();
  combined.p_fits = 0.7706;
  content.again.facts.all = {0.7706, 0.3, std::nullopt, std::nullopt};
  content.again.facts.zone_given = content.again.facts.spread_known = true;
  content.again.ln_k_star = -0.026;
  content.sequence.p = 0.3;
  return made;
}

TEST(HowAIsComputed, PutsTheNumbersOfTheCaseIn) {
  const std::string text = text_of(standard_alone());
  EXPECT_TRUE(holds(text, "How the answer to A is computed"));
  EXPECT_TRUE(holds(text, "limit = line cycle time = 55.000 s."));
  EXPECT_TRUE(holds(text, "0.6 \u00D7 51 + 0.4 \u00D7 56 = 53.000 s"));
  EXPECT_TRUE(holds(text, "z1 = ln(53.000 s / 55.000 s) = \u22120.03704"));
  EXPECT_TRUE(holds(text, "u1 = \u221A(0.05000\u00B2) = 0.05000"));
  EXPECT_TRUE(holds(text, "\u2212z / u = 0.03704 / 0.05000 = 0.7408"));
  EXPECT_TRUE(holds(text, "P(normal \u2264 0.7408) = 77 %"));
  EXPECT_TRUE(holds(text, "ln k* / u = \u22120.02600 / 0.05000 = \u22120.5200"));
  EXPECT_FALSE(holds(text, "Settled operators, their mean"));
}

// Equal levels differ by rounding alone: no number is made from that.
TEST(HowAIsComputed, EqualLevelsMakeNoNumbersOfRounding) {
  Findings made = standard_alone();
  made.content.combined->df = 3e53;
  SettledOperators line;
  line.operators = 3;
  line.s = 6e-18;
  line.level.time = Seconds{53};
  line.level.se = 4e-18;
  line.level.df = 2;
  made.content.combined->weights = {0.5, 0.5, 0};
  made.content.settled.line = line;
  made.content.share_able.estimate = 1;
  made.content.again.share = ShareParts{1.2816, 4e-18, 0.05, 3e53};
  const std::string text = text_of(made);
  EXPECT_TRUE(holds(text, "= more than a million (at least 1)"));
  EXPECT_TRUE(holds(text, "Every level is the same (s = 0), so all people are able or none: 100 %"));
}

TEST(HowAIsComputed, EveryStepNamesItsSource) {
  const Document document = build_case_document(made_case(), standard_alone(), {});
  for (const Block& block : document.blocks) {
    const auto* list = std::get_if<List>(&block.content);
    if (list == nullptr || !list->numbered || list->items.front().front().text != "Limit. ") continue;
    for (const Runs& step : list->items) EXPECT_TRUE(step.back().text.starts_with("Source: ")) << step.front().text;
    return;
  }
  FAIL() << "no steps";
}

TEST(HowAIsComputed, SaysWhyEachEarlierRowDidNotHold) {
  Findings made = standard_alone();
  std::string text = text_of(made);
  EXPECT_TRUE(holds(text, "No clash."));
  EXPECT_TRUE(holds(text, "All lines: none so low."));
  EXPECT_TRUE(holds(text, "Zone given, spread known, values differ."));
  EXPECT_TRUE(holds(text, "All lines: P, P_seq not reached."));
  made.content.word = ContentWord::does_not_fit;
  made.content.decision_row = 2;
  made.content.again.facts.all.p_seq = 0.01;
  text = text_of(made);
  EXPECT_TRUE(holds(text, "All lines: P_seq so low."));
  EXPECT_TRUE(holds(text, "not looked at"));
  EXPECT_FALSE(holds(text, "not reached."));
}

TEST(HowAIsComputed, NamesTheLinesThatLeanAndTheRowsThatMustAgree) {
  Findings made = standard_alone();
  made.content.again.without = {{Line::standard}};
  made.content.again.facts.without_leaning = {std::nullopt};
  SettledRow row;
  row.code = "with_help";
  row.added = 3;
  made.content.settled.line = SettledOperators{};
  made.content.settled.rows = {row};
  made.content.again.facts.must_agree = {{0.99, 0.99, 0.9, 0.7}};
  const std::string text = text_of(made);
  EXPECT_TRUE(holds(text, "Without the standard (leaning): no line left."));
  EXPECT_TRUE(holds(text, "With the help counted in: P_zone not reached."));
}

TEST(SharesOfPeople, EachSaysWhichItIsAndOnePlaceHowTheyDiffer) {
  Findings made = made_findings(ContentWord::not_shown);
  made.content.shifts.overrun.everybody_with_help = CyclesBeyond{};
  made.content.shifts.share_within_at_own_pace = {7, 0.79, 0.47, 0.95};
  const std::string text = text_of(made);
  for (const std::string_view which : {wording::what_share_able_is, wording::what_share_counted_is,
                                       wording::what_share_at_own_pace_is, wording::how_shares_differ}) {
    const std::size_t first = text.find(which);
    EXPECT_NE(first, std::string::npos) << which;
    EXPECT_EQ(text.find(which, first + 1), std::string::npos) << "said once: " << which;
  }
}

TEST(BridgedLevels, SayWhichVariantForWhomAndByWhat) {
  Findings made = made_findings(ContentWord::not_shown);
  EXPECT_TRUE(holds(text_of(made), "No level is bridged"));
  made.content.again.bridged = {{0, 0, 12, false}, {0, 1, 3, true}};
  const std::string text = text_of(made);
  EXPECT_TRUE(holds(text, wording::what_bridged_is));
  EXPECT_TRUE(holds(text, "A-1: light (12 own cycles), by the standard's ratio; heavy (3 own cycles), by the ratio "
                          "measured on others"));
}

} // namespace
} // namespace docket
