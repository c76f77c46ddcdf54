#include "ingest/docket/ledger.h"

#include "ingest/file_hash.h"

namespace docket {

namespace {

const std::string before_the_first(64, '0');

std::string hash_of(const LedgerEntry& entry) { return sha256_of(canonical_form(entry)); }

} // namespace

std::string netstring(std::string_view text) { return std::to_string(text.size()) + ":" + std::string(text) + ","; }

std::string canonical_form(const LedgerEntry& entry) {
  return netstring("station-docket/ledger/1") + netstring(std::to_string(entry.number)) + netstring(entry.at) +
         netstring(entry.by_role) + netstring(entry.act) + netstring(entry.what) + netstring(entry.details) +
         netstring(entry.previous);
}

LedgerEntry append_to_ledger(Database& docket, LedgerEntry entry) {
  entry.number = docket.whole("SELECT count(*) + 1 FROM ledger");
  entry.previous = docket.text("SELECT sha256 FROM ledger ORDER BY number DESC LIMIT 1");
  if (entry.previous.empty()) entry.previous = before_the_first;
  entry.sha256 = hash_of(entry);
  SqlStatement(docket, "INSERT INTO ledger (number, at, by_role, act, what, details, previous, sha256) "
                       "VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
      .bind(entry.number)
      .bind_text(entry.at)
      .bind_text(entry.by_role)
      .bind_text(entry.act)
      .bind_text(entry.what)
      .bind_text(entry.details)
      .bind_text(entry.previous)
      .bind_text(entry.sha256)
      .run();
  return entry;
}

std::vector<LedgerEntry> read_ledger(Database& docket) {
  SqlStatement rows(docket,
                    "SELECT number, at, by_role, act, what, details, previous, sha256 FROM ledger ORDER BY number");
  std::vector<LedgerEntry> ledger;
  while (rows.next())
    ledger.push_back({rows.whole(0), rows.text(1), rows.text(2), rows.text(3), rows.text(4), rows.text(5), rows.text(6),
                      rows.text(7)});
  return ledger;
}

std::optional<std::int64_t> find_break(std::span<const LedgerEntry> ledger) {
  std::string_view previous = before_the_first;
  std::int64_t number = 0;
  for (const LedgerEntry& entry : ledger) {
    if (entry.number != ++number || entry.previous != previous || entry.sha256 != hash_of(entry)) return number;
    previous = entry.sha256;
  }
  return std::nullopt;
}

} // namespace docket
