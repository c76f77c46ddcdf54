// The figures: what they hold, and that nothing lies over anything else or outside.
#include "report/figures/bridge_bars.h"
#include "report/figures/condition_lanes.h"
#include "report/figures/dot_plot.h"
#include "report/figures/practice_curve.h"
#include "report/figures/seconds_axis.h"
#include "report/figures/sequence_stress.h"
#include "report/figures/variant_bars.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace docket {
namespace {

struct Extent {
  double left, right, top, bottom;
};

Extent extent_of(const TextShape& text) {
  const double width = text_width(text.text, text.size);
  const double left = text.anchor == Anchor::start ? text.at.x
                      : text.anchor == Anchor::end ? text.at.x - width
                                                   : text.at.x - width / 2;
  return {left, left + width, text.at.y - 0.75 * text.size, text.at.y + 0.2 * text.size};
}

void expect_readable(const Drawing& drawing) {
  std::vector<std::pair<std::string, Extent>> texts;
  for (const Shape& shape : drawing.shapes) {
    const auto* text = std::get_if<TextShape>(&shape);
    if (text == nullptr || text->text.empty()) continue;
    const Extent extent = extent_of(*text);
    EXPECT_GE(extent.left, -1) << text->text;
    EXPECT_LE(extent.right, drawing.width + 1) << text->text;
    EXPECT_GE(extent.top, 0) << text->text;
    EXPECT_LE(extent.bottom, drawing.height) << text->text;
    for (const auto& [other, there] : texts) {
      const bool apart = extent.right <= there.left || there.right <= extent.left || extent.bottom <= there.top ||
                         there.bottom <= extent.top;
      EXPECT_TRUE(apart) << text->text << " over " << other;
    }
    texts.emplace_back(text->text, extent);
  }
}

std::vector<std::string> texts_of(const Drawing& drawing) {
  std::vector<std::string> texts;
  for (const Shape& shape : drawing.shapes) {
    if (const auto* text = std::get_if<TextShape>(&shape)) texts.push_back(text->text);
  }
  return texts;
}

bool says(const Drawing& drawing, const std::string& wanted) {
  const std::vector<std::string> texts = texts_of(drawing);
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& text) { return text.find(wanted) != std::string::npos; });
}

DotPlot made_plot() {
  DotPlot plot;
  plot.limit = Seconds{55};
  plot.limit_label = "limit 55.0 s";
  plot.second_line = Seconds{55.6};
  plot.second_label = "line cycle 55.6 s";
  plot.axis_title = "Seconds a unit, planned mix";
  plot.value_header = "s (from, to)";
  plot.rows = {{"The standard as it stands, with a long name", "n = 17 elements",
                TimeEstimate{Seconds{53}, Seconds{50.1}, Seconds{56.2}}, false, false},
               {"Restudy", "3 operators, n = 92", TimeEstimate{Seconds{57}, {}, {}}, true, false},
               {"Settled", "1 operator, n = 9", TimeEstimate{Seconds{54}, Seconds{2}, Seconds{900}}, false, false},
               {"Nobody", "n = 0", std::nullopt, false, true}};
  return plot;
}

TEST(SecondsAxis, HoldsWhatItMustAndSaysThatItIsBroken) {
  const std::vector<double> must{52, 58};
  const SecondsAxis axis = fit_seconds_axis(must, {}, 0, 100, false);
  EXPECT_TRUE(axis.broken());
  EXPECT_TRUE(axis.holds(52) && axis.holds(58));
  EXPECT_FALSE(fit_seconds_axis(must, {}, 0, 100, true).broken());
  Drawing drawing;
  draw_horizontal_axis(drawing, axis, 50, 0, "Seconds");
  EXPECT_TRUE(says(drawing, "not at 0"));
}

TEST(SecondsAxis, AFarEndDoesNotDwarfTheRest) {
  const std::vector<double> must{52, 58}, may{1, 900};
  const SecondsAxis axis = fit_seconds_axis(must, may, 0, 100, false);
  EXPECT_LT(axis.high - axis.low, 40);
}

TEST(DotPlot, IsReadableAndHasNOnEveryMark) {
  const Drawing drawing = draw_dot_plot(made_plot());
  expect_readable(drawing);
  EXPECT_TRUE(says(drawing, "n = 92"));
  EXPECT_TRUE(says(drawing, "50.1 to 56.2"));
}

TEST(VariantBars, AreReadableForManyRareVariants) {
  VariantBars bars;
  bars.limit = Seconds{55};
  bars.limit_label = "limit 55.0 s";
  bars.axis_title = "Seconds a unit";
  bars.margin_header = "margin, s";
  bars.class_names = {"value-adding", "necessary, not value-adding", "waste"};
  for (int i = 0; i < 14; ++i) {
    bars.bars.push_back({"variant " + std::to_string(i),
                         "2 %, 53.0 s",
                         i == 0 ? 0.74 : 0.02,
                         {Seconds{40.0 + i}, Seconds{8}, Seconds{3}},
                         "+4.0",
                         false});
  }
  bars.bars.push_back({"Planned mix", "mean", 0, {Seconds{42}, Seconds{8}, Seconds{3}}, "+2.0", true});
  expect_readable(draw_variant_bars(bars));
}

std::vector<StressUnit> made_units(std::size_t count) {
  std::vector<StressUnit> units(count);
  for (std::size_t i = 0; i < count; ++i) {
    units[i].position = static_cast<std::int64_t>(i) + 1;
    units[i].overload = (i * i) % 7 == 1 && i > count / 2;
    units[i].finish = Seconds{units[i].overload ? 11.0 + static_cast<double>(i % 3) : static_cast<double>(i % 5) - 2};
    units[i].new_run = i % 97 == 0;
  }
  return units;
}

TEST(SequenceStress, WorstWindowHasAsManyOverloadsAsAny) {
  const std::vector<StressUnit> units = made_units(500);
  const StressWindow window = find_worst_window(units, 120);
  const auto overloads_from = [&](std::size_t first) {
    return std::count_if(units.begin() + static_cast<std::ptrdiff_t>(first),
                         units.begin() + static_cast<std::ptrdiff_t>(first + 120),
                         [](const StressUnit& unit) { return unit.overload; });
  };
  for (std::size_t first = 0; first + 120 <= units.size(); ++first) {
    EXPECT_LE(overloads_from(first), overloads_from(window.first));
  }
}

TEST(SequenceStress, AShortOrderIsShownWhole) {
  const StressWindow window = find_worst_window(made_units(30), 120);
  EXPECT_EQ(window.first, 0U);
  EXPECT_EQ(window.count, 30U);
}

TEST(SequenceStress, IsReadableShortAndLong) {
  for (const std::size_t count : {std::size_t{1}, std::size_t{12}, std::size_t{120}, std::size_t{3000}}) {
    SequenceStress stress{made_units(count), Seconds{3}, Seconds{9}};
    expect_readable(draw_sequence_stress(stress, find_worst_window(stress.units, stress_window_units)));
  }
}

TEST(SequenceStress, IsReadableWithoutAZoneToSpeakOf) {
  SequenceStress stress{made_units(40), Seconds{0}, Seconds{0}};
  expect_readable(draw_sequence_stress(stress, find_worst_window(stress.units, stress_window_units)));
}

PracticeCurvePicture made_curve(std::size_t cycles, double first) {
  PracticeCurvePicture picture;
  std::vector<CurvePoint> averaged;
  for (std::size_t i = 0; i < cycles; ++i) {
    const double n = first + static_cast<double>(i);
    picture.cycles.push_back({n, Seconds{60 + static_cast<double>(i * 7 % 11)}, i % 9 == 3});
    averaged.push_back({n, Seconds{66}});
  }
  picture.averaged = {averaged};
  picture.single = {averaged, averaged};
  picture.limit = Seconds{62.5};
  picture.limit_label = "limit 62.5 s";
  picture.today = {Seconds{66}, Seconds{65}, Seconds{67}};
  picture.settled = {Seconds{61}, Seconds{12}, std::nullopt};
  picture.others = {Seconds{58}, Seconds{61}};
  picture.others_label = "grey band: 12 others, settled";
  picture.axis_title = "Own cycles, counted from an estimated start";
  return picture;
}

TEST(PracticeCurve, IsReadableShortAndLong) {
  for (const std::size_t cycles : {2U, 60U, 434U, 5000U}) {
    for (const double first : {1.0, 1250000.0}) {
      PracticeCurvePicture picture = made_curve(cycles, first);
      for (double gap = 0.2; gap < 0.9; gap += 0.02)
        picture.breaks.push_back({first + gap * static_cast<double>(cycles),
                                  first + gap * static_cast<double>(cycles) + 1, "gap of 17 days"});
      const Drawing drawing = draw_practice_curve(picture);
      expect_readable(drawing);
      EXPECT_TRUE(says(drawing, "limit 62.5 s"));
      EXPECT_TRUE(says(drawing, "65.0 to 67.0"));
      const auto points = std::count_if(drawing.shapes.begin(), drawing.shapes.end(),
                                        [](const Shape& shape) { return std::holds_alternative<CircleShape>(shape); });
      EXPECT_LE(points, static_cast<std::ptrdiff_t>(most_points_drawn) + 2);
    }
  }
}

// Two pieces of one curve: no drawn line goes from one side of the break to the other.
TEST(PracticeCurve, NoLineGoesAcrossABreakThatSetTheCurveBack) {
  PracticeCurvePicture picture = made_curve(400, 1);
  picture.averaged = {{{1, Seconds{70}}, {200, Seconds{62}}}, {{201, Seconds{66}}, {400, Seconds{61}}}};
  picture.single = picture.averaged;
  picture.breaks = {{200, 201, "gap of 20 days"}};
  picture.learners = {{{1, Seconds{60}}, {100, Seconds{58}}, {800, Seconds{50}}},
                      {{1, Seconds{75}}, {100, Seconds{70}}, {800, Seconds{60}}}};
  const Drawing drawing = draw_practice_curve(picture);
  expect_readable(drawing);
  EXPECT_TRUE(says(drawing, "gap of 20 days"));
  const auto strip = std::find_if(drawing.shapes.begin(), drawing.shapes.end(), [](const Shape& shape) {
    const auto* rectangle = std::get_if<RectangleShape>(&shape);
    return rectangle != nullptr && rectangle->fill == Fill::dots;
  });
  ASSERT_NE(strip, drawing.shapes.end());
  const auto& at = std::get<RectangleShape>(*strip);
  const double middle = at.at.x + at.width / 2;
  int curves = 0, bands = 0;
  for (const Shape& shape : drawing.shapes) {
    const auto* line = std::get_if<PolylineShape>(&shape);
    if (line == nullptr) continue;
    if (line->fill != Fill::none) {
      ++bands;
      for (const Point& point : line->points) EXPECT_LE(point.x, 500.0 + 1e-9); // what lies past the cycles seen
      continue;
    }
    ++curves;
    EXPECT_EQ(line->points.front().x < middle, line->points.back().x < middle);
  }
  EXPECT_EQ(curves, 4);
  EXPECT_EQ(bands, 1);
}

TEST(BridgeBars, AreReadableAndEndWhereTheStepsLead) {
  BridgeBars bars;
  bars.start = Seconds{68};
  bars.start_label = "Limit";
  bars.end_label = "Mean of the cycles seen";
  bars.axis_title = "Seconds a unit, for the mix this operator built";
  bars.steps = {{"The standard, own mix", "against the limit", Seconds{-6.7}, Seconds{-13.7}, Seconds{1.2}},
                {"Other settled operators", "against that standard", Seconds{0}, Seconds{-8}, Seconds{7.1}},
                {"Today's level", "against the own settled level", Seconds{19.5}, Seconds{-100}, Seconds{300}}};
  const Drawing drawing = draw_bridge_bars(bars);
  expect_readable(drawing);
  EXPECT_TRUE(says(drawing, "80.8")); // 68 - 6.7 + 0 + 19.5
}

Date march(int day) { return Date{std::chrono::year{2026} / 3 / 1} + std::chrono::days{day - 1}; }

ConditionLanes made_lanes() {
  ConditionLanes lanes;
  for (int day = 2; day <= 13; ++day)
    if (day != 7 && day != 8) lanes.days.push_back({march(day), Seconds{54.0 + 0.2 * day}, 410 + day});
  lanes.limit = Seconds{55};
  lanes.limit_label = "Limit 55.0 s";
  lanes.result_label = "All cycles, all people";
  lanes.lanes = {{"Torque driver at the block, set value and battery",
                  "as the standard assumes",
                  "",
                  LaneFill::as_assumed,
                  {},
                  {}},
                 {"Spare driver", "differs", "E05", LaneFill::differs, march(9), {}},
                 {"One day", "differs", "", LaneFill::differs, march(13), march(13)},
                 {"Before all this", "differs", "", LaneFill::differs, march(1), march(1)},
                 {"Light", "not checked", "", LaneFill::not_checked, {}, march(3)}};
  return lanes;
}

TEST(ConditionLanes, AreReadableAndEachStateStandsOnItsLane) {
  const Drawing drawing = draw_condition_lanes(made_lanes());
  expect_readable(drawing);
  for (const char* text : {"as the standard assumes", "differs", "not checked", "differs, outside these days", "54.4",
                           "412", "Limit 55.0 s", "03-02"})
    EXPECT_TRUE(says(drawing, text)) << text;
}

// Twelve calendar days share the width; a bar from the eighth on takes five of them, one of the last day one.
TEST(ConditionLanes, BarsAreAsLongAsTheirDays) {
  const Drawing drawing = draw_condition_lanes(made_lanes());
  std::vector<double> widths;
  for (const Shape& shape : drawing.shapes)
    if (const auto* bar = std::get_if<RectangleShape>(&shape))
      if (bar->outlined) widths.push_back(bar->width);
  ASSERT_EQ(widths.size(), 4U); // the fourth lane has no bar
  EXPECT_NEAR(widths[1] / widths[0], 5.0 / 12, 1e-9);
  EXPECT_NEAR(widths[2] / widths[0], 1.0 / 12, 1e-9);
  EXPECT_NEAR(widths[3] / widths[0], 2.0 / 12, 1e-9);
}

TEST(ConditionLanes, ManyDaysStayReadable) {
  ConditionLanes lanes = made_lanes();
  lanes.days.clear();
  for (int day = 1; day <= 120; ++day) lanes.days.push_back({march(day), Seconds{57.0 - 0.01 * day}, 400});
  expect_readable(draw_condition_lanes(lanes));
  lanes.limit = Seconds{20};
  expect_readable(draw_condition_lanes(lanes));
}

TEST(FitText, CutsAtCharactersAndNeverInside) {
  EXPECT_EQ(fit_text("short", 100, 10), "short");
  const std::string cut = fit_text("\u00E4\u00E4\u00E4\u00E4\u00E4\u00E4\u00E4\u00E4\u00E4\u00E4", 50, 10);
  EXPECT_TRUE(cut.ends_with("\u2026"));
  EXPECT_EQ((cut.size() - 3) % 2, 0U);
  EXPECT_LE(text_width(cut, 10), 50);
}

} // namespace
} // namespace docket
