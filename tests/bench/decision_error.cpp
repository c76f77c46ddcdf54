// How often the words of question A are wrong in the long run: simulated stations of known truth, taken through the
// evidence, the lines, the sequence and the decision as a case is.
//
//     decision_error [--stations N] [--points NAME[,NAME..]] [--seconds S] [--out FILE] [--threads N] [--seed N] [--list]
//
// Status 0: every point run passes; 1: a point misses; 2: the options are wrong.

#include "tests/bench/grid.h"
#include "tests/bench/results.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace {

using docket::bench::Place;
using docket::bench::Point;
using docket::bench::Result;
using docket::bench::TrueBoundaries;

struct Options {
  std::int64_t stations = 1500;
  std::vector<std::string> points; ///< beginnings of names; empty: all
  double seconds = 45 * 60;        ///< no point is begun after them
  std::string out;
  unsigned threads = 2;
  std::uint64_t seed = 1;
  bool list = false;
};

std::optional<Options> read_options(const std::vector<std::string>& words) {
  Options options;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--list") {
      options.list = true;
      continue;
    }
    if (i + 1 == words.size()) return std::nullopt;
    const std::string& value = words[i + 1];
    const long long count = std::atoll(value.c_str());
    if (words[i] == "--out") {
      options.out = value;
    } else if (words[i] == "--points") {
      std::istringstream names(value);
      for (std::string name; std::getline(names, name, ',');) options.points.push_back(name);
    } else if (count < 1) {
      return std::nullopt;
    } else if (words[i] == "--stations") {
      options.stations = count;
    } else if (words[i] == "--seconds") {
      options.seconds = static_cast<double>(count);
    } else if (words[i] == "--threads") {
      options.threads = static_cast<unsigned>(count);
    } else if (words[i] == "--seed") {
      options.seed = static_cast<std::uint64_t>(count);
    } else {
      return std::nullopt;
    }
    ++i;
  }
  return options;
}

/// In the order of the options given, then of the grid.
std::vector<Point> chosen_points(const Options& options) {
  const std::vector<Point> grid = docket::bench::make_grid(options.seed);
  if (options.points.empty()) return grid;
  std::vector<Point> chosen;
  for (const std::string& name : options.points)
    for (const Point& point : grid)
      if (point.name.starts_with(name) &&
          std::none_of(chosen.begin(), chosen.end(), [&](const Point& p) { return p.name == point.name; }))
        chosen.push_back(point);
  return chosen;
}

/// The boundary of a false DOES NOT FIT is that of a false FITS too: the point before says both.
bool said_already(const Point& point, const TrueBoundaries& truth) {
  return point.place == Place::unfit_boundary && !point.name.starts_with("corner") &&
         truth.share >= std::min(truth.mean, truth.rate);
}

} // namespace

int main(int argc, char** argv) {
  const auto begun = std::chrono::steady_clock::now();
  const auto gone = [&] { return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count(); };
  const std::optional<Options> options = read_options({argv + 1, argv + argc});
  if (!options) {
    std::cerr << "decision_error: options are --stations N, --points NAME[,NAME..], --seconds S, --out FILE, "
                 "--threads N, --seed N, --list\n";
    return 2;
  }
  const std::vector<Point> points = chosen_points(*options);
  if (points.empty()) {
    std::cerr << "decision_error: no point has such a name; --list shows them\n";
    return 2;
  }
  std::vector<std::string> finished;
  if (!options->out.empty()) {
    finished = docket::bench::read_finished(options->out, options->seed, options->stations);
    const bool is_new = !std::ifstream(options->out);
    std::ofstream file(options->out, std::ios::app);
    file << "# decision_error";
    for (int i = 1; i < argc; ++i) file << " " << argv[i];
    file << "\n";
    if (is_new) file << docket::bench::csv_header() << "\n";
  }
  if (!options->list) std::cout << docket::bench::table_header() << std::endl;
  bool any_miss = false;
  int left = 0;
  std::map<std::string, TrueBoundaries> truths; ///< both boundaries of a shape stand side by side
  for (const Point& point : points) {
    if (options->list) {
      std::cout << point.name << "\n";
      continue;
    }
    if (std::find(finished.begin(), finished.end(), point.name) != finished.end()) continue;
    if (gone() > options->seconds) {
      ++left;
      continue;
    }
    const std::string shape = point.name.substr(0, point.name.find('/'));
    const auto truth = truths.try_emplace(shape);
    if (truth.second) truth.first->second = docket::bench::find_boundaries(point.shape);
    const TrueBoundaries& boundaries = truth.first->second;
    if (said_already(point, boundaries)) continue;
    const Result result{
        point.name, options->seed,
        docket::bench::run_point(point, boundaries, options->stations, options->seed, options->threads)};
    any_miss = any_miss || !docket::bench::misses_of(result.tally).empty();
    std::cout << docket::bench::table_line(result) << std::endl;
    if (!options->out.empty()) std::ofstream(options->out, std::ios::app) << docket::bench::csv_line(result) << "\n";
  }
  if (left > 0) std::cout << left << " points were not begun in the time given; the same command goes on with them\n";
  return any_miss ? 1 : 0;
}
