#include "report/figures/variant_bars.h"

#include "report/figures/seconds_axis.h"

#include <algorithm>

namespace docket {
namespace {

constexpr double width = 680, label_width = 150, plot_left = 158, plot_right = 590, value_right = 680;
constexpr double least_pitch = 36, all_shares = 210, least_thickness = 4, most_thickness = 96, mean_thickness = 14;
constexpr std::array<Fill, 3> class_fills{Fill::grey, Fill::hatch, Fill::dots};

double thickness_of(const VariantBar& bar) {
  return bar.set_off ? mean_thickness : std::clamp(bar.share * all_shares, least_thickness, most_thickness);
}

double pitch_of(const VariantBar& bar) { return std::max(thickness_of(bar) + 8, least_pitch); }

Seconds total_of(const VariantBar& bar) { return bar.by_class[0] + bar.by_class[1] + bar.by_class[2]; }

void draw_legend(Drawing& drawing, const VariantBars& bars, double y) {
  double x = plot_left;
  for (std::size_t i = 0; i < bars.class_names.size(); ++i) {
    drawing.shapes.push_back(RectangleShape{{x, y - 10}, 16, 11, class_fills[i], true});
    drawing.shapes.push_back(TextShape{{x + 21, y}, bars.class_names[i], Anchor::start, 10.5, false, Ink::dark});
    x += 21 + text_width(bars.class_names[i], 10.5) + 16;
  }
}

void draw_bar(Drawing& drawing, const SecondsAxis& axis, const VariantBar& bar, double middle) {
  const double thickness = thickness_of(bar);
  double from = 0;
  for (std::size_t i = 0; i < class_fills.size(); ++i) {
    const double seconds = bar.by_class[i].count();
    if (seconds <= 0) continue;
    const double x = axis.at(from);
    drawing.shapes.push_back(
        RectangleShape{{x, middle - thickness / 2}, axis.at(from + seconds) - x, thickness, class_fills[i], true});
    from += seconds;
  }
  drawing.shapes.push_back(
      TextShape{{0, middle - 2}, fit_text(bar.label, label_width, 11.5), Anchor::start, 11.5, true, Ink::dark});
  drawing.shapes.push_back(
      TextShape{{0, middle + 12}, fit_text(bar.note, label_width, 10), Anchor::start, 10, false, Ink::mid});
  drawing.shapes.push_back(TextShape{{value_right, middle + 4}, bar.margin, Anchor::end, 11.5, true, Ink::dark});
}

} // namespace

Drawing draw_variant_bars(const VariantBars& bars) {
  Drawing drawing;
  drawing.width = width;
  const double top = 44;
  double bottom = top + 8;
  std::vector<double> must{bars.limit.count()};
  for (const VariantBar& bar : bars.bars) {
    bottom += pitch_of(bar) + (bar.set_off ? 6 : 0);
    must.push_back(total_of(bar).count());
  }
  drawing.height = bottom + 40;
  const SecondsAxis axis = fit_seconds_axis(must, {}, plot_left, plot_right, true);
  draw_horizontal_axis(drawing, axis, bottom, top, bars.axis_title);
  draw_legend(drawing, bars, 12);
  double y = top + 4;
  for (const VariantBar& bar : bars.bars) {
    if (bar.set_off) {
      drawing.shapes.push_back(LineShape{{0, y + 2}, {width, y + 2}, 0.8, Ink::mid, false});
      y += 6;
    }
    draw_bar(drawing, axis, bar, y + pitch_of(bar) / 2);
    y += pitch_of(bar);
  }
  const double x = axis.at(bars.limit.count());
  // White on both sides keeps the line apart from the patterns it crosses.
  drawing.shapes.push_back(RectangleShape{{x - 2.2, top - 6}, 4.4, bottom - top + 6, Fill::white, false});
  drawing.shapes.push_back(LineShape{{x, top - 6}, {x, bottom}, 2, Ink::dark, false});
  const double half = text_width(bars.limit_label, 11) / 2;
  drawing.shapes.push_back(
      TextShape{{std::min(x, plot_right + 4 - half), top - 11}, bars.limit_label, Anchor::middle, 11, true, Ink::dark});
  drawing.shapes.push_back(TextShape{{value_right, top - 11}, bars.margin_header, Anchor::end, 10, false, Ink::mid});
  return drawing;
}

} // namespace docket
