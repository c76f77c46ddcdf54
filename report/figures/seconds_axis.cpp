#include "report/figures/seconds_axis.h"

#include "report/format.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace docket {
namespace {

// The smallest round step that makes at most `most` intervals.
double round_step(double span, int most) {
  static constexpr std::array<double, 3> mantissas{1, 2, 5};
  double power = std::pow(10.0, std::floor(std::log10(std::max(span, 1e-6) / most)));
  for (int i = 0; i < 3; ++i, power *= 10) {
    for (const double mantissa : mantissas) {
      if (mantissa * power * most >= span * (1 - 1e-9)) return mantissa * power;
    }
  }
  return power;
}

} // namespace

double SecondsAxis::at_or_end(double seconds) const { return at(std::clamp(seconds, low, high)); }

std::vector<double> SecondsAxis::ticks() const {
  std::vector<double> values;
  const auto first = static_cast<long>(std::ceil(low / step - 1e-9));
  const auto last = static_cast<long>(std::floor(high / step + 1e-9));
  for (long i = first; i <= last; ++i) values.push_back(static_cast<double>(i) * step);
  return values;
}

SecondsAxis fit_seconds_axis(std::span<const double> must_hold, std::span<const double> may_hold, double from,
                             double to, bool zero_based) {
  double low = must_hold.empty() ? 0 : must_hold[0], high = must_hold.empty() ? 1 : must_hold[0];
  for (const double value : must_hold) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
  const double room = std::max({1.5 * (high - low), 0.12 * std::abs(high), 1.0});
  const double least = low - room, most = high + room;
  for (const double value : may_hold) {
    if (!std::isfinite(value)) continue;
    low = std::min(low, std::max(value, least));
    high = std::max(high, std::min(value, most));
  }
  const double edge = std::max(0.04 * (high - low), 0.5);
  SecondsAxis axis;
  axis.from = from;
  axis.to = to;
  high += edge;
  low -= edge;
  if (zero_based || low < 0.3 * high) low = 0;
  axis.step = round_step(high - low, 8);
  axis.low = low == 0 ? 0 : std::floor(low / axis.step) * axis.step;
  axis.high = std::ceil(high / axis.step) * axis.step;
  return axis;
}

void draw_horizontal_axis(Drawing& drawing, const SecondsAxis& axis, double y, double top, const std::string& title) {
  const int decimals = axis.step < 1 ? 1 : 0;
  for (const double tick : axis.ticks()) {
    const double x = axis.at(tick);
    drawing.shapes.push_back(LineShape{{x, top}, {x, y}, 0.6, Ink::light, false});
    drawing.shapes.push_back(LineShape{{x, y}, {x, y + 4}, 1, Ink::dark, false});
    drawing.shapes.push_back(
        TextShape{{x, y + 16}, format_fixed(tick, decimals), Anchor::middle, 10.5, false, Ink::dark});
  }
  double start = axis.from;
  if (axis.broken()) {
    start = axis.from - 16;
    const double x = axis.from - 9;
    drawing.shapes.push_back(LineShape{{start, y}, {x - 2, y}, 1, Ink::dark, false});
    drawing.shapes.push_back(LineShape{{x - 4, y + 5}, {x, y - 5}, 1, Ink::dark, false});
    drawing.shapes.push_back(LineShape{{x, y + 5}, {x + 4, y - 5}, 1, Ink::dark, false});
    drawing.shapes.push_back(LineShape{{x + 2, y}, {axis.to, y}, 1, Ink::dark, false});
  } else {
    drawing.shapes.push_back(LineShape{{start, y}, {axis.to, y}, 1, Ink::dark, false});
  }
  const std::string note =
      axis.broken() ? "; the axis starts at " + format_fixed(axis.low, decimals) + ", not at 0" : std::string();
  drawing.shapes.push_back(
      TextShape{{(axis.from + axis.to) / 2, y + 33}, title + note, Anchor::middle, 10.5, false, Ink::mid});
}

} // namespace docket
