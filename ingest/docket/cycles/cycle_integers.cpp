#include "ingest/docket/cycles/cycle_integers.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <numeric>

namespace docket {

namespace {

std::uint64_t plain(std::int64_t number) { return static_cast<std::uint64_t>(number); }

struct Spread {
  std::int64_t least = 0;
  std::uint64_t step = 1;
  std::uint8_t width = 0;
};

/// The least of them, their greatest common step above it, and the bytes that takes.
Spread spread_of(std::span<const std::int64_t> numbers) {
  std::int64_t least = numbers.front(), most = numbers.front();
  for (const std::int64_t number : numbers) {
    least = std::min(least, number);
    most = std::max(most, number);
  }
  const std::uint64_t range = plain(most) - plain(least);
  if (range == 0) return {least, 1, 0};
  std::uint64_t step = range;
  for (const std::int64_t number : numbers) {
    const std::uint64_t above = plain(number) - plain(least);
    // Short division is several times as quick as long, and nearly always does.
    const bool divides = (above | step) >> 32 == 0
                             ? static_cast<std::uint32_t>(above) % static_cast<std::uint32_t>(step) == 0
                             : above % step == 0;
    if (divides) continue;
    step = std::gcd(step, above);
    if (step == 1) break;
  }
  return {least, step, static_cast<std::uint8_t>((std::bit_width(range / step) + 7) / 8)};
}

/// One pass a byte, so that the compiler can take several numbers at once.
void write_planes(std::span<const std::int64_t> numbers, const Spread& spread, std::string& bytes) {
  const std::size_t count = numbers.size();
  bytes.resize(spread.width * count);
  if (spread.width == 0) return;
  thread_local std::vector<std::uint64_t> above;
  above.resize(count);
  for (std::size_t i = 0; i < count; ++i) above[i] = plain(numbers[i]) - plain(spread.least);
  if (spread.step != 1) {
    const bool is_short = std::all_of(above.begin(), above.end(), [](std::uint64_t a) { return a >> 32 == 0; });
    if (is_short)
      for (std::uint64_t& a : above) a = static_cast<std::uint32_t>(a) / static_cast<std::uint32_t>(spread.step);
    else
      for (std::uint64_t& a : above) a /= spread.step;
  }
  for (std::size_t plane = 0; plane < spread.width; ++plane) {
    char* const out = bytes.data() + plane * count;
    for (std::size_t i = 0; i < count; ++i) out[i] = static_cast<char>((above[i] >> (8 * plane)) & 0xFFU);
  }
}

} // namespace

NarrowShape narrow(std::span<const std::int64_t> numbers, bool in_order, std::string& bytes) {
  bytes.clear();
  if (numbers.empty()) return {};
  const Spread own = spread_of(numbers);
  if (own.width <= 1) { // differences could hardly be narrower
    write_planes(numbers, own, bytes);
    return {false, own.width, 0, own.least, own.step};
  }
  thread_local std::vector<std::int64_t> differences;
  differences.resize(numbers.size() - 1);
  for (std::size_t i = 1; i < numbers.size(); ++i)
    differences[i - 1] = static_cast<std::int64_t>(plain(numbers[i]) - plain(numbers[i - 1]));
  const Spread between = spread_of(differences);
  if (between.width < own.width || (in_order && between.width == own.width)) {
    write_planes(differences, between, bytes);
    return {true, between.width, numbers.front(), between.least, between.step};
  }
  write_planes(numbers, own, bytes);
  return {false, own.width, 0, own.least, own.step};
}

void widen(const NarrowShape& shape, std::string_view bytes, std::size_t count, std::vector<std::int64_t>& numbers) {
  numbers.resize(count);
  if (count == 0) return;
  std::int64_t* out = numbers.data();
  if (shape.differences) {
    *out++ = shape.first;
    --count;
  }
  assert(bytes.size() == shape.width * count);
  // Signed sums may not overflow and unsigned may, so all is summed unsigned.
  for (std::size_t i = 0; i < count; ++i) out[i] = 0;
  for (std::size_t plane = 0; plane < shape.width; ++plane) {
    const char* const in = bytes.data() + plane * count;
    for (std::size_t i = 0; i < count; ++i)
      out[i] = static_cast<std::int64_t>(plain(out[i]) | static_cast<std::uint64_t>(static_cast<unsigned char>(in[i]))
                                                             << (8 * plane));
  }
  const std::uint64_t base = plain(shape.base);
  if (shape.differences) {
    std::uint64_t last = plain(shape.first);
    for (std::size_t i = 0; i < count; ++i) {
      last += base + shape.step * plain(out[i]);
      out[i] = static_cast<std::int64_t>(last);
    }
  } else {
    for (std::size_t i = 0; i < count; ++i) out[i] = static_cast<std::int64_t>(base + shape.step * plain(out[i]));
  }
}

} // namespace docket
