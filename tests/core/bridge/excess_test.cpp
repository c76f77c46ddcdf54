// Where the excess lies: closed forms, R, and how often one more settled operator stands out by chance. Simulated data are
// nobody's.
#include "core/bridge/excess.h"
#include "core/statistics/distributions.h"
#include "core/statistics/random.h"
#include "core/statistics/summary.h"
#include "tests/core/made_case.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

struct Made {
  Case input = made::one_element_case(60, 40);
  ContentFindings content;
  Adaptation adaptation;
};

/// K1 asked about; `peers` settled operators after. Two variants, light 0.7 and heavy 0.3; element E2 of 5 s is done twice
/// on heavy units only.
Made made_station(int peers = 4) {
  Made m;
  m.input.variants = {made::variant("light", 0.7), made::variant("heavy", 0.3, {"H"})};
  StandardElement tank = made::element("E2", 5, 0);
  tank.any_option = {"H"};
  tank.times_per_unit = 2;
  m.input.standard.push_back(tank);
  for (std::int32_t op = 0; op <= peers; ++op) {
    m.input.operators.push_back(made::trained("K" + std::to_string(op + 1)));
    OperatorLevel level;
    level.op = op;
    level.status = op == 0 ? OperatorStatus::falling : OperatorStatus::settled;
    m.content.settled.per_operator.push_back(level);
  }
  m.content.standard = build_standard_time(m.input, Seconds{60});
  m.adaptation.op = 0;
  m.adaptation.word = AdaptationWord::still_learning;
  return m;
}

Excess excess_of(const Made& m) {
  return find_excess(m.input, gather_evidence(m.input, Seconds{60}), m.content, m.adaptation);
}

/// One session an operator and day, six cycles each with E1 and both occurrences of E2 on a heavy unit, around the times.
void time_elements(Made& m, std::int32_t op, double e1, double e2, int days = 1, int cycles = 6) {
  for (int d = 0; d < days; ++d) {
    const auto session = static_cast<std::int32_t>(m.input.sessions.size());
    m.input.sessions.push_back(made::session("S" + std::to_string(session + 1), op, d, 1.0));
    for (int i = 1; i <= cycles; ++i) {
      const double pattern = i % 2 == 0 ? 1.02 : 0.98;
      const auto row = static_cast<std::int64_t>(m.input.readings.size()) + 2;
      for (int part = 0; part < 3; ++part) {
        Reading reading = made::whole_reading(session, i, (part == 0 ? e1 : e2) * pattern, row + part);
        reading.element = part == 0 ? 0 : 1;
        reading.variant = 1;
        m.input.readings.push_back(reading);
      }
    }
  }
}

// R: t with 4 degrees of freedom, s sqrt(1 + 1/5) (tests/reference/r_robust).
TEST(Excess, OneBesideFiveAgreesWithR) {
  const auto r = testing::read_reference_values("r_robust");
  std::vector<OwnValue> peers;
  for (const double seconds : {10.9, 11.3, 10.4, 11.0, 11.6}) peers.push_back({std::log(seconds), 0.0001, 5});
  const BesidePeers beside = compare_with_peers({std::log(12.6), 0.0001, 5}, peers);
  const double reach = student_t_quantile(0.975, beside.df) * beside.u;
  EXPECT_EQ(beside.df, 4);
  EXPECT_NEAR(std::exp(beside.difference), r.at("beside_five.ratio"), 1e-12);
  EXPECT_NEAR(std::exp(beside.difference - reach), r.at("beside_five.low"), 1e-9);
  EXPECT_NEAR(std::exp(beside.difference + reach), r.at("beside_five.high"), 1e-9);
}

// By hand: s^2 = 0.01, so 0.01 (1 + 1/3) between; own 0.04 is 0.03 more than the peers' 0.01. Welch-Satterthwaite:
// (0.043333)^2 / (0.013333^2/2 + 0.03^2/5) = 0.00187778 / (0.0000888889 + 0.00018) = 6.98347.
TEST(Excess, AnErrorLargerThanThePeersIsAdded) {
  const std::vector<OwnValue> peers{{-0.1, 0.01, 9}, {0, 0.01, 9}, {0.1, 0.01, 9}};
  const BesidePeers beside = compare_with_peers({0.2, 0.04, 5}, peers);
  EXPECT_NEAR(beside.difference, 0.2, 1e-15);
  EXPECT_NEAR(beside.u * beside.u, 0.01 * 4 / 3 + 0.03, 1e-15);
  EXPECT_NEAR(beside.df, 6.98347, 1e-5);
}

// One more of the same people: outside the interval 5 times in 100. 4,000 tries: 3 standard errors are 1.03.
TEST(Excess, OneMoreOfTheSamePeopleStandsOutAsOftenAsSaid) {
  const Draws draws(11);
  for (const double own_variance : {0.0004, 0.0016}) {
    int outside = 0;
    constexpr int tries = 4000;
    for (std::uint64_t i = 0; i < tries; ++i) {
      const auto draw = [&](std::uint64_t at, double variance) {
        return 0.05 * draws.normal(1, i, at) + std::sqrt(variance) * draws.normal(2, i, at);
      };
      std::vector<OwnValue> peers;
      for (std::uint64_t p = 1; p <= 4; ++p) peers.push_back({draw(p, 0.0004), 0.0004, 20});
      const BesidePeers beside = compare_with_peers({draw(0, own_variance), own_variance, 20}, peers);
      outside += std::abs(beside.difference) > student_t_quantile(0.975, beside.df) * beside.u ? 1 : 0;
    }
    EXPECT_NEAR(outside / static_cast<double>(tries), 0.05, 0.0105) << own_variance;
  }
}

// E1: own 44 beside 40, 41, 42, 43: geometric mean 41.48493. E2: own 6 a time beside 5 of everybody: 1.2, and
// 2 times on 0.3 of the units, so 1 s x 2 x 0.3 = 0.6 s a unit.
TEST(Excess, ByElementByHand) {
  Made m = made_station();
  time_elements(m, 0, 44, 6);
  for (std::int32_t op = 1; op <= 4; ++op) time_elements(m, op, 39.0 + op, 5);
  const Excess excess = excess_of(m);
  ASSERT_EQ(excess.elements.parts.size(), 2U) << excess.elements.absent_why;
  const ExcessPart &e1 = excess.elements.parts[0], &e2 = excess.elements.parts[1];
  const double peers = std::pow(40.0 * 41 * 42 * 43, 0.25);
  EXPECT_NEAR(peers, 41.48493, 1e-5);
  EXPECT_EQ(e1.index, 0);
  EXPECT_NEAR(e1.ratio, 44 / peers, 1e-12);
  EXPECT_NEAR(e1.seconds.count(), 44 - peers, 1e-9);
  EXPECT_EQ(e1.n, 6);
  EXPECT_EQ(e1.peers, 4);
  EXPECT_EQ(e1.peers_n, 24);
  // The same pattern for everybody: own errors are alike, and the interval is that of one beside four, 3 df.
  std::vector<double> logs;
  for (int op = 1; op <= 4; ++op) logs.push_back(std::log(39.0 + op));
  const double reach = 3.182446 * summarise(logs).sd * std::sqrt(1.25); // t(3; 0.975), printed tables
  EXPECT_NEAR(std::log(e1.high / e1.ratio), reach, 1e-6);
  EXPECT_NEAR(std::log(e1.ratio / e1.low), reach, 1e-6);
  EXPECT_NEAR(e1.seconds_low.count(), peers * (e1.low - 1), 1e-9);
  EXPECT_FALSE(e1.stands_out());
  EXPECT_NEAR(e2.ratio, 1.2, 1e-12);
  EXPECT_NEAR(e2.seconds.count(), 0.6, 1e-9);
  EXPECT_TRUE(e2.stands_out());
  EXPECT_EQ(excess.elements.standing_out, 1);
  EXPECT_NEAR(excess.elements.by_chance, 2 * 0.05, 1e-12);
}

// Three days or more: the own error comes from the days. Days at 40, 44, 48: SD of the means 4, so 4/44/root 3.
TEST(Excess, DaysCarryTheErrorWhereThereAreThree) {
  Made m = made_station();
  for (int d = 0; d < 3; ++d) {
    time_elements(m, 0, 40.0 + 4 * d, 5);
    m.input.sessions.back().date = made::day(d);
  }
  for (std::int32_t op = 1; op <= 4; ++op) time_elements(m, op, 39.0 + op, 5);
  const Excess excess = excess_of(m);
  ASSERT_EQ(excess.elements.parts.size(), 2U);
  std::vector<double> logs;
  for (int op = 1; op <= 4; ++op) logs.push_back(std::log(39.0 + op));
  // Peers, six cycles at 0.98 and 1.02 in turn: SD 0.02 sqrt(6/5), negative likeness, so worth six and no more.
  const double peers_variance = 0.0004 * 6 / 5 / 6, own = std::pow(4.0 / 44, 2) / 3;
  const double between = std::pow(summarise(logs).sd, 2) * 1.25, more = own - peers_variance;
  const double df = std::pow(between + more, 2) / (between * between / 3 + more * more / 2);
  const double reach = student_t_quantile(0.975, df) * std::sqrt(between + more);
  EXPECT_NEAR(std::log(excess.elements.parts[0].high / excess.elements.parts[0].ratio), reach, 1e-9);
}

TEST(Excess, MarkedAndTouchedReadingsAreOut) {
  Made m = made_station();
  time_elements(m, 0, 44, 6);
  for (std::int32_t op = 1; op <= 4; ++op) time_elements(m, op, 39.0 + op, 5);
  const Excess before = excess_of(m);
  time_elements(m, 0, 90, 30);
  for (Reading& reading : m.input.readings)
    if (reading.session == 5 && reading.element == 1) reading.marks.set(Mark::foreign);
  const Excess marked = excess_of(m);
  ASSERT_EQ(marked.elements.parts.size(), 2U);
  EXPECT_EQ(marked.elements.parts[0].ratio, before.elements.parts[0].ratio);
  EXPECT_EQ(marked.elements.parts[0].n, 6);
  for (Reading& reading : m.input.readings) reading.marks = {};
  Condition condition;
  condition.check = "driver";
  condition.state = ConditionState::differs;
  condition.sessions = {5};
  m.input.conditions = {condition};
  EXPECT_EQ(excess_of(m).elements.parts[0].n, 6);
}

TEST(Excess, ReasonsByElement) {
  Made m = made_station(3);
  for (std::int32_t op = 1; op <= 3; ++op) time_elements(m, op, 39.0 + op, 5);
  EXPECT_EQ(excess_of(m).elements.absent_why, "no_element_readings");
  time_elements(m, 0, 44, 6, 1, 4);
  EXPECT_EQ(excess_of(m).elements.absent_why, "no_element_readings");
  time_elements(m, 0, 44, 6, 1, 4);
  EXPECT_EQ(excess_of(m).elements.parts.size(), 2U);
  m.content.settled.per_operator[3].status = OperatorStatus::too_short;
  EXPECT_EQ(excess_of(m).elements.absent_why, "too_few_peers_timed");
  // The person is no peer of their own.
  m.content.settled.per_operator[0].status = OperatorStatus::settled;
  EXPECT_EQ(excess_of(m).elements.absent_why, "too_few_peers_timed");
}

/// `days` of 40 cycles; of every 10, `heavy` heavy ones. A pattern of mean 0 in the logarithm, the same for both variants.
template <class Time, class Heavy>
void log_days(Made& m, std::int32_t op, int days, Heavy heavy, Time time) {
  for (int d = 0; d < days; ++d)
    for (int i = 0; i < 40; ++i) {
      const int v = i / 2 % 10 < heavy(d) ? 1 : 0;
      const double pattern = std::exp(i % 2 == 0 ? 0.02 : -0.02);
      m.input.cycle_log.push_back(made::logged(op, made::at(d, 6 + i * 0.025), time(d, v) * pattern,
                                               static_cast<std::int64_t>(m.input.cycle_log.size()) + 2, v));
    }
}

int three(int) { return 3; }
double as_standard(int v) { return v == 1 ? 50 : 40; }

// Heavy units 10 % longer, light ones as others have them. Content: light 0.7 x 40 = 28, heavy 0.3 x 50 = 15. Beside the
// own overall ratio: heavy e^(ln 1.1 x 28/43), light e^(-ln 1.1 x 15/43). Seconds on a heavy unit: 55 (1 - 1/ratio).
TEST(Excess, ByVariantByHand) {
  Made m = made_station();
  log_days(m, 0, 4, three, [](int, int v) { return v == 1 ? 55 : 40; });
  for (std::int32_t op = 1; op <= 4; ++op)
    log_days(m, op, 4, three, [&](int, int v) { return as_standard(v) * (1 + 0.02 * op); });
  const Excess excess = excess_of(m);
  ASSERT_EQ(excess.variants.parts.size(), 2U) << excess.variants.absent_why;
  const ExcessPart &light = excess.variants.parts[0], &heavy = excess.variants.parts[1];
  EXPECT_NEAR(heavy.ratio, std::pow(1.1, 28.0 / 43), 1e-9);
  EXPECT_NEAR(light.ratio, std::pow(1.1, -15.0 / 43), 1e-9);
  EXPECT_NEAR(heavy.seconds.count(), 55 * std::cosh(0.02) * (1 - 1 / heavy.ratio), 1e-9);
  EXPECT_EQ(heavy.n, 48);
  EXPECT_EQ(light.n, 112);
  EXPECT_EQ(heavy.peers, 4);
  EXPECT_EQ(heavy.peers_n, 4 * 48);
  EXPECT_EQ(excess.variants.standing_out, 2);
}

// A level 8 % lower from day to day, while more and more heavy units are built: no variant is longer than another. Without
// the days, the heavy ones would look shorter by a good part of the fall.
TEST(Excess, AFallFromDayToDayIsNoDifferenceOfVariants) {
  Made m = made_station();
  log_days(
      m, 0, 3, [](int d) { return 2 + 2 * d; }, [](int d, int v) { return as_standard(v) * std::exp(-0.08 * d); });
  for (std::int32_t op = 1; op <= 4; ++op) log_days(m, op, 4, three, [](int, int v) { return as_standard(v); });
  const Excess excess = excess_of(m);
  ASSERT_EQ(excess.variants.parts.size(), 2U) << excess.variants.absent_why;
  EXPECT_NEAR(excess.variants.parts[1].ratio, 1, 1e-9);
  EXPECT_LE(excess.variants.parts[1].low, 1);
  EXPECT_GE(excess.variants.parts[1].high, 1);
}

// A learner whose variants differ from the standard as those of any settled operator may (2 %), with cycles that hang
// together (0.3): outside 5 times in 100, fewer where the likeness of neighbours widens more than it must. 400 tries: 3
// standard errors are 3.3.
TEST(Excess, ALearnerLikeTheOthersSeldomStandsOutByVariant) {
  const Draws draws(23);
  int outside = 0;
  constexpr int tries = 400;
  for (std::uint64_t i = 0; i < tries; ++i) {
    Made m = made_station();
    for (std::int32_t op = 0; op <= 4; ++op) {
      const auto person = static_cast<std::uint64_t>(op);
      double left = 0;
      std::uint64_t at = 0;
      log_days(m, op, 4, three, [&](int d, int v) {
        left = 0.3 * left + 0.04 * draws.normal(person, i, ++at);
        const double own = (v == 1 ? 1 : -0.4) * 0.02 * draws.normal(100 + person, i, 0);
        return as_standard(v) *
               std::exp(own + left + (op == 0 ? 0.3 * std::exp(-d - static_cast<double>(at) / 160) : 0.0));
      });
    }
    const Excess excess = excess_of(m);
    ASSERT_EQ(excess.variants.parts.size(), 2U);
    outside += excess.variants.parts[1].stands_out() ? 1 : 0;
  }
  EXPECT_LE(outside / static_cast<double>(tries), 0.083);
  EXPECT_GE(outside / static_cast<double>(tries), 0.01);
}

TEST(Excess, ReasonsByVariant) {
  Made m = made_station(3);
  log_days(
      m, 0, 4, [](int d) { return d < 2 ? 0 : 10; }, [](int, int v) { return as_standard(v); });
  for (std::int32_t op = 1; op <= 3; ++op) log_days(m, op, 4, three, [](int, int v) { return as_standard(v); });
  EXPECT_EQ(excess_of(m).variants.absent_why, "variants_apart");
  m.content.settled.per_operator[3].status = OperatorStatus::too_short;
  EXPECT_EQ(excess_of(m).variants.absent_why, "too_few_peers_by_variant");
  m.input.cycle_log.clear();
  log_days(m, 0, 1, three, [](int, int v) { return as_standard(v); }); // 12 heavy ones
  EXPECT_EQ(excess_of(m).variants.absent_why, "one_variant");
}

// Nothing to read from, not even counts, and the same whatever the data hold.
TEST(Excess, NothingUnderNotAssessableNow) {
  Made m = made_station();
  time_elements(m, 0, 44, 6);
  for (std::int32_t op = 1; op <= 4; ++op) time_elements(m, op, 39.0 + op, 5);
  m.adaptation.word = AdaptationWord::not_assessable_now;
  const Excess excess = excess_of(m);
  for (const ExcessParts* parts : {&excess.elements, &excess.variants}) {
    EXPECT_TRUE(parts->parts.empty());
    EXPECT_EQ(parts->absent_why, "not_assessable_now");
    EXPECT_EQ(parts->standing_out, 0);
    EXPECT_EQ(parts->by_chance, 0);
  }
}

} // namespace
} // namespace docket
