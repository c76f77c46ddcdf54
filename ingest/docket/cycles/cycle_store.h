// Large cycle logs in a docket: written block by block, read block by block.
//
// Format      cycle_chunks.sql; blocks as cycle_pack.h has them
// Spec        SQLite 3
// Method      a writer works in the caller's transaction and leaves nothing behind but what that commits. Words have
//             one code in the whole docket, so that blocks can be added up by code
// Checked     tests/ingest/docket/cycles/cycle_store_test.cpp
#pragma once

#include "ingest/docket/cycles/cycle_batch.h"
#include "ingest/docket/cycles/cycle_pack.h"

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace docket {

/// The two tables and their triggers as SQL.
std::string cycle_chunks_sql();

/// More different words than this in one column are no words of a plant.
inline constexpr std::size_t most_cycle_words = 1'000'000;

/// Ends a statement of SQLite.
struct FinaliseStatement {
  void operator()(sqlite3_stmt* statement) const;
};
using StatementHandle = std::unique_ptr<sqlite3_stmt, FinaliseStatement>;

/// Writes the cycles of one source. `where`: what messages name, the docket's file name.
class CycleWriter {
public:
  CycleWriter(sqlite3* database, std::int64_t source, const std::string& where);

  /// Packs and stores the next block, whose codes become those of the docket. Throws Error: input_has_faults where a column has too many different words,
  /// could_not_be_done where SQLite can't.
  void write(CycleBatch& batch);

  std::int64_t cycles() const { return cycles_; }

private:
  sqlite3* database_;
  std::int64_t source_, chunk_ = 0, cycles_ = 0;
  std::string where_;
  CycleWords words_; ///< of the whole docket
  StatementHandle insert_chunk_, insert_word_;
};

/// All words of the docket.
CycleWords read_cycle_words(sqlite3* database, const std::string& where);

/// Which blocks and which of their columns a scan looks at.
struct CycleScan {
  CycleColumns columns;
  std::optional<std::int64_t> source;              ///< absent: all
  std::optional<Instant> started_from, started_to; ///< blocks that lie outside are left out; rows are not
};

/// The blocks of a scan, one after the other, in the order source, chunk.
class CycleChunks {
public:
  CycleChunks(sqlite3* database, const CycleScan& scan, const std::string& where);

  /// Unpacks the next block; false at the end. Throws Error (verification_failed) where it is damaged: where it can't be
  /// unpacked, has another count of cycles, or has codes that no word stands for.
  bool next();

  std::int64_t source() const { return source_; }
  std::int64_t chunk() const { return chunk_; }
  /// The columns asked for; codes are those of read_cycle_words.
  const CycleBlock& block() const { return block_; }

private:
  sqlite3* database_;
  CycleColumns columns_;
  std::string where_;
  std::array<std::int64_t, cycle_word_kinds> greatest_codes_{};
  StatementHandle select_;
  std::int64_t source_ = 0, chunk_ = 0;
  CycleBlock block_;
};

/// Goes through all blocks of a scan.
void scan_cycles(sqlite3* database, const CycleScan& scan, const std::string& where,
                 const std::function<void(const CycleBlock&)>& take);

/// The rows of one source, as they were taken.
std::vector<CycleRow> read_cycle_rows(sqlite3* database, std::int64_t source, const std::string& where);

} // namespace docket
