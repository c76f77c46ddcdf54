#include "report/figures/sequence_stress.h"

#include "report/figures/seconds_axis.h"
#include "report/format.h"

#include <algorithm>

namespace docket {
namespace {

constexpr double width = 680, plot_left = 44, plot_right = 560, plot_top = 34, plot_height = 190;
constexpr double strip_height = 56, label_left = plot_right + 8, beside_axis = plot_right + 22;

SecondsAxis vertical_axis(const SequenceStress& stress, double top, double height) {
  std::vector<double> must{0, stress.late_finish.count(), -stress.early_start.count()};
  for (const StressUnit& unit : stress.units)
    must.push_back(std::max(unit.finish.count(), -stress.early_start.count()));
  const auto [low, high] = std::minmax_element(must.begin(), must.end());
  const double edge = std::max(0.08 * (*high - *low), 0.5);
  SecondsAxis axis;
  axis.low = *low - edge;
  axis.high = *high + edge;
  axis.from = top + height;
  axis.to = top;
  const double span = axis.high - axis.low;
  for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
    axis.step = step;
    if (span / step <= 7) break;
  }
  return axis;
}

// Where a person waits for the next unit, the finish lies before the earliest start; it is drawn there.
double shown_finish(const SequenceStress& stress, const StressUnit& unit) {
  return std::max(unit.finish.count(), -stress.early_start.count());
}

void draw_level(Drawing& drawing, const SecondsAxis& axis, double seconds, const std::string& first,
                const std::string& second, bool dashed, double line_width, double lowest_label) {
  const double y = axis.at(seconds);
  const double label = std::min(y, lowest_label);
  drawing.shapes.push_back(LineShape{{plot_left, y}, {plot_right, y}, line_width, Ink::dark, dashed});
  drawing.shapes.push_back(TextShape{{label_left, label}, first, Anchor::start, 10, true, Ink::dark});
  drawing.shapes.push_back(TextShape{{label_left, label + 12}, second, Anchor::start, 10, false, Ink::mid});
}

void draw_window(Drawing& drawing, const SequenceStress& stress, StressWindow window, const SecondsAxis& axis) {
  const double pitch = (plot_right - plot_left) / static_cast<double>(std::max<std::size_t>(window.count, 1));
  const auto x_of = [&](std::size_t i) { return plot_left + (static_cast<double>(i) + 0.5) * pitch; };
  const double zone_end = axis.at(stress.late_finish.count());
  const double bottom = plot_top + plot_height;
  std::vector<Point> path;
  const auto finish_path = [&] {
    if (path.size() > 1) drawing.shapes.push_back(PolylineShape{path, 1.3, Ink::dark, Fill::none});
    path.clear();
  };
  for (std::size_t i = 0; i < window.count; ++i) {
    const StressUnit& unit = stress.units[window.first + i];
    if (unit.new_run) {
      finish_path();
      if (i > 0) {
        const double x = x_of(i) - pitch / 2;
        drawing.shapes.push_back(LineShape{{x, plot_top}, {x, bottom + 4}, 1, Ink::mid, true});
      }
    }
    path.push_back({x_of(i), axis.at(shown_finish(stress, unit))});
  }
  finish_path();
  for (std::size_t i = 0; i < window.count; ++i) {
    const StressUnit& unit = stress.units[window.first + i];
    const double x = x_of(i), y = axis.at(shown_finish(stress, unit));
    if (unit.heavy) {
      drawing.shapes.push_back(
          LineShape{{x, bottom + 8}, {x, bottom + 15}, std::clamp(pitch * 0.5, 1.0, 3.0), Ink::dark, false});
    }
    if (unit.overload) {
      drawing.shapes.push_back(LineShape{{x, zone_end}, {x, y}, std::clamp(pitch * 0.5, 1.5, 3.0), Ink::dark, false});
      drawing.shapes.push_back(CircleShape{{x, y}, std::clamp(pitch * 0.6, 2.2, 4.0), true});
    } else if (pitch >= 3.5) {
      drawing.shapes.push_back(CircleShape{{x, y}, pitch > 8 ? 2.2 : 1.4, false});
    }
  }
  // Numbers at round positions, as many as fit.
  std::int64_t step = 1;
  for (const std::int64_t candidate : {1, 2, 5, 10, 20, 50, 100}) {
    step = candidate;
    if (static_cast<double>(step) * pitch >= 34) break;
  }
  for (std::size_t i = 0; i < window.count; ++i) {
    const std::int64_t position = stress.units[window.first + i].position;
    if (position % step != 0) continue;
    drawing.shapes.push_back(
        TextShape{{x_of(i), bottom + 29}, std::to_string(position), Anchor::middle, 10, false, Ink::dark});
  }
}

// The whole order: lowest and highest finish in each slice, overloads as strokes above, the window as a frame.
void draw_strip(Drawing& drawing, const SequenceStress& stress, StressWindow window, double top) {
  const SecondsAxis axis = vertical_axis(stress, top, strip_height);
  const std::size_t n = stress.units.size();
  const auto slices = std::min<std::size_t>(n, 258);
  const double pitch = (plot_right - plot_left) / static_cast<double>(slices);
  const double bottom = top + strip_height;
  for (std::size_t s = 0; s < slices; ++s) {
    const std::size_t first = s * n / slices, end = std::max((s + 1) * n / slices, first + 1);
    // From the finish before, so that the slices join.
    double low = shown_finish(stress, stress.units[first > 0 && !stress.units[first].new_run ? first - 1 : first]);
    double high = low;
    bool overload = false;
    for (std::size_t i = first; i < end; ++i) {
      low = std::min(low, shown_finish(stress, stress.units[i]));
      high = std::max(high, shown_finish(stress, stress.units[i]));
      overload = overload || stress.units[i].overload;
    }
    const double x = plot_left + (static_cast<double>(s) + 0.5) * pitch;
    const double y = axis.at(high), height = std::max(axis.at(low) - y, 1.0);
    drawing.shapes.push_back(RectangleShape{{x - pitch / 2, y}, pitch, height, Fill::grey, false});
    if (overload) drawing.shapes.push_back(LineShape{{x, top - 6}, {x, top}, std::min(pitch, 1.6), Ink::dark, false});
  }
  const double zone_end = axis.at(stress.late_finish.count());
  drawing.shapes.push_back(LineShape{{plot_left, zone_end}, {plot_right, zone_end}, 1.2, Ink::dark, false});
  drawing.shapes.push_back(LineShape{{plot_left, bottom}, {plot_right, bottom}, 1, Ink::dark, false});
  const double scale = (plot_right - plot_left) / static_cast<double>(n);
  drawing.shapes.push_back(RectangleShape{{plot_left + static_cast<double>(window.first) * scale, top - 8},
                                          static_cast<double>(window.count) * scale,
                                          strip_height + 10,
                                          Fill::none,
                                          true});
  drawing.shapes.push_back(
      TextShape{{plot_left, top - 14},
                "The whole order, " + format_count(static_cast<std::int64_t>(n)) +
                    " units: lowest to highest finish; strokes above: overloads; frame: the part shown above",
                Anchor::start,
                10,
                false,
                Ink::mid});
  drawing.shapes.push_back(TextShape{{label_left, zone_end + 3}, "end of zone", Anchor::start, 10, false, Ink::mid});
}

} // namespace

StressWindow find_worst_window(const std::vector<StressUnit>& units, std::size_t length) {
  if (units.size() <= length) return {0, units.size()};
  StressWindow best{0, length};
  std::size_t overloads = 0, most = 0;
  Seconds latest_of_best{-1e300};
  for (std::size_t i = 0; i < length; ++i) overloads += units[i].overload ? 1U : 0U;
  for (std::size_t first = 0;; ++first) {
    if (first == 0 || overloads >= most) {
      Seconds latest{-1e300};
      for (std::size_t i = first; i < first + length; ++i) latest = std::max(latest, units[i].finish);
      if (first == 0 || overloads > most || latest > latest_of_best) {
        best.first = first;
        most = overloads;
        latest_of_best = latest;
      }
    }
    if (first + length >= units.size()) break;
    overloads += units[first + length].overload ? 1U : 0U;
    overloads -= units[first].overload ? 1U : 0U;
  }
  return best;
}

Drawing draw_sequence_stress(const SequenceStress& stress, StressWindow window) {
  Drawing drawing;
  drawing.width = width;
  const double bottom = plot_top + plot_height;
  const SecondsAxis axis = vertical_axis(stress, plot_top, plot_height);
  drawing.shapes.push_back(TextShape{
      {0, 12}, "Finish after the limit, s (above 0: behind; below 0: ahead)", Anchor::start, 10.5, false, Ink::mid});
  for (const double tick : axis.ticks()) {
    const double y = axis.at(tick);
    drawing.shapes.push_back(LineShape{{plot_left, y}, {plot_right, y}, 0.6, Ink::light, false});
    drawing.shapes.push_back(TextShape{{plot_left - 7, y + 3.5},
                                       axis.step < 1 ? format_signed_bare_seconds(Seconds{tick})
                                                     : (tick > 0 ? "+" : "") + format_fixed(tick, 0),
                                       Anchor::end,
                                       10,
                                       false,
                                       Ink::dark});
  }
  drawing.shapes.push_back(LineShape{{plot_left, plot_top}, {plot_left, bottom}, 1, Ink::dark, false});
  const double earliest = axis.at(-stress.early_start.count()), on_time = axis.at(0);
  const double end_label = std::min(axis.at(stress.late_finish.count()), earliest - 26);
  draw_level(drawing, axis, stress.late_finish.count(), "end of zone", format_signed_seconds(stress.late_finish), false,
             2, end_label);
  draw_level(drawing, axis, -stress.early_start.count(), "earliest start", format_signed_seconds(-stress.early_start),
             false, 1.2, earliest);
  if (on_time - end_label > 26 && earliest - on_time > 26) {
    draw_level(drawing, axis, 0, "on time", "0.0 s", true, 0.9, on_time);
  } else {
    drawing.shapes.push_back(LineShape{{plot_left, on_time}, {plot_right, on_time}, 0.9, Ink::dark, true});
  }
  draw_window(drawing, stress, window, axis);
  drawing.shapes.push_back(TextShape{{beside_axis, bottom + 15}, "takes longer", Anchor::start, 10, false, Ink::mid});
  drawing.shapes.push_back(TextShape{{beside_axis, bottom + 27}, "than the limit", Anchor::start, 10, false, Ink::mid});
  drawing.shapes.push_back(TextShape{{(plot_left + plot_right) / 2, bottom + 46},
                                     "Position in the build order",
                                     Anchor::middle,
                                     10.5,
                                     false,
                                     Ink::mid});
  drawing.height = bottom + 54;
  if (window.count < stress.units.size()) {
    const double top = bottom + 90;
    draw_strip(drawing, stress, window, top);
    drawing.height = top + strip_height + 8;
  }
  return drawing;
}

} // namespace docket
