// Where a number came from: file, table, row.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace docket {

/// The tables of a case, in the order a supervisor meets them in the workbook.
enum class TableName : std::uint8_t {
  case_facts,
  statements,
  operators,
  conditions,
  sessions,
  readings,
  cycle_log,
  roster,
  stops,
  helps,
  training,
  referrals,
  steps,
  checklist,
  standard,
  variants,
  build_sequence,
  motions,
  motion_table,
  lifts,
  efforts,
  settings,
};

inline constexpr std::size_t table_count = 22;

/// The name a sheet or CSV file carries. (`case_facts` is called `case`, a reserved word in C++.)
constexpr std::string_view name_of(TableName table) {
  constexpr std::array<std::string_view, table_count> names{
      "case",           "statements", "operators",    "conditions", "sessions", "readings",  "cycle_log", "roster",
      "stops",          "helps",      "training",     "referrals",  "steps",    "checklist", "standard",  "variants",
      "build_sequence", "motions",    "motion_table", "lifts",      "efforts",  "settings"};
  return names[static_cast<std::size_t>(table)];
}

/// One input file as it was given.
struct Source {
  std::string file;      ///< File name without its folder.
  std::string sha256;    ///< Of the whole file, 64 hex digits.
  std::int64_t rows = 0; ///< Data rows read from it.
};

/// The row an input value stands in. `source` is an index into Case::sources, -1 where there is none (a default).
struct SourceRow {
  std::int32_t source = -1;
  TableName table = TableName::case_facts;
  std::int64_t row = 0; ///< The spreadsheet's own row number; in CSV the line number of the record's first line.

  bool operator==(const SourceRow&) const = default;
};

} // namespace docket
