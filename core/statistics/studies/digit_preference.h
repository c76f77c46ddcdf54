// Were readings read to the digit they are written with? Rounded or invented ones show it in the last digit.
//
// Model     the last digit of a reading that spreads over many of its steps is 0 to 9 with equal chance
// Source    K. Pearson, On the criterion that a given system of deviations ..., Philosophical Magazine 50 (1900),
//           157-175: chi-square of counts; the ripple: first Fourier coefficient of a wrapped normal distribution, K.
//           V. Mardia, P. E. Jupp, Directional Statistics (2000), 3.5.7
// Method    sum (seen - n/10)^2/(n/10), nine degrees of freedom
// Spread    the chi-square distribution holds well from five expected of each digit, 50 readings (W. G. Cochran,
//           Biometrics 10 (1954), 417-451)
// Assumes   independent readings, spread wide beside ten steps of the last digit: a short element with a small spread
//           has uneven last digits though every reading is honest. last_digit_ripple says how uneven
// Checked   tests/core/statistics/studies/digit_preference_test.cpp: R's chisq.test; the ripple against sums of normal
//           probabilities
#pragma once

#include <array>
#include <cstdint>
#include <span>

namespace docket {

struct LastDigits {
  std::int64_t n = 0;
  std::array<std::int64_t, 10> counts{}; ///< Of the digits 0 to 9.
  double chi_square = 0;
  double p = 0;                ///< Of counts at least so uneven if all ten are equally likely. NaN without a reading.
  std::int64_t on_0_and_5 = 0; ///< Readings that end in 0 or 5: a fifth is to be expected.
  double share_on_0_and_5 = 0; ///< [1]; NaN without a reading.
  bool enough = false;         ///< 50 readings or more; with fewer p is rough.
};

/// The digit that stands for one `resolution` (0.1 s: the tenths). Readings are taken to the nearest whole number of
/// resolutions, without sign. Finite readings, resolution > 0.
LastDigits test_last_digits(std::span<const double> readings, double resolution);

/// By how much, as a part of 1/10, the likeliest last digit exceeds its tenth in honest readings of a normal quantity
/// with this standard deviation: 1.4 % at half of ten steps, 22 % at a third. To within 3 % of 1 for sd of a quarter of
/// ten steps or more; below that it is too large for the test to mean anything. sd >= 0, resolution > 0.
double last_digit_ripple(double sd, double resolution);

} // namespace docket
