// The cells of a source as its reader saw them, row by row, so that a case read from a docket is the case that was taken.
//
// Format      a source's cells have one hash: the SHA-256 of netstrings (ledger.h); a sheet gives "sheet", its name, 1 or
//             0 for a decimal comma, and its notes; then each row its number, its state and its cells (cells_text.h)
// Checked     tests/ingest/docket/addition_test.cpp
#pragma once

#include "ingest/docket/database.h"
#include "ingest/docket/sources.h"
#include "ingest/table.h"

#include <cstdint>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace docket {

/// A row that was set aside: the place of its sheet in the file, and its number.
using RowPlace = std::pair<std::size_t, std::int64_t>;

/// Stores every sheet under the number of a source. Returns the hash of the cells.
std::string store_sheets(Database& docket, std::int64_t source, const std::vector<RawTable>& sheets,
                         const std::set<RowPlace>& set_aside);

/// Are rows that were set aside wanted too?
enum class SetAside : std::uint8_t { with, without };

/// The sheets of a source; a large log gives its cycles as long as `docket` is there. Throws Error (verification_failed) where they are not what was stored.
std::vector<RawTable> load_sheets(Database& docket, const StoredSource& source, SetAside set_aside = SetAside::with);

} // namespace docket
