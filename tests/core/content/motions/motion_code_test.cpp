// The notation: textbooks of work measurement that reprint the table of the basic motions.
#include "core/content/motions/motion_code.h"

#include <gtest/gtest.h>

#include <ostream>
#include <string>

namespace docket {
namespace {

TEST(MotionCode, ReadsAReach) {
  const auto read = read_motion_code("R16C");
  ASSERT_TRUE(read.motion);
  EXPECT_EQ(read.motion->kind, MotionKind::reach);
  EXPECT_EQ(read.motion->distance, 16);
  EXPECT_EQ(read.motion->motion_case, 'C');
  EXPECT_FALSE(read.motion->in_motion.before || read.motion->in_motion.after);
}

TEST(MotionCode, ReadsAMoveWithItsWeight) {
  const auto read = read_motion_code("M10B5");
  ASSERT_TRUE(read.motion);
  EXPECT_EQ(read.motion->kind, MotionKind::move);
  EXPECT_EQ(read.motion->distance, 10);
  EXPECT_EQ(read.motion->weight, 5);
  EXPECT_FALSE(read.motion->weight_shared);
  const auto shared = read_motion_code("M10B20/2");
  ASSERT_TRUE(shared.motion);
  EXPECT_EQ(shared.motion->weight, 20);
  EXPECT_TRUE(shared.motion->weight_shared);
}

TEST(MotionCode, TellsASmallMFromAMove) {
  for (const char* code : {"mR10A", "mM10B5", "mM10B", "mr10a"}) {
    const auto read = read_motion_code(code);
    ASSERT_TRUE(read.motion) << code;
    EXPECT_TRUE(read.motion->in_motion.before && !read.motion->in_motion.after) << code;
  }
  for (const char* code : {"R10Am", "M10Bm", "M10B5m"}) {
    const auto read = read_motion_code(code);
    ASSERT_TRUE(read.motion) << code;
    EXPECT_TRUE(!read.motion->in_motion.before && read.motion->in_motion.after) << code;
  }
  EXPECT_TRUE(read_motion_code("mR10Bm").motion->in_motion.before);
  EXPECT_TRUE(read_motion_code("mR10Bm").motion->in_motion.after);
}

struct Spelling {
  std::string code, usual;
  MotionKind kind;
};

void PrintTo(const Spelling& spelling, std::ostream* out) { *out << spelling.code; }

class MotionSpelling : public ::testing::TestWithParam<Spelling> {};

TEST_P(MotionSpelling, isRead) {
  const auto read = read_motion_code(GetParam().code);
  ASSERT_TRUE(read.motion) << read.wrong;
  EXPECT_EQ(read.motion->text, GetParam().usual);
  EXPECT_EQ(read.motion->kind, GetParam().kind);
  EXPECT_EQ(usual_spelling(GetParam().code), GetParam().usual);
}

INSTANTIATE_TEST_SUITE_P(
    Codes, MotionSpelling,
    ::testing::Values(
        Spelling{"r16c", "R16C", MotionKind::reach}, Spelling{" R 16 C ", "R16C", MotionKind::reach},
        Spelling{"R\xC2\xA0"
                 "16C",
                 "R16C", MotionKind::reach},
        Spelling{"R10.5A", "R10.5A", MotionKind::reach}, Spelling{"R10,5A", "R10.5A", MotionKind::reach},
        Spelling{"RFA", "RfA", MotionKind::reach}, Spelling{"RfA", "RfA", MotionKind::reach},
        Spelling{"R.5A", "R0.5A", MotionKind::reach}, Spelling{"R016C", "R16C", MotionKind::reach},
        Spelling{"MfB", "MfB", MotionKind::move}, Spelling{"M8c3", "M8C3", MotionKind::move},
        Spelling{"M10B2.5", "M10B2.5", MotionKind::move}, Spelling{"t90s", "T90S", MotionKind::turn},
        Spelling{"T45m", "T45M", MotionKind::turn}, Spelling{"APA", "APA", MotionKind::apply_pressure},
        Spelling{"AP2", "APA", MotionKind::apply_pressure}, Spelling{"AP1", "APB", MotionKind::apply_pressure},
        Spelling{"dm", "DM", MotionKind::apply_pressure}, Spelling{"RLF", "RLF", MotionKind::apply_pressure},
        Spelling{"g1c3", "G1C3", MotionKind::grasp}, Spelling{"G5", "G5", MotionKind::grasp},
        Spelling{"p1nse", "P1NSE", MotionKind::position}, Spelling{"P1SE", "P1SE", MotionKind::position},
        Spelling{"P2SSD", "P2SSD", MotionKind::position}, Spelling{"P3SD", "P3SD", MotionKind::position},
        Spelling{"rl1", "RL1", MotionKind::release}, Spelling{"D3D", "D3D", MotionKind::disengage},
        Spelling{"ET24/18", "ET24/18", MotionKind::eye_travel}, Spelling{"EF", "EF", MotionKind::eye_focus},
        Spelling{"fmp", "FMP", MotionKind::body}, Spelling{"LM10", "LM10", MotionKind::leg},
        Spelling{"SS20C2", "SS20C2", MotionKind::side_step}, Spelling{"S", "S", MotionKind::body},
        Spelling{"SIT", "SIT", MotionKind::body}, Spelling{"TBC1", "TBC1", MotionKind::body},
        Spelling{"AKBK", "AKBK", MotionKind::body}, Spelling{"W4P", "W4P", MotionKind::walk},
        Spelling{"w4po", "W4PO", MotionKind::walk}, Spelling{"W10FT", "W10FT", MotionKind::walk}));

struct Ugly {
  std::string code, wrong;
};

void PrintTo(const Ugly& ugly, std::ostream* out) { *out << '"' << ugly.code << '"'; }

class UglyMotionCode : public ::testing::TestWithParam<Ugly> {};

TEST_P(UglyMotionCode, isRefusedWithItsReason) {
  const auto read = read_motion_code(GetParam().code);
  EXPECT_FALSE(read.motion);
  EXPECT_EQ(read.wrong, GetParam().wrong);
  EXPECT_FALSE(read.right.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Codes, UglyMotionCode,
    ::testing::Values(
        Ugly{"", "No code stands here."}, Ugly{"   ", "No code stands here."}, Ugly{"R", "It ends after the R."},
        Ugly{"R10", "It ends after the distance."}, Ugly{"RA", "After the R stands \"A\"."},
        Ugly{"R-10A", "After the R stands \"-10A\"."}, Ugly{"R0A", "After the R stands \"0A\"."},
        Ugly{"R1.2.3A", "After the distance stands \".3A\"."}, Ugly{"R10F", "After the distance stands \"F\"."},
        Ugly{"R10A5", "After the letter stands \"5\"."}, Ugly{"R10A G1A", "After the letter stands \"G1A\"."},
        Ugly{"R10AM", "It ends with a capital M."}, Ugly{"MR10A", "It starts with a capital M and another motion."},
        Ugly{"MM10B", "It starts with a capital M and another motion."}, Ugly{"m10B5", "It starts with a small m."},
        Ugly{"mm10B", "It starts with a small m."}, Ugly{"mG1A", "It starts with a small m."},
        Ugly{"m", "It starts with a small m."}, Ugly{"M10", "It ends after the distance."},
        Ugly{"M10D", "After the distance stands \"D\"."}, Ugly{"M10B0", "After the letter stands \"0\"."},
        Ugly{"M10B5/3", "After the letter stands \"/3\"."}, Ugly{"M10B5kg", "There is a unit in it: \"kg\"."},
        Ugly{"M10B5 lb", "There is a unit in it: \"lb\"."}, Ugly{"R30cmA", "There is a unit in it: \"cmA\"."},
        Ugly{"R30 cm", "There is a unit in it: \"cm\"."}, Ugly{"R10\"A", "There is a unit in it: \"\"A\"."},
        Ugly{"R1e3A", "After the letter stands \"3A\"."},
        Ugly{"R10\xC3\x84", "It has a letter or sign that no code has."}, Ugly{"T90", "It ends after the degrees."},
        Ugly{"TS", "After the T stands \"S\"."}, Ugly{"T90X", "After the degrees stands \"X\"."},
        Ugly{"TBC3", "\"TBC3\" is no code of the table."},
        Ugly{"T90\xC2\xB0S", "It has a letter or sign that no code has."}, Ugly{"G", "\"G\" is no code of the table."},
        Ugly{"G1", "\"G1\" is no code of the table."}, Ugly{"G6", "\"G6\" is no code of the table."},
        Ugly{"G1C4", "\"G1C4\" is no code of the table."}, Ugly{"P4SE", "After the P stands \"4SE\"."},
        Ugly{"P1E", "After the class of fit stands \"E\"."}, Ugly{"P1S", "It ends after the symmetry."},
        Ugly{"P1NS-E", "After the symmetry stands \"-E\"."}, Ugly{"P1SEE", "After the handling stands \"E\"."},
        Ugly{"RL3", "\"RL3\" is no code of the table."}, Ugly{"RL", "\"RL\" is no code of the table."},
        Ugly{"D4E", "\"D4E\" is no code of the table."}, Ugly{"D1", "\"D1\" is no code of the table."},
        Ugly{"APC", "\"APC\" is no code of the table."}, Ugly{"ET", "It ends after ET."},
        Ugly{"ET24", "It ends after the first distance."}, Ugly{"ET24/0", "After the / stands \"0\"."},
        Ugly{"ET24/18/2", "After the second distance stands \"/2\"."}, Ugly{"LM", "It ends after LM."},
        Ugly{"LM6C1", "After the distance stands \"C1\"."}, Ugly{"SS12", "It ends after the distance."},
        Ugly{"SSC1", "After SS stands \"C1\"."}, Ugly{"SS12C3", "After the distance stands \"C3\"."},
        Ugly{"W4", "It ends after the number."}, Ugly{"WP", "After the W stands \"P\"."},
        Ugly{"W4M", "After the number stands \"M\"."}, Ugly{"WALK", "After the W stands \"ALK\"."},
        Ugly{"X1", "\"X1\" is no code of the table."}, Ugly{"10A", "\"10A\" is no code of the table."},
        Ugly{"reach 10 inches, case A", "After the R stands \"each10inches,caseA\"."},
        Ugly{"#N/A", "\"#N/A\" is no code of the table."},
        Ugly{std::string("R1\0A", 4), "It has a letter or sign that no code has."},
        Ugly{std::string(2000, '9'), "It is too long to be a code."}));

} // namespace
} // namespace docket
