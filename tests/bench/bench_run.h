// What every bench does around its points: options, which points, time, and results that are gone on with.
//
//     BENCH [--list] [--points NAME[,NAME..]] [--RUNS N] [--seconds S] [--threads N] [--out FILE] [--seed N]
//
// Format    the file of results: a line with # and the command for every run; after the first, the column names; then a
//           line a point, which begins with its name, the seed and how many were simulated
// Method    a point is run where the file does not hold it with the same seed and number; none is begun after S seconds
// Checked   tests/bench/bench_run_test.cpp
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace docket::bench {

struct BenchOptions {
  std::optional<std::int64_t> runs; ///< a point; absent: each point's own number
  std::vector<std::string> points;  ///< beginnings of names; empty: all
  double seconds = 45 * 60;         ///< no point is begun after them
  std::string out;
  unsigned threads = 2;
  std::uint64_t seed = 1;
  bool list = false;
};

/// `runs_option` is what the bench calls the number a point, with its dashes. Absent: not such options.
std::optional<BenchOptions> read_options(const std::vector<std::string>& words, const std::string& runs_option);

/// What came out of one point.
struct PointResult {
  std::string table_line, csv_line; ///< without the end of the line
  bool misses = false;
};

/// A point still to be run.
struct PointToRun {
  std::string name;
  std::int64_t runs = 0;                                            ///< its own number
  std::function<std::optional<PointResult>(std::int64_t runs)> run; ///< absent: another point says it already
};

struct Bench {
  std::string name, runs_option, table_header, csv_header;
  std::function<std::vector<PointToRun>(const BenchOptions&)> points; ///< the grid, in the order of its importance
};

/// Those whose names begin so, in the order of the beginnings, then of the grid; no beginning: all.
std::vector<PointToRun> chosen_points(std::vector<PointToRun> grid, const std::vector<std::string>& beginnings);

/// Is there a line of this point with this seed and this many in the file? No file: no.
bool is_finished(const std::string& file, const std::string& point, std::uint64_t seed, std::int64_t runs);

/// Status 0: every point run passes; 1: a point misses; 2: the options are wrong.
int run_bench(const Bench& bench, const std::vector<std::string>& words);

/// FNV-1a of a name: points draw apart from one another.
std::uint64_t stream_of(const std::string& name);

/// Does `one` for 0 to count - 1, in any order, on so many threads.
void for_each_run(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& one);

} // namespace docket::bench
