#include "report/figures/dot_plot.h"

#include "report/figures/seconds_axis.h"
#include "report/format.h"

#include <algorithm>

namespace docket {
namespace {

constexpr double width = 680, label_left = 0, label_width = 188, plot_left = 212, plot_right = 524, value_right = 680;
constexpr double row_height = 40, label_size = 11.5, note_size = 10;

SecondsAxis axis_for(const DotPlot& plot) {
  std::vector<double> must{plot.limit.count()}, may;
  if (plot.second_line) must.push_back(plot.second_line->count());
  for (const DotRow& row : plot.rows) {
    if (!row.estimate) continue;
    must.push_back(row.estimate->time.count());
    if (row.estimate->low) may.push_back(row.estimate->low->count());
    if (row.estimate->high) may.push_back(row.estimate->high->count());
  }
  return fit_seconds_axis(must, may, plot_left, plot_right, false);
}

void draw_arrow_end(Drawing& drawing, double x, double y, double direction) {
  drawing.shapes.push_back(LineShape{{x, y}, {x - direction * 5, y - 4}, 1.6, Ink::dark, false});
  drawing.shapes.push_back(LineShape{{x, y}, {x - direction * 5, y + 4}, 1.6, Ink::dark, false});
}

// An end outside the axis, or one that does not exist, ends in an arrow.
void draw_interval(Drawing& drawing, const SecondsAxis& axis, const TimeEstimate& estimate, double y) {
  if (!estimate.low && !estimate.high) return;
  const bool low_inside = estimate.low && axis.holds(estimate.low->count());
  const bool high_inside = estimate.high && axis.holds(estimate.high->count());
  const double left = low_inside ? axis.at(estimate.low->count()) : axis.from;
  const double right = high_inside ? axis.at(estimate.high->count()) : axis.to;
  drawing.shapes.push_back(LineShape{{left, y}, {right, y}, 1.6, Ink::dark, false});
  if (low_inside) {
    drawing.shapes.push_back(LineShape{{left, y - 4}, {left, y + 4}, 1.6, Ink::dark, false});
  } else {
    draw_arrow_end(drawing, left, y, -1);
  }
  if (high_inside) {
    drawing.shapes.push_back(LineShape{{right, y - 4}, {right, y + 4}, 1.6, Ink::dark, false});
  } else {
    draw_arrow_end(drawing, right, y, 1);
  }
}

void draw_reference(Drawing& drawing, double x, double top, double bottom, const std::string& label, double label_y,
                    bool dashed) {
  drawing.shapes.push_back(LineShape{{x, top}, {x, bottom}, dashed ? 1.2 : 2, Ink::dark, dashed});
  const double half = text_width(label, 11) / 2;
  const double middle = std::clamp(x, half, width - half);
  drawing.shapes.push_back(TextShape{{middle, label_y}, label, Anchor::middle, 11, !dashed, Ink::dark});
}

void draw_row(Drawing& drawing, const SecondsAxis& axis, const DotRow& row, double middle) {
  drawing.shapes.push_back(TextShape{{label_left, row.note.empty() ? middle + 4 : middle - 2},
                                     fit_text(row.label, label_width, label_size),
                                     Anchor::start,
                                     label_size,
                                     true,
                                     Ink::dark});
  drawing.shapes.push_back(TextShape{{label_left, middle + 12},
                                     fit_text(row.note, label_width, note_size),
                                     Anchor::start,
                                     note_size,
                                     false,
                                     Ink::mid});
  if (!row.estimate) return;
  draw_interval(drawing, axis, *row.estimate, middle);
  drawing.shapes.push_back(CircleShape{{axis.at(row.estimate->time.count()), middle}, 4.6, !row.hollow});
  drawing.shapes.push_back(TextShape{
      {value_right, middle - 2}, format_bare_seconds(row.estimate->time), Anchor::end, 11.5, true, Ink::dark});
  const std::string interval = format_bare_interval(row.estimate->low, row.estimate->high);
  drawing.shapes.push_back(TextShape{{value_right, middle + 12}, interval, Anchor::end, note_size, false, Ink::mid});
}

} // namespace

Drawing draw_dot_plot(const DotPlot& plot) {
  Drawing drawing;
  drawing.width = width;
  const double labels = plot.second_line ? 32 : 16;
  const double top = labels + 8;
  const double bottom = top + row_height * static_cast<double>(plot.rows.size()) + 6;
  drawing.height = bottom + 40;
  const SecondsAxis axis = axis_for(plot);
  draw_horizontal_axis(drawing, axis, bottom, top, plot.axis_title);
  if (plot.second_line) {
    draw_reference(drawing, axis.at(plot.second_line->count()), 20, bottom, plot.second_label, 12, true);
  }
  draw_reference(drawing, axis.at(plot.limit.count()), labels - 0, bottom, plot.limit_label, labels - 4, false);
  drawing.shapes.push_back(TextShape{{value_right, labels - 4}, plot.value_header, Anchor::end, 10, false, Ink::mid});
  double middle = top + row_height / 2 + 2;
  for (const DotRow& row : plot.rows) {
    if (row.set_off) {
      const double y = middle - row_height / 2 - 1;
      drawing.shapes.push_back(LineShape{{0, y}, {width, y}, 0.8, Ink::mid, false});
    }
    draw_row(drawing, axis, row, middle);
    middle += row_height;
  }
  return drawing;
}

} // namespace docket
