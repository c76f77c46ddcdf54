// The files of an addition as they are read, each with what its storing needs.
//
// Checked   tests/ingest/docket/addition_test.cpp, tests/ingest/docket/large_log_test.cpp
#pragma once

#include "ingest/docket/addition.h"
#include "ingest/docket/sources.h"
#include "ingest/docket/stored_sheets.h"
#include "ingest/table.h"

#include <cstdint>
#include <set>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// A file given, with where it lies.
struct GivenFile {
  std::string path;
  RawFile file;
  bool recoded = false;         ///< it held names, which are codes in `file`
  bool large = false;           ///< a large log: `file` has no cycles before they are stored
  std::int64_t bytes = 0;       ///< of a large log
  std::int64_t rows_unseen = 0; ///< rows of it that the case reader was not given
  std::set<RowPlace> set_aside; ///< rows of it
};

/// Reads every file of the inputs by the options of reading, all but the cycles of a large log. Throws Error as read_case
/// does.
std::vector<GivenFile> read_given_files(const Addition& addition);

/// Hashes the large logs that could be in the docket already, or given twice, by their size. Any other has its hash when
/// it is stored.
void hash_where_it_tells(std::vector<GivenFile>& given, std::span<const StoredSource> sources);

} // namespace docket
