// Shifts against one another and single cycles beyond the limit, from findings filled by hand. Nothing here was measured.
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/shifts.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace docket {
namespace {

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

ShiftFacts made_shift(const std::string& name, std::int64_t operators, double level) {
  ShiftFacts shift;
  shift.shift = name;
  shift.operators = shift.level_operators = operators;
  shift.cycles = 1200;
  shift.days = 4;
  shift.built = {900, 300};
  shift.level = TimeEstimate{Seconds{level}, Seconds{level - 2}, Seconds{level + 2}};
  shift.spread = operators > 1 ? ShiftSpread::operators : ShiftSpread::days;
  return shift;
}

Findings with_shifts(std::int64_t operators_late = 3) {
  Findings made = made_findings(ContentWord::not_shown);
  ShiftComparison& comparison = made.content.shifts;
  comparison.shifts = {made_shift("early", 4, 56.0), made_shift("late", operators_late, 53.0)};
  comparison.shifts[1].conditions = {{0, 40}};
  comparison.common = {0, 1};
  comparison.common_share = 1;
  ShiftPair pair;
  pair.first = 0;
  pair.second = 1;
  pair.outcome = ShiftOutcome::not_shown;
  pair.variants = {0, 1};
  pair.share = 1;
  pair.operators_first = 4;
  pair.operators_second = operators_late;
  pair.difference = ShiftDifference{0.05, 0.02, 5, -0.01, 0.11, 0.001, 0.52};
  comparison.pairs = {pair};
  return made;
}

CyclesBeyond made_cycles(std::int64_t n, std::int64_t k) {
  return {n, k, 0.25, static_cast<double>(n) * 0.6, static_cast<double>(k) / static_cast<double>(n), 0.05, 0.15};
}

std::string text_of(const Findings& findings) {
  return bare_text(write_html(build_case_document(made_case(), findings, {})));
}

int figures_of(const Findings& findings) {
  const Document document = build_case_document(made_case(), findings, {});
  return static_cast<int>(std::count_if(document.blocks.begin(), document.blocks.end(), [](const Block& block) {
    const auto* figure = std::get_if<Figure>(&block.content);
    return figure != nullptr && holds(figure->title, "Shifts");
  }));
}

TEST(ShiftPages, AreThereWhereTwoShiftsAreNamed) {
  EXPECT_FALSE(holds(text_of(made_findings(ContentWord::fits)), "Shifts against one another"));
  Findings one = with_shifts();
  one.content.shifts.shifts.resize(1);
  one.content.shifts.pairs.clear();
  EXPECT_FALSE(holds(text_of(one), "Shifts against one another"));
  const std::string text = text_of(with_shifts());
  EXPECT_TRUE(holds(text, "Shifts against one another"));
  EXPECT_TRUE(holds(text, wording::shifts_rule));
  EXPECT_TRUE(holds(text, "light 75 %, heavy 25 % (n = 1200)"));
  EXPECT_TRUE(holds(text, "Torque driver (40 cycles out)"));
}

// exp(0.05) - 1 = 5.127 %, exp(-0.01) - 1 = -0.995 %, exp(0.11) - 1 = 11.628 %.
TEST(ShiftPages, ADifferenceThatIsNotShownIsNeverEqual) {
  const std::string text = text_of(with_shifts());
  EXPECT_TRUE(holds(text, "+5.1 % (\u22121.0 to +11.6 %), n = 4 and 3 operators"));
  EXPECT_TRUE(holds(text, "Not shown either way: the difference may be more than 5 % or less. This does not say that "
                          "they are equal."));
  EXPECT_FALSE(holds(text, "no significant"));
}

// Both one-sided tests are printed, and the margin in percent, as a ratio and in seconds: 5 % of the 53 s of the standard
// is 2.65 s, printed 2.7.
TEST(ShiftPages, TestsAndMarginArePrinted) {
  const std::string text = text_of(with_shifts());
  EXPECT_TRUE(holds(text, "p, first less by 5 % or more"));
  EXPECT_TRUE(holds(text, "ln 0.0500, u 0.0200, 5.0 degrees of freedom0.0010.520"));
  EXPECT_TRUE(holds(text, "at most 1.05 (ln 0.0488), or about 2.7 s of the 53.0 s"));
}

TEST(ShiftPages, TooFewToSayIsSaidInTheTable) {
  EXPECT_FALSE(holds(text_of(with_shifts()), "Too few to say"));
  for (const std::int64_t few : {1, 2}) {
    const std::string text = text_of(with_shifts(few));
    EXPECT_TRUE(holds(text, "Too few to say: " + std::string(wording::too_few_in_words(few)) + "."));
  }
}

// The late one takes less time here, and still stands second: names, not times.
TEST(ShiftPages, NoShiftIsRanked) {
  const std::string text = text_of(with_shifts());
  EXPECT_TRUE(holds(text, "early against late"));
  for (const char* word : {"faster", "slower", "better", "worse", "best", "rank"})
    EXPECT_FALSE(holds(text.substr(text.find("Shifts against one another")).substr(0, 3000), word)) << word;
}

TEST(ShiftPages, FewPeopleAreSaidAndNotDrawn) {
  EXPECT_EQ(figures_of(with_shifts()), 1);
  EXPECT_FALSE(holds(text_of(with_shifts()), wording::small_group));
  for (const std::int64_t few : {1, 2}) {
    EXPECT_EQ(figures_of(with_shifts(few)), 0);
    const std::string text = text_of(with_shifts(few));
    EXPECT_TRUE(holds(text, "Levels that rest on one or two people: late."));
    EXPECT_TRUE(holds(text, "In a small group people can be recognised"));
    EXPECT_EQ(holds(text, "1 operator, by days"), few == 1);
    EXPECT_EQ(holds(text, "between people that the settings give is added"), few == 1);
  }
}

TEST(ShiftPages, LevelsForPartOfTheMixAreNoMatterOfTheLimit) {
  Findings made = with_shifts();
  made.content.shifts.common = {0};
  made.content.shifts.common_share = 0.6;
  EXPECT_EQ(figures_of(made), 0);
  EXPECT_TRUE(holds(text_of(made), "The levels are for light, 60 % of the planned mix."));
}

TEST(ShiftPages, PeopleInBothAndCyclesInNoneAreSaid) {
  Findings made = with_shifts();
  made.content.shifts.pairs[0].in_both = 2;
  made.content.shifts.without_shift = 7;
  const std::string text = text_of(made);
  EXPECT_TRUE(holds(text, "2 people count in both early and late, and are taken as different people there."));
  EXPECT_TRUE(holds(text, "Without a shift, and so in none: 7 cycles."));
}

TEST(ShiftPages, SingleCyclesBeyondTheLimit) {
  EXPECT_FALSE(holds(text_of(with_shifts()), "Single cycles beyond the limit"));
  Findings made = with_shifts();
  Overrun& overrun = made.content.shifts.overrun;
  overrun.operators = 7;
  overrun.plain = made_cycles(2000, 180);
  overrun.by_variant = {{0, made_cycles(1200, 30)}, {1, made_cycles(800, 150)}};
  overrun.with_help = made_cycles(2100, 240);
  overrun.everybody_with_help = made_cycles(2500, 400);
  made.content.shifts.share_within_at_own_pace = {7, 0.79, 0.47, 0.95};
  const std::string text = text_of(made);
  EXPECT_TRUE(holds(text, "Single cycles beyond the limit"));
  EXPECT_TRUE(holds(text, "A cycle beyond the limit is not an overload"));
  EXPECT_TRUE(holds(text, "at least 240"));
  EXPECT_TRUE(holds(text, "at least 400"));
  EXPECT_FALSE(holds(text, "at least 180"));
  EXPECT_TRUE(holds(text, "of these, heavy"));
  EXPECT_TRUE(holds(text, "likeness of being beyond: 0.25"));
  EXPECT_TRUE(holds(text,
                    "At their own pace, an estimated 79 % of trained people have an own mean within the limit (47 % "
                    "to 95 %, n = 7 settled operators)."));
}

TEST(ShiftWords, EveryCodeAndOutcomeHasWords) {
  for (const char* code : {"no_settled_operator", "all_under_condition", "no_common_variant", "no_spread"}) {
    for (const char* shift : {"", "late"}) {
      const std::string words = wording::shift_why_in_words({code, shift});
      EXPECT_TRUE(holds(words, " ")) << code;
      for (const char left_over : {'[', ']', '{', '}'}) EXPECT_EQ(words.find(left_over), std::string::npos) << words;
    }
  }
  EXPECT_EQ(wording::shift_why_table().size(), 4U);
  EXPECT_EQ(wording::shift_why_in_words({"new_code", ""}), "new_code");
  ShiftPair pair;
  pair.why = {"no_settled_operator", "late"};
  EXPECT_EQ(wording::outcome_in_words(pair, 0.05),
            "Not comparable: no cycle of a settled operator counts in the shift \u201Clate\u201D.");
  pair.outcome = ShiftOutcome::equivalent;
  EXPECT_EQ(wording::outcome_in_words(pair, 0.05), "Equivalent: the difference is shown to be within 5 %.");
  pair.outcome = ShiftOutcome::different;
  EXPECT_EQ(wording::outcome_in_words(pair, 0.05), "They differ by more than 5 %. This does not say why.");
}

TEST(ShiftWords, StableCodesOfOutcomesAndSpreads) {
  EXPECT_EQ(wording::outcome_code(ShiftOutcome::equivalent), "equivalent");
  EXPECT_EQ(wording::outcome_code(ShiftOutcome::different), "different");
  EXPECT_EQ(wording::outcome_code(ShiftOutcome::not_shown), "not_shown");
  EXPECT_EQ(wording::outcome_code(ShiftOutcome::not_comparable), "not_comparable");
  EXPECT_EQ(wording::spread_code(ShiftSpread::none), "none");
  EXPECT_EQ(wording::spread_code(ShiftSpread::operators), "operators");
  EXPECT_EQ(wording::spread_code(ShiftSpread::days), "days");
  EXPECT_EQ(wording::spread_code(ShiftSpread::cycles), "cycles");
}

} // namespace
} // namespace docket
