#include "report/figures/practice_curve.h"

#include "report/figures/seconds_axis.h"
#include "report/format.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

constexpr double width = 680, plot_left = 46, plot_right = 500, plot_top = 30, plot_height = 236;
constexpr double today_x = 546, settled_x = 636;
constexpr double bottom = plot_top + plot_height;

SecondsAxis vertical_axis(const PracticeCurvePicture& picture) {
  std::vector<double> must{picture.limit.count()}, may;
  for (const TimeEstimate* estimate : {&picture.today, &picture.settled}) {
    must.push_back(estimate->time.count());
    if (estimate->low) may.push_back(estimate->low->count());
    if (estimate->high) may.push_back(estimate->high->count());
  }
  for (const std::vector<CurvePoint>& piece : picture.averaged)
    for (const CurvePoint& point : piece) must.push_back(point.level.count());
  for (const CyclePoint& point : picture.cycles) may.push_back(point.time.count());
  if (picture.others) {
    may.push_back(picture.others->first.count());
    may.push_back(picture.others->second.count());
  }
  return fit_seconds_axis(must, may, bottom, plot_top, false);
}

struct CycleAxis {
  double first = 0, last = 1;
  double at(double cycle) const { return plot_left + (cycle - first) / (last - first) * (plot_right - plot_left); }
};

CycleAxis cycle_axis(const PracticeCurvePicture& picture) {
  CycleAxis axis{1, 2};
  if (!picture.cycles.empty()) axis = {picture.cycles.front().cycle, picture.cycles.back().cycle};
  const double edge = std::max(0.01 * (axis.last - axis.first), 0.5);
  return {axis.first - edge, axis.last + edge};
}

void draw_axes(Drawing& drawing, const SecondsAxis& seconds, const CycleAxis& cycles, const std::string& title) {
  const int decimals = seconds.step < 1 ? 1 : 0;
  for (const double tick : seconds.ticks()) {
    const double y = seconds.at(tick);
    drawing.shapes.push_back(LineShape{{plot_left, y}, {width, y}, 0.6, Ink::light, false});
    drawing.shapes.push_back(
        TextShape{{plot_left - 7, y + 3.5}, format_fixed(tick, decimals), Anchor::end, 10, false, Ink::dark});
  }
  drawing.shapes.push_back(LineShape{{plot_left, plot_top}, {plot_left, bottom}, 1, Ink::dark, false});
  drawing.shapes.push_back(LineShape{{plot_left, bottom}, {plot_right, bottom}, 1, Ink::dark, false});
  double step = 1;
  for (double power = 1; (cycles.last - cycles.first) / step > 7; power *= 10) {
    for (const double mantissa : {1.0, 2.0, 5.0}) {
      step = mantissa * power;
      if ((cycles.last - cycles.first) / step <= 7) break;
    }
  }
  for (double tick = std::ceil(std::max(cycles.first, 1.0) / step) * step; tick <= cycles.last; tick += step) {
    const double x = cycles.at(tick);
    const std::string text = format_count(std::llround(tick));
    drawing.shapes.push_back(LineShape{{x, bottom}, {x, bottom + 4}, 1, Ink::dark, false});
    if (x + text_width(text, 10) / 2 > plot_right + 6) continue;
    drawing.shapes.push_back(TextShape{{x, bottom + 16}, text, Anchor::middle, 10, false, Ink::dark});
  }
  drawing.shapes.push_back(
      TextShape{{(plot_left + plot_right) / 2, bottom + 33}, title, Anchor::middle, 10.5, false, Ink::mid});
  const std::string note =
      seconds.broken() ? "; the axis starts at " + format_fixed(seconds.low, decimals) + ", not at 0" : std::string();
  drawing.shapes.push_back(
      TextShape{{0, 11}, "Seconds a unit, for the planned mix" + note, Anchor::start, 10.5, false, Ink::mid});
}

void draw_breaks(Drawing& drawing, const std::vector<CurveBreak>& breaks, const CycleAxis& cycles) {
  double free_from = plot_left;
  for (const CurveBreak& found : breaks) {
    const double middle = cycles.at((found.before + found.after) / 2);
    const double half = std::max(2.5, (cycles.at(found.after) - cycles.at(found.before)) / 2);
    drawing.shapes.push_back(RectangleShape{{middle - half, plot_top}, 2 * half, plot_height, Fill::dots, false});
    const std::string label = fit_text(found.label, 150, 9.5);
    const double reach = text_width(label, 9.5) / 2;
    if (middle - reach < free_from || middle + reach > plot_right) continue;
    drawing.shapes.push_back(TextShape{{middle, plot_top - 4}, label, Anchor::middle, 9.5, false, Ink::mid});
    free_from = middle + reach + 4;
  }
}

PolylineShape line_of(const std::vector<CurvePoint>& curve, const SecondsAxis& seconds, const CycleAxis& cycles) {
  PolylineShape line;
  for (const CurvePoint& point : curve)
    line.points.push_back({cycles.at(point.cycle), seconds.at_or_end(point.level.count())});
  return line;
}

/// The part of a line between two own cycles; its ends on the straight line between the points around them.
std::vector<CurvePoint> part_between(const std::vector<CurvePoint>& line, double first, double last) {
  std::vector<CurvePoint> part;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i > 0) {
      const CurvePoint &from = line[i - 1], &to = line[i];
      for (const double edge : {first, last})
        if (from.cycle < edge && edge < to.cycle)
          part.push_back(
              {edge, from.level + (to.level - from.level) * ((edge - from.cycle) / (to.cycle - from.cycle))});
    }
    if (line[i].cycle >= first && line[i].cycle <= last) part.push_back(line[i]);
  }
  return part;
}

void draw_band(Drawing& drawing, const CurveBand& band, const SecondsAxis& seconds, const CycleAxis& cycles) {
  PolylineShape shape = line_of(part_between(band.high, cycles.first, cycles.last), seconds, cycles);
  const PolylineShape low = line_of(part_between(band.low, cycles.first, cycles.last), seconds, cycles);
  shape.points.insert(shape.points.end(), low.points.rbegin(), low.points.rend());
  shape.fill = Fill::pale;
  if (shape.points.size() > 3) drawing.shapes.push_back(std::move(shape));
}

void draw_cycles(Drawing& drawing, const PracticeCurvePicture& picture, const SecondsAxis& seconds,
                 const CycleAxis& cycles) {
  const std::size_t every = drawn_every(picture.cycles.size());
  for (std::size_t i = 0; i < picture.cycles.size(); i += every) {
    const CyclePoint& point = picture.cycles[i];
    const double x = cycles.at(point.cycle), y = seconds.at_or_end(point.time.count());
    if (point.lower_bound) {
      drawing.shapes.push_back(LineShape{{x, y}, {x, std::max(y - 8, plot_top)}, 1.2, Ink::dark, false});
    } else {
      drawing.shapes.push_back(CircleShape{{x, y}, 1.3, true, Ink::mid});
    }
  }
}

void draw_curves(Drawing& drawing, const PracticeCurvePicture& picture, const SecondsAxis& seconds,
                 const CycleAxis& cycles) {
  for (const std::vector<CurvePoint>& curve : picture.single) {
    PolylineShape line = line_of(curve, seconds, cycles);
    line.ink = Ink::mid;
    line.width = 0.8;
    line.dashed = true;
    drawing.shapes.push_back(std::move(line));
  }
  for (const std::vector<CurvePoint>& edge : picture.edges) {
    if (edge.size() < 2) continue;
    PolylineShape line = line_of(edge, seconds, cycles);
    line.width = 0.9;
    drawing.shapes.push_back(std::move(line));
  }
  for (const std::vector<CurvePoint>& piece : picture.averaged) {
    PolylineShape line = line_of(piece, seconds, cycles);
    line.width = 2.4;
    drawing.shapes.push_back(std::move(line));
  }
}

void draw_level(Drawing& drawing, const SecondsAxis& seconds, double x, const TimeEstimate& estimate,
                const std::string& name, bool hollow) {
  const auto y_of = [&](const std::optional<Seconds>& end, double without) {
    return end ? seconds.at_or_end(end->count()) : without;
  };
  const double low = y_of(estimate.low, bottom), high = y_of(estimate.high, plot_top);
  drawing.shapes.push_back(LineShape{{x, low}, {x, high}, 1.6, Ink::dark, false});
  for (const double end : {low, high})
    drawing.shapes.push_back(LineShape{{x - 4, end}, {x + 4, end}, 1.6, Ink::dark, false});
  drawing.shapes.push_back(CircleShape{{x, seconds.at_or_end(estimate.time.count())}, 4.6, !hollow});
  drawing.shapes.push_back(TextShape{{x, bottom + 16}, name, Anchor::middle, 10.5, false, Ink::mid});
  drawing.shapes.push_back(
      TextShape{{x, bottom + 31}, format_bare_seconds(estimate.time), Anchor::middle, 11.5, true, Ink::dark});
  drawing.shapes.push_back(TextShape{{x, bottom + 45},
                                     fit_text(format_bare_interval(estimate.low, estimate.high), 88, 10),
                                     Anchor::middle,
                                     10,
                                     false,
                                     Ink::mid});
}

} // namespace

std::size_t drawn_every(std::size_t cycles) {
  return cycles <= most_points_drawn ? 1 : (cycles + most_points_drawn - 1) / most_points_drawn;
}

std::size_t count_beyond_axis(const PracticeCurvePicture& picture) {
  const SecondsAxis axis = vertical_axis(picture);
  return static_cast<std::size_t>(std::count_if(picture.cycles.begin(), picture.cycles.end(),
                                                [&](const CyclePoint& p) { return !axis.holds(p.time.count()); }));
}

Drawing draw_practice_curve(const PracticeCurvePicture& picture) {
  Drawing drawing;
  drawing.width = width;
  drawing.height = bottom + 52;
  const SecondsAxis seconds = vertical_axis(picture);
  const CycleAxis cycles = cycle_axis(picture);
  if (picture.others) {
    const double top = seconds.at_or_end(picture.others->second.count());
    const double low = seconds.at_or_end(picture.others->first.count());
    const double left = plot_right + 8;
    drawing.shapes.push_back(RectangleShape{{left, top}, width - left, std::max(low - top, 1.5), Fill::pale, false});
  }
  draw_band(drawing, picture.learners, seconds, cycles);
  draw_axes(drawing, seconds, cycles, picture.axis_title);
  draw_breaks(drawing, picture.breaks, cycles);
  draw_cycles(drawing, picture, seconds, cycles);
  draw_curves(drawing, picture, seconds, cycles);
  const double limit = seconds.at(picture.limit.count());
  drawing.shapes.push_back(LineShape{{plot_left, limit}, {width, limit}, 2, Ink::dark, false});
  draw_level(drawing, seconds, today_x, picture.today, "today", false);
  draw_level(drawing, seconds, settled_x, picture.settled, "settled", true);
  // The line and the band are named above the plot, where no cycle lies.
  drawing.shapes.push_back(TextShape{{width, 11}, picture.limit_label, Anchor::end, 11, true, Ink::dark});
  if (picture.others)
    drawing.shapes.push_back(TextShape{{width, plot_top - 5}, picture.others_label, Anchor::end, 10, false, Ink::mid});
  return drawing;
}

} // namespace docket
