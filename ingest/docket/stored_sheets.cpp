#include "ingest/docket/stored_sheets.h"

#include "core/error.h"
#include "ingest/docket/cells_text.h"
#include "ingest/docket/large_log.h"
#include "ingest/docket/ledger.h"
#include "ingest/running_hash.h"
#include "ingest/text_encoding.h"

namespace docket {

namespace {

constexpr const char* aside = "set_aside";

void add_sheet(RunningHash& hash, const RawTable& sheet, std::string_view notes) {
  hash.add(netstring("sheet") + netstring(sheet.name) + netstring(sheet.decimal_comma_possible ? "1" : "0") +
           netstring(notes));
}

void add_row(RunningHash& hash, std::int64_t number, std::string_view state, std::string_view cells) {
  hash.add(netstring(std::to_string(number)) + netstring(state) + netstring(cells));
}

/// The notes one after the other, three texts each.
std::string notes_as_text(const std::vector<TableNote>& notes) {
  std::vector<std::string> texts;
  for (const TableNote& note : notes) texts.insert(texts.end(), {note.code, note.wrong, note.right});
  return texts_as_text(texts);
}

std::optional<std::vector<TableNote>> notes_from_text(std::string_view text) {
  const auto texts = texts_from_text(text);
  if (!texts || texts->size() % 3 != 0) return std::nullopt;
  std::vector<TableNote> notes;
  for (std::size_t i = 0; i < texts->size(); i += 3) notes.push_back({(*texts)[i], (*texts)[i + 1], (*texts)[i + 2]});
  return notes;
}

[[noreturn]] void refuse(const Database& docket, const StoredSource& source) {
  throw Error(ErrorKind::verification_failed, docket.path(),
              "The docket is damaged: the rows of source " + std::to_string(source.source) + " (" +
                  with_question_marks(source.file) + ") are not those that were taken in.",
              "Take a copy of it from before the damage. Nothing was changed.");
}

} // namespace

std::string store_sheets(Database& docket, std::int64_t source, const std::vector<RawTable>& sheets,
                         const std::set<RowPlace>& set_aside) {
  SqlStatement insert_sheet(docket,
                            "INSERT INTO sheet (source, sheet, name, decimal_comma, notes) VALUES (?, ?, ?, ?, ?)");
  SqlStatement insert_row(docket, "INSERT INTO sheet_row (source, sheet, place, number, state, cells) "
                                  "VALUES (?, ?, ?, ?, ?, ?)");
  RunningHash hash;
  std::int64_t sheet_number = 0;
  for (const RawTable& sheet : sheets) {
    ++sheet_number;
    const std::string notes = notes_as_text(sheet.notes);
    insert_sheet.bind(source)
        .bind(sheet_number)
        .bind_text(sheet.name)
        .bind(std::int64_t{sheet.decimal_comma_possible})
        .bind_text(notes)
        .run();
    add_sheet(hash, sheet, notes);
    std::int64_t place = 0;
    for (const RawRow& row : sheet.rows) {
      const std::string cells = cells_as_text(row.cells);
      const char* const state =
          set_aside.contains({static_cast<std::size_t>(sheet_number - 1), row.number}) ? aside : "taken";
      insert_row.bind(source).bind(sheet_number).bind(++place).bind(row.number).bind_text(state).bind_text(cells).run();
      add_row(hash, row.number, state, cells);
    }
  }
  hash.add(cycles_for_hash(docket, source));
  return hash.hex();
}

std::vector<RawTable> load_sheets(Database& docket, const StoredSource& source, SetAside set_aside) {
  SqlStatement sheet_rows(docket,
                          "SELECT sheet, name, decimal_comma, notes FROM sheet WHERE source = ? ORDER BY sheet");
  sheet_rows.bind(source.source);
  RunningHash hash;
  std::vector<RawTable> sheets;
  while (sheet_rows.next()) {
    RawTable sheet;
    sheet.name = sheet_rows.text(1);
    sheet.decimal_comma_possible = sheet_rows.whole(2) == 1;
    auto notes = notes_from_text(sheet_rows.view(3));
    if (!notes) refuse(docket, source);
    sheet.notes = *std::move(notes);
    add_sheet(hash, sheet, sheet_rows.view(3));
    SqlStatement rows(docket,
                      "SELECT number, state, cells FROM sheet_row WHERE source = ? AND sheet = ? ORDER BY place");
    rows.bind(source.source).bind(sheet_rows.whole(0));
    while (rows.next()) {
      add_row(hash, rows.whole(0), rows.view(1), rows.view(2));
      if (set_aside == SetAside::without && rows.view(1) == aside) continue;
      auto cells = cells_from_text(rows.view(2));
      if (!cells) refuse(docket, source);
      sheet.rows.push_back({rows.whole(0), *std::move(cells)});
    }
    sheets.push_back(std::move(sheet));
  }
  hash.add(cycles_for_hash(docket, source.source));
  if (hash.hex() != source.cells_sha256) refuse(docket, source);
  if (has_cycles(docket, source.source) && sheets.size() == 1) sheets.front().logged = cycles_of(docket, source.source);
  return sheets;
}

} // namespace docket
