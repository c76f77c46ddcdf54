#include "ingest/case_reader.h"

#include "ingest/reading/cross_checks.h"
#include "ingest/reading/input_files.h"
#include "ingest/reading/motion_times.h"
#include "ingest/reading/prepared_inputs.h"
#include "ingest/reading/read_tables.h"
#include "ingest/reading/repeated_cycles.h"
#include "ingest/reading/roster_fill.h"
#include "ingest/reading/set_aside.h"
#include "ingest/reading/word_match.h"
#include "ingest/reading/words_about_people.h"
#include "ingest/tables.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <tuple>
#include <utility>

namespace docket {

namespace {

/// The sheet of the blank workbook that explains the job.
constexpr std::string_view explaining_sheet = "start_here";

void sort_into_tables(Draft& draft, const std::vector<RawFile>& files) {
  std::vector<std::string_view> names;
  for (const TableDeclaration& table : all_tables()) names.push_back(name_of(table.table));
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto source = static_cast<std::int32_t>(i);
    std::set<TableName> seen;
    for (const RawTable& sheet : files[i].tables) {
      if (plain_word(sheet.name) == plain_word(explaining_sheet)) continue;
      const auto table = find_table(sheet.name);
      if (!table) {
        if (sheet.rows.empty()) continue;
        // A CSV file is one table, and somebody gave it for one; a workbook may have sheets of its own.
        const bool alone = files[i].file.ends_with(".csv");
        std::string right =
            alone ? "Say which table it is with --as, for example --as cycle_log, rename the file, or leave it out."
                  : "Nothing needs to be done if the sheet is for your own use.";
        if (const auto meant = nearest_word(sheet.name, names))
          right = "Did you mean " + std::string(*meant) + "? Then rename the " + (alone ? "file." : "sheet.");
        add_file_issue(draft.issues,
                       {alone ? IssueGrade::fault : IssueGrade::warning, "sheet_unknown",
                        "The sheet \"" + sheet.name + "\" is no table of a case and is not read.", right},
                       source, sheet.name);
        continue;
      }
      if (!seen.insert(*table).second)
        add_table_issue(draft.issues,
                        {IssueGrade::fault, "table_twice",
                         "Two sheets of this file hold the table " + std::string(name_of(*table)) + ".",
                         "Put all its rows into one sheet."},
                        source, *table, 0, "", sheet.name);
      else
        draft.state(*table).sheets.push_back({source, &sheet});
      for (const TableNote& note : sheet.notes)
        add_table_issue(draft.issues, {IssueGrade::warning, note.code, note.wrong, note.right}, source, *table, 0, "",
                        "");
    }
  }
}

void check_required_tables(Draft& draft) {
  for (const TableDeclaration& table : all_tables()) {
    if (!table.required) continue;
    const TableState& state = draft.state(table.table);
    const std::string name(name_of(table.table));
    if (state.sheets.empty())
      add_table_issue(draft.issues,
                      {IssueGrade::fault, "required_table_missing", "The table " + name + " is missing.",
                       "Add a sheet named " + name + " (or a file " + name + ".csv). " + std::string(table.purpose)},
                      -1, table.table, 0, "", "");
    else if (!table.key_value && !state.present())
      add_table_issue(draft.issues,
                      {IssueGrade::fault, "required_table_empty", "The table " + name + " has no rows.",
                       "Fill it in. " + std::string(table.purpose)},
                      state.sheets.front().source, table.table, 0, "", "");
  }
}

void read_all_tables(Draft& draft) {
  read_case_facts(draft);
  read_settings(draft);
  read_standard(draft);
  read_variants(draft);
  read_build_sequence(draft);
  read_motions(draft);
  read_motion_table(draft);
  read_operators(draft);
  read_roster(draft);
  read_sessions(draft);
  read_readings(draft);
  read_cycle_log(draft);
  read_conditions(draft);
  read_referrals(draft);
  read_statements(draft);
  read_training(draft);
  read_lifts(draft);
  read_efforts(draft);
  for (const TableDeclaration& table : all_tables())
    if (!table.used_now && table.table != TableName::training) read_unused(draft, table.table);
}

std::vector<TableCounts> count_rows(const Draft& draft) {
  std::vector<TableCounts> counts;
  for (const TableDeclaration& table : all_tables()) {
    const TableState& state = draft.state(table.table);
    if (!state.present()) continue;
    TableCounts count;
    count.table = table.table;
    count.used_now = table.used_now;
    for (std::size_t i = 0; i < state.rows.size(); ++i) {
      const SheetRows& rows = state.rows[i];
      count.read += rows.rows;
      count.with_issue +=
          rows.broken ? rows.rows : count_faulty_rows(draft.issues, state.sheets[i].source, table.table);
    }
    count.used = count.read - count.with_issue;
    counts.push_back(count);
  }
  return counts;
}

void fill_sources(Draft& draft, const std::vector<RawFile>& files) {
  for (const RawFile& file : files) draft.input.sources.push_back({file.file, file.sha256, 0});
  for (const TableState& state : draft.tables)
    for (std::size_t i = 0; i < state.rows.size(); ++i)
      draft.input.sources[static_cast<std::size_t>(state.sheets[i].source)].rows += state.rows[i].rows;
}

/// Everything read and checked, faults and all.
Draft read_draft(const std::vector<RawFile>& files) {
  Draft draft;
  for (const RawFile& file : files) draft.issues.files.push_back(file.file);
  // A CSV file is one table, so it is never the place where another is missing.
  const bool one_workbook = files.size() == 1 && !files.front().file.ends_with(".csv");
  draft.issues.inputs = one_workbook ? files.front().file : "input";
  sort_into_tables(draft, files);
  read_all_tables(draft);
  check_required_tables(draft);
  take_motion_times(draft);
  fill_from_roster(draft);
  check_repeated_readings(draft);
  check_repeated_cycles(draft);
  check_gaps(draft);
  check_units_of_times(draft);
  check_safety_answer(draft);
  check_allowance(draft);
  check_work_zone(draft);
  check_station_of_log(draft);
  check_people_asked_about(draft);
  check_words(draft);
  fill_sources(draft, files);
  return draft;
}

Intake as_intake(Draft& draft, std::vector<SetAsideRow> set_aside) {
  Intake intake;
  intake.counts = count_rows(draft);
  count_set_aside(set_aside, intake.counts, draft.input.sources);
  intake.issues = in_order(draft.issues);
  const bool faults = std::any_of(intake.issues.begin(), intake.issues.end(),
                                  [](const Issue& issue) { return issue.grade == IssueGrade::fault; });
  if (faults) return intake;
  draft.input.counts = intake.counts;
  draft.input.set_aside = std::move(set_aside);
  intake.input = std::move(draft.input);
  return intake;
}

Intake read_with_rows_set_aside(std::vector<RawFile> files) {
  std::vector<SetAsideRow> taken;
  std::vector<FoundIssue> heard;
  for (;;) {
    Draft draft = read_draft(files);
    if (take_faulty_rows(files, draft.issues, taken, heard) > 0) continue;
    for (FoundIssue& found : draft.issues.found)
      if (found.data_row && found.issue.grade == IssueGrade::fault) found.issue.right += " The row can't be set aside.";
    std::move(heard.begin(), heard.end(), std::back_inserter(draft.issues.found));
    std::sort(taken.begin(), taken.end(), [](const SetAsideRow& a, const SetAsideRow& b) {
      return std::tie(a.origin.source, a.origin.table, a.origin.row) <
             std::tie(b.origin.source, b.origin.table, b.origin.row);
    });
    return as_intake(draft, std::move(taken));
  }
}

} // namespace

Intake read_case(std::span<const std::string> inputs, const ReadingOptions& options) {
  std::vector<RawFile> files = read_input_files(inputs);
  prepare_inputs(files, options);
  return read_case_from(files, options.set_aside);
}

Intake read_case_from(const std::vector<RawFile>& files, bool set_aside) {
  if (set_aside) return read_with_rows_set_aside(files);
  Draft draft = read_draft(files);
  return as_intake(draft, {});
}

} // namespace docket
