// The ledger: every act on a docket, each entry chained to the one before it.
//
// Format      an entry's hash is the SHA-256 of these eight texts, one after the other, each as a netstring
//               "station-docket/ledger/1"  number  at  by_role  act  what  details  previous
//             with the number in decimal digits; `previous` is the hash of the entry before, 64 zeros for the first
// Spec        D. J. Bernstein, Netstrings, 1997: the length in bytes in decimal digits, a colon, the bytes, a comma;
//             FIPS 180-4 (SHA-256)
// Checked     tests/ingest/docket/ledger_test.cpp; tests/outside/docket_by_others.py computes every hash again
#pragma once

#include "ingest/docket/database.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct LedgerEntry {
  std::int64_t number = 0;
  std::string at;      ///< UTC, 2026-11-03T14:30:00Z
  std::string by_role; ///< a role, never a name
  std::string act;     ///< one word: add, migrate
  std::string what;    ///< a sentence
  std::string details; ///< JSON
  std::string previous, sha256;
};

/// The bytes whose hash an entry carries.
std::string canonical_form(const LedgerEntry& entry);

/// Writes one entry behind the last: its number and both hashes are filled in. Returns it as written.
LedgerEntry append_to_ledger(Database& docket, LedgerEntry entry);

std::vector<LedgerEntry> read_ledger(Database& docket);

/// The number of the first entry that is not what was written: its hash, its number or what it says of the one before
/// does not agree. Absent where the chain holds.
std::optional<std::int64_t> find_break(std::span<const LedgerEntry> ledger);

/// Text as a netstring.
std::string netstring(std::string_view text);

} // namespace docket
