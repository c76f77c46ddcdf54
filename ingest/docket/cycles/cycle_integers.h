// One column of whole numbers, made narrow.
//
// Model     v_i = base + step u_i, or v_i = v_(i-1) + base + step u_i with v_0 = first; u_i >= 0 in as many bytes as the
//           largest needs (0 to 8). The second form is taken where it needs fewer bytes and the first more than one;
//           all sums are modulo 2^64
// Format    the low bytes of all u_i, then their next bytes and so on: alike bytes lie together, which packs well
// Checked   tests/ingest/docket/cycles/cycle_pack_test.cpp
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct NarrowShape {
  bool differences = false; ///< the second form
  std::uint8_t width = 0;   ///< bytes a number, 0 to 8; 0: all u_i are 0 and there are no bytes
  std::int64_t first = 0, base = 0;
  std::uint64_t step = 1;
};

/// Makes the bytes of the numbers. `in_order`: at the same width, above one byte, the differences are taken.
NarrowShape narrow(std::span<const std::int64_t> numbers, bool in_order, std::string& bytes);

/// The numbers again. `bytes` must hold width * count bytes.
void widen(const NarrowShape& shape, std::string_view bytes, std::size_t count, std::vector<std::int64_t>& numbers);

} // namespace docket
