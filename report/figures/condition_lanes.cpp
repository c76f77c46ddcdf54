#include "report/figures/condition_lanes.h"

#include "report/format.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

constexpr double width = 680, plot_left = 196, plot_right = 664, label_width = 186;
constexpr double result_top = 22, result_height = 92, lane_pitch = 30, bar_height = 15;

/// One calendar day a column, so that a free day is a gap.
struct DayAxis {
  Date first{}, last{};

  double pitch() const { return (plot_right - plot_left) / static_cast<double>((last - first).count() + 1); }
  double start_of(Date day) const { return plot_left + static_cast<double>((day - first).count()) * pitch(); }
  double middle_of(Date day) const { return start_of(day) + pitch() / 2; }
};

struct Scale {
  double low = 0, high = 1;
  double at(double seconds) const { return result_top + result_height * (1 - (seconds - low) / (high - low)); }
};

Scale scale_for(const ConditionLanes& lanes) {
  Scale scale{lanes.limit.count(), lanes.limit.count()};
  for (const DayResult& day : lanes.days) {
    scale.low = std::min(scale.low, day.time.count());
    scale.high = std::max(scale.high, day.time.count());
  }
  const double edge = std::max(0.15 * (scale.high - scale.low), 0.5);
  scale.low -= edge;
  scale.high += edge;
  return scale;
}

void draw_text(Drawing& drawing, double x, double y, const std::string& text, Anchor anchor, double size, bool strong,
               Ink ink) {
  drawing.shapes.push_back(TextShape{{x, y}, text, anchor, size, strong, ink});
}

void draw_results(Drawing& drawing, const ConditionLanes& lanes, const DayAxis& axis) {
  const Scale scale = scale_for(lanes);
  const double limit = scale.at(lanes.limit.count());
  drawing.shapes.push_back(LineShape{{plot_left, limit}, {plot_right, limit}, 1.6, Ink::dark, false});
  draw_text(drawing, 0, std::clamp(limit + 4, result_top + 8, result_top + result_height),
            fit_text(lanes.limit_label, label_width, 10.5), Anchor::start, 10.5, true, Ink::dark);
  double label_y = result_top + result_height / 2 - 4;
  if (std::abs(label_y - limit) < 26) label_y = limit < result_top + result_height / 2 ? limit + 26 : limit - 32;
  draw_text(drawing, 0, label_y, fit_text(lanes.result_label, label_width, 11.5), Anchor::start, 11.5, true, Ink::dark);
  draw_text(drawing, 0, label_y + 13, "mean of a day, s; n under it", Anchor::start, 10, false, Ink::mid);
  // As many numbers as fit beside one another.
  const double room = text_width("00.0", 9.5) + 4;
  double free_from = 0;
  for (const DayResult& day : lanes.days) {
    const double x = axis.middle_of(day.day), y = scale.at(day.time.count());
    drawing.shapes.push_back(CircleShape{{x, y}, 3.4, true});
    if (x - room / 2 < free_from) continue;
    free_from = x + room / 2;
    const bool above = y > result_top + 14;
    draw_text(drawing, x, above ? y - 7 : y + 14, format_bare_seconds(day.time), Anchor::middle, 9.5, false, Ink::dark);
    draw_text(drawing, x, result_top + result_height + 12, std::to_string(day.n), Anchor::middle, 9, false, Ink::mid);
  }
}

void draw_lane(Drawing& drawing, const ConditionLane& lane, const DayAxis& axis, double middle) {
  static constexpr Fill fills[] = {Fill::white, Fill::hatch, Fill::dots};
  draw_text(drawing, 0, lane.touches.empty() ? middle + 4 : middle - 1, fit_text(lane.label, label_width, 10.5),
            Anchor::start, 10.5, true, Ink::dark);
  if (!lane.touches.empty())
    draw_text(drawing, 0, middle + 11, fit_text(lane.touches, label_width, 9.5), Anchor::start, 9.5, false, Ink::mid);
  const double row_from = plot_left, row_to = plot_right;
  drawing.shapes.push_back(LineShape{{row_from, middle}, {row_to, middle}, 0.8, Ink::light, false});
  const Date from = std::max(lane.from.value_or(axis.first), axis.first);
  const Date to = std::min(lane.to.value_or(axis.last), axis.last);
  if (to < from) {
    draw_text(drawing, plot_left + 4, middle + 4, lane.state + ", outside these days", Anchor::start, 9.5, false,
              Ink::mid);
    return;
  }
  const double x = axis.start_of(from), bar = axis.start_of(to) + axis.pitch() - x;
  drawing.shapes.push_back(
      RectangleShape{{x, middle - bar_height / 2}, bar, bar_height, fills[static_cast<std::size_t>(lane.fill)], true});
  const double text = text_width(lane.state, 9.5);
  if (bar > text + 12) {
    // White behind the word keeps it apart from the pattern.
    drawing.shapes.push_back(
        RectangleShape{{x + bar / 2 - text / 2 - 3, middle - 5.5}, text + 6, 11, Fill::white, false});
    draw_text(drawing, x + bar / 2, middle + 3.5, lane.state, Anchor::middle, 9.5, false, Ink::dark);
  } else {
    const bool right = x + bar + 4 + text < plot_right;
    draw_text(drawing, right ? x + bar + 4 : x - 4, middle + 3.5, lane.state, right ? Anchor::start : Anchor::end, 9.5,
              false, Ink::dark);
  }
}

void draw_days(Drawing& drawing, const DayAxis& axis, double y, double top) {
  drawing.shapes.push_back(LineShape{{plot_left, y}, {plot_right, y}, 1, Ink::dark, false});
  const double room = text_width("00-00", 10) + 8;
  const auto step = std::max<std::int64_t>(1, static_cast<std::int64_t>(room / axis.pitch()) + 1);
  for (Date day = axis.first; day <= axis.last; day += std::chrono::days(1)) {
    if ((day - axis.first).count() % step != 0) continue;
    const double x = axis.middle_of(day);
    drawing.shapes.push_back(LineShape{{x, y}, {x, y + 4}, 1, Ink::dark, false});
    drawing.shapes.push_back(LineShape{{x, top}, {x, y}, 0.5, Ink::light, true});
    draw_text(drawing, x, y + 16, format_date(day).substr(5), Anchor::middle, 10, false, Ink::dark);
  }
}

} // namespace

Drawing draw_condition_lanes(const ConditionLanes& lanes) {
  Drawing drawing;
  drawing.width = width;
  const double lanes_top = result_top + result_height + 24;
  const double bottom = lanes_top + lane_pitch * static_cast<double>(lanes.lanes.size()) + 4;
  drawing.height = bottom + 24;
  const DayAxis axis{lanes.days.front().day, lanes.days.back().day};
  draw_days(drawing, axis, bottom, result_top);
  draw_results(drawing, lanes, axis);
  drawing.shapes.push_back(LineShape{{0, lanes_top - 4}, {width, lanes_top - 4}, 0.8, Ink::mid, false});
  double middle = lanes_top + lane_pitch / 2;
  for (const ConditionLane& lane : lanes.lanes) {
    draw_lane(drawing, lane, axis, middle);
    middle += lane_pitch;
  }
  return drawing;
}

} // namespace docket
