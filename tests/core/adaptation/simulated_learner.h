// Simulated learners, said to be simulated: nobody's data.
#pragma once

#include "core/adaptation/practice_series.h"
#include "core/statistics/random.h"
#include "tests/core/made_case.h"

#include <cmath>
#include <cstdint>
#include <vector>

namespace docket::made {

/// Times around `curve` (what the person averages at own cycle n), lognormal with SD `sigma`.
template <class Curve>
std::vector<double> simulated_times(int cycles, int before, double sigma, std::uint64_t seed, Curve curve) {
  const Draws draws(seed);
  std::vector<double> times;
  for (int i = 1; i <= cycles; ++i) {
    const double z = draws.normal(1, 0, static_cast<std::uint64_t>(i));
    times.push_back(curve(before + i) * std::exp(sigma * z - sigma * sigma / 2));
  }
  return times;
}

/// Puts times of an operator in the log, `per_day` a day from six o'clock on, one every 90 s.
inline void log_times(Case& c, std::int32_t op, const std::vector<double>& times, int per_day, int first_day = 0) {
  auto row = static_cast<std::int64_t>(c.cycle_log.size()) + 2;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const auto cycle = static_cast<int>(i);
    c.cycle_log.push_back(logged(op, at(first_day + cycle / per_day, 6 + (cycle % per_day) * 0.025), times[i], row++));
  }
}

/// A station that one complainant K1 asks about: limit 60 s, content 50 s.
inline Case one_learner(const std::vector<double>& times, std::int64_t prior_cycles = 0, int per_day = 100) {
  Case c = one_element_case(60, 50);
  c.operators = {trained("K1", prior_cycles)};
  c.operators[0].trained = YesNo::no;
  c.facts.complainants = {"K1"};
  c.facts.cycles_per_shift = 100;
  log_times(c, 0, times, per_day);
  return c;
}

} // namespace docket::made
