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
  EXPECT_TRUE(holds(text, "ln k* / u = \u22120.0260000 / 0.0500000 = \u22120.5200"));
  EXPECT_FALSE(holds(text, "Settled operators, their mean"));
}

// k* = 1.0826: a logarithm from four decimals (0.07937 where 0.07940 was meant) misses the quotient.
TEST(HowAIsComputed, TheFactorOfAllTimesHasTheDigitsOfItsLogarithm) {
  Findings made = standard_alone();
  made.content.again.ln_k_star = 0.0794;
  made.content.combined->u = 0.01833;
  const std::string text = text_of(made);
  // e^0.0794 = 1.0826373, 0.0794 / 0.01833 = 4.33170 (closed forms, by bc)
  EXPECT_TRUE(holds(text, "overloads reach the tolerated rate: 1.0826373"));
  EXPECT_TRUE(holds(text, "ln k* / u = 0.0794000 / 0.0183300 = 4.3317;"));
}

// Both rows of page one by hand: 1.2 x 50 - 50 = 10; reach e^(t u) = 1.1: 60 - 55 = 5, 60 - 50/1.1 = 14.545.
// Heaviest: t_v = 56 x 50/53 = 52.830; 55 + 8 - 52.830 = 10.170; 63 - 58.113 = 4.887; 63 - 48.027 = 14.973.
TEST(HowAIsComputed, RoomAndHeaviestVariantCanBeMadeByHand) {
  Findings made = standard_alone();
  ContentFindings& content = made.content;
  content.combined->time = Seconds{50};
  content.sequence.k_star = SequenceMargin{1.2};
  content.sequence.room = SequenceRoom{Seconds{10}, Seconds{5}, Seconds{14.5455}};
  const Seconds heavy{56.0 * 50 / 53};
  content.heaviest = {1, heavy, Seconds{63} - heavy, Seconds{63} - heavy * 1.1, Seconds{63} - heavy / 1.1, {}, {}};
  Case input = made_case();
  input.facts.late_finish = Seconds{8};
  std::string text = bare_text(write_html(build_case_document(input, made, {})));
  EXPECT_TRUE(holds(text,
                    "k* \u00D7 T \u2212 T = 1.2000000 \u00D7 50.000 s \u2212 50.000 s = 10.00 s. From k* \u00D7 T "
                    "\u2212 T \u00D7 e^(t u) = 5.00 s to k* \u00D7 T \u2212 T \u00D7 e^(\u2212t u) = 14.55 s"));
  EXPECT_TRUE(holds(text, "56.000 s \u00D7 50.000 s / 53.000 s: 52.830 s. Margin: limit + late finish \u2212 t_v = "
                          "55.000 s + 8.000 s \u2212 52.830 s = 10.17 s. From limit + late finish \u2212 t_v \u00D7 "
                          "e^(t u) = 4.89 s to limit + late finish \u2212 t_v \u00D7 e^(\u2212t u) = 14.97 s"));
  content.heaviest.time *= 1.02;
  content.sequence.k_star->at_high_end = true;
  text = bare_text(write_html(build_case_document(input, made, {})));
  EXPECT_TRUE(holds(text, "53.000 s, \u00D7 1.02000, because the ratios between variants are those of the settled "
                          "operators"));
  EXPECT_TRUE(holds(text, "the room is at least that, and no range is shown"));
}

// Ratios 1.2 and 1/1.2: geometric mean 1, arithmetic (1.2 + 0.83333)/2 = 1.01667, ln 1.01667 = 0.01653 (closed form).
TEST(HowAIsComputed, TheTwoMeansAreAsFarApartAsTheyAre) {
  Findings made = standard_alone();
  Restudy line;
  line.operators = {0, 1};
  line.per_operator.resize(2);
  line.per_operator[0].op = 0;
  line.per_operator[0].normal = Seconds{53 * 1.2};
  line.per_operator[1].op = 1;
  line.per_operator[1].normal = Seconds{53 / 1.2};
  line.normal = Seconds{53 * (1.2 + 1 / 1.2) / 2};
  line.level.time = line.normal;
  made.content.restudy.line = line;
  EXPECT_TRUE(holds(text_of(made),
                    "The geometric mean of the same numbers is 1.00000: as logarithms, the two means are "
                    "0.01653 apart."));
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
