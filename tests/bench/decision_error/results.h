// What a finished point is kept as: one line of the file of results, one line of the table.
//
// Format    bench_run.h; of the moments only n, mean and SD
// Checked   tests/bench/decision_error/decision_error_test.cpp
#pragma once

#include "tests/bench/decision_error/tally.h"

#include <cstdint>
#include <string>

namespace docket::bench {

struct Result {
  std::string name;
  std::uint64_t seed = 0;
  Tally tally;
};

std::string csv_header();
std::string csv_line(const Result& result);

std::string table_header();
std::string table_line(const Result& result);

} // namespace docket::bench
