// What is added to a docket: whole or not at all, each file once, a correction beside what it corrects.
//
// Method      the case as it would be is read and checked first; only a case without a fault is written, in one change.
//             A file whose hash and reading are in the case already is recognised. A file of the same name with other
//             content supersedes the one before and takes its place in the case; the old one stays in the docket. Rows
//             that were set aside before stay so; those of a new file may only where that is asked for
// Checked     tests/ingest/docket/addition_test.cpp; tests/golden/add_*; tests/outside/docket_faults.py
#pragma once

#include "ingest/case_reader.h"
#include "ingest/docket/large_log.h"
#include "ingest/docket/ledger.h"
#include "ingest/docket/sources.h"
#include "ingest/reading_options.h"

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace docket {

struct Addition {
  std::vector<std::string> inputs; ///< files, and folders of CSV files
  std::string at;                  ///< UTC, 2026-11-03T14:30:00Z
  std::string by_role = "not given";
  std::string supersedes; ///< the number or the file name of a source; `none`: nothing; empty: as the names say
  ReadingOptions reading;
  std::int64_t large_log = large_log_lines; ///< a cycle log of at least so many lines is packed (large_log.h)
  std::int64_t very_large_log =
      very_large_log_rows; ///< of one with more rows samples are checked, where that is enough
  /// While a large log is read: rows so far, bytes so far, bytes in all.
  std::function<void(std::int64_t, std::int64_t, std::int64_t)> progress{};
  const std::atomic<bool>* stop = nullptr; ///< true: add nothing, and throw Error (could_not_be_done)
  bool dry_run = false;                    ///< everything but the writing
};

/// What became of one file.
struct AddedFile {
  std::string file, sha256;
  std::int64_t source = 0; ///< the number it has in the docket, or would have
  bool already_there = false;
  std::int64_t rows = 0;
  std::optional<StoredSource> superseded; ///< what it corrects
  std::optional<std::int64_t> once_more;  ///< a superseded source with the very same bytes
};

struct AddOutcome {
  Intake intake; ///< the case as it is, or would be, with the files
  std::vector<AddedFile> files;
  std::optional<LedgerEntry> entry; ///< absent where nothing was written
};

/// Adds the inputs; makes the docket where it is not there. Where the case would have a fault nothing is written. Throws
/// Error where an input or the docket can't be used (input_files.h, store.h), and (wrong_usage) where it can't be told
/// what a file supersedes.
AddOutcome add_to_docket(const std::string& path, const Addition& addition);

} // namespace docket
