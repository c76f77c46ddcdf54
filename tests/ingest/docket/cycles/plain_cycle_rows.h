// A cycle log read by the plain reader, whole and slow: what the quick way must come out to.
#pragma once

#include "ingest/csv.h"
#include "ingest/docket/cycles/cycle_block.h"
#include "ingest/reading/read_tables.h"
#include "ingest/reading/word_match.h"

#include <ostream>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct PlainLog {
  std::vector<CycleRow> used;
  std::int64_t rows = 0, with_issue = 0;
  Issues issues;
};

/// Every row of a sheet `cycle_log` that has no fault by itself, with the cells' own words.
inline PlainLog read_plain_sheet(const RawTable& sheet, const std::string& file) {
  Draft draft;
  draft.issues.files = {file};
  draft.issues.inputs = file;
  draft.state(TableName::cycle_log).sheets.push_back({0, &sheet});
  read_cycle_log(draft);
  PlainLog log;
  log.issues = in_order(draft.issues);
  std::set<std::int64_t> faulty;
  for (const FoundIssue& found : draft.issues.found)
    if (found.data_row && found.issue.grade == IssueGrade::fault) faulty.insert(found.issue.row);
  const SheetRows& rows = draft.state(TableName::cycle_log).rows.front();
  log.rows = rows.rows;
  log.with_issue = rows.broken ? rows.rows : static_cast<std::int64_t>(faulty.size());
  if (rows.broken) return log;
  FoundIssues again;
  again.files = {file};
  read_rows({0, &sheet}, declaration_of(TableName::cycle_log), again, [&](const TableRow& row) {
    if (faulty.contains(row.origin.row)) return;
    const auto text = [&](std::string_view column) { return value_of(row, column).text; };
    const auto time = [&](std::string_view column) {
      const CellValue& value = value_of(row, column);
      return value.given ? std::optional(Seconds(value.number)) : std::nullopt;
    };
    CycleRow cycle;
    cycle.started_at = value_of(row, "started_at").at;
    cycle.cycle = Seconds(value_of(row, "cycle_s").number);
    cycle.is_line_time = value_of(row, "cycle_is").given && value_of(row, "cycle_is").whole == 1;
    cycle.unit = text("unit");
    cycle.variant = text("variant");
    cycle.station = text("station");
    cycle.shift = text("shift");
    cycle.op = text("operator");
    cycle.wait = time("wait_s");
    cycle.helped = time("helped_s");
    cycle.marks = value_of(row, "mark").marks;
    cycle.row = row.origin.row;
    log.used.push_back(std::move(cycle));
  });
  return log;
}

inline PlainLog read_plain_log(std::string_view text, const std::string& file) {
  return read_plain_sheet(parse_csv(text, file), file);
}

inline std::string text_of(const CycleRow& row) {
  const auto time = [](const std::optional<Seconds>& seconds) {
    return seconds ? std::to_string(seconds->count()) : std::string("-");
  };
  return std::to_string(row.row) + ": " + std::to_string(row.started_at.time_since_epoch().count()) + " " +
         std::to_string(row.cycle.count()) + (row.is_line_time ? " line " : " work ") + row.unit + "|" + row.variant +
         "|" + row.station + "|" + row.shift + "|" + row.op + " " + time(row.wait) + " " + time(row.helped) + " " +
         std::to_string(row.marks.bits);
}

inline void PrintTo(const CycleRow& row, std::ostream* out) { *out << text_of(row); }

inline std::string text_of(const Issue& issue) {
  return std::to_string(static_cast<int>(issue.grade)) + " " + issue.code + " " + issue.file + " " + issue.table + " " +
         std::to_string(issue.row) + " " + issue.column + " [" + issue.raw + "] " + issue.wrong + " " + issue.right;
}

inline std::vector<std::string> texts_of(const Issues& issues) {
  std::vector<std::string> texts;
  for (const Issue& issue : issues) texts.push_back(text_of(issue));
  return texts;
}

} // namespace docket
