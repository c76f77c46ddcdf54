// The table of core/content/word/decision.h, row by row and at its edges.
#include "core/content/word/decision.h"

#include <gtest/gtest.h>

#include <ostream>
#include <string>

namespace docket {
namespace {

DecisionFacts all_good() {
  DecisionFacts f;
  f.usable_line = true;
  f.zone_given = true;
  f.spread_known = true;
  f.all = {0.99, 0.99, 0.9, 0.9};
  return f;
}

struct Row {
  std::string what;
  DecisionFacts facts;
  ContentWord word;
  int row;
};

void PrintTo(const Row& row, std::ostream* out) { *out << row.what; }

template <class Change>
Row row(std::string what, ContentWord word, int number, Change change) {
  DecisionFacts facts = all_good();
  change(facts);
  return {std::move(what), facts, word, number};
}

using W = ContentWord;
using F = DecisionFacts;

class DecisionTable : public testing::TestWithParam<Row> {};

TEST_P(DecisionTable, FirstRowThatHolds) {
  const Decision d = decide_content(GetParam().facts);
  EXPECT_EQ(d.word, GetParam().word);
  EXPECT_EQ(d.row, GetParam().row);
}

INSTANTIATE_TEST_SUITE_P(
    Rows, DecisionTable,
    testing::Values(row("no usable line", W::not_shown, 1, [](F& f) { f.usable_line = false; }),
                    row("a clash comes before everything", W::not_shown, 1,
                        [](F& f) {
                          f.clash = true;
                          f.all.p = 0.001;
                        }),
                    row("mean over", W::does_not_fit, 2, [](F& f) { f.all.p = 0.025; }),
                    row("mean just not over", W::not_shown, 6, [](F& f) { f.all.p = 0.0251; }),
                    row("sequence over although the mean fits", W::does_not_fit, 2, [](F& f) { f.all.p_seq = 0.02; }),
                    row("too few able", W::does_not_fit, 2, [](F& f) { f.all.p_able = 0.01; }),
                    row("mean over needs no work zone", W::does_not_fit, 2,
                        [](F& f) {
                          f.zone_given = false;
                          f.all = {0.01, {}, {}, {}};
                        }),
                    row("work zone not given", W::not_shown, 3,
                        [](F& f) {
                          f.zone_given = false;
                          f.all.p_seq.reset();
                        }),
                    row("spread not known", W::not_shown, 3,
                        [](F& f) {
                          f.spread_known = false;
                          f.all.p_seq.reset();
                        }),
                    row("identical values", W::not_shown, 3, [](F& f) { f.identical_values = true; }),
                    row("everything fits", W::fits, 4, [](F&) {}),
                    row("at the edge", W::fits, 4,
                        [](F& f) {
                          f.all = {0.975, 0.975, {}, 0.8};
                        }),
                    row("mean short of sure", W::not_shown, 6, [](F& f) { f.all.p = 0.974; }),
                    row("sequence short of sure", W::not_shown, 6, [](F& f) { f.all.p_seq = 0.974; }),
                    row("share within the zone too low", W::not_shown, 6, [](F& f) { f.all.p_zone = 0.79; }),
                    row("share not known: for the average trained person", W::fits, 4,
                        [](F& f) {
                          f.all.p_zone.reset();
                          f.all.p_able.reset();
                        }),
                    row("help of unknown length on most cycles", W::not_shown, 6,
                        [](F& f) { f.help_of_unknown_length = true; }),
                    row("a condition differs, restored state has evidence", W::fits_only_if, 5,
                        [](F& f) {
                          f.condition_differs_now = true;
                          f.restored_state_has_evidence = true;
                        }),
                    row("a condition differs, nothing seen of the restored state", W::not_shown, 6,
                        [](F& f) { f.condition_differs_now = true; }),
                    row("FITS rests on a line that leans", W::not_shown, 6,
                        [](F& f) {
                          f.without_leaning = {DecisionView{0.9, 0.99, {}, {}}};
                        }),
                    row("FITS holds without the line that leans", W::fits, 4,
                        [](F& f) {
                          f.without_leaning = {DecisionView{0.98, 0.98, {}, {}}};
                        }),
                    row("no line remains without the one that leans", W::not_shown, 6,
                        [](F& f) { f.without_leaning = {std::nullopt}; }),
                    row("DOES NOT FIT rests on a line that leans", W::not_shown, 6,
                        [](F& f) {
                          f.all.p = 0.01;
                          f.without_leaning = {DecisionView{0.3, 0.5, {}, {}}};
                        }),
                    row("DOES NOT FIT holds without it, through another part of the row", W::does_not_fit, 2,
                        [](F& f) {
                          f.all.p = 0.01;
                          f.without_leaning = {DecisionView{0.3, 0.02, {}, {}}};
                        }),
                    row("two operators: the others don't object to FITS", W::fits, 4,
                        [](F& f) {
                          f.others = DecisionView{0.5, 0.5, {}, {}};
                        }),
                    row("two operators: the others object to FITS", W::not_shown, 6,
                        [](F& f) {
                          f.others = DecisionView{0.49, 0.9, {}, {}};
                        }),
                    row("two operators: the others don't object to DOES NOT FIT", W::does_not_fit, 2,
                        [](F& f) {
                          f.all.p = 0.01;
                          f.others = DecisionView{0.9, 0.5, {}, {}};
                        }),
                    row("two operators: the others object to DOES NOT FIT", W::not_shown, 6, [](F& f) {
                      f.all.p = 0.01;
                      f.others = DecisionView{0.9, 0.9, {}, {}};
                    })));

// The guards of JCGM 106:2012 and ILAC-G8:09/2019: at 95 % both edges belong to the finding.
TEST(DecisionViews, AtTheGuards) {
  EXPECT_TRUE(surely_over({0.025, 0.9, {}, {}}, 0.025));
  EXPECT_TRUE(surely_over({0.9, 0.025, {}, {}}, 0.025));
  EXPECT_TRUE(surely_over({0.9, 0.9, 0.025, {}}, 0.025));
  EXPECT_FALSE(surely_over({0.026, 0.026, 0.026, 0.0}, 0.025));
  EXPECT_TRUE(surely_within({0.975, 0.975, 0.0, 0.8}, 0.025));
  EXPECT_TRUE(surely_within({0.975, 0.975, {}, {}}, 0.025));
  EXPECT_FALSE(surely_within({0.975, {}, {}, {}}, 0.025));
  EXPECT_FALSE(surely_within({0.975, 0.975, {}, 0.79}, 0.025));
}

} // namespace
} // namespace docket
