// Cycles in a database: they come back as they were taken, they are added up as SQL adds up plain rows, and damage is
// noticed. The answers expected are SQLite's own, asked of a plain table of the same rows.
#include "core/error.h"
#include "ingest/docket/cycles/cycle_csv.h"
#include "ingest/docket/cycles/cycle_groups.h"
#include "ingest/docket/cycles/cycle_store.h"
#include "ingest/docket/cycles/cycle_table.h"
#include "tests/ingest/docket/cycles/made_cycle_log.h"
#include "tests/ingest/docket/cycles/plain_cycle_rows.h"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <memory>
#include <string>
#include <vector>

namespace docket {
namespace {

class CycleStore : public testing::Test {
protected:
  void SetUp() override {
    ASSERT_EQ(sqlite3_open(":memory:", &database_), SQLITE_OK);
    run(cycle_chunks_sql());
    offer_cycle_table(database_, "case.docket");
  }
  void TearDown() override { sqlite3_close(database_); }

  void run(const std::string& sql) { ASSERT_EQ(try_run(sql), "") << sql; }

  std::string try_run(const std::string& sql) {
    char* message = nullptr;
    sqlite3_exec(database_, sql.c_str(), nullptr, nullptr, &message);
    const std::string said = message == nullptr ? "" : message;
    sqlite3_free(message);
    return said;
  }

  /// All rows of an answer, cells divided by |, rows by line ends.
  std::string answer(const std::string& sql) {
    std::string text;
    char* message = nullptr;
    const auto add = [](void* to, int cells, char** values, char**) {
      for (int i = 0; i < cells; ++i)
        *static_cast<std::string*>(to) += std::string(values[i] == nullptr ? "NULL" : values[i]) + "|";
      *static_cast<std::string*>(to) += "\n";
      return 0;
    };
    sqlite3_exec(database_, sql.c_str(), add, &text, &message);
    if (message != nullptr) text += message;
    sqlite3_free(message);
    return text;
  }

  /// Stores a log in blocks of `block_rows` and, row by row, in the table `plain` as the header of cycle_table.h has it.
  std::vector<CycleRow> store(std::int64_t source, const std::string& text, std::size_t block_rows) {
    CycleWriter writer(database_, source, "case.docket");
    CycleReading reading{[&](CycleBatch& batch) { writer.write(batch); }};
    reading.block_rows = block_rows;
    read_cycle_csv_text(text, "cycle_log.csv", reading);
    std::vector<CycleRow> rows = read_plain_log(text, "cycle_log.csv").used;
    EXPECT_EQ(writer.cycles(), static_cast<std::int64_t>(rows.size()));
    run("CREATE TABLE IF NOT EXISTS plain (source INTEGER, row INTEGER, started_at TEXT, cycle_s REAL, cycle_is TEXT, "
        "unit TEXT, variant TEXT, station TEXT, shift TEXT, operator TEXT, wait_s REAL, helped_s REAL, mark TEXT)");
    sqlite3_stmt* insert = nullptr;
    sqlite3_prepare_v2(database_,
                       "INSERT INTO plain VALUES (?, ?, strftime('%Y-%m-%d %H:%M:%S', ? / 1000, 'unixepoch') || "
                       "iif(? % 1000 = 0, '', printf('.%03d', ? % 1000)), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                       -1, &insert, nullptr);
    for (const CycleRow& row : rows) {
      int at = 0;
      const auto bind_text = [&](const std::string& value) {
        if (value.empty())
          sqlite3_bind_null(insert, ++at);
        else
          sqlite3_bind_text(insert, ++at, value.c_str(), -1, SQLITE_TRANSIENT);
      };
      const auto bind_time = [&](const std::optional<Seconds>& time) {
        if (time)
          sqlite3_bind_double(insert, ++at, time->count());
        else
          sqlite3_bind_null(insert, ++at);
      };
      sqlite3_bind_int64(insert, ++at, source);
      sqlite3_bind_int64(insert, ++at, row.row);
      for (int i = 0; i < 3; ++i) sqlite3_bind_int64(insert, ++at, row.started_at.time_since_epoch().count());
      bind_time(row.cycle);
      bind_text(row.is_line_time ? "line" : "work");
      for (const std::string* value : {&row.unit, &row.variant, &row.station, &row.shift, &row.op}) bind_text(*value);
      bind_time(row.wait);
      bind_time(row.helped);
      std::string marks;
      for (const MarkUse& use : mark_uses)
        if (row.marks.has(use.mark)) marks += (marks.empty() ? "" : ";") + std::string(use.name);
      bind_text(marks);
      EXPECT_EQ(sqlite3_step(insert), SQLITE_DONE) << sqlite3_errmsg(database_);
      sqlite3_reset(insert);
    }
    sqlite3_finalize(insert);
    return rows;
  }

  sqlite3* database_ = nullptr;
};

TEST_F(CycleStore, gives_back_what_it_took) {
  const std::vector<CycleRow> first = store(1, MadeLog(1, {',', '.', "\n", 0.05}).text(900), 100);
  const std::vector<CycleRow> second = store(2, MadeLog(2, {';', ',', "\n", 0.05}).text(500), 1000);
  EXPECT_EQ(read_cycle_rows(database_, 1, "case.docket"), first);
  EXPECT_EQ(read_cycle_rows(database_, 2, "case.docket"), second);
  EXPECT_TRUE(read_cycle_rows(database_, 3, "case.docket").empty());
  EXPECT_EQ(answer("SELECT sum(cycles), min(started_first_ms), max(started_last_ms) FROM cycle_chunk"),
            answer("SELECT count(*), min(ms), max(ms) FROM (SELECT CAST(round((julianday(started_at) - 2440587.5) * "
                   "86400000) AS INTEGER) AS ms FROM plain)"));
  EXPECT_EQ(answer("SELECT round(sum(cycle_sum_s), 6), min(cycle_min_s), max(cycle_max_s) FROM cycle_chunk"),
            answer("SELECT round(sum(cycle_s), 6), min(cycle_s), max(cycle_s) FROM plain"));
}

TEST_F(CycleStore, answers_sql_as_plain_rows_do) {
  store(1, MadeLog(1, {',', '.', "\n", 0.05}).text(2500), 100);
  store(2, MadeLog(2, {';', ',', "\n", 0.05}).text(500), 50);
  for (const std::string question :
       {"SELECT * FROM %", "SELECT count(*) FROM %", "SELECT mark, count(*) FROM % GROUP BY mark ORDER BY mark",
        "SELECT operator, shift, count(*), round(avg(cycle_s), 9) FROM % GROUP BY operator, shift ORDER BY 1, 2",
        "SELECT row FROM % WHERE started_at >= '2026-11-05'", "SELECT row FROM % WHERE started_at > '2026-11-05'",
        "SELECT row FROM % WHERE started_at <= '2026-11-05 06:12:40'",
        "SELECT row FROM % WHERE started_at < '2026-11-05 06:12:40.5'",
        "SELECT row FROM % WHERE started_at <= '2026-11-05T06:12:40'",
        "SELECT row FROM % WHERE started_at BETWEEN '2026-11-04 01:00:00' AND '2026-11-05 02:00:00' AND source = 1",
        "SELECT row FROM % WHERE started_at = '2026-11-03 06:12:40.500'", "SELECT row FROM % WHERE started_at <= 5",
        "SELECT row FROM % WHERE started_at >= NULL", "SELECT row FROM % WHERE started_at <= 'z'",
        "SELECT row FROM % WHERE started_at >= '2026-11-0'", "SELECT row FROM % WHERE source = 2 AND unit > 'HP-11802'",
        "SELECT row FROM % WHERE source = '2'", "SELECT row FROM % WHERE source IS NULL",
        "SELECT a.row, b.row FROM % a JOIN % b ON a.started_at = b.started_at AND a.source < b.source AND a.row < 40 "
        "ORDER BY 1, 2"}) {
    const auto of = [&](const std::string& table) {
      std::string sql = question;
      for (std::size_t at = 0; (at = sql.find('%')) != std::string::npos;) sql.replace(at, 1, table);
      return answer(sql);
    };
    EXPECT_EQ(of("cycle_log"), of("plain")) << question;
    EXPECT_NE(of("plain").find('|'), question.find("NULL") == std::string::npos ? std::string::npos : 0) << question;
  }
}

TEST_F(CycleStore, leaves_out_blocks_that_lie_outside) {
  store(1, MadeLog(1, {}).text(2500), 100);
  CycleScan scan;
  scan.columns.row = true;
  int blocks = 0;
  const auto count = [&](const CycleBlock&) { ++blocks; };
  scan_cycles(database_, scan, "case.docket", count);
  EXPECT_EQ(blocks, 25);
  // 500 rows a day from the 3rd on, so the 5th has blocks 11 to 15.
  scan.started_from = Instant(Date(std::chrono::year(2026) / 11 / 5));
  scan.started_to = *scan.started_from + std::chrono::hours(24) - std::chrono::milliseconds(1);
  blocks = 0;
  scan_cycles(database_, scan, "case.docket", count);
  EXPECT_EQ(blocks, 5);
}

TEST_F(CycleStore, adds_up_as_sql_does) {
  store(1, MadeLog(1, {',', '.', "\n", 0.05}).text(2500), 100);
  store(2, "started_at,cycle_min,operator\n2026-11-03 06:00:00,0.9,A1\n2026-11-03 06:01:00,0.91,A1\n", 10);
  std::string groups;
  for (const CycleGroup& group : group_cycles(database_, Seconds(54.6), "case.docket")) {
    sqlite3_stmt* text = nullptr; // printed by SQLite too, so that the digits are the same
    sqlite3_prepare_v2(database_, "SELECT ?, ?, ?, ?, round(?, 6), round(?, 9), round(?, 9)", -1, &text, nullptr);
    int at = 0;
    for (const std::string* word : {&group.op, &group.shift})
      sqlite3_bind_text(text, ++at, word->c_str(), -1, SQLITE_STATIC);
    sqlite3_bind_int64(text, ++at, group.cycles);
    sqlite3_bind_int64(text, ++at, group.over_limit);
    sqlite3_bind_double(text, ++at, group.sum.count());
    sqlite3_bind_double(text, ++at, group.mean().count());
    sqlite3_bind_double(text, ++at, group.overrun_share());
    sqlite3_step(text);
    for (int i = 0; i < 7; ++i)
      groups += std::string(reinterpret_cast<const char*>(sqlite3_column_text(text, i))) + "|";
    groups += "\n";
    sqlite3_finalize(text);
  }
  EXPECT_EQ(groups, answer("SELECT coalesce(operator, ''), coalesce(shift, ''), count(*), sum(cycle_s > 54.6), "
                           "round(sum(cycle_s), 6), round(avg(cycle_s), 9), round(avg(cycle_s > 54.6), 9) FROM plain "
                           "GROUP BY 1, 2 ORDER BY 1, 2"));
}

TEST_F(CycleStore, is_never_changed) {
  store(1, MadeLog(1, {}).text(10), 100);
  EXPECT_EQ(try_run("UPDATE cycle_chunk SET cycles = 1"), "a cycle is never changed");
  EXPECT_EQ(try_run("DELETE FROM cycle_chunk"), "no cycle is taken out");
  EXPECT_EQ(try_run("UPDATE cycle_word SET word = 'x'"), "a word is never changed");
  EXPECT_EQ(try_run("DELETE FROM cycle_word"), "no word is taken out");
  EXPECT_EQ(try_run("INSERT INTO cycle_word VALUES ('colour', 1, 'red')").substr(0, 23), "CHECK constraint failed");
  EXPECT_EQ(try_run("DELETE FROM cycle_log"), "table cycle_log may not be modified");
}

TEST_F(CycleStore, leaves_nothing_where_it_is_rolled_back) {
  run("BEGIN");
  store(1, MadeLog(1, {}).text(500), 100);
  run("ROLLBACK");
  EXPECT_EQ(answer("SELECT (SELECT count(*) FROM cycle_chunk), (SELECT count(*) FROM cycle_word)"), "0|0|\n");
}

TEST_F(CycleStore, notices_damage) {
  store(1, MadeLog(1, {}).text(500), 100);
  const auto message = [&] {
    try {
      read_cycle_rows(database_, 1, "case.docket");
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::verification_failed);
      return error.what_happened();
    }
    return std::string("nothing");
  };
  EXPECT_EQ(message(), "nothing");
  run("DROP TRIGGER cycle_word_kept; DROP TRIGGER cycle_chunk_unchanged");
  run("UPDATE cycle_chunk SET cycles = 99 WHERE chunk = 2");
  EXPECT_EQ(message(), "The stored cycles can't be read: a block has another count of cycles.");
  run("UPDATE cycle_chunk SET cycles = 100 WHERE chunk = 2; DELETE FROM cycle_word WHERE kind = 'operator' AND code = "
      "4");
  EXPECT_EQ(message(), "The stored cycles can't be read: a word is missing.");
  run("DELETE FROM cycle_word WHERE kind = 'variant' AND code = 1");
  EXPECT_EQ(message(), "The stored cycles can't be read: a word is missing or there twice.");
  run("UPDATE cycle_chunk SET packed = x'01'");
  EXPECT_NE(answer("SELECT * FROM cycle_log").find("case.docket: The stored cycles can't be read: "),
            std::string::npos);
}

} // namespace
} // namespace docket
