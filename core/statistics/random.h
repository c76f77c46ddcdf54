// Random numbers by address instead of by turn: the same (seed, stream, block, index) gives the same number, whatever
// was drawn before, on whatever thread.
//
// Model     Philox4x32-10: ten rounds of multiplication, exclusive or and exchange on a counter of 128 bits under a key
//           of 64 bits
// Source    J. K. Salmon, M. A. Moraes, R. O. Dror, D. E. Shaw, Parallel random numbers: as easy as 1, 2, 3, Proc.
//           SC'11 (2011), article 16
// Method    the seed as key and the stream as counter give the key of the stream; under that key the counter is
//           (index, block). Uniform: 52 bits, centred in their cell; normal: AS 241 of the uniform
// Spread    none
// Assumes   nothing secret is drawn from it
// Checked   tests/core/statistics/random_test.cpp: the published known answers, order, range, moments
#pragma once

#include <array>
#include <cstdint>

namespace docket {

/// The kernel: 128 bits for a counter under a key, words in the order of the publication.
std::array<std::uint32_t, 4> philox4x32_10(std::array<std::uint32_t, 4> counter, std::array<std::uint32_t, 2> key);

/// The numbers of one seed. `stream`: what is drawn for (a purpose, an operator); `block`: a shift or a resample;
/// `index`: the place in it. The three functions read the same address: draw two things at two addresses.
class Draws {
public:
  explicit Draws(std::uint64_t seed);

  /// In (0, 1), never 0 and never 1; symmetric about 0.5.
  double uniform(std::uint64_t stream, std::uint64_t block, std::uint64_t index) const;

  /// Standard normal: normal_quantile of uniform at the same address. Within 8.3 of 0.
  double normal(std::uint64_t stream, std::uint64_t block, std::uint64_t index) const;

  /// 0 to n - 1, n >= 1. No value is likelier than another by more than n / 2^64.
  std::uint64_t below(std::uint64_t n, std::uint64_t stream, std::uint64_t block, std::uint64_t index) const;

private:
  std::uint64_t seed_;
};

} // namespace docket
