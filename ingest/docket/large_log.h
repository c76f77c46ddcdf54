// Large cycle logs in a docket: what is above stays as rows, the cycles are packed in blocks (cycles/).
//
// Method      read and stored in one go, in bounded memory; given back as values, which the case reader checks
//             against the other tables; what was checked when they were stored is not checked again. Of a very large one in good order (log_order.h) it is given
//             samples when the log is added, so that memory stays bounded
// Format      the hash of such a source's cells: as in stored_sheets.h, then "cycles"; of each block its number, its count
//             and the SHA-256 of its bytes; then the words of each kind up to the greatest code in it
// Subset      CSV in UTF-8, the table cycle_log; dates in ISO 8601, operators as codes. Any other is stored row by row
// Checked     tests/ingest/docket/large_log_test.cpp: the same case whichever way
#pragma once

#include "core/issue.h"
#include "ingest/docket/database.h"
#include "ingest/docket/sources.h"
#include "ingest/reading_options.h"
#include "ingest/table.h"

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// A log with at least this many lines is large.
inline constexpr std::int64_t large_log_lines = 50'000;

/// One with more is very large.
inline constexpr std::int64_t very_large_log_rows = 1'000'000;

/// The sheet of a large log down to its header, without the cycles. Absent where the file is none, or is not to be read
/// by these options in this way.
std::optional<RawTable> find_large_log(const std::string& path, const ReadingOptions& reading,
                                       std::int64_t least_lines);

struct LargeLogStored {
  Issues issues; ///< of its rows; with a fault among them the log is not to be kept
  std::int64_t rows = 0, bytes = 0;
  std::string sha256; ///< of the file as it was read
  /// One row of every variant, station, shift and operator that stand together. Absent where the log is in no order and
  /// two rows could be the same cycle.
  std::optional<LoggedRows> samples;
};

/// Reads a log and stores its cycles under the number of a source; only a part of them once `stop` is true. `progress`:
/// rows so far, bytes so far, bytes in all.
LargeLogStored store_large_log(Database& docket, std::int64_t source, const std::string& path,
                               const std::function<void(std::int64_t, std::int64_t, std::int64_t)>& progress,
                               const std::atomic<bool>* stop = nullptr);

/// True where a source has cycles in blocks.
bool has_cycles(Database& docket, std::int64_t source);

/// The cycles of a source, to be had as long as `docket` is there.
LoggedRows cycles_of(Database& docket, std::int64_t source);

/// What the hash of a source's cells has of its cycles; empty where it has none. Throws Error (verification_failed) where
/// a block is damaged.
std::string cycles_for_hash(Database& docket, std::int64_t source);

} // namespace docket
