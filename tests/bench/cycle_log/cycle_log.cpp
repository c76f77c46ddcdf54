// How fast a large cycle log comes into a docket and is added up. Run by run.py; README.md of tests/bench.
//
//     cycle_log make FILE.csv ROWS SEED
//     cycle_log load FILE.csv FILE.docket
//     cycle_log group FILE.docket PLAIN.sqlite TIMES    the same question of both, in turn
#include "core/error.h"
#include "ingest/docket/cycles/cycle_csv.h"
#include "ingest/docket/cycles/cycle_groups.h"
#include "ingest/docket/cycles/cycle_store.h"
#include "tests/bench/cycle_log/made_log.h"

#include <sqlite3.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;
constexpr docket::Seconds limit{54.6};

[[noreturn]] void fail(const std::string& what) {
  std::fprintf(stderr, "cycle_log: %s\n", what.c_str());
  std::exit(3);
}

struct Close {
  void operator()(sqlite3* database) const { sqlite3_close(database); }
};
using Connection = std::unique_ptr<sqlite3, Close>;

Connection open(const std::string& path) {
  sqlite3* database = nullptr;
  if (sqlite3_open(path.c_str(), &database) != SQLITE_OK) fail("can't open " + path);
  return Connection(database);
}

void run(sqlite3* database, const std::string& sql) {
  if (sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail(sqlite3_errmsg(database));
}

double seconds_since(Clock::time_point start) { return docket::Seconds(Clock::now() - start).count(); }

void make(const std::string& path, std::int64_t rows, std::uint64_t seed) {
  std::FILE* const file = std::fopen(path.c_str(), "wb");
  if (file == nullptr) fail("can't write " + path);
  docket::write_made_log(file, rows, seed);
  if (std::fclose(file) != 0) fail("can't write " + path);
}

/// As a docket is written: one transaction, rollback journal, every write synced; hashed and checked.
void load(const std::string& path, const std::string& docket_path) {
  const auto start = Clock::now();
  const Connection database = open(docket_path);
  run(database.get(), "PRAGMA journal_mode = DELETE; PRAGMA synchronous = FULL; BEGIN IMMEDIATE");
  run(database.get(), docket::cycle_chunks_sql());
  docket::CycleWriter writer(database.get(), 1, docket_path);
  const docket::CycleLogRead read =
      docket::read_cycle_csv(path, {[&](docket::CycleBatch& batch) { writer.write(batch); }});
  if (read.faulty) fail("the log has faults: " + read.issues.front().wrong);
  run(database.get(), "COMMIT");
  std::printf("%lld %.3f %s\n", static_cast<long long>(read.rows), seconds_since(start), read.sha256.c_str());
}

std::vector<docket::CycleGroup> group_in_sql(sqlite3* database) {
  sqlite3_stmt* statement = nullptr;
  const char* const sql = "SELECT operator, shift, count(*), sum(cycle_s > 54.6), sum(cycle_s) FROM plain GROUP BY "
                          "operator, shift ORDER BY operator, shift";
  if (sqlite3_prepare_v2(database, sql, -1, &statement, nullptr) != SQLITE_OK) fail(sqlite3_errmsg(database));
  std::vector<docket::CycleGroup> groups;
  while (sqlite3_step(statement) == SQLITE_ROW)
    groups.push_back({reinterpret_cast<const char*>(sqlite3_column_text(statement, 0)),
                      reinterpret_cast<const char*>(sqlite3_column_text(statement, 1)),
                      sqlite3_column_int64(statement, 2), sqlite3_column_int64(statement, 3),
                      docket::Seconds(sqlite3_column_double(statement, 4))});
  sqlite3_finalize(statement);
  return groups;
}

bool agree(const std::vector<docket::CycleGroup>& a, const std::vector<docket::CycleGroup>& b) {
  bool same = a.size() == b.size();
  for (std::size_t i = 0; same && i < a.size(); ++i)
    same = a[i].op == b[i].op && a[i].shift == b[i].shift && a[i].cycles == b[i].cycles &&
           a[i].over_limit == b[i].over_limit && std::abs((a[i].sum - b[i].sum) / a[i].sum) < 1e-9;
  return same;
}

void group(const std::string& docket_path, const std::string& plain_path, int times) {
  const Connection stored = open(docket_path), plain = open(plain_path);
  for (int i = 0; i < times; ++i) {
    auto start = Clock::now();
    const auto ours = docket::group_cycles(stored.get(), limit, docket_path);
    const double our_seconds = seconds_since(start);
    start = Clock::now();
    const auto theirs = group_in_sql(plain.get());
    const double their_seconds = seconds_since(start);
    if (!agree(ours, theirs)) fail("the two do not agree");
    std::printf("%zu %.3f %.3f\n", ours.size(), our_seconds, their_seconds);
    std::fflush(stdout);
  }
}

} // namespace

int main(int count, char** words) {
  const std::vector<std::string> given(words + 1, words + count);
  try {
    if (given.size() == 4 && given[0] == "make")
      make(given[1], std::stoll(given[2]), std::stoull(given[3]));
    else if (given.size() == 3 && given[0] == "load")
      load(given[1], given[2]);
    else if (given.size() == 4 && given[0] == "group")
      group(given[1], given[2], std::stoi(given[3]));
    else
      fail("make FILE.csv ROWS SEED | load FILE.csv FILE.docket | group FILE.docket PLAIN.sqlite TIMES");
  } catch (const docket::Error& error) {
    fail(error.what());
  }
  return 0;
}
