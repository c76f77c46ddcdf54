#include "tests/bench/bench_run.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>
#include <thread>

namespace docket::bench {

namespace {

/// Says with which command the lines that follow were made.
void begin_file(const BenchOptions& options, const Bench& bench, const std::vector<std::string>& words) {
  const bool is_new = !std::ifstream(options.out);
  std::ofstream file(options.out, std::ios::app);
  file << "# " << bench.name;
  for (const std::string& word : words) file << " " << word;
  file << "\n";
  if (is_new) file << bench.csv_header << "\n";
}

} // namespace

std::optional<BenchOptions> read_options(const std::vector<std::string>& words, const std::string& runs_option) {
  BenchOptions options;
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
    } else if (words[i] == runs_option) {
      options.runs = count;
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

std::vector<PointToRun> chosen_points(std::vector<PointToRun> grid, const std::vector<std::string>& beginnings) {
  if (beginnings.empty()) return grid;
  std::vector<PointToRun> chosen;
  for (const std::string& beginning : beginnings)
    for (const PointToRun& point : grid)
      if (point.name.starts_with(beginning) &&
          std::none_of(chosen.begin(), chosen.end(), [&](const PointToRun& p) { return p.name == point.name; }))
        chosen.push_back(point);
  return chosen;
}

bool is_finished(const std::string& file, const std::string& point, std::uint64_t seed, std::int64_t runs) {
  const std::string beginning = point + "," + std::to_string(seed) + "," + std::to_string(runs) + ",";
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);)
    if (line.starts_with(beginning)) return true;
  return false;
}

int run_bench(const Bench& bench, const std::vector<std::string>& words) {
  const auto begun = std::chrono::steady_clock::now();
  const auto gone = [&] { return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count(); };
  const std::optional<BenchOptions> options = read_options(words, bench.runs_option);
  if (!options) {
    std::cerr << bench.name << ": options are " << bench.runs_option
              << " N, --points NAME[,NAME..], --seconds S, --out FILE, --threads N, --seed N, --list\n";
    return 2;
  }
  const std::vector<PointToRun> points = chosen_points(bench.points(*options), options->points);
  if (points.empty()) {
    std::cerr << bench.name << ": no point has such a name; --list shows them\n";
    return 2;
  }
  if (options->list) {
    for (const PointToRun& point : points) std::cout << point.name << "\n";
    return 0;
  }
  if (!options->out.empty()) begin_file(*options, bench, words);
  std::cout << bench.table_header << std::endl;
  bool any_miss = false;
  int left = 0;
  for (const PointToRun& point : points) {
    const std::int64_t runs = options->runs.value_or(point.runs);
    if (is_finished(options->out, point.name, options->seed, runs)) continue;
    if (gone() > options->seconds) {
      ++left;
      continue;
    }
    const std::optional<PointResult> result = point.run(runs);
    if (!result) continue;
    any_miss = any_miss || result->misses;
    std::cout << result->table_line << std::endl;
    if (!options->out.empty()) std::ofstream(options->out, std::ios::app) << result->csv_line << "\n";
  }
  if (left > 0) std::cout << left << " points were not begun in the time given; the same command goes on with them\n";
  return any_miss ? 1 : 0;
}

std::uint64_t stream_of(const std::string& name) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash;
}

void for_each_run(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& one) {
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) one(i);
  };
  std::vector<std::thread> others;
  for (unsigned t = 1; t < threads; ++t) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
}

} // namespace docket::bench
