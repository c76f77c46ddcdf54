#include "report/case_document/adaptation_parts.h"
#include "report/figures/practice_curve.h"
#include "report/format.h"
#include "report/wording/adaptation.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

// The plain cycles are among those with bounds, in the same order: what is not plain is a lower bound.
std::vector<CyclePoint> points_of(const PracticeSeries& series) {
  std::vector<CyclePoint> points;
  std::size_t next_plain = 0;
  for (const PracticePoint& point : series.with_bounds) {
    const bool is_plain = next_plain < series.plain.size() && series.plain[next_plain].n == point.n;
    if (is_plain) ++next_plain;
    points.push_back({point.n, Seconds{point.seconds}, !is_plain});
  }
  return points;
}

/// A stretch between two breaks that set the curve back: own counts as done, and what is taken off them.
struct Piece {
  double first = 0, last = 0, lost = 0;
};

std::vector<Piece> pieces_of(const Adaptation& adaptation) {
  const std::vector<PracticePoint>& plain = adaptation.series.plain;
  std::vector<Piece> pieces{{plain.front().n, plain.back().n, 0}};
  for (const Interruption& found : adaptation.interruptions) {
    if (!found.loss_shown) continue;
    const auto after = static_cast<double>(found.at.after);
    const auto next =
        std::find_if(plain.begin(), plain.end(), [&](const PracticePoint& point) { return point.n > after; });
    if (next == plain.begin() || next == plain.end()) continue;
    pieces.back().last = std::prev(next)->n;
    pieces.push_back({next->n, plain.back().n, pieces.back().lost + found.cycles_lost.value_or(0)});
    // Where all that came before is lost, the curves are laid through the cycles since.
    if (!found.cycles_lost) pieces.erase(pieces.begin(), std::prev(pieces.end()));
  }
  return pieces;
}

void add_curves(PracticeCurvePicture& picture, const AdaptationEstimates& own, const std::vector<Piece>& pieces) {
  constexpr double steps = 80;
  const double span = std::max(1.0, pieces.back().last - pieces.front().first);
  for (const Piece& piece : pieces) {
    const double length = piece.last - piece.first;
    const int here = std::max(1, static_cast<int>(std::ceil(steps * length / span)));
    std::vector<CurvePoint> averaged;
    std::vector<std::vector<CurvePoint>> single(own.models.size());
    for (int i = 0; i <= here; ++i) {
      const double cycle = piece.first + length * i / here;
      double sum = 0;
      for (std::size_t m = 0; m < own.models.size(); ++m) {
        const double level = own.models[m].fit.level(cycle - piece.lost);
        sum += own.models[m].weight * level;
        single[m].push_back({cycle, Seconds{level}});
      }
      averaged.push_back({cycle, Seconds{sum}});
    }
    picture.averaged.push_back(std::move(averaged));
    for (std::vector<CurvePoint>& curve : single) picture.single.push_back(std::move(curve));
    std::vector<CurvePoint> low, high;
    for (const LevelAtCycle& at : own.course) {
      if (at.cycle < piece.first || at.cycle > piece.last) continue;
      if (at.level.low) low.push_back({at.cycle, *at.level.low});
      if (at.level.high) high.push_back({at.cycle, *at.level.high});
    }
    picture.edges.push_back(std::move(low));
    picture.edges.push_back(std::move(high));
  }
}

std::vector<CurveBreak> breaks_of(const Adaptation& adaptation) {
  std::vector<CurveBreak> breaks;
  const std::vector<PracticePoint>& seen = adaptation.series.with_bounds;
  for (const Interruption& found : adaptation.interruptions) {
    const auto after = static_cast<double>(found.at.after);
    const auto next =
        std::find_if(seen.begin(), seen.end(), [&](const PracticePoint& point) { return point.n > after; });
    if (next == seen.begin() || next == seen.end()) continue;
    breaks.push_back({std::prev(next)->n, next->n, wording::break_in_words(found.at)});
  }
  return breaks;
}

CurveBand band_of(const EarlierLearnersBand& learners) {
  CurveBand band;
  for (const LearnersAtCycle& at : learners.levels) {
    if (!at.level.low || !at.level.high) continue;
    band.low.push_back({at.cycle, *at.level.low});
    band.high.push_back({at.cycle, *at.level.high});
  }
  return band;
}

/// The band has a part over the cycles seen.
bool band_is_seen(const PracticeCurvePicture& picture) {
  const CurveBand& band = picture.learners;
  return band.low.size() > 1 && !picture.cycles.empty() && band.low.front().cycle < picture.cycles.back().cycle &&
         band.low.back().cycle > picture.cycles.front().cycle;
}

PracticeCurvePicture picture_of(const CaseView& view, const Adaptation& adaptation) {
  const PracticeSeries& series = adaptation.series;
  const AdaptationEstimates& own = *adaptation.estimates;
  PracticeCurvePicture picture;
  picture.cycles = points_of(series);
  add_curves(picture, own, pieces_of(adaptation));
  picture.breaks = breaks_of(adaptation);
  if (view.findings.earlier_learners) picture.learners = band_of(*view.findings.earlier_learners);
  picture.limit = view.findings.time.limit;
  picture.limit_label = "limit " + format_seconds(picture.limit);
  picture.today = own.today;
  picture.settled = own.settled;
  if (const auto& band = view.findings.adaptation_band) {
    picture.others = {band->low, band->high};
    picture.others_label = "grey: " + format_count(band->n) + " settled operators of A";
  }
  picture.axis_title = series.first_cycle_estimated ? "Own cycles, counted from an estimated start" : "Own cycles";
  return picture;
}

Runs caption_of(const CaseView& view, const Adaptation& adaptation, const PracticeCurvePicture& picture) {
  const auto n = static_cast<std::int64_t>(picture.cycles.size());
  const std::int64_t bounds = std::count_if(picture.cycles.begin(), picture.cycles.end(),
                                            [](const CyclePoint& point) { return point.lower_bound; });
  const std::size_t every = drawn_every(picture.cycles.size());
  const auto beyond = static_cast<std::int64_t>(count_beyond_axis(picture));
  std::string text = "Faint points: plain cycles, n = " + format_count(n - bounds) + ". ";
  if (bounds > 0)
    text += "Short strokes upwards: " + counted(bounds, "cycle", "cycles") +
            " helped or cut short, at least this long; the curves take them as lower bounds. ";
  if (every > 1) text += "Of these cycles, one in " + std::to_string(every) + " is drawn; the curves use all of them. ";
  if (const auto& band = view.findings.adaptation_band)
    text += "Grey at the right: the levels of the " + format_count(band->n) +
            " settled operators of A whom B is not asked about, smallest to largest. ";
  if (band_is_seen(picture))
    text += "Grey behind the cycles: where " + format_percent(view.input.settings.confidence) +
            " of learners like the " + format_count(view.findings.earlier_learners->learners) +
            " earlier ones are expected. ";
  if (beyond > 0)
    text += counted(beyond, "cycle lies", "cycles lie") + " beyond the axis and " + (beyond == 1 ? "stands" : "stand") +
            " at its edge. ";
  text += "Thick line: the curves averaged; thin lines beside it: the interval of the average; dashed: each of the " +
          format_count(static_cast<std::int64_t>(adaptation.estimates->models.size())) +
          " curves alone. They end with the cycles seen. Right: today's level, and the settled level (hollow), each "
          "with its interval. ";
  if (!picture.breaks.empty()) {
    text += "Dotted: breaks";
    for (std::size_t i = 0; i < picture.breaks.size(); ++i)
      text += std::string(i == 0 ? ", " : "; ") + picture.breaks[i].label + " after own cycle " +
              format_count(adaptation.interruptions[i].at.after);
    text += ". ";
  }
  if (picture.averaged.size() > 1)
    text += "Where a break set the curve back, each piece is drawn at the own count as done and evaluated at the count "
            "less the cycles lost. ";
  if (adaptation.series.first_cycle_estimated)
    text += "The own count is estimated: " + counted(adaptation.series.before, "cycle", "cycles") +
            " taken to come before the first one here. ";
  text += "One curve is no measure of another person.";
  return runs(text);
}

} // namespace

std::string level_with_range(const TimeEstimate& level) {
  return format_seconds(level.time) + " (" + format_bare_interval(level.low, level.high) + ")";
}

Figure curve_figure(const CaseView& view, const Adaptation& adaptation) {
  const AdaptationEstimates& own = *adaptation.estimates;
  const PracticeCurvePicture picture = picture_of(view, adaptation);
  Figure figure;
  figure.title = "Operator " + operator_code(view.input, adaptation.op) + ": times against own cycles";
  figure.description = "Every cycle as a point against the own count, n = " +
                       format_count(static_cast<std::int64_t>(picture.cycles.size())) +
                       ", with the curves laid through them and the " + picture.limit_label + ". Today's level " +
                       level_with_range(own.today) + ", settled level " + level_with_range(own.settled) + ".";
  figure.caption = caption_of(view, adaptation, picture);
  figure.drawing = draw_practice_curve(picture);
  return figure;
}

} // namespace docket
