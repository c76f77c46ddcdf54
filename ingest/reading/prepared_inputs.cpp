#include "ingest/reading/prepared_inputs.h"

#include "core/error.h"
#include "ingest/csv.h"
#include "ingest/iso_times.h"
#include "ingest/reading/cell_dates.h"
#include "ingest/reading/cell_values.h"
#include "ingest/reading/code_list.h"
#include "ingest/reading/declared_cells.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <string>

namespace docket {

namespace {

[[noreturn]] void refuse_usage(const std::string& option, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::wrong_usage, option, what, remedy);
}

void keep_sheet(std::vector<RawFile>& files, const std::string& name) {
  bool found = false;
  std::vector<std::string_view> all;
  for (RawFile& file : files) {
    const auto named = std::find_if(file.tables.begin(), file.tables.end(), [&](const RawTable& table) {
      return table.name == name || plain_word(table.name) == plain_word(name);
    });
    for (const RawTable& table : file.tables) all.push_back(table.name);
    if (named == file.tables.end()) continue;
    found = true;
    RawTable kept = std::move(*named);
    file.tables.clear();
    file.tables.push_back(std::move(kept));
  }
  if (found) return;
  const auto nearest = nearest_word(name, all);
  std::string names;
  for (const std::string_view one : all) names += (names.empty() ? "" : ", ") + std::string(one);
  refuse_usage("--sheet " + name, "No input has a sheet of this name.",
               nearest ? "Did you mean " + std::string(*nearest) + "?" : "There are: " + names + ".");
}

/// The one sheet of a file that holds something; null where there are several.
RawTable* find_only_sheet(RawFile& file) {
  RawTable* only = nullptr;
  for (RawTable& table : file.tables) {
    if (table.rows.empty()) continue;
    if (only) return nullptr;
    only = &table;
  }
  return only;
}

void name_tables(std::vector<RawFile>& files, TableName as, const std::string& sheet) {
  const std::string name(name_of(as));
  bool any = false;
  for (RawFile& file : files) {
    RawTable* const only = find_only_sheet(file);
    if (!only) continue;
    const bool chosen = !sheet.empty() && plain_word(only->name) == plain_word(sheet);
    if (!chosen && find_table(only->name)) continue;
    only->name = name;
    any = true;
  }
  if (!any)
    refuse_usage("--as " + name, "Every input is a table by its name already, or has several sheets.",
                 "Leave --as out, or say with --sheet which sheet is meant.");
}

void order_dates(RawTable& table, TableName name, DateOrder order) {
  each_declared_cell(table, name, [&](const ColumnDeclaration& column, const RawRow&, RawCell& cell) {
    const bool dated =
        column.kind == ColumnKind::date || column.kind == ColumnKind::instant || column.kind == ColumnKind::time_on_day;
    if (!dated || cell.kind != CellKind::text) return;
    const auto when = parse_day_in_order(cell.text, order);
    if (!when) return;
    // A day alone stays text, so that it can still be told from midnight.
    cell = when->day_only ? text_cell(date_text(*when)) : date_cell(when->at.time_since_epoch().count());
  });
}

void recode(RawTable& table, TableName name, const CodeList& list) {
  std::int64_t cells = 0, in_texts = 0;
  std::string rows;
  each_declared_cell(table, name, [&](const ColumnDeclaration& column, const RawRow& row, RawCell& cell) {
    if (column.kind == ColumnKind::code || column.kind == ColumnKind::codes) {
      const std::string code = recoded(list, cell.text);
      if (code == cell.text || cell.text.empty()) return;
      // Blanks around a `;` may have gone; that is no recoding.
      if (plain_word(code) != plain_word(cell.text)) ++cells;
      cell = text_cell(code);
    } else if (cell.kind == CellKind::text && holds_name(list, cell.text)) {
      constexpr std::int64_t most_rows_named = 10;
      if (++in_texts <= most_rows_named) rows += (rows.empty() ? "" : ", ") + std::to_string(row.number);
    }
  });
  if (cells > 0)
    table.notes.push_back({"operators_recoded",
                           std::to_string(cells) + (cells == 1 ? " operator cell" : " operator cells") +
                               " held a name of the list of codes; its code stands there now.",
                           "Nothing needs to be done. The list is not kept."});
  if (in_texts > 0)
    table.notes.push_back({"name_in_text",
                           "A name of the list of codes stands in a text (" + std::to_string(in_texts) +
                               (in_texts == 1 ? " cell; row " : " cells; rows ") + rows + ").",
                           "Write the role or the code there: what stands in a text is printed and kept."});
}

} // namespace

void prepare_inputs(std::vector<RawFile>& files, const ReadingOptions& options) {
  if (!options.sheet.empty()) keep_sheet(files, options.sheet);
  if (options.as) name_tables(files, *options.as, options.sheet);
  if (options.dates == DateOrder::iso_only && options.codes_file.empty()) return;
  CodeList list;
  if (!options.codes_file.empty()) {
    const RawFile list_file = read_csv_file(options.codes_file);
    for (const RawFile& file : files)
      if (file.sha256 == list_file.sha256)
        refuse_usage("--codes " + options.codes_file,
                     "The list of codes is among the inputs, and what is an input is kept.",
                     "Put the list where no input lies.");
    list = read_code_list(list_file);
  }
  for (RawFile& file : files)
    for (RawTable& table : file.tables) {
      const auto name = find_table(table.name);
      if (!name) continue;
      if (options.dates != DateOrder::iso_only) order_dates(table, *name, options.dates);
      if (!options.codes_file.empty()) recode(table, *name, list);
    }
}

} // namespace docket
