// Large cycle logs as CSV, read block by block in bounded room.
//
// Format      comma-, semicolon- or tab-separated text, the table `cycle_log`
// Spec        RFC 4180 (Common Format and MIME Type for CSV Files), section 2
// Subset      that of ingest/csv.h; UTF-16 and what is no plain file up to 64 MiB
// Deviations  those of ingest/csv.h. A record is at most 1 MiB long. The file is mapped into memory: one that another
//             program changes meanwhile is refused, but one that is cut short at the wrong moment ends the program
// Method      rows that are surely right are read at once (cycle_row_reader.h), the others by the case reader
//             (cycle_plain_rows.h). One thread reads; the caller's takes the blocks. What is behind is let go
// Checked     tests/ingest/docket/cycles/cycle_csv_test.cpp and tests/fuzz/cycle_csv: the same rows, issues and messages as
//             parse_csv and the case reader have
#pragma once

#include "core/issue.h"
#include "ingest/docket/cycles/cycle_batch.h"

#include <atomic>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

namespace docket {

/// What the caller wants done while a log is read. All is called in the caller's thread.
struct CycleReading {
  std::function<void(CycleBatch&)> take;                                                  ///< blocks, in order
  std::function<void(std::int64_t rows, std::int64_t bytes, std::int64_t of)> progress{}; ///< after every block
  const std::atomic<bool>* stop = nullptr;                                                ///< true: read no further
  std::size_t block_rows = cycle_block_rows; ///< rows of a block, at most cycle_block_rows
};

/// What came of it. rows = used + with_issue.
struct CycleLogRead {
  std::string file;   ///< name without folder
  std::string sha256; ///< of the whole file; empty where it was stopped
  std::int64_t bytes = 0, rows = 0, used = 0, with_issue = 0;
  Issues issues;        ///< in order; of more than 20 alike the rest is counted in one
  bool faulty = false;  ///< some issue is a fault: the log is not to be taken, or only without those rows
  bool stopped = false; ///< the blocks taken are not the whole log
};

/// Reads a log. Checks every row by itself; what the log says against other tables, or one row against another, is for
/// the case reader. Throws Error as read_csv_file does.
CycleLogRead read_cycle_csv(const std::string& path, const CycleReading& reading);

/// The same from text in memory.
CycleLogRead read_cycle_csv_text(std::string_view text, const std::string& file, const CycleReading& reading);

} // namespace docket
