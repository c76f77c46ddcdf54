#include "core/ergonomics/lifting.h"
#include "tests/core/ergonomics/niosh_lifting_data.h"
#include "tests/core/ergonomics/reason_codes.h"

#include <gtest/gtest.h>

#include <limits>
#include <utility>

namespace docket {
namespace {

using niosh::number;

/// All multipliers 1: RWL is the load constant.
LiftingTask easiest(LiftUnits units = LiftUnits::metric) {
  LiftingTask task;
  task.task = "fan housing";
  task.units = units;
  task.load = 10;
  task.origin = units == LiftUnits::metric ? LiftPlace{.h = 25, .v = 75, .d = 25, .a = 0, .coupling = Coupling::good}
                                           : LiftPlace{.h = 10, .v = 30, .d = 10, .a = 0, .coupling = Coupling::good};
  task.per_min = 0.2;
  task.hours = 1;
  task.recovery_hours = 7;
  return task;
}

Coupling coupling_of(const std::string& word) {
  return word == "good" ? Coupling::good : word == "fair" ? Coupling::fair : Coupling::poor;
}

/// The reasons at the origin after one change; there must be no number then.
Codes refused(void (*change)(LiftingTask&)) {
  LiftingTask task = easiest();
  change(task);
  const LiftAtPlace at = screen_lift(task).origin;
  EXPECT_FALSE(at.exact);
  EXPECT_FALSE(at.as_printed);
  return codes_of(at.why_not);
}

// Worked examples of the manual: each multiplier as printed (two decimals), RWL one decimal, LI as many as printed. Half
// a unit of the last printed digit.
TEST(Lifting, worked_examples_of_the_manual) {
  const std::vector<niosh::Row> examples = niosh::rows("examples.csv");
  ASSERT_EQ(examples.size(), 10U);
  for (const niosh::Row& row : examples) {
    SCOPED_TRACE(row.at("case") + ", " + row.at("place"));
    LiftingTask task;
    task.recovery_hours = 8; // the class of duration is the one the manual takes
    task.units = row.at("units") == "us" ? LiftUnits::us : LiftUnits::metric;
    task.load = number(row, "load");
    task.origin = {.h = number(row, "h"),
                   .v = number(row, "v"),
                   .d = number(row, "d"),
                   .a = number(row, "a"),
                   .coupling = coupling_of(row.at("coupling"))};
    task.per_min = number(row, "per_min");
    task.hours = number(row, "hours");
    const LiftAtPlace at = screen_lift(task).origin;
    ASSERT_TRUE(at.as_printed && at.exact);
    const LiftMultipliers &printed = at.as_printed->multipliers, &exact = at.exact->multipliers;
    for (const auto& [name, rounded, unrounded] :
         {std::tuple{"hm", printed.hm, exact.hm}, std::tuple{"vm", printed.vm, exact.vm},
          std::tuple{"dm", printed.dm, exact.dm}, std::tuple{"am", printed.am, exact.am},
          std::tuple{"fm", printed.fm, exact.fm}, std::tuple{"cm", printed.cm, exact.cm}}) {
      EXPECT_NEAR(rounded, number(row, name), 1e-12) << name;
      // HM at 23 in: the table prints 0.44, the equation gives 0.4348.
      const bool differs = name == std::string("hm") && number(row, "h") == 23;
      EXPECT_NEAR(unrounded, differs ? 10.0 / 23 : number(row, name), 0.005 + 1e-9) << name;
    }
    EXPECT_NEAR(at.as_printed->rwl, number(row, "rwl"), 1e-9);
    const double half_a_digit = row.at("li").size() == 3 ? 0.05 : 0.005;
    EXPECT_NEAR(at.as_printed->li, number(row, "li"), half_a_digit + 1e-9);
  }
}

// The first example without rounding of multipliers: 16.02 lb where the manual prints 16.3. By hand: 51 x 10/23 x
// (1 - 0.0075 x 15) x (0.82 + 1.8/49) x 0.95.
TEST(Lifting, unrounded_multipliers_differ_from_the_print) {
  LiftingTask task = easiest(LiftUnits::us);
  task.load = 44;
  task.origin = {.h = 23, .v = 15, .d = 49, .a = 0, .coupling = Coupling::fair};
  const LiftAtPlace at = screen_lift(task).origin;
  EXPECT_NEAR(at.exact->rwl, 51 * (10.0 / 23) * 0.8875 * (0.82 + 1.8 / 49) * 0.95, 1e-12);
  EXPECT_NEAR(at.exact->rwl, 16.02, 0.005);
  EXPECT_NEAR(at.as_printed->rwl, 16.3, 1e-9);
}

// Products printed by CCOHS (Canadian Centre for Occupational Health and Safety), metric: 23 x 0.50 x 0.95 = 10.9,
// 23 x 0.80 x 0.95 = 17.5, 23 x 0.93 x 0.71 x 0.13 = 1.97. The lifts that give these multipliers are ours.
TEST(Lifting, metric_products_in_print) {
  LiftingTask far = easiest();
  far.origin = {.h = 50, .v = 74, .d = 25, .a = 0, .coupling = Coupling::fair};
  EXPECT_NEAR(screen_lift(far).origin.as_printed->rwl, 10.9, 1e-9);
  LiftingTask often = easiest();
  often.per_min = 5;
  often.origin.a = 15;
  EXPECT_NEAR(screen_lift(often).origin.as_printed->rwl, 17.5, 1e-9);
  LiftingTask turned = easiest();
  turned.per_min = 10;
  turned.hours = 8;
  turned.origin.v = 100;
  turned.origin.a = 90;
  const LiftMultipliers m = screen_lift(turned).origin.as_printed->multipliers;
  EXPECT_NEAR(23 * m.hm * m.vm * m.dm * m.am * m.fm * m.cm, 1.97, 0.005);
}

// Tables 1 to 4 as reprinted, both systems of units.
TEST(Lifting, printed_multiplier_tables) {
  const std::vector<niosh::Row> printed = niosh::rows("multipliers.csv");
  ASSERT_EQ(printed.size(), 102U);
  for (const niosh::Row& row : printed) {
    SCOPED_TRACE(row.at("of") + " " + row.at("units") + " " + row.at("at"));
    LiftingTask task = easiest(row.at("units") == "us" ? LiftUnits::us : LiftUnits::metric);
    const std::string of = row.at("of");
    const double at = number(row, "at");
    (of == "h" ? task.origin.h : of == "v" ? task.origin.v : of == "d" ? task.origin.d : *task.origin.a) = at;
    const LiftMultipliers m = screen_lift(task).origin.as_printed->multipliers;
    const double found = of == "h" ? m.hm : of == "v" ? m.vm : of == "d" ? m.dm : m.am;
    EXPECT_NEAR(found, number(row, "multiplier"), 1e-12);
  }
}

// Three cells of the tables are not what the equations give; `exact` keeps to the equations.
TEST(Lifting, cells_that_differ_from_the_equations) {
  LiftingTask us = easiest(LiftUnits::us), metric = easiest();
  us.origin.h = 23;
  EXPECT_NEAR(screen_lift(us).origin.exact->multipliers.hm, 10.0 / 23, 1e-15);
  us.origin.h = 22;
  EXPECT_NEAR(screen_lift(us).origin.exact->multipliers.hm, 10.0 / 22, 1e-15);
  metric.origin.d = 130;
  EXPECT_NEAR(screen_lift(metric).origin.exact->multipliers.dm, 0.82 + 4.5 / 130, 1e-15);
}

// Table 5, every cell; 0 is beyond the table.
TEST(Lifting, printed_frequency_table) {
  const std::vector<niosh::Row> printed = niosh::rows("frequency.csv");
  ASSERT_EQ(printed.size(), 17U);
  for (const niosh::Row& row : printed)
    for (const auto& [name, duration] :
         {std::pair{"up_to_1_h", LiftDuration::up_to_1_h}, std::pair{"up_to_2_h", LiftDuration::up_to_2_h},
          std::pair{"up_to_8_h", LiftDuration::up_to_8_h}})
      for (const bool low : {true, false}) {
        SCOPED_TRACE(row.at("lifts_per_min") + name + (low ? " low" : " high"));
        const double expected = number(row, std::string(name) + (low ? "_low" : "_high"));
        const std::optional<double> found = frequency_multiplier(number(row, "lifts_per_min"), duration, low);
        EXPECT_EQ(found.has_value(), expected > 0);
        if (found) {
          EXPECT_NEAR(*found, expected, 1e-12);
        }
      }
}

// Between rows a straight line (common practice): half way from 0.94 to 0.91, from 0.88 to 0.84.
TEST(Lifting, frequency_between_rows) {
  EXPECT_NEAR(*frequency_multiplier(1.5, LiftDuration::up_to_1_h, true), 0.925, 1e-12);
  EXPECT_NEAR(*frequency_multiplier(3.5, LiftDuration::up_to_1_h, true), 0.86, 1e-12);
  LiftingTask task = easiest();
  task.per_min = 1.5;
  EXPECT_EQ(codes_of(screen_lift(task).origin.notes), Codes{"frequency_between_rows"});
}

// Past the last row above zero nothing is read from a line towards zero.
TEST(Lifting, frequency_past_the_last_row_has_none) {
  EXPECT_TRUE(frequency_multiplier(8, LiftDuration::up_to_8_h, true));
  EXPECT_FALSE(frequency_multiplier(8.1, LiftDuration::up_to_8_h, true));
  EXPECT_TRUE(frequency_multiplier(8.1, LiftDuration::up_to_8_h, false));
  EXPECT_FALSE(frequency_multiplier(15.1, LiftDuration::up_to_1_h, false));
}

// Table 5, footnote: less often than once in 5 minutes counts as 0.2 a minute.
TEST(Lifting, seldom_lifts_count_as_one_in_five_minutes) {
  LiftingTask task = easiest();
  task.per_min = 0.05;
  task.hours = 8;
  const LiftAtPlace at = screen_lift(task).origin;
  EXPECT_NEAR(at.exact->multipliers.fm, 0.85, 1e-12);
  EXPECT_EQ(codes_of(at.notes), Codes{"frequency_taken_as_least"});
}

// Table 7, every cell, in both systems of units; low ends at 75 cm (30 in), which is high already.
TEST(Lifting, printed_coupling_table) {
  for (const niosh::Row& row : niosh::rows("coupling.csv"))
    for (const auto& [units, edge] : {std::pair{LiftUnits::metric, 75.0}, std::pair{LiftUnits::us, 30.0}}) {
      SCOPED_TRACE(row.at("coupling"));
      LiftingTask task = easiest(units);
      task.origin.coupling = coupling_of(row.at("coupling"));
      task.origin.v = edge;
      EXPECT_NEAR(screen_lift(task).origin.exact->multipliers.cm, number(row, "high"), 1e-12);
      task.origin.v = edge - 0.1;
      EXPECT_NEAR(screen_lift(task).origin.exact->multipliers.cm, number(row, "low"), 1e-12);
    }
}

// The load constants: with every multiplier 1, 23 kg and 51 lb; twice as much is LI 2.
TEST(Lifting, at_its_easiest_the_limit_is_the_load_constant) {
  LiftingTask metric = easiest(), us = easiest(LiftUnits::us);
  metric.load = 46;
  us.load = 102;
  EXPECT_DOUBLE_EQ(screen_lift(metric).origin.exact->rwl, 23);
  EXPECT_DOUBLE_EQ(screen_lift(us).origin.exact->rwl, 51);
  EXPECT_DOUBLE_EQ(screen_lift(metric).origin.exact->li, 2);
  EXPECT_DOUBLE_EQ(screen_lift(us).origin.as_printed->li, 2);
  EXPECT_TRUE(screen_lift(metric).origin.notes.empty());
  EXPECT_TRUE(screen_lift(metric).notes.empty());
}

// FIRWL leaves the frequency out: FILI = LI x FM (0.65 at 2 a minute, 8 h).
TEST(Lifting, without_the_frequency) {
  LiftingTask task = easiest();
  task.per_min = 2;
  task.hours = 8;
  const LiftLimit limit = *screen_lift(task).origin.exact;
  EXPECT_DOUBLE_EQ(limit.firwl, 23);
  EXPECT_NEAR(limit.rwl, 23 * 0.65, 1e-12);
  EXPECT_NEAR(limit.fili, limit.li * 0.65, 1e-12);
}

// The manual: H below 25 cm and D below 25 cm count as 25.
TEST(Lifting, short_distances_count_as_the_least) {
  LiftingTask task = easiest();
  task.origin.h = 18;
  task.origin.d = 5;
  const LiftAtPlace at = screen_lift(task).origin;
  EXPECT_DOUBLE_EQ(at.exact->rwl, 23);
  EXPECT_EQ(codes_of(at.notes), (Codes{"h_taken_as_least", "d_taken_as_least"}));
}

TEST(Lifting, each_bad_value_has_its_own_reason) {
  EXPECT_EQ(refused([](LiftingTask& t) { t.load = 0; }), Codes{"load_not_positive"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.h = 0; }), Codes{"h_not_positive"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.h = 63.1; }), Codes{"h_beyond_range"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.v = -1; }), Codes{"v_negative"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.v = 176; }), Codes{"v_beyond_range"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.d = 0; }), Codes{"d_not_positive"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.d = 176; }), Codes{"d_beyond_range"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.a = -5; }), Codes{"a_negative"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.origin.a = 200; }), Codes{"a_beyond_range"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.per_min = 0; }), Codes{"per_min_not_positive"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.per_min = 16; }), Codes{"per_min_beyond_table"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.hours = 0; }), Codes{"hours_not_positive"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.hours = 9; }), Codes{"hours_beyond_range"});
  EXPECT_EQ(refused([](LiftingTask& t) { t.load = std::numeric_limits<double>::quiet_NaN(); }),
            Codes{"load_not_positive"});
}

TEST(Lifting, several_bad_values_are_all_named) {
  EXPECT_EQ(refused([](LiftingTask& t) {
              t.load = 0;
              t.origin.a = 200;
              t.hours = 9;
            }),
            (Codes{"load_not_positive", "a_beyond_range", "hours_beyond_range"}));
}

// The edges of the range are inside it: H 63, V 175, D 175, A 135, 8 h; in US units H 25, V 70, D 70.
TEST(Lifting, the_edges_are_inside) {
  LiftingTask task = easiest();
  task.origin = {.h = 63, .v = 175, .d = 175, .a = 135, .coupling = Coupling::good};
  task.hours = 8;
  EXPECT_TRUE(screen_lift(task).origin.exact);
  LiftingTask us = easiest(LiftUnits::us);
  us.origin = {.h = 25, .v = 70, .d = 70, .a = 135, .coupling = Coupling::good};
  EXPECT_TRUE(screen_lift(us).origin.exact);
  us.origin.h = 25.1;
  EXPECT_EQ(codes_of(screen_lift(us).origin.why_not), Codes{"h_beyond_range"});
}

// The recovery rule: an hour asks for 1.2 times its length, two hours for 0.3 (from memory).
TEST(Lifting, duration_classes_need_their_recovery) {
  using enum LiftDuration;
  EXPECT_EQ(lift_duration(1, 1.2), up_to_1_h);
  EXPECT_EQ(lift_duration(1, 1.19), up_to_2_h);
  EXPECT_EQ(lift_duration(1, 0.29), up_to_8_h);
  EXPECT_EQ(lift_duration(1.01, 7), up_to_2_h);
  EXPECT_EQ(lift_duration(2, 0.6), up_to_2_h);
  EXPECT_EQ(lift_duration(2, 0.59), up_to_8_h);
  EXPECT_EQ(lift_duration(2.01, 5), up_to_8_h);
  EXPECT_EQ(lift_duration(8, 0), up_to_8_h);
  EXPECT_EQ(lift_duration(8.01, 0), std::nullopt);
  EXPECT_EQ(lift_duration(1, std::nullopt), up_to_8_h); // the strictest that it may be
  EXPECT_EQ(lift_duration(std::nullopt, 5), up_to_8_h);
}

TEST(Lifting, what_was_taken_as_given_is_noted) {
  LiftingTask task = easiest();
  task.recovery_hours.reset();
  EXPECT_EQ(codes_of(screen_lift(task).notes), Codes{"recovery_not_given"});
  task.recovery_hours = 0.5;
  EXPECT_EQ(codes_of(screen_lift(task).notes), Codes{"recovery_too_short"});
  EXPECT_EQ(screen_lift(task).duration, LiftDuration::up_to_2_h);
  task.hours.reset();
  task.origin.a.reset();
  task.origin.coupling.reset();
  const LiftScreening screened = screen_lift(task);
  EXPECT_EQ(codes_of(screened.notes), Codes{"hours_not_given"});
  EXPECT_EQ(codes_of(screened.origin.notes), (Codes{"a_not_given", "coupling_not_given"}));
  // The strictest that it may be: 0.85 for 2 to 8 hours, 0.90 for poor coupling.
  EXPECT_NEAR(screened.origin.exact->rwl, 23 * 0.85 * 0.90, 1e-12);
}

// The destination has its own number and its own reasons; package inspection of the manual, 34.9 and 15.2 lb.
TEST(Lifting, origin_and_destination_apart) {
  LiftingTask task = easiest(LiftUnits::us);
  task.load = 26;
  task.origin = {.h = 10, .v = 22, .d = 37, .a = 0, .coupling = Coupling::fair};
  task.destination = LiftPlace{.h = 20, .v = 59, .d = 37, .a = 0, .coupling = Coupling::fair};
  task.per_min = 3;
  const LiftScreening both = screen_lift(task);
  EXPECT_NEAR(both.origin.as_printed->rwl, 34.9, 1e-9);
  EXPECT_NEAR(both.destination->as_printed->rwl, 15.2, 1e-9);
  EXPECT_TRUE(both.notes.empty());
  task.destination->h = 30;
  task.destination->v = 65;
  const LiftScreening one = screen_lift(task);
  EXPECT_TRUE(one.origin.exact);
  EXPECT_EQ(codes_of(one.destination->why_not), Codes{"h_beyond_range"});
  EXPECT_EQ(codes_of(one.notes), Codes{"d_is_not_the_height_difference"});
}

// As many lifts a unit: a line twice as fast has twice the lifts a minute, 2 to 4; FM 0.65 to 0.45 at 8 h.
TEST(Lifting, a_faster_line_lifts_more_often) {
  LiftingTask task = easiest();
  task.per_min = 2;
  task.hours = 8;
  const LiftingTask faster = lift_at_line_cycle(task, Seconds{60}, Seconds{30});
  EXPECT_DOUBLE_EQ(faster.per_min, 4);
  EXPECT_NEAR(screen_lift(faster).origin.exact->rwl / screen_lift(task).origin.exact->rwl, 0.45 / 0.65, 1e-12);
}

} // namespace
} // namespace docket
