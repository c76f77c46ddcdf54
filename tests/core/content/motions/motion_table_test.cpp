#include "core/content/motions/motion_table.h"
#include "tests/core/content/motions/made_motion_times.h"

#include <gtest/gtest.h>

#include <ostream>

namespace docket {
namespace {

MotionTime time_of(const std::string& code, bool in_both_hands = false) {
  return time_of_motion(made::motion_times(), *read_motion_code(code).motion, in_both_hands);
}

struct Timed {
  std::string code;
  double tmu;
  std::string formula;
};

void PrintTo(const Timed& timed, std::ostream* out) { *out << timed.code; }

class MotionTimed : public ::testing::TestWithParam<Timed> {};

TEST_P(MotionTimed, hasThatTime) {
  const MotionTime time = time_of(GetParam().code);
  ASSERT_TRUE(time.tmu) << time.wrong;
  EXPECT_NEAR(*time.tmu, GetParam().tmu, 1e-9);
  EXPECT_EQ(time.formula, GetParam().formula);
  EXPECT_FALSE(time.used.empty());
}

// tests/reference/motion_examples/ORIGIN: the steps of analysis 1 are published with their times.
INSTANTIATE_TEST_SUITE_P(PublishedAnalysis, MotionTimed,
                         ::testing::Values(Timed{"R16C", 17.0, "17"}, Timed{"G4A", 7.3, "7.3"},
                                           Timed{"M10B5", 15.132, "2.2 + 1.06 x 12.2"}, Timed{"RL1", 2.0, "2"},
                                           Timed{"R14B", 14.4, "14.4"}, Timed{"G1B", 3.5, "3.5"},
                                           Timed{"M8C3", 14.708, "2.2 + 1.06 x 11.8"}, Timed{"P1NSE", 10.4, "10.4"}));

// Published inputs, answers by hand from the table and its rules.
INSTANTIATE_TEST_SUITE_P(PublishedInputs, MotionTimed,
                         ::testing::Values(Timed{"ET24/18", 20, "15.2 x 24 / 18, at most 20"},
                                           Timed{"SS20C2", 42.9, "34.1 + 8 x 1.1"},
                                           Timed{"M35B2.5", 27.3, "24.3 + 5 x 0.6"}));

// By hand from the printed rows: 13.4 halfway to 12.9 and 14.2; 3/4 in and less are the first row; 0.9 in is 3/5 of the
// way from 3/4 to 1; a turn of 97.5 degrees is halfway from 90 to 105.
INSTANTIATE_TEST_SUITE_P(
    ByHand, MotionTimed,
    ::testing::Values(Timed{"R11A", 9.15, "8.7 + (9.6 - 8.7) x (11 - 10) / 2"},
                      Timed{"R13C", 14.9, "14.2 + (15.6 - 14.2) x (13 - 12) / 2"}, Timed{"RfA", 2, "2"},
                      Timed{"R0.5A", 2, "2"}, Timed{"R0.75A", 2, "2"},
                      Timed{"R0.9C", 2.96, "2 + (3.6 - 2) x (0.9 - 0.75) / 0.25"}, Timed{"R12C", 14.2, "14.2"},
                      Timed{"R12D", 14.2, "14.2"}, Timed{"R12E", 11.8, "11.8"}, Timed{"mR10A", 7.3, "7.3"},
                      Timed{"R10Bm", 8.6, "8.6"}, Timed{"M10Bm", 8.6, "8.6"}, Timed{"R34A", 19.1, "17.5 + 4 x 0.4"},
                      Timed{"M10B2.5", 12.2, "12.2"}, Timed{"M10B7.5", 15.132, "2.2 + 1.06 x 12.2"},
                      Timed{"M10B20/2", 17.442, "3.9 + 1.11 x 12.2, 10 lb a hand"},
                      Timed{"M11B10", 18.108, "3.9 + 1.11 x (12.2 + (13.4 - 12.2) x (11 - 10) / 2)"},
                      Timed{"mM10B5", 11.316, "2.2 + 1.06 x 8.6"},
                      Timed{"T97.5S", 5.75, "5.4 + (6.1 - 5.4) x (97.5 - 90) / 15"}, Timed{"T180L", 28.2, "28.2"},
                      Timed{"ET9/18", 7.6, "15.2 x 9 / 18"}, Timed{"LM4", 7.1, "7.1"},
                      Timed{"LM10", 11.9, "7.1 + 4 x 1.2"}, Timed{"W4P", 60, "4 x 15"}, Timed{"EF", 7.3, "7.3"}));

// One object in two hands: half its weight each; a code that says so already is not halved twice.
TEST(MotionTable, HalvesTheWeightInTwoHandsOnce) {
  EXPECT_NEAR(*time_of("M10B20", true).tmu, 3.9 + 1.11 * 12.2, 1e-9);
  EXPECT_EQ(time_of("M10B20", true).formula, "3.9 + 1.11 x 12.2, 10 lb a hand");
  EXPECT_NEAR(*time_of("M10B20/2", true).tmu, 3.9 + 1.11 * 12.2, 1e-9);
}

struct Untimed {
  std::string code, problem;
};

void PrintTo(const Untimed& untimed, std::ostream* out) { *out << untimed.code; }

class MotionUntimed : public ::testing::TestWithParam<Untimed> {};

TEST_P(MotionUntimed, saysWhy) {
  const MotionTime time = time_of(GetParam().code);
  EXPECT_FALSE(time.tmu);
  EXPECT_EQ(time.code, GetParam().problem);
  EXPECT_FALSE(time.wrong.empty());
  EXPECT_FALSE(time.right.empty());
}

INSTANTIATE_TEST_SUITE_P(Codes, MotionUntimed,
                         ::testing::Values(Untimed{"mR10C", "not_in_table"}, Untimed{"R10Em", "not_in_table"},
                                           Untimed{"mR10Am", "not_in_table"}, Untimed{"mM10A", "not_in_table"},
                                           Untimed{"M10Cm", "not_in_table"}, Untimed{"mM10Bm", "not_in_table"},
                                           Untimed{"mR31A", "beyond_table"}, Untimed{"M31Bm", "beyond_table"},
                                           Untimed{"T181S", "beyond_table"}, Untimed{"T15S", "below_table"},
                                           Untimed{"SS8C1", "below_table"}, Untimed{"M10B50", "weight_beyond_table"},
                                           Untimed{"SIT", "not_in_table"}, Untimed{"W3FT", "not_in_table"}));

TEST(MotionTable, AnEmptyTableHasNoTimes) {
  for (const char* code : {"R10A", "M10B5", "T90S", "G1A", "ET24/18", "LM6", "SS12C1", "W4P"}) {
    const MotionTime time = time_of_motion({}, *read_motion_code(code).motion, false);
    EXPECT_FALSE(time.tmu) << code;
    EXPECT_EQ(time.code, "not_in_table") << code;
  }
}

TEST(MotionTable, SaysWhichRowsWereUsed) {
  const MotionTime time = time_of("M11B10");
  ASSERT_EQ(time.used.size(), 3U);
  EXPECT_EQ(time.used[0].what, "move 10 in, B");
  EXPECT_EQ(time.used[1].what, "move 12 in, B");
  EXPECT_EQ(time.used[2].what, "weight up to 12.5 lb");
  EXPECT_EQ(time.used[0].origin.status, MotionValueStatus::found);
}

} // namespace
} // namespace docket
