#include "core/statistics/studies/digit_preference.h"

#include "core/statistics/distributions.h"

#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>

namespace docket {

LastDigits test_last_digits(std::span<const double> readings, double resolution) {
  assert(resolution > 0);
  LastDigits digits{.n = static_cast<std::int64_t>(readings.size())};
  for (const double reading : readings) {
    const double steps = std::round(std::abs(reading) / resolution);
    ++digits.counts[static_cast<std::size_t>(std::fmod(steps, 10))];
  }
  if (digits.n == 0) {
    digits.chi_square = digits.p = digits.share_on_0_and_5 = std::numeric_limits<double>::quiet_NaN();
    return digits;
  }
  const auto n = static_cast<double>(digits.n);
  const double expected = n / 10;
  for (const std::int64_t count : digits.counts) {
    const double excess = static_cast<double>(count) - expected;
    digits.chi_square += excess * excess / expected;
  }
  digits.p = chi_square_upper_tail(digits.chi_square, 9);
  digits.on_0_and_5 = digits.counts[0] + digits.counts[5];
  digits.share_on_0_and_5 = static_cast<double>(digits.on_0_and_5) / n;
  digits.enough = digits.n >= 50;
  return digits;
}

double last_digit_ripple(double sd, double resolution) {
  assert(sd >= 0 && resolution > 0);
  constexpr double pi = std::numbers::pi;
  const double turns = sd / (10 * resolution);
  // A digit is the mean of the density over a tenth of a turn.
  const double over_a_step = std::sin(pi / 10) / (pi / 10);
  return 2 * over_a_step * std::exp(-2 * pi * pi * turns * turns);
}

} // namespace docket
