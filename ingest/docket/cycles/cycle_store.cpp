#include "ingest/docket/cycles/cycle_store.h"

#include "core/error.h"
#include "ingest/text_encoding.h"

#include <sqlite3.h>

#include <QFile>
#include <QString>
#include <algorithm>
#include <cassert>
#include <limits>

// Resources of a static library are only there once this has run; it must stand outside any namespace.
static void register_cycle_chunks() { Q_INIT_RESOURCE(cycle_chunks); }

namespace docket {

namespace {

[[noreturn]] void refuse(sqlite3* database, const std::string& where) {
  throw Error(ErrorKind::could_not_be_done, where,
              "The cycles can't be read or written: " + with_question_marks(sqlite3_errmsg(database)) + ".",
              "Check the disk and that you may write there. Nothing was changed.");
}

[[noreturn]] void refuse_damage(const std::string& where, const std::string& what) {
  throw Error(ErrorKind::verification_failed, where, "The stored cycles can't be read: " + what + ".",
              "The file was damaged or changed. Take an undamaged copy of it.");
}

StatementHandle prepare(sqlite3* database, const char* sql, const std::string& where) {
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(database, sql, -1, &statement, nullptr) != SQLITE_OK) refuse(database, where);
  return StatementHandle(statement);
}

void run(sqlite3* database, sqlite3_stmt* statement, const std::string& where) {
  const int outcome = sqlite3_step(statement);
  if (sqlite3_reset(statement) != SQLITE_OK || outcome != SQLITE_DONE) refuse(database, where);
}

/// True for a row, false at the end.
bool step(sqlite3* database, sqlite3_stmt* statement, const std::string& where) {
  const int outcome = sqlite3_step(statement);
  if (outcome != SQLITE_ROW && outcome != SQLITE_DONE) refuse(database, where);
  return outcome == SQLITE_ROW;
}

std::string_view text_of(sqlite3_stmt* row, int column) {
  const void* const start = sqlite3_column_text(row, column);
  return {static_cast<const char*>(start), static_cast<std::size_t>(sqlite3_column_bytes(row, column))};
}

std::optional<std::size_t> kind_named(std::string_view name) {
  const auto found = std::find(cycle_word_names.begin(), cycle_word_names.end(), name);
  if (found == cycle_word_names.end()) return std::nullopt;
  return static_cast<std::size_t>(found - cycle_word_names.begin());
}

struct TimeSummary {
  double sum = 0, least = std::numeric_limits<double>::infinity(), most = 0; // [s]
};

TimeSummary summary_of(const CycleTimes& times) {
  std::int64_t sum = 0, least = std::numeric_limits<std::int64_t>::max(), most = 0;
  for (const std::int64_t time : times.millionths) {
    if (time < 0) continue;
    sum += time;
    least = std::min(least, time);
    most = std::max(most, time);
  }
  TimeSummary summary;
  if (most > 0)
    summary = {seconds_of(sum, times.unit).count(), seconds_of(least, times.unit).count(),
               seconds_of(most, times.unit).count()};
  for (const CycleTimes::Other& other : times.others) {
    summary.sum += other.time.count();
    summary.least = std::min(summary.least, other.time.count());
    summary.most = std::max(summary.most, other.time.count());
  }
  return summary;
}

} // namespace

std::string cycle_chunks_sql() {
  register_cycle_chunks();
  QFile file(QStringLiteral(":/cycles/cycle_chunks.sql"));
  const bool open = file.open(QIODevice::ReadOnly);
  assert(open); // the file is part of the program
  return open ? file.readAll().toStdString() : std::string();
}

void FinaliseStatement::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

CycleWriter::CycleWriter(sqlite3* database, std::int64_t source, const std::string& where)
    : database_(database), source_(source), where_(where), words_(read_cycle_words(database, where)),
      insert_chunk_(prepare(database, "INSERT INTO cycle_chunk VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", where)),
      insert_word_(prepare(database, "INSERT INTO cycle_word VALUES (?, ?, ?)", where)) {}

void CycleWriter::write(CycleBatch& batch) {
  CycleBlock& block = batch.block;
  if (block.rows == 0) return;
  // Codes of the block become codes of the docket, in the order in which the words come.
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind) {
    constexpr std::uint32_t not_yet = 0xFFFFFFFF;
    const std::vector<std::string>& local = batch.words[kind].words;
    std::vector<std::uint32_t> codes(local.size(), not_yet);
    codes[0] = 0;
    for (std::uint32_t& code : block.words[kind]) {
      std::uint32_t& stored = codes[code];
      if (stored == not_yet) {
        const std::size_t before = words_[kind].words.size();
        stored = code_of(words_[kind], local[code]);
        if (words_[kind].words.size() > before) {
          if (before > most_cycle_words)
            throw Error(ErrorKind::input_has_faults, where_,
                        "The column " + std::string(cycle_word_names[kind]) +
                            " has more than 1,000,000 different words.",
                        "Check that the right column has this header.");
          sqlite3_bind_text(insert_word_.get(), 1, cycle_word_names[kind].data(),
                            static_cast<int>(cycle_word_names[kind].size()), SQLITE_STATIC);
          sqlite3_bind_int64(insert_word_.get(), 2, stored);
          sqlite3_bind_text64(insert_word_.get(), 3, local[code].data(), local[code].size(), SQLITE_STATIC,
                              SQLITE_UTF8);
          run(database_, insert_word_.get(), where_);
        }
      }
      code = stored;
    }
  }
  const std::string packed = pack_cycles(block);
  const auto [first, last] = std::minmax_element(block.started_at.begin(), block.started_at.end());
  const TimeSummary times = summary_of(block.cycle);
  sqlite3_stmt* const insert = insert_chunk_.get();
  sqlite3_bind_int64(insert, 1, source_);
  sqlite3_bind_int64(insert, 2, ++chunk_);
  sqlite3_bind_int64(insert, 3, static_cast<std::int64_t>(block.rows));
  sqlite3_bind_int64(insert, 4, *first);
  sqlite3_bind_int64(insert, 5, *last);
  sqlite3_bind_double(insert, 6, times.sum);
  sqlite3_bind_double(insert, 7, times.least);
  sqlite3_bind_double(insert, 8, times.most);
  sqlite3_bind_blob64(insert, 9, packed.data(), packed.size(), SQLITE_STATIC);
  run(database_, insert, where_);
  cycles_ += static_cast<std::int64_t>(block.rows);
}

CycleWords read_cycle_words(sqlite3* database, const std::string& where) {
  CycleWords words;
  const StatementHandle all = prepare(database, "SELECT kind, code, word FROM cycle_word ORDER BY kind, code", where);
  while (step(database, all.get(), where)) {
    const auto kind = kind_named(text_of(all.get(), 0));
    if (!kind) refuse_damage(where, "a word belongs to no column");
    WordList& list = words[*kind];
    // They were given codes one after the other, so a gap is a loss.
    if (sqlite3_column_int64(all.get(), 1) != static_cast<std::int64_t>(list.words.size()) ||
        code_of(list, text_of(all.get(), 2)) + 1 != list.words.size())
      refuse_damage(where, "a word is missing or there twice");
  }
  return words;
}

CycleChunks::CycleChunks(sqlite3* database, const CycleScan& scan, const std::string& where)
    : database_(database), columns_(scan.columns), where_(where) {
  // From the very words a caller looks codes up in: in a damaged file an index may say otherwise.
  const CycleWords words = read_cycle_words(database, where);
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    greatest_codes_[kind] = static_cast<std::int64_t>(words[kind].words.size()) - 1;
  select_ =
      prepare(database,
              "SELECT source, chunk, cycles, packed FROM cycle_chunk WHERE (?1 IS NULL OR source = ?1) AND "
              "(?2 IS NULL OR started_last_ms >= ?2) AND (?3 IS NULL OR started_first_ms <= ?3) ORDER BY source, chunk",
              where);
  if (scan.source) sqlite3_bind_int64(select_.get(), 1, *scan.source);
  if (scan.started_from) sqlite3_bind_int64(select_.get(), 2, scan.started_from->time_since_epoch().count());
  if (scan.started_to) sqlite3_bind_int64(select_.get(), 3, scan.started_to->time_since_epoch().count());
}

bool CycleChunks::next() {
  if (!step(database_, select_.get(), where_)) return false;
  source_ = sqlite3_column_int64(select_.get(), 0);
  chunk_ = sqlite3_column_int64(select_.get(), 1);
  const std::string_view packed(static_cast<const char*>(sqlite3_column_blob(select_.get(), 3)),
                                static_cast<std::size_t>(sqlite3_column_bytes(select_.get(), 3)));
  unpack_cycles(packed, columns_, where_, block_);
  if (static_cast<std::int64_t>(block_.rows) != sqlite3_column_int64(select_.get(), 2))
    refuse_damage(where_, "a block has another count of cycles");
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind) {
    const auto& codes = block_.words[kind];
    if (!codes.empty() && *std::max_element(codes.begin(), codes.end()) > greatest_codes_[kind])
      refuse_damage(where_, "a word is missing");
  }
  return true;
}

void scan_cycles(sqlite3* database, const CycleScan& scan, const std::string& where,
                 const std::function<void(const CycleBlock&)>& take) {
  CycleChunks chunks(database, scan, where);
  while (chunks.next()) take(chunks.block());
}

std::vector<CycleRow> read_cycle_rows(sqlite3* database, std::int64_t source, const std::string& where) {
  const CycleWords words = read_cycle_words(database, where);
  std::vector<CycleRow> rows;
  scan_cycles(database, {CycleColumns::all(), source, {}, {}}, where, [&](const CycleBlock& block) {
    for (std::size_t i = 0; i < block.rows; ++i) rows.push_back(row_at(block, words, i));
  });
  return rows;
}

} // namespace docket
