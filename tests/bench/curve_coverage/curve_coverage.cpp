// How often the intervals and words of question B hold in the long run: simulated learners of known truth, taken
// through the evidence, the curves and the decision as a case is.
//
//     curve_coverage [--runs N] [--points NAME[,NAME..]] [--seconds S] [--out FILE] [--threads N] [--seed N] [--list]
//
// Status 0: every point run whose truth is among the models passes; 1: one misses; 2: the options are wrong.

#include "tests/bench/bench_run.h"
#include "tests/bench/curve_coverage/curve_results.h"
#include "tests/bench/curve_coverage/learner_grid.h"

#include <chrono>
#include <optional>
#include <vector>

namespace {

using docket::bench::BenchOptions;
using docket::bench::CurveResult;
using docket::bench::LearnerPoint;
using docket::bench::PointResult;
using docket::bench::PointToRun;

std::vector<PointToRun> points_of(const BenchOptions& options) {
  std::vector<PointToRun> points;
  for (const LearnerPoint& point : docket::bench::make_learner_grid(options.seed)) {
    const auto run = [=](std::int64_t runs) -> std::optional<PointResult> {
      const auto begun = std::chrono::steady_clock::now();
      CurveResult result{point.name, options.seed,
                         docket::bench::run_point(point, runs, options.seed, options.threads)};
      const std::chrono::duration<double, std::milli> gone = std::chrono::steady_clock::now() - begun;
      result.milliseconds = gone.count() * options.threads / static_cast<double>(runs);
      return PointResult{docket::bench::table_line(result), docket::bench::csv_line(result),
                         docket::bench::is_among_models(point.shape.kind) &&
                             !docket::bench::misses_of(result.tally).empty()};
    };
    points.push_back({point.name, point.runs, run});
  }
  return points;
}

} // namespace

int main(int argc, char** argv) {
  return docket::bench::run_bench(
      {"curve_coverage", "--runs", docket::bench::curve_table_header(), docket::bench::curve_csv_header(), points_of},
      {argv + 1, argv + argc});
}
