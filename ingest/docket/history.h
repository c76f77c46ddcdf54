// What happened to a docket: its ledger and its sources, superseded ones beside those in use.
#pragma once

#include "ingest/docket/ledger.h"
#include "ingest/docket/sources.h"

#include <string>
#include <vector>

namespace docket {

struct History {
  std::vector<LedgerEntry> entries;
  std::vector<StoredSource> sources;
};

/// Throws Error as open_docket does (store.h).
History read_history(const std::string& path);

} // namespace docket
