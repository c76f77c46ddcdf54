// The quick reader and the plain one on the same text.
#pragma once

#include "core/error.h"
#include "ingest/docket/cycles/cycle_csv.h"
#include "ingest/docket/cycles/cycle_pack.h"
#include "tests/ingest/docket/cycles/plain_cycle_rows.h"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// Takes batches and puts their rows, packed and unpacked, behind those there are.
inline std::function<void(CycleBatch&)> rows_into(std::vector<CycleRow>& rows) {
  return [&rows](CycleBatch& batch) {
    if (batch.block.rows == 0) return;
    CycleBlock block;
    unpack_cycles(pack_cycles(batch.block), CycleColumns::all(), "test", block);
    for (std::size_t i = 0; i < block.rows; ++i) rows.push_back(row_at(block, batch.words, i));
  };
}

/// What the quick reader makes of the text otherwise than the plain one; empty where they agree.
inline std::string difference_of_logs(std::string_view text, std::size_t block_rows) {
  const std::string file = "cycle_log.csv";
  std::string plain_error, quick_error;
  PlainLog plain;
  try {
    plain = read_plain_log(text, file);
  } catch (const Error& error) {
    plain_error = error.what();
  }
  std::vector<CycleRow> rows;
  CycleLogRead quick;
  try {
    CycleReading reading{rows_into(rows)};
    reading.block_rows = block_rows;
    quick = read_cycle_csv_text(text, file, reading);
  } catch (const Error& error) {
    quick_error = error.what();
  }
  if (plain_error != quick_error) return "plain says: " + plain_error + "\nquick says: " + quick_error;
  if (!plain_error.empty()) return "";
  if (plain.rows != quick.rows || plain.with_issue != quick.with_issue ||
      quick.used != static_cast<std::int64_t>(rows.size()) || quick.rows != quick.used + quick.with_issue)
    return "plain counts " + std::to_string(plain.rows) + " rows and " + std::to_string(plain.with_issue) +
           " with an issue, quick " + std::to_string(quick.rows) + ", " + std::to_string(quick.with_issue) + " and " +
           std::to_string(quick.used) + " used";
  for (std::size_t i = 0; i < std::min(rows.size(), plain.used.size()); ++i)
    if (!(rows[i] == plain.used[i])) return "plain " + text_of(plain.used[i]) + "\nquick " + text_of(rows[i]);
  if (rows.size() != plain.used.size()) return "quick has another count of rows than plain";
  const std::vector<std::string> plain_issues = texts_of(plain.issues), quick_issues = texts_of(quick.issues);
  for (std::size_t i = 0; i < std::min(plain_issues.size(), quick_issues.size()); ++i)
    if (plain_issues[i] != quick_issues[i]) return "plain " + plain_issues[i] + "\nquick " + quick_issues[i];
  if (plain_issues.size() != quick_issues.size())
    return "plain has " + std::to_string(plain_issues.size()) + " issues, quick " + std::to_string(quick_issues.size());
  return "";
}

} // namespace docket
