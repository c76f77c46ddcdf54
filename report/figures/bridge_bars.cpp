#include "report/figures/bridge_bars.h"

#include "report/figures/seconds_axis.h"
#include "report/format.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

constexpr double width = 680, label_width = 182, plot_left = 206, plot_right = 566, row_height = 34, bar_height = 13;
constexpr double top = 8;

SecondsAxis axis_for(const BridgeBars& bridge) {
  std::vector<double> must{bridge.start.count()}, may;
  Seconds at = bridge.start;
  for (const BridgeStep& step : bridge.steps) {
    for (const Seconds end : {step.low, step.high})
      if (std::isfinite(end.count())) may.push_back((at + end).count());
    at += step.seconds;
    must.push_back(at.count());
  }
  return fit_seconds_axis(must, may, plot_left, plot_right, false);
}

void draw_labels(Drawing& drawing, double middle, const std::string& label, const std::string& note,
                 const std::string& value, const std::string& range) {
  drawing.shapes.push_back(TextShape{{0, note.empty() ? middle + 4 : middle - 2},
                                     fit_text(label, label_width, 11),
                                     Anchor::start,
                                     11,
                                     true,
                                     Ink::dark});
  drawing.shapes.push_back(
      TextShape{{0, middle + 11}, fit_text(note, label_width, 10), Anchor::start, 10, false, Ink::mid});
  drawing.shapes.push_back(
      TextShape{{width, range.empty() ? middle + 4 : middle - 2}, value, Anchor::end, 11.5, true, Ink::dark});
  drawing.shapes.push_back(TextShape{{width, middle + 11}, fit_text(range, 104, 10), Anchor::end, 10, false, Ink::mid});
}

void draw_level(Drawing& drawing, const SecondsAxis& axis, double middle, Seconds level) {
  const double x = axis.at_or_end(level.count());
  drawing.shapes.push_back(LineShape{{x, middle - 11}, {x, middle + 11}, 3, Ink::dark, false});
}

} // namespace

Drawing draw_bridge_bars(const BridgeBars& bridge) {
  Drawing drawing;
  drawing.width = width;
  const double bottom = top + row_height * static_cast<double>(bridge.steps.size() + 2) + 4;
  drawing.height = bottom + 40;
  const SecondsAxis axis = axis_for(bridge);
  draw_horizontal_axis(drawing, axis, bottom, top, bridge.axis_title);
  double middle = top + row_height / 2;
  draw_labels(drawing, middle, bridge.start_label, "", format_bare_seconds(bridge.start), "");
  draw_level(drawing, axis, middle, bridge.start);
  Seconds at = bridge.start;
  for (const BridgeStep& step : bridge.steps) {
    const double before = axis.at_or_end(at.count());
    drawing.shapes.push_back(
        LineShape{{before, middle + 11}, {before, middle + row_height - bar_height / 2}, 0.8, Ink::mid, true});
    middle += row_height;
    const double after = axis.at_or_end((at + step.seconds).count());
    drawing.shapes.push_back(RectangleShape{{std::min(before, after), middle - bar_height / 2},
                                            std::max(std::abs(after - before), 1.0),
                                            bar_height,
                                            step.seconds.count() >= 0 ? Fill::hatch : Fill::dots,
                                            true});
    const double low = axis.at_or_end((at + step.low).count()), high = axis.at_or_end((at + step.high).count());
    const double y = middle + bar_height / 2 + 4;
    drawing.shapes.push_back(LineShape{{low, y}, {high, y}, 1.4, Ink::dark, false});
    if (std::isfinite(step.low.count()))
      drawing.shapes.push_back(LineShape{{low, y - 3}, {low, y + 3}, 1.4, Ink::dark, false});
    if (std::isfinite(step.high.count()))
      drawing.shapes.push_back(LineShape{{high, y - 3}, {high, y + 3}, 1.4, Ink::dark, false});
    draw_labels(drawing, middle, step.label, step.note, format_signed_bare_seconds(step.seconds),
                format_bare_interval(step.low, step.high));
    at += step.seconds;
  }
  middle += row_height;
  draw_labels(drawing, middle, bridge.end_label, bridge.end_note, format_bare_seconds(at), "");
  draw_level(drawing, axis, middle, at);
  return drawing;
}

} // namespace docket
