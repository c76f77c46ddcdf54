// How often the words of question A are wrong in the long run: simulated stations of known truth, taken through the
// evidence, the lines, the sequence and the decision as a case is.
//
//     decision_error [--stations N] [--points NAME[,NAME..]] [--seconds S] [--out FILE] [--threads N] [--seed N] [--list]
//
// Status 0: every point run passes; 1: a point misses; 2: the options are wrong.

#include "tests/bench/bench_run.h"
#include "tests/bench/decision_error/grid.h"
#include "tests/bench/decision_error/results.h"

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace {

using docket::bench::BenchOptions;
using docket::bench::Place;
using docket::bench::Point;
using docket::bench::PointResult;
using docket::bench::PointToRun;
using docket::bench::Result;
using docket::bench::TrueBoundaries;

constexpr std::int64_t stations_a_point = 1500;

/// The boundary of a false DOES NOT FIT is that of a false FITS too: the point before says both.
bool said_already(const Point& point, const TrueBoundaries& truth) {
  return point.place == Place::unfit_boundary && !point.name.starts_with("corner") &&
         truth.share >= std::min(truth.mean, truth.rate);
}

std::vector<PointToRun> points_of(const BenchOptions& options) {
  // Both boundaries of a shape stand side by side: its truth is found once.
  const auto truths = std::make_shared<std::map<std::string, TrueBoundaries>>();
  std::vector<PointToRun> points;
  for (const Point& point : docket::bench::make_grid(options.seed)) {
    const auto run = [=](std::int64_t stations) -> std::optional<PointResult> {
      const auto truth = truths->try_emplace(point.name.substr(0, point.name.find('/')));
      if (truth.second) truth.first->second = docket::bench::find_boundaries(point.shape);
      const TrueBoundaries& boundaries = truth.first->second;
      if (said_already(point, boundaries)) return std::nullopt;
      const Result result{point.name, options.seed,
                          docket::bench::run_point(point, boundaries, stations, options.seed, options.threads)};
      return PointResult{docket::bench::table_line(result), docket::bench::csv_line(result),
                         !docket::bench::misses_of(result.tally).empty()};
    };
    points.push_back({point.name, stations_a_point, run});
  }
  return points;
}

} // namespace

int main(int argc, char** argv) {
  return docket::bench::run_bench(
      {"decision_error", "--stations", docket::bench::table_header(), docket::bench::csv_header(), points_of},
      {argv + 1, argv + argc});
}
