// What a finished point is kept as: one line of a CSV file, read again so that a run goes on where it stopped.
//
// Format    a line with # and the command for every run; after the first, the column names; then a line a point
// Checked   tests/bench/decision_error_test.cpp
#pragma once

#include "tests/bench/tally.h"

#include <string>
#include <vector>

namespace docket::bench {

struct Result {
  std::string name;
  std::uint64_t seed = 0;
  Tally tally; ///< of the moments, only what is printed comes back: n, mean and SD
};

std::string csv_header();
std::string csv_line(const Result& result);

/// Names of the points the file holds with this seed and this many stations; none where there is no file.
std::vector<std::string> read_finished(const std::string& file, std::uint64_t seed, std::int64_t stations);

std::string table_header();
std::string table_line(const Result& result);

} // namespace docket::bench
