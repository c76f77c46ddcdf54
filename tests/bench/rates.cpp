#include "tests/bench/rates.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace docket::bench {

void Moments::add(double value) {
  n += 1;
  sum += value;
  squares += value * value;
}

double Moments::mean() const { return n > 0 ? sum / n : 0; }

double Moments::sd() const { return n > 1 ? std::sqrt(std::max(0.0, (squares - sum * sum / n) / (n - 1))) : 0; }

double allowed_share(double p, std::int64_t n) { return p + 3 * std::sqrt(p * (1 - p) / static_cast<double>(n)); }

bool covers_enough(std::int64_t covered, std::int64_t n) {
  if (n == 0) return true;
  const double least = std::min(least_coverage, 1 - allowed_share(1 - nominal_coverage, n));
  return static_cast<double>(covered) >= static_cast<double>(n) * least;
}

std::string number(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.5g", value);
  return text;
}

std::string percent(double part, double whole) {
  if (whole <= 0) return "-";
  char text[40];
  std::snprintf(text, sizeof text, "%.1f", 100 * part / whole);
  return text;
}

std::string padded(const std::string& text, std::size_t width) {
  return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

void add_word(std::string& words, const char* word) { words += (words.empty() ? "" : " ") + std::string(word); }

} // namespace docket::bench
