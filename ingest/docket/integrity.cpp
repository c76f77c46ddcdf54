#include "ingest/docket/integrity.h"

#include "core/error.h"
#include "ingest/docket/stored_sheets.h"
#include "ingest/text_encoding.h"

#include <algorithm>
#include <iterator>

namespace docket {

namespace {

/// Stored bytes that are hashed at every opening: a tenth of a second.
constexpr std::int64_t few_bytes = std::int64_t{64} << 20;

void check_structure(Database& docket, std::vector<std::string>& damage) {
  if (const std::string answer = docket.text("PRAGMA quick_check(1)"); answer != "ok")
    damage.push_back("the structure of the file is broken (" + with_question_marks(answer) + ")");
}

/// Every source stands in the entry it came with, as it is in its table.
void check_entries(const std::vector<LedgerEntry>& ledger, const std::vector<StoredSource>& sources,
                   std::vector<std::string>& damage) {
  if (ledger.empty()) damage.push_back("the ledger is empty");
  if (const auto broken = find_break(ledger))
    damage.push_back("entry " + std::to_string(*broken) + " of the ledger is not what was written");
  std::size_t found = 0;
  for (const LedgerEntry& entry : ledger) {
    if (entry.act != "add") continue;
    std::vector<StoredSource> of_entry;
    std::copy_if(sources.begin(), sources.end(), std::back_inserter(of_entry),
                 [&](const StoredSource& source) { return source.entry == entry.number; });
    found += of_entry.size();
    if (details_of(of_entry) != entry.details)
      damage.push_back("the sources of entry " + std::to_string(entry.number) + " are not those it names");
  }
  if (found != sources.size()) damage.push_back("a source stands in no entry of the ledger");
}

void check_bytes(Database& docket, const StoredSource& source, std::vector<std::string>& damage) {
  if (!load_bytes(docket, source, [](std::string_view) {}))
    damage.push_back("the stored bytes of source " + std::to_string(source.source) + " (" +
                     with_question_marks(source.file) + ") are not those that were taken in");
}

} // namespace

std::vector<std::string> find_damage(Database& docket, Thoroughness thoroughness) {
  std::vector<std::string> damage;
  check_structure(docket, damage);
  const std::vector<StoredSource> sources = read_sources(docket);
  check_entries(read_ledger(docket), sources, damage);
  std::int64_t left = few_bytes;
  for (const StoredSource& source : sources) {
    // The number is the file's own word: it only saves work.
    const bool is_small = source.stored_bytes >= 0 && source.stored_bytes <= left;
    if (thoroughness == Thoroughness::full || is_small) check_bytes(docket, source, damage);
    if (is_small) left -= source.stored_bytes;
    if (thoroughness != Thoroughness::full) continue;
    try {
      load_sheets(docket, source);
    } catch (const Error& error) {
      if (error.kind() != ErrorKind::verification_failed) throw;
      damage.push_back("the rows of source " + std::to_string(source.source) + " (" + with_question_marks(source.file) +
                       ") are not those that were taken in");
    }
  }
  return damage;
}

} // namespace docket
