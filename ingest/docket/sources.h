// The sources of a docket: files as they were given, with their hashes.
//
// Format      stored bytes in parts of 4 MiB, each packed by itself (packed_bytes.h)
// Checked     tests/ingest/docket/addition_test.cpp; tests/outside/docket_by_others.py unpacks them and asks sha256sum
#pragma once

#include "ingest/docket/database.h"

#include <cstdint>
#include <functional>
#include <istream>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// One row of the table `source`; the columns are explained in schema.sql.
struct StoredSource {
  std::int64_t source = 0, entry = 0, place = 0;
  std::optional<std::int64_t> supersedes;
  std::string file, reading, form = "as_given";
  std::int64_t bytes = 0;
  std::string sha256;
  std::int64_t stored_bytes = 0;
  std::string stored_sha256;
  std::int64_t rows = 0;
  std::string cells_sha256;
};

/// All of them, by number.
std::vector<StoredSource> read_sources(Database& docket);

/// Those that no other supersedes, by place.
std::vector<StoredSource> current_of(std::span<const StoredSource> sources);

/// The source that supersedes this one.
const StoredSource* find_successor(std::span<const StoredSource> sources, std::int64_t source);

void insert_source(Database& docket, const StoredSource& source);

struct StoredBytes {
  std::int64_t bytes = 0;
  std::string sha256;
};

/// Count and hash of everything that `in` gives.
StoredBytes hash_bytes(std::istream& in);

/// Packs everything that `in` gives under the number of a source. Memory does not grow with its length.
StoredBytes store_bytes(Database& docket, std::int64_t source, std::istream& in);

/// Gives the stored bytes of a source to `take`, part by part. False where a part is damaged or missing.
bool load_bytes(Database& docket, const StoredSource& source, const std::function<void(std::string_view)>& take);

/// The JSON that the ledger keeps of the sources of one entry: a text that any change of theirs would change.
std::string details_of(std::span<const StoredSource> sources);

} // namespace docket
