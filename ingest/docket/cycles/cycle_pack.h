// A block of cycles as bytes.
//
// Format      byte 0: version, 1. Bytes 1 to 4: size of the directory as packed. Then the directory and the columns it
//             names, each a zstd frame with checksum. All numbers little-endian, whatever the machine. The directory:
//             rows, units of the times, form of the unit numbers, then for each column its name, shape and sizes.
//             Columns are narrowed by cycle_integers.h. A column whose numbers are all alike has no frame.
//             Unit numbers such as HP-0118204 are kept as HP- and numbers of seven digits; other units as text.
// Spec        RFC 8878 (Zstandard compression); the directory is ours
// Subset      level 1; one frame a column, so that only the columns asked for are unpacked
// Deviations  none are taken: what does not fit exactly is refused. Sizes are known before anything is unpacked, and
//             nothing is unpacked beyond max_unpacked_column
// Checked     tests/ingest/docket/cycles/cycle_pack_test.cpp: rows come out as they went in; of flipped and cut bytes either
//             the same block comes or an Error
#pragma once

#include "ingest/docket/cycles/cycle_block.h"

#include <string>
#include <string_view>

namespace docket {

inline constexpr std::size_t max_unpacked_column = std::size_t{64} << 20; // [byte]
inline constexpr std::uint8_t cycle_pack_version = 1;

/// The columns to unpack. The others stay empty.
struct CycleColumns {
  bool started_at = false, cycle = false, wait = false, helped = false, is_line_time = false, unit = false,
       marks = false, row = false;
  std::array<bool, cycle_word_kinds> words{};

  static CycleColumns all() { return {true, true, true, true, true, true, true, true, {true, true, true, true}}; }
};

/// Packs a block of 1 to cycle_block_rows rows, all columns filled. The same block gives the same bytes.
std::string pack_cycles(const CycleBlock& block);

/// Unpacks into `block`, which keeps its room. Throws Error (verification_failed) where the bytes are not what
/// pack_cycles makes; `where` is what the message names. Codes are as they were packed and may lie beyond any list.
void unpack_cycles(std::string_view bytes, const CycleColumns& wanted, const std::string& where, CycleBlock& block);

} // namespace docket
