// What a finished point is kept as: one line of the file of results, one line of the table.
//
// Format    bench_run.h; of the moments only mean and SD; a number that is not there is blank ("never", no estimate)
// Checked   tests/bench/curve_coverage/curve_coverage_test.cpp
#pragma once

#include "tests/bench/curve_coverage/curve_tally.h"

#include <cstdint>
#include <string>

namespace docket::bench {

struct CurveResult {
  std::string name;
  std::uint64_t seed = 0;
  CurveTally tally;
  double milliseconds = 0; ///< of one run on one thread; in the table only
};

std::string curve_csv_header();
std::string csv_line(const CurveResult& result);

std::string curve_table_header();
std::string table_line(const CurveResult& result);

} // namespace docket::bench
