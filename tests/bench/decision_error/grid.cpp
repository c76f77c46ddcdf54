#include "tests/bench/decision_error/grid.h"

#include "core/statistics/random.h"

#include <cstdio>
#include <functional>
#include <utility>

namespace docket::bench {

namespace {

using Change = std::function<void(StationShape&)>;

struct Level {
  const char* name;
  Change change;
};

/// The levels of one factor beside the centre's.
using Factor = std::vector<Level>;

void take_three(StationShape& s) { s.variants = 3; }

/// One factor after the other; corners draw one level of each, or the centre's.
std::vector<Factor> factors() {
  return {
      {{"operators-1", [](StationShape& s) { s.operators = 1; }},
       {"operators-2", [](StationShape& s) { s.operators = 2; }},
       {"operators-3", [](StationShape& s) { s.operators = 3; }},
       {"operators-4", [](StationShape& s) { s.operators = 4; }},
       {"operators-7", [](StationShape& s) { s.operators = 7; }},
       {"operators-10", [](StationShape& s) { s.operators = 10; }}},
      {{"between-2", [](StationShape& s) { s.between = 0.02; }},
       {"between-6", [](StationShape& s) { s.between = 0.06; }},
       {"between-8", [](StationShape& s) { s.between = 0.08; }}},
      {{"spread-4", [](StationShape& s) { s.within = 0.04; }}, {"spread-8", [](StationShape& s) { s.within = 0.08; }}},
      {{"lag1-0", [](StationShape& s) { s.lag1 = 0; }}, {"lag1-0.5", [](StationShape& s) { s.lag1 = 0.5; }}},
      {{"variants-3", take_three},
       {"variants-3-mix-by-shift",
        [](StationShape& s) {
          take_three(s);
          s.mix = BuiltMix::by_shift;
        }},
       {"variants-3-heavy-longer",
        [](StationShape& s) {
          take_three(s);
          s.heavy_excess = 0.08;
        }},
       {"variants-3-heavy-shorter",
        [](StationShape& s) {
          take_three(s);
          s.heavy_excess = -0.08;
        }},
       {"variants-3-longer-mix-by-shift",
        [](StationShape& s) {
          take_three(s);
          s.heavy_excess = 0.08;
          s.mix = BuiltMix::by_shift;
        }},
       {"variants-3-order-even",
        [](StationShape& s) {
          take_three(s);
          s.order = BuildOrder::even;
        }},
       {"variants-3-order-in-pairs",
        [](StationShape& s) {
          take_three(s);
          s.order = BuildOrder::in_pairs;
        }}},
      {{"helped-5", [](StationShape& s) { s.helped = 0.05; }},
       {"helped-10", [](StationShape& s) { s.helped = 0.10; }},
       {"helped-20", [](StationShape& s) { s.helped = 0.20; }}},
      {{"leavers-seen", [](StationShape& s) { s.leavers = Leavers::named_seen; }},
       {"leavers-unseen", [](StationShape& s) { s.leavers = Leavers::named_unseen; }},
       {"leavers-not-named", [](StationShape& s) { s.leavers = Leavers::not_named; }}},
      {{"day-0", [](StationShape& s) { s.day_effect = 0; }}, {"day-2", [](StationShape& s) { s.day_effect = 0.02; }}},
      {{"cycles-15", [](StationShape& s) { s.cycles_a_day = 15; }},
       {"cycles-90", [](StationShape& s) { s.cycles_a_day = 90; }}},
      {{"zone-0-3",
        [](StationShape& s) {
          s.early = Seconds{0};
          s.late = Seconds{3};
        }},
       {"zone-6-18",
        [](StationShape& s) {
          s.early = Seconds{6};
          s.late = Seconds{18};
        }}},
      {{"condition-last-days", [](StationShape& s) { s.condition = true; }}},
      {{"lines-1", [](StationShape& s) { s.settled = false; }},
       {"lines-1-3",
        [](StationShape& s) {
          s.settled = false;
          s.restudied = 3;
        }},
       {"lines-1-3-one-restudied",
        [](StationShape& s) {
          s.settled = false;
          s.restudied = 1;
        }},
       {"lines-1-2-3", [](StationShape& s) { s.restudied = 3; }},
       {"lines-1-2-3-same-rating",
        [](StationShape& s) {
          s.restudied = 3;
          s.rating_in_standard = true;
        }}},
  };
}

void add_both(std::vector<Point>& points, const std::string& name, const StationShape& shape) {
  points.push_back({name + "/fits", shape, Place::fits_boundary, 0});
  points.push_back({name + "/unfit", shape, Place::unfit_boundary, 0});
}

/// Only the mean and its limit: the work zone holds everything, and half of the people are the average one.
StationShape mean_alone() {
  StationShape shape;
  shape.early = Seconds{400};
  shape.late = Seconds{400};
  shape.able = 0.5;
  return shape;
}

std::string numbered(const char* form, int number) {
  char text[40];
  std::snprintf(text, sizeof text, form, number);
  return text;
}

void add_corners(std::vector<Point>& points, std::uint64_t seed) {
  enum Stream : std::uint64_t { level_stream = 1, place_stream, margin_stream };
  const Draws draws(seed);
  for (int corner = 0; corner < 30; ++corner) {
    const auto block = static_cast<std::uint64_t>(corner);
    Point point{numbered("corner-%02d", corner + 1), {}, Place::margin, 0};
    std::uint64_t index = 0;
    for (const Factor& factor : factors()) {
      const std::uint64_t level = draws.below(factor.size() + 1, level_stream, block, index++);
      if (level > 0) factor[level - 1].change(point.shape);
    }
    // Two of three stand at a boundary, where wrong words are most frequent.
    point.place = static_cast<Place>(draws.below(3, place_stream, block, 0));
    point.margin = -0.10 + 0.25 * draws.uniform(margin_stream, block, 0);
    if (point.place == Place::fits_boundary) point.name += "/fits";
    if (point.place == Place::unfit_boundary) point.name += "/unfit";
    points.push_back(std::move(point));
  }
}

} // namespace

std::vector<Point> make_grid(std::uint64_t seed) {
  std::vector<Point> points;
  add_both(points, "centre", {});
  points.push_back({"mean-alone/fits", mean_alone(), Place::fits_boundary, 0});
  for (const Factor& factor : factors())
    for (const Level& level : factor) {
      StationShape shape;
      level.change(shape);
      add_both(points, level.name, shape);
    }
  for (const int percent : {-10, -5, -2, 0, 2, 5, 8, 10, 12, 15})
    points.push_back({numbered("margin%+d", percent), {}, Place::margin, percent / 100.0});
  // How often it speaks where there is room: the levels that cost most.
  for (const char* name : {"operators-3", "between-2", "between-6", "variants-3", "helped-10", "leavers-seen",
                           "condition-last-days", "lines-1", "lines-1-2-3"})
    for (const Factor& factor : factors())
      for (const Level& level : factor) {
        if (level.name != std::string(name)) continue;
        Point point{std::string(name) + "/margin+12", {}, Place::margin, 0.12};
        level.change(point.shape);
        points.push_back(std::move(point));
      }
  StationShape whole_shifts;
  whole_shifts.cycles_per_shift = 450;
  add_both(points, "shift-450", whole_shifts);
  add_corners(points, seed);
  return points;
}

} // namespace docket::bench
