// Is a docket what was written? Every hash it holds, computed again.
//
// Checked     tests/ingest/docket/addition_test.cpp; tests/outside/docket_faults.py flips bytes all over a docket
#pragma once

#include "ingest/docket/database.h"
#include "ingest/docket/ledger.h"
#include "ingest/docket/sources.h"

#include <cstdint>
#include <string>
#include <vector>

namespace docket {

enum class Thoroughness : std::uint8_t {
  at_opening, ///< structure of the file, ledger, and the stored bytes where they are few
  full,       ///< every stored byte and every row, superseded ones too
};

/// What is damaged, a sentence each; empty where all of it is sound. Throws Error (verification_failed) where the file
/// can't even be read as a database.
std::vector<std::string> find_damage(Database& docket, Thoroughness thoroughness);

} // namespace docket
