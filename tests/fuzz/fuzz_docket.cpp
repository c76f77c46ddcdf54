// The file of a docket. What it holds is read twice: as the program does, which stops at the first damage; and past every
// hash, so that the readers behind them see bytes nobody wrote.
#include "ingest/docket/cycles/cycle_groups.h"
#include "ingest/docket/cycles/cycle_store.h"
#include "ingest/docket/cycles/cycle_table.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/history.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/large_log.h"
#include "ingest/docket/schema.h"
#include "ingest/docket/store.h"
#include "tests/fuzz/fuzz_target.h"

#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <string>

namespace {

using namespace docket;

/// In memory where the system has a place for it; it goes away with the program.
struct DocketOnDisk {
  std::string path =
      (std::filesystem::is_directory("/dev/shm") ? "/dev/shm" : std::filesystem::temp_directory_path().string()) +
      "/docket-fuzz-" + std::to_string(::getpid()) + ".docket";

  DocketOnDisk() = default;
  DocketOnDisk(const DocketOnDisk&) = delete;
  DocketOnDisk& operator=(const DocketOnDisk&) = delete;
  ~DocketOnDisk() { std::remove(path.c_str()); }

  void write(const std::uint8_t* data, std::size_t size) const {
    std::FILE* const file = std::fopen(path.c_str(), "wb");
    fuzz::require(file != nullptr, "the docket can be written");
    const bool whole = std::fwrite(data, 1, size, file) == size;
    fuzz::require(std::fclose(file) == 0 && whole, "the docket is written whole");
  }
};

void check_intake(const Intake& intake) {
  for (const Issue& issue : intake.issues) fuzz::require_utf8(issue.wrong + issue.right + issue.raw);
  for (const TableCounts& count : intake.counts)
    fuzz::require(count.read == count.used + count.with_issue && count.used >= 0, "rows read are used or at issue");
}

void read_past_hashes(const std::string& path) {
  Database database(path, Opening::existing);
  database.run("PRAGMA query_only = ON");
  fuzz::run([&] { look_at_schema(database); });
  fuzz::run([&] { find_damage(database, Thoroughness::full); });
  fuzz::run([&] { read_ledger(database); });
  std::vector<StoredSource> sources;
  fuzz::run([&] { sources = read_sources(database); });
  for (const StoredSource& source : sources) {
    fuzz::run([&] { load_bytes(database, source, [](std::string_view) {}); });
    fuzz::run([&] { load_sheets(database, source); });
    fuzz::run([&] { cycles_for_hash(database, source.source); });
    fuzz::run([&] { cycles_of(database, source.source).each([](const LoggedRow&) {}); });
  }
  fuzz::run([&] { group_cycles(database.connection(), Seconds(50), path); });
  fuzz::run([&] {
    offer_cycle_table(database.connection(), path);
    database.whole("SELECT count(*) FROM cycle_log WHERE mark IS NULL AND started_at > '2026-11-03'");
  });
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const DocketOnDisk docket;
  docket.write(data, size);
  fuzz::run([&] { read_history(docket.path); });
  fuzz::run([&] { check_intake(read_docket_case(docket.path)); });
  fuzz::run([&] { read_past_hashes(docket.path); });
  return 0;
}
