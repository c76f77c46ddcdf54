// A person's times against own cycles: every cycle as a faint point, the curves laid through them in pieces from break to
// break, the limit, and at the right edge where the level is today and where it would settle.
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

/// Between two own cycles: days away, or where the work changed.
struct CurveBreak {
  double before = 0, after = 0; ///< own count of the cycles around it
  std::string label;
};

/// From its low edge to its high one at each own cycle.
struct CurveBand {
  std::vector<CurvePoint> low, high;
};

struct PracticeCurvePicture {
  std::vector<CyclePoint> cycles;                ///< in order of own count
  std::vector<std::vector<CurvePoint>> averaged; ///< piece by piece: no line across a break that set it back
  std::vector<std::vector<CurvePoint>> single;   ///< each model's own curve, piece by piece
  std::vector<std::vector<CurvePoint>> edges;    ///< ends of the interval of the average, where it has them
  std::vector<CurveBreak> breaks;
  CurveBand learners; ///< of earlier learners; empty where there is none
  Seconds limit{};
  std::string limit_label;
  TimeEstimate today, settled;
  std::optional<std::pair<Seconds, Seconds>> others; ///< band of the settled levels of others; beside the levels only
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
