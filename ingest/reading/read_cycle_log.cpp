// The table `cycle_log`: rows of cells, and rows that were checked when they were stored.
#include "ingest/reading/read_tables.h"

#include <cassert>

namespace docket {

namespace {

std::int32_t log_word_of(Draft& draft, std::string_view word) {
  if (word.empty()) return -1;
  const std::uint32_t place = place_of(draft.cycle_names.stations_and_shifts, word);
  if (place == draft.input.log_words.size()) draft.input.log_words.emplace_back(word);
  return static_cast<std::int32_t>(place);
}

void take(Draft& draft, LoggedCycle cycle, std::string_view unit) {
  draft.input.cycle_log.push_back(cycle);
  draft.units.push_back(number_of_unit(draft.cycle_names, unit));
}

void take_row(Draft& draft, const TableRow& row) {
  const auto seconds = [](const CellValue& value) { return Seconds(value.given ? value.number : 0); };
  LoggedCycle cycle;
  cycle.origin = row.origin;
  const CellValue& started_at = value_of(row, "started_at");
  cycle.started_at = started_at.at;
  cycle.cycle = seconds(value_of(row, "cycle_s"));
  cycle.is_line_time = value_of(row, "cycle_is").given && value_of(row, "cycle_is").whole == 1;
  cycle.variant = find_variant(draft, row, "variant");
  cycle.op = find_operator(draft, row, "operator");
  cycle.wait = seconds(value_of(row, "wait_s"));
  cycle.helped = seconds(value_of(row, "helped_s"));
  cycle.helped_given = value_of(row, "helped_s").given;
  cycle.marks = value_of(row, "mark").marks;
  if (row.faulty) return;
  // A date cell at exactly midnight holds no time of day either, so only a text can be told to lack one.
  if (started_at.day_only && started_at.from_text)
    row_issue(draft, row, "started_at",
              {IssueGrade::fault, "time_of_day_missing", "\"" + started_at.text + "\" has no time of day.",
               "Write it as 2026-11-03 14:30:00."});
  const bool used_as_time = cycle.marks.plain() || cycle.marks.has(Mark::helped) || cycle.marks.has(Mark::cut_short) ||
                            cycle.marks.has(Mark::foreign);
  if (cycle.wait > cycle.cycle || (used_as_time && cycle.wait == cycle.cycle))
    row_issue(
        draft, row, "wait_s",
        {IssueGrade::fault, "wait_exceeds_cycle", "The waiting fills the whole cycle, so no time is left for work.",
         "Waiting is a part of the cycle and shorter than cycle_s. Correct one of them, or mark the row starved."});
  if (value_of(row, "operator").given && cycle.op < 0) return;
  cycle.station = log_word_of(draft, value_of(row, "station").text);
  cycle.shift = log_word_of(draft, value_of(row, "shift").text);
  take(draft, cycle, value_of(row, "unit").text);
}

/// What the words of a large log's column stand for, by code.
class Resolved {
public:
  /// `resolve` is asked once for a word, and again each time where it gives -1: what is not known is said of every row.
  template <typename Resolve>
  std::int32_t of(const LoggedWord& word, const Resolve& resolve) {
    if (word.code >= places_.size()) places_.resize(word.code + 1, -1);
    std::int32_t& place = places_[word.code];
    if (place < 0) place = resolve();
    return place;
  }

private:
  std::vector<std::int32_t> places_;
};

/// The rows of a large log. Each has passed the checks of a row; what it names is looked up here.
void take_logged_rows(Draft& draft, const SheetInFile& where) {
  const TableDeclaration& table = declaration_of(TableName::cycle_log);
  const bool variants_known = draft.state(TableName::variants).present();
  Resolved variants, operators, stations, shifts;
  TableRow names; // for the words that are looked up
  names.table = &table;
  names.values.resize(table.columns.size());
  const auto named = [&](const LoggedRow& row, std::string_view column, const LoggedWord& word) -> const TableRow& {
    CellValue& value = names.values[*find_column(table, column)];
    value.given = word.code != 0;
    value.text = word.text;
    names.origin = {where.source, TableName::cycle_log, row.row};
    return names;
  };
  draft.input.cycle_log.reserve(draft.input.cycle_log.size() + static_cast<std::size_t>(where.sheet->logged.count));
  draft.units.reserve(draft.input.cycle_log.capacity());
  SheetRows& rows = draft.state(TableName::cycle_log).rows.back();
  assert(!rows.broken); // find_large_log takes no other
  std::int64_t& variants_named = draft.variants_named[static_cast<std::size_t>(TableName::cycle_log)];
  where.sheet->logged.each([&](const LoggedRow& row) {
    ++rows.rows;
    LoggedCycle cycle;
    cycle.started_at = row.started_at;
    cycle.cycle = row.cycle;
    cycle.wait = row.wait.value_or(Seconds(0));
    cycle.helped = row.helped.value_or(Seconds(0));
    cycle.helped_given = row.helped.has_value();
    cycle.origin = {where.source, TableName::cycle_log, row.row};
    cycle.marks = row.marks;
    cycle.is_line_time = row.is_line_time;
    const std::int64_t before = variants_named;
    cycle.variant =
        variants.of(row.variant, [&] { return find_variant(draft, named(row, "variant", row.variant), "variant"); });
    variants_named = before + (!variants_known && row.variant.code != 0 ? 1 : 0);
    if (row.op.code != 0) {
      cycle.op = operators.of(row.op, [&] { return find_operator(draft, named(row, "operator", row.op), "operator"); });
      if (cycle.op < 0) return;
    }
    cycle.station = stations.of(row.station, [&] { return log_word_of(draft, row.station.text); });
    cycle.shift = shifts.of(row.shift, [&] { return log_word_of(draft, row.shift.text); });
    take(draft, cycle, row.unit);
  });
}

} // namespace

void read_cycle_log(Draft& draft) {
  for (const SheetInFile& sheet : draft.state(TableName::cycle_log).sheets) {
    each_row_of_sheet(draft, TableName::cycle_log, sheet, [&](const TableRow& row) { take_row(draft, row); });
    if (sheet.sheet->logged.each) take_logged_rows(draft, sheet);
  }
}

} // namespace docket
