// CSV text of a cycle log as batches, one after the other; one thread's work of cycle_csv.
//
// Checked   tests/ingest/docket/cycles/cycle_csv_test.cpp
#pragma once

#include "ingest/docket/cycles/cycle_batch.h"
#include "ingest/docket/cycles/cycle_plain_rows.h"
#include "ingest/docket/cycles/cycle_records.h"
#include "ingest/docket/cycles/cycle_row_reader.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// UTF-8 text without byte-order mark, made into batches.
class CycleBatches {
public:
  /// Finds separator and header. Throws Error (input_has_faults) on text that is no CSV.
  CycleBatches(std::string_view text, const std::string& file, std::size_t block_rows);

  /// Fills the next batch; false at the end. A batch may hold no row. Throws Error (input_has_faults).
  bool next(CycleBatch& batch);

  std::size_t read_to() const { return place_.at; } ///< [byte] of the text
  std::int64_t rows() const { return rows_; }       ///< data rows so far
  std::int64_t with_issue() const { return with_issue_; }
  const CountedIssues& issues() const { return issues_; }

private:
  std::optional<RawRow> read_plainly();
  void read_head();
  void settle(CycleBatch& batch, std::size_t rows);
  [[noreturn]] void refuse(const RecordProblem& problem) const;

  struct Waiting {
    std::size_t place; ///< in the block
    RawRow row;
  };

  std::string_view text_;
  std::string file_;
  std::size_t block_rows_;
  char separator_ = ',';
  RecordPlace place_;
  std::optional<CycleHeader> header_;
  std::optional<CycleRowReader> quick_;
  std::vector<Waiting> waiting_; ///< rows for the plain reader
  CountedIssues issues_;
  std::int64_t rows_ = 0, with_issue_ = 0;
};

} // namespace docket
