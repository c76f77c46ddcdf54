// A case read from a docket.
//
// Checked     tests/ingest/docket/addition_test.cpp: the same case as from the files
#pragma once

#include "ingest/case_reader.h"
#include "ingest/docket/database.h"
#include "ingest/docket/sources.h"
#include "ingest/docket/stored_sheets.h"
#include "ingest/table.h"

#include <span>
#include <string>
#include <vector>

namespace docket {

/// Reads the case a docket holds. The sources have the names and hashes of the files as they were given; a superseded
/// source is a warning. Throws Error as open_docket does (store.h).
Intake read_docket_case(const std::string& path);

/// One source as its reader gave it; without the rows that were set aside, where those are not wanted.
RawFile load_file(Database& docket, const StoredSource& source, SetAside set_aside);

/// True where rows of a source may be set aside.
bool allows_set_aside(const StoredSource& source);

/// A warning for each source that another supersedes.
Issues superseded_issues(std::span<const StoredSource> sources);

} // namespace docket
