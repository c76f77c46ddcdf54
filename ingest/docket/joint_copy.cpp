#include "ingest/docket/joint_copy.h"

#include "ingest/docket/docket_case.h"
#include "ingest/docket/large_log.h"
#include "ingest/docket/ledger.h"
#include "ingest/docket/recoded_file.h"
#include "ingest/docket/sources.h"
#include "ingest/docket/store.h"
#include "ingest/docket/stored_sheets.h"
#include "ingest/file_hash.h"
#include "ingest/reading/table_rows.h"
#include "ingest/tables.h"

#include <algorithm>
#include <set>
#include <sstream>

namespace docket {

namespace {

/// Rows that were set aside when they came stay so.
std::set<RowPlace> set_aside_in(Database& docket, const StoredSource& source) {
  SqlStatement rows(docket, "SELECT sheet, number FROM sheet_row WHERE source = ? AND state = 'set_aside'");
  rows.bind(source.source);
  std::set<RowPlace> places;
  while (rows.next()) places.insert({static_cast<std::size_t>(rows.whole(0) - 1), rows.whole(1)});
  return places;
}

void copy_words(Database& full, Database& joint) {
  SqlStatement words(full, "SELECT kind, code, word FROM cycle_word ORDER BY kind, code");
  SqlStatement insert(joint, "INSERT INTO cycle_word (kind, code, word) VALUES (?, ?, ?)");
  while (words.next()) insert.bind_text(words.view(0)).bind(words.whole(1)).bind_text(words.view(2)).run();
}

void copy_cycles(Database& full, std::int64_t from, Database& joint, std::int64_t to) {
  SqlStatement chunks(full, "SELECT chunk, cycles, started_first_ms, started_last_ms, cycle_sum_s, cycle_min_s, "
                            "cycle_max_s, packed FROM cycle_chunk WHERE source = ? ORDER BY chunk");
  chunks.bind(from);
  SqlStatement insert(joint, "INSERT INTO cycle_chunk (source, chunk, cycles, started_first_ms, started_last_ms, "
                             "cycle_sum_s, cycle_min_s, cycle_max_s, packed) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  while (chunks.next())
    insert.bind(to)
        .bind(chunks.whole(0))
        .bind(chunks.whole(1))
        .bind(chunks.whole(2))
        .bind(chunks.whole(3))
        .bind(chunks.real(4))
        .bind(chunks.real(5))
        .bind(chunks.real(6))
        .bind_bytes(chunks.view(7))
        .run();
}

StoredSource copy_source(Database& full, const StoredSource& source, Database& joint, std::int64_t number) {
  StoredSource copy = source;
  copy.source = number;
  copy.entry = 1;
  copy.supersedes.reset();
  RawFile file = load_file(full, source, SetAside::with);
  for (RawTable& sheet : file.tables) leave_out_notes(sheet);
  const bool large = has_cycles(full, source.source);
  if (large) copy_cycles(full, source.source, joint, number);
  // A log in blocks has no notes, and is in them already.
  std::istringstream bytes(large ? std::string() : recoded_bytes(file));
  const StoredBytes stored = store_bytes(joint, number, bytes);
  copy.form = large ? "cycles_only" : "recoded";
  copy.stored_bytes = stored.bytes;
  copy.stored_sha256 = large ? sha256_of("") : stored.sha256;
  copy.cells_sha256 = store_sheets(joint, number, file.tables, set_aside_in(full, source));
  return copy;
}

/// Not for everybody: notes; of a safety or health matter all but whether it is open; why somebody stopped or was helped.
bool is_for_everybody(TableName table, std::string_view column) {
  if (column == "note") return false;
  if (table == TableName::referrals) return column == "state";
  if (table == TableName::stops || table == TableName::helps) return column != "reason";
  return true;
}

} // namespace

void leave_out_notes(RawTable& sheet) {
  const auto table = find_table(sheet.name);
  const TableDeclaration* declared = table ? &declaration_of(*table) : nullptr;
  FoundIssues unheard;
  unheard.files.push_back(sheet.name);
  const auto columns = declared == nullptr   ? std::span<const ColumnDeclaration>()
                       : declared->key_value ? key_value_columns()
                                             : declared->columns;
  const auto header = declared == nullptr ? std::nullopt : find_header({0, &sheet}, *declared, columns, unheard);
  if (!header) {
    sheet.rows.clear();
    sheet.notes.clear();
    return;
  }
  std::set<std::size_t> kept;
  for (std::size_t c = 0; c < columns.size(); ++c)
    if (header->cells[c] && is_for_everybody(*table, columns[c].name)) kept.insert(*header->cells[c]);
  // The headers of declared columns stay, so that the sheet is read as before.
  std::vector<bool> is_header(sheet.rows[header->row].cells.size());
  for (const auto& place : header->cells)
    if (place) is_header[*place] = true;
  std::vector<RawRow> rows;
  for (std::size_t i = header->row; i < sheet.rows.size(); ++i) {
    RawRow& row = sheet.rows[i];
    if (i > header->row && is_note(row, *header)) continue;
    for (std::size_t c = 0; c < row.cells.size(); ++c)
      if (!kept.contains(c) && (i > header->row || !is_header[c])) row.cells[c] = {};
    rows.push_back(std::move(row));
  }
  sheet.rows = std::move(rows);
}

void write_joint_copy(Database& full, const std::string& path, const std::string& at, const std::string& by_role) {
  DocketChange change(path, at, by_role);
  Database& joint = change.docket();
  copy_words(full, joint);
  const std::vector<StoredSource> sources = read_sources(full), current = current_of(sources);
  std::vector<StoredSource> written;
  for (const StoredSource& source : current)
    written.push_back(copy_source(full, source, joint, static_cast<std::int64_t>(written.size()) + 1));
  const std::vector<LedgerEntry> ledger = read_ledger(full);
  LedgerEntry entry;
  entry.at = at;
  entry.by_role = by_role;
  entry.act = "add";
  entry.what = "Joint copy, without notes, of a docket whose last entry is " + ledger.back().sha256 + ".";
  entry.details = details_of(written);
  append_to_ledger(joint, entry);
  for (const StoredSource& source : written) insert_source(joint, source);
  change.commit();
}

} // namespace docket
