#include "tests/bench/curve_coverage/learner_grid.h"

#include "core/statistics/random.h"

#include <cstdio>
#include <functional>
#include <utility>

namespace docket::bench {

namespace {

using Change = std::function<void(LearnerShape&)>;

struct Level {
  const char* name;
  Change change;
};

/// The levels of one factor beside the centre's.
using Factor = std::vector<Level>;

constexpr std::int64_t usual_runs = 500, runs_of_one_factor = 300, runs_on_settled_above = 2000;

constexpr LearnerKind kinds[] = {
    LearnerKind::constant,           LearnerKind::power,
    LearnerKind::power_plateau,      LearnerKind::exponential_plateau,
    LearnerKind::hyperbolic_plateau, LearnerKind::two_phase,
    LearnerKind::power_then_step,
};

/// One factor after the other; corners draw one level of each, or the centre's.
std::vector<Factor> factors() {
  return {
      {{"cycles-50", [](LearnerShape& s) { s.cycles = 50; }},
       {"cycles-100", [](LearnerShape& s) { s.cycles = 100; }},
       {"cycles-1000", [](LearnerShape& s) { s.cycles = 1000; }},
       {"cycles-5000", [](LearnerShape& s) { s.cycles = 5000; }}},
      {{"sigma-5", [](LearnerShape& s) { s.sigma = 0.05; }}, {"sigma-20", [](LearnerShape& s) { s.sigma = 0.20; }}},
      {{"lag1-0", [](LearnerShape& s) { s.lag1 = 0; }},
       {"lag1-0.4", [](LearnerShape& s) { s.lag1 = 0.4; }},
       {"lag1-0.6", [](LearnerShape& s) { s.lag1 = 0.6; }}},
      {{"helped-5", [](LearnerShape& s) { s.helped = 0.05; }},
       {"helped-15", [](LearnerShape& s) { s.helped = 0.15; }},
       {"helped-30", [](LearnerShape& s) { s.helped = 0.30; }},
       {"helped-15-when-late",
        [](LearnerShape& s) {
          s.helped = 0.15;
          s.help = HelpComes::when_late;
        }}},
      {{"pace-quick", [](LearnerShape& s) { s.pace = Pace::quick; }},
       {"pace-slow", [](LearnerShape& s) { s.pace = Pace::slow; }}},
      {{"before-as-many", [](LearnerShape& s) { s.before = s.cycles; }}},
  };
}

bool is_pace(const Level& level) { return std::string(level.name).starts_with("pace"); }

bool has_pace(LearnerKind kind) { return kind != LearnerKind::constant && kind != LearnerKind::power; }

std::string name_of_place(LimitPlace place) {
  return place == LimitPlace::below_settled   ? "limit-below"
         : place == LimitPlace::above_settled ? "limit-above"
                                              : "limit-between";
}

/// kind/left/what is changed/where the limit is
LearnerPoint point_of(const std::string& changed, const LearnerShape& shape) {
  char left[20] = "";
  if (shape.kind != LearnerKind::constant) std::snprintf(left, sizeof left, "/left-%.0f", 100 * shape.left);
  LearnerPoint point{std::string(name_of(shape.kind)) + left + "/" + changed + "/" + name_of_place(shape.limit), shape,
                     changed == "centre" || changed == "drawn" ? usual_runs : runs_of_one_factor};
  const bool at_boundary = shape.kind != LearnerKind::constant && shape.left == LearnerShape{}.left;
  // SETTLED ABOVE of somebody who improves just enough.
  if (at_boundary && shape.limit == LimitPlace::below_settled && (changed == "centre" || changed == "cycles-1000"))
    point.runs = runs_on_settled_above;
  return point;
}

void add_centres(std::vector<LearnerPoint>& points) {
  const auto add = [&](LearnerShape shape, double left, std::initializer_list<LimitPlace> places) {
    shape.left = left;
    for (const LimitPlace place : places) {
      shape.limit = place;
      points.push_back(point_of("centre", shape));
    }
  };
  using enum LimitPlace;
  for (const LearnerKind kind : kinds) {
    LearnerShape shape;
    shape.kind = kind;
    if (kind == LearnerKind::constant) {
      add(shape, 0, {below_settled, above_settled});
      continue;
    }
    add(shape, 0.03, {below_settled, above_settled});
    add(shape, 0.10, {below_settled, above_settled, between});
    add(shape, 0.01, {below_settled, above_settled});
  }
}

void add_corners(std::vector<LearnerPoint>& points, std::uint64_t seed) {
  enum Stream : std::uint64_t { kind_stream = 1, level_stream, left_stream, place_stream };
  const Draws draws(seed);
  for (int corner = 0; corner < 30; ++corner) {
    const auto block = static_cast<std::uint64_t>(corner);
    LearnerShape shape;
    shape.kind = kinds[draws.below(std::size(kinds), kind_stream, block, 0)];
    std::uint64_t index = 0;
    for (const Factor& factor : factors()) {
      const std::uint64_t level = draws.below(factor.size() + 1, level_stream, block, index++);
      if (level > 0) factor[level - 1].change(shape);
    }
    // Half stand at the boundary, where wrong words are most frequent.
    constexpr double lefts[] = {0.03, 0.03, 0.01, 0.06};
    shape.left = shape.kind == LearnerKind::constant ? 0 : lefts[draws.below(std::size(lefts), left_stream, block, 0)];
    shape.limit =
        static_cast<LimitPlace>(draws.below(shape.kind == LearnerKind::constant ? 2 : 3, place_stream, block, 0));
    char number[20];
    std::snprintf(number, sizeof number, "corner-%02d/", corner + 1);
    LearnerPoint point = point_of("drawn", shape);
    point.name = number + point.name;
    points.push_back(std::move(point));
  }
}

} // namespace

std::vector<LearnerPoint> make_learner_grid(std::uint64_t seed) {
  std::vector<LearnerPoint> points;
  add_centres(points);
  add_corners(points, seed);
  for (const Factor& factor : factors())
    for (const Level& level : factor)
      for (const LearnerKind kind : kinds) {
        if (is_pace(level) && !has_pace(kind)) continue;
        LearnerShape shape;
        shape.kind = kind;
        if (kind == LearnerKind::constant) shape.left = 0;
        level.change(shape);
        points.push_back(point_of(level.name, shape));
      }
  return points;
}

} // namespace docket::bench
