#include "core/statistics/random.h"

#include "core/statistics/distributions.h"

#include <cassert>

namespace docket {
namespace {

using Words = std::array<std::uint32_t, 4>;

std::uint32_t low_half(std::uint64_t value) { return static_cast<std::uint32_t>(value); }
std::uint32_t high_half(std::uint64_t value) { return static_cast<std::uint32_t>(value >> 32); }

/// The upper 64 bits of the product of two numbers of 64 bits.
std::uint64_t high_product(std::uint64_t x, std::uint64_t y) {
  const std::uint64_t x_low = low_half(x), x_high = high_half(x);
  const std::uint64_t y_low = low_half(y), y_high = high_half(y);
  const std::uint64_t middle = x_high * y_low + high_half(x_low * y_low);
  const std::uint64_t other_middle = x_low * y_high + low_half(middle);
  return x_high * y_high + high_half(middle) + high_half(other_middle);
}

/// 64 random bits at an address. An address has three times 64 bits and a counter two: the stream goes into the key.
std::uint64_t bits_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t block, std::uint64_t index) {
  const Words stream_key =
      philox4x32_10({low_half(stream), high_half(stream), 0, 0}, {low_half(seed), high_half(seed)});
  const Words drawn = philox4x32_10({low_half(index), high_half(index), low_half(block), high_half(block)},
                                    {stream_key[0], stream_key[1]});
  return (static_cast<std::uint64_t>(drawn[1]) << 32) | drawn[0];
}

} // namespace

std::array<std::uint32_t, 4> philox4x32_10(std::array<std::uint32_t, 4> counter, std::array<std::uint32_t, 2> key) {
  // Salmon et al. 2011, multipliers and key increments of Philox4x32 (golden ratio, square root of 3 less 1).
  constexpr std::uint64_t multiplier_0 = 0xD2511F53;
  constexpr std::uint64_t multiplier_1 = 0xCD9E8D57;
  constexpr std::uint32_t increment_0 = 0x9E3779B9;
  constexpr std::uint32_t increment_1 = 0xBB67AE85;
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t product_0 = multiplier_0 * counter[0];
    const std::uint64_t product_1 = multiplier_1 * counter[2];
    counter = {high_half(product_1) ^ counter[1] ^ key[0], low_half(product_1),
               high_half(product_0) ^ counter[3] ^ key[1], low_half(product_0)};
    key[0] += increment_0;
    key[1] += increment_1;
  }
  return counter;
}

Draws::Draws(std::uint64_t seed) : seed_(seed) {}

double Draws::uniform(std::uint64_t stream, std::uint64_t block, std::uint64_t index) const {
  // 52 bits and a half: with 53 the largest would round to 1.
  return (static_cast<double>(bits_at(seed_, stream, block, index) >> 12) + 0.5) * 0x1p-52;
}

double Draws::normal(std::uint64_t stream, std::uint64_t block, std::uint64_t index) const {
  return normal_quantile(uniform(stream, block, index));
}

std::uint64_t Draws::below(std::uint64_t n, std::uint64_t stream, std::uint64_t block, std::uint64_t index) const {
  assert(n >= 1);
  return high_product(bits_at(seed_, stream, block, index), n);
}

} // namespace docket
