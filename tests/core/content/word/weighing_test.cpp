// From levels to a word, by hand: two lines with known uncertainty, and what one changed thing does.
#include "core/content/word/weighing.h"
#include "core/statistics/distributions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

LineLevel level(double seconds, double u) {
  LineLevel out;
  out.time = Seconds{seconds};
  out.u = out.u_as_agreed = u;
  out.df = infinite;
  return out;
}

SettledOperators operators(double seconds, double s, std::int64_t m) {
  SettledOperators line;
  line.operators = m;
  line.s = s;
  line.level = level(seconds, 0);
  line.level.se = s / std::sqrt(static_cast<double>(m));
  line.level.df = static_cast<double>(m - 1);
  line.level.u = std::hypot(line.level.se, 0.05);
  return line;
}

WeighingBasis basis(double standard_s) {
  WeighingBasis b;
  b.standard = level(standard_s, 0.05);
  b.limit = Seconds{60};
  b.zone_given = b.spread_known = true;
  b.sequence = SequenceRoomAtLevel{0.20, std::log(standard_s / 60)};
  return b;
}

// P = Phi(ln(60/54)/0.05): normal table, 2.1072 gives 0.98245.
TEST(Weighing, OneLine) {
  const Weighing w = weigh(basis(54));
  EXPECT_NEAR(w.combined.p_fits, 0.98245, 5e-5);
  EXPECT_EQ(w.decision.word, ContentWord::fits);
  EXPECT_EQ(w.lines.size(), 1U);
}

// Where a second line moves the level, the room in the sequence moves with it: ln k* + ln T is one number.
TEST(Weighing, TheSequenceMarginMovesWithTheLevel) {
  WeighingBasis b = basis(54);
  b.restudy = level(58, 0.05);
  b.restudied = 3;
  const Weighing w = weigh(b);
  EXPECT_NEAR(*w.ln_k_star + w.combined.ln_ratio, 0.20 + std::log(54.0 / 60), 1e-12);
  EXPECT_NEAR(w.combined.ln_ratio, (std::log(54.0 / 60) + std::log(58.0 / 60)) / 2, 1e-12); // equal weights
}

// u_able by hand: z = 1.28155 (90 %), u_able^2 = u^2 + z^2 s^2 / (2 (m - 1)).
TEST(Weighing, TheShareAbleByHand) {
  WeighingBasis b = basis(54);
  b.settled = operators(54, 0.04, 5);
  const Weighing w = weigh(b);
  const double z = 1.2815515655446004, s = 0.04, reach = -w.combined.ln_ratio;
  const double u_s = z * s / std::sqrt(8.0), u_able = std::hypot(w.combined.u, u_s);
  const double df = std::pow(u_able, 4) / (std::pow(w.combined.u, 4) / w.combined.df + std::pow(u_s, 4) / 4);
  EXPECT_NEAR(*w.share_able.estimate, normal_cdf(reach / s), 1e-12);
  EXPECT_NEAR(*w.share_able.p_able, student_t_cdf((reach - z * s) / u_able, df), 1e-9);
}

TEST(Weighing, FitsNeedsTheOtherRowsToo) {
  WeighingBasis b = basis(53);
  b.settled = operators(53, 0.02, 5);
  EXPECT_EQ(weigh(b).decision.word, ContentWord::fits);
  b.must_agree = {operators(54, 0.02, 5)};
  EXPECT_EQ(weigh(b).decision.word, ContentWord::fits);
  b.must_agree.push_back(operators(62, 0.02, 5));
  EXPECT_EQ(weigh(b).decision.word, ContentWord::not_shown);
  EXPECT_EQ(weigh(b).decision.row, 6);
}

TEST(Weighing, DoesNotFitAsksNothingOfTheOtherRows) {
  WeighingBasis b = basis(70);
  b.settled = operators(70, 0.02, 5);
  b.must_agree = {operators(50, 0.02, 5)};
  EXPECT_EQ(weigh(b).decision.word, ContentWord::does_not_fit);
}

// m_shared s^2 / (m2 m3): three of the five settled among the four restudied.
TEST(Weighing, PeopleInBothLinesAreShared) {
  WeighingBasis b = basis(54);
  b.settled = operators(54, 0.04, 5);
  b.restudy = level(55, 0.05);
  b.restudied = 4;
  b.settled_and_restudied = 3;
  b.shared_level = 0.0025;
  const Weighing w = weigh(b);
  EXPECT_NEAR(w.shared.settled_restudy, 3 * 0.0016 / 20, 1e-15);
  EXPECT_EQ(w.shared.standard_restudy, 0.0025);
}

} // namespace
} // namespace docket
