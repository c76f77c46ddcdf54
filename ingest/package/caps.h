// How much one input file may ask for. The presets leave room for a log as long as a sheet can be (1,048,576 rows) and
// stop a file that was made to exhaust the computer.
#pragma once

#include <cstdint>

namespace docket {

struct ReaderCaps {
  std::int64_t file_bytes = std::int64_t{256} << 20;
  std::int64_t unpacked_bytes = std::int64_t{1} << 30;    ///< all that is read of one file, together
  std::int64_t small_part_bytes = std::int64_t{32} << 20; ///< styles and lists of parts, each
  std::int64_t free_bytes = std::int64_t{16} << 20;       ///< unpacked, before `growth` counts
  std::int64_t growth = 100;                         ///< unpacked bytes a byte of the file; real ones stay below 30
  std::int64_t cells = 10'000'000;                   ///< kept, and the blank ones left of them; shared strings too
  std::int64_t text_bytes = std::int64_t{256} << 20; ///< in kept cells
  std::int64_t token_bytes = std::int64_t{1} << 20;  ///< one XML tag with its attributes
  int depth = 256;                                   ///< of nested XML elements
};

/// What of the caps is used up so far.
struct CapsUsed {
  std::int64_t cells = 0;
  std::int64_t text_bytes = 0;
};

} // namespace docket
