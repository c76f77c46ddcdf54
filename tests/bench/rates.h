// What is counted over many runs, and how much of it chance alone allows; and the cells of a line that shows it.
//
// Model     a rate nominally p over N runs passes at p + 3 sqrt(p (1 - p) / N)
// Source    binomial standard error, any textbook of statistics; three of them: common practice
// Checked   tests/bench/bench_run_test.cpp
#pragma once

#include <cstdint>
#include <string>

namespace docket::bench {

inline constexpr double nominal_coverage = 0.95, least_coverage = 0.93;
inline constexpr double wrong_word = 0.025; ///< [1] on each side

/// Sum, for mean and SD.
struct Moments {
  double n = 0, sum = 0, squares = 0;
  void add(double value);
  double mean() const;
  double sd() const;
};

/// Most that may be seen of what has probability p, as a share of n.
double allowed_share(double p, std::int64_t n);

/// Did intervals of 95 % cover in 93 % or more? With few runs the simulation error alone is wider than those 2 %.
bool covers_enough(std::int64_t covered, std::int64_t n);

std::string number(double value);                               ///< five digits
std::string percent(double part, double whole);                 ///< one decimal; a dash where there is no whole
std::string padded(const std::string& text, std::size_t width); ///< to the right
void add_word(std::string& words, const char* word);            ///< behind a blank

} // namespace docket::bench
