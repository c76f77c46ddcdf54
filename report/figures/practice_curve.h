// A person's times against own cycles: every cycle as a faint point, the curves laid through them, the limit, and at the
// right edge where the level is today and where it would settle.
#pragma once

#include "core/estimate.h"
#include "report/figures/drawing.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace docket {

struct CyclePoint {
  double cycle = 0; ///< own count
  Seconds time{};
  bool lower_bound = false; ///< at least this long: drawn with a stroke upwards
};

struct CurvePoint {
  double cycle = 0;
  Seconds level{};
};

/// Days away between two own cycles.
struct CurveGap {
  double before = 0, after = 0; ///< own count of the cycles around it
  std::int64_t days = 0;
};

struct PracticeCurvePicture {
  std::vector<CyclePoint> cycles; ///< in order of own count
  std::vector<CurvePoint> averaged;
  std::vector<std::vector<CurvePoint>> single; ///< each model's own curve
  std::vector<CurvePoint> band_low, band_high; ///< interval of the average; empty where it has no end
  std::vector<CurveGap> gaps;
  Seconds limit{};
  std::string limit_label;
  TimeEstimate today, settled;
  std::optional<std::pair<Seconds, Seconds>> others; ///< band of the settled levels of others
  std::string others_label;
  std::string axis_title;
};

/// More cycles than this are thinned.
inline constexpr std::size_t most_points_drawn = 600;

/// Every how many-th cycle is drawn: 1 up to `most_points_drawn` cycles.
std::size_t drawn_every(std::size_t cycles);

/// Cycles that lie beyond the seconds axis; they are drawn at its edge.
std::size_t count_beyond_axis(const PracticeCurvePicture& picture);

Drawing draw_practice_curve(const PracticeCurvePicture& picture);

} // namespace docket
