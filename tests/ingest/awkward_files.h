// The workbooks in awkward_files/, and their cells as short texts. See awkward_files/make.py.
#pragma once

#include "core/error.h"
#include "ingest/workbook.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace docket {

inline std::string path_of(const std::string& name) { return DOCKET_TESTS_DIR "/ingest/awkward_files/" + name; }

inline const RawTable& sheet(const RawFile& file, std::string_view name) {
  for (const auto& table : file.tables) {
    if (table.name == name) return table;
  }
  throw std::runtime_error("no such sheet");
}

inline std::string letter_of(CellKind kind) { return std::string(1, "-tn%dDbe?"[static_cast<std::size_t>(kind)]); }

/// Cells as "kind:text": - blank, t text, n number, % percent, d date, D duration, b truth, e error, ? not calculated.
inline std::vector<std::string> shown(const RawRow& row) {
  std::vector<std::string> cells;
  for (const auto& cell : row.cells) cells.push_back(letter_of(cell.kind) + ":" + cell.text);
  return cells;
}

using Rows = std::vector<std::pair<std::int64_t, std::vector<std::string>>>;

inline Rows rows_of(const RawTable& table) {
  Rows rows;
  for (const auto& row : table.rows) rows.emplace_back(row.number, shown(row));
  return rows;
}

/// What reading the file throws; every message is a fault of the input.
inline std::string message_of(const std::string& path, const ReaderCaps& caps = {}) {
  try {
    read_workbook(path, caps);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::input_has_faults);
    return error.what();
  }
  return "no error";
}

} // namespace docket
