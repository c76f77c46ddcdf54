#include "ingest/docket/cycles/cycle_table.h"

#include "core/error.h"
#include "ingest/docket/cycles/cycle_store.h"
#include "ingest/reading/cell_dates.h"

#include <sqlite3.h>

#include <cstdlib>
#include <exception>
#include <new>

namespace docket {

namespace {

enum Column { source, row, started_at, cycle_s, cycle_is, unit, variant, station, shift, op, wait_s, helped_s, mark };

constexpr const char* declaration =
    "CREATE TABLE cycle_log (source INTEGER, row INTEGER, started_at TEXT, cycle_s REAL, cycle_is TEXT, unit TEXT, "
    "variant TEXT, station TEXT, shift TEXT, operator TEXT, wait_s REAL, helped_s REAL, mark TEXT)";

// What xBestIndex tells xFilter: which bounds come as values, in this order.
constexpr int has_source = 1, has_from = 2, has_to = 4;

struct Table : sqlite3_vtab {
  sqlite3* database = nullptr;
  std::string where;
};

struct Cursor : sqlite3_vtab_cursor {
  CycleWords words;
  std::unique_ptr<CycleChunks> chunks;
  bool at_end = true;
  std::size_t place = 0;
  std::int64_t day = 0; ///< of day_text
  std::string day_text;
};

/// Runs what may throw; says what was thrown as SQLite wants it.
template <typename Body>
int guarded(sqlite3_vtab* table, const Body& body) {
  try {
    body();
    return SQLITE_OK;
  } catch (const std::bad_alloc&) {
    return SQLITE_NOMEM;
  } catch (const std::exception& error) {
    sqlite3_free(table->zErrMsg);
    table->zErrMsg = sqlite3_mprintf("%s", error.what());
    return SQLITE_ERROR;
  }
}

/// A bound only where its order as text is its order in time: 2026-11-03, or with hh:mm:ss or hh:mm:ss.fff behind a blank.
std::optional<Instant> bound_of(sqlite3_value* value) {
  if (sqlite3_value_type(value) != SQLITE_TEXT) return std::nullopt;
  const void* const start = sqlite3_value_text(value);
  const std::string_view text(static_cast<const char*>(start), static_cast<std::size_t>(sqlite3_value_bytes(value)));
  const bool day = text.size() == 10;
  const bool time = (text.size() == 19 || (text.size() >= 21 && text.size() <= 23 && text[19] == '.')) &&
                    text[10] == ' ' && text[13] == ':' && text[16] == ':' && text.substr(11, 2) < "24";
  if (!day && !time) return std::nullopt;
  const auto when = parse_day_and_time(text);
  return when ? std::optional(when->at) : std::nullopt;
}

CycleColumns columns_of(std::uint64_t used) {
  const auto has = [&](Column column) { return (used >> column & 1U) != 0; };
  CycleColumns columns;
  columns.started_at = has(started_at);
  columns.cycle = has(cycle_s);
  columns.wait = has(wait_s);
  columns.helped = has(helped_s);
  columns.is_line_time = has(cycle_is);
  columns.unit = has(unit);
  columns.marks = has(mark);
  columns.row = has(row);
  columns.words = {has(variant), has(station), has(shift), has(op)};
  return columns;
}

void next_block(Cursor& cursor) {
  cursor.place = 0;
  cursor.at_end = !cursor.chunks->next();
}

void append_number(std::string& text, std::int64_t number, std::size_t digits) {
  std::string written = std::to_string(number);
  if (written.size() < digits) written.insert(0, digits - written.size(), '0');
  text += written;
}

void result_text(sqlite3_context* context, std::string_view text, sqlite3_destructor_type whose) {
  if (text.empty())
    sqlite3_result_null(context);
  else
    sqlite3_result_text64(context, text.data(), text.size(), whose, SQLITE_UTF8);
}

void result_started_at(sqlite3_context* context, Cursor& cursor, std::int64_t ms) {
  const Instant at{std::chrono::milliseconds(ms)};
  const Date day = day_of(at);
  if (cursor.day_text.empty() || cursor.day != day.time_since_epoch().count()) {
    cursor.day = day.time_since_epoch().count();
    cursor.day_text = date_text({at, true});
  }
  const std::int64_t of_day = (at - Instant(day)).count();
  std::string text = cursor.day_text + ' ';
  append_number(text, of_day / 3'600'000, 2);
  text += ':';
  append_number(text, of_day / 60'000 % 60, 2);
  text += ':';
  append_number(text, of_day / 1000 % 60, 2);
  if (of_day % 1000 != 0) {
    text += '.';
    append_number(text, of_day % 1000, 3);
  }
  result_text(context, text, SQLITE_TRANSIENT);
}

void result_time(sqlite3_context* context, const CycleTimes& times, std::size_t place) {
  if (const auto time = time_at(times, place))
    sqlite3_result_double(context, time->count());
  else
    sqlite3_result_null(context);
}

std::string marks_text(Marks marks) {
  std::string text;
  for (const MarkUse& use : mark_uses)
    if (marks.has(use.mark)) text += (text.empty() ? "" : ";") + std::string(use.name);
  return text;
}

void result_column(sqlite3_context* context, Cursor& cursor, int column) {
  const CycleBlock& block = cursor.chunks->block();
  const std::size_t at = cursor.place;
  const auto word = [&](CycleWordKind kind) {
    result_text(context, cursor.words[static_cast<std::size_t>(kind)].words.at(block.codes(kind)[at]), SQLITE_STATIC);
  };
  switch (column) {
  case source:
    return sqlite3_result_int64(context, cursor.chunks->source());
  case row:
    return sqlite3_result_int64(context, block.row[at]);
  case started_at:
    return result_started_at(context, cursor, block.started_at[at]);
  case cycle_s:
    return result_time(context, block.cycle, at);
  case cycle_is:
    return result_text(context, block.is_line_time[at] != 0 ? "line" : "work", SQLITE_STATIC);
  case unit:
    return result_text(context, block.unit.at(at), SQLITE_TRANSIENT);
  case variant:
    return word(CycleWordKind::variant);
  case station:
    return word(CycleWordKind::station);
  case shift:
    return word(CycleWordKind::shift);
  case op:
    return word(CycleWordKind::op);
  case wait_s:
    return result_time(context, block.wait, at);
  case helped_s:
    return result_time(context, block.helped, at);
  case mark:
    return result_text(context, marks_text({block.marks[at]}), SQLITE_TRANSIENT);
  default:
    return sqlite3_result_null(context);
  }
}

// ---- what SQLite calls

int connect(sqlite3* database, void* where, int, const char* const*, sqlite3_vtab** made, char**) {
  const int outcome = sqlite3_declare_vtab(database, declaration);
  if (outcome != SQLITE_OK) return outcome;
  auto* const table = new (std::nothrow) Table();
  if (table == nullptr) return SQLITE_NOMEM;
  table->database = database;
  table->where = *static_cast<const std::string*>(where);
  *made = table;
  return SQLITE_OK;
}

int disconnect(sqlite3_vtab* table) {
  delete static_cast<Table*>(table);
  return SQLITE_OK;
}

int best_index(sqlite3_vtab*, sqlite3_index_info* info) {
  int source_at = -1, from_at = -1, to_at = -1;
  for (int i = 0; i < info->nConstraint; ++i) {
    const auto& constraint = info->aConstraint[i];
    if (constraint.usable == 0) continue;
    if (constraint.iColumn == source && constraint.op == SQLITE_INDEX_CONSTRAINT_EQ && source_at < 0) source_at = i;
    if (constraint.iColumn != started_at) continue;
    const bool equal = constraint.op == SQLITE_INDEX_CONSTRAINT_EQ;
    if ((equal || constraint.op == SQLITE_INDEX_CONSTRAINT_GE || constraint.op == SQLITE_INDEX_CONSTRAINT_GT) &&
        from_at < 0)
      from_at = i;
    if ((constraint.op == SQLITE_INDEX_CONSTRAINT_LE || constraint.op == SQLITE_INDEX_CONSTRAINT_LT) && to_at < 0)
      to_at = i;
  }
  int values = 0;
  double cost = 1e7;
  for (const auto& [at, bit] : {std::pair{source_at, has_source}, {from_at, has_from}, {to_at, has_to}}) {
    if (at < 0) continue;
    info->aConstraintUsage[at].argvIndex = ++values; // SQLite still looks at every row itself
    info->idxNum |= bit;
    cost /= 4;
  }
  info->estimatedCost = cost;
  info->idxStr = sqlite3_mprintf("%llu", static_cast<unsigned long long>(info->colUsed));
  info->needToFreeIdxStr = 1;
  return info->idxStr == nullptr ? SQLITE_NOMEM : SQLITE_OK;
}

int open(sqlite3_vtab* table, sqlite3_vtab_cursor** made) {
  auto* const cursor = new (std::nothrow) Cursor();
  if (cursor == nullptr) return SQLITE_NOMEM;
  const int outcome = guarded(table, [&] {
    const auto* const ours = static_cast<Table*>(table);
    cursor->words = read_cycle_words(ours->database, ours->where);
  });
  if (outcome != SQLITE_OK) {
    delete cursor;
    return outcome;
  }
  *made = cursor;
  return SQLITE_OK;
}

int close(sqlite3_vtab_cursor* cursor) {
  delete static_cast<Cursor*>(cursor);
  return SQLITE_OK;
}

int filter(sqlite3_vtab_cursor* base, int bounds, const char* used, int, sqlite3_value** values) {
  return guarded(base->pVtab, [&] {
    auto& cursor = *static_cast<Cursor*>(base);
    const auto* const table = static_cast<Table*>(base->pVtab);
    CycleScan scan;
    scan.columns = columns_of(std::strtoull(used, nullptr, 10));
    if ((bounds & has_source) != 0) {
      sqlite3_value* const value = *values++;
      if (sqlite3_value_type(value) == SQLITE_INTEGER) scan.source = sqlite3_value_int64(value);
    }
    if ((bounds & has_from) != 0) scan.started_from = bound_of(*values++);
    if ((bounds & has_to) != 0) scan.started_to = bound_of(*values++);
    cursor.chunks = std::make_unique<CycleChunks>(table->database, scan, table->where);
    next_block(cursor);
  });
}

int next(sqlite3_vtab_cursor* base) {
  auto& cursor = *static_cast<Cursor*>(base);
  if (++cursor.place < cursor.chunks->block().rows) return SQLITE_OK;
  return guarded(base->pVtab, [&] { next_block(cursor); });
}

int eof(sqlite3_vtab_cursor* cursor) { return static_cast<Cursor*>(cursor)->at_end ? 1 : 0; }

int column(sqlite3_vtab_cursor* cursor, sqlite3_context* context, int number) {
  return guarded(cursor->pVtab, [&] { result_column(context, *static_cast<Cursor*>(cursor), number); });
}

int rowid(sqlite3_vtab_cursor* base, sqlite3_int64* id) {
  const auto& cursor = *static_cast<Cursor*>(base);
  *id = cursor.chunks->source() << 40 | cursor.chunks->chunk() << 16 | static_cast<std::int64_t>(cursor.place);
  return SQLITE_OK;
}

const sqlite3_module& module() {
  static const sqlite3_module made = [] {
    sqlite3_module m{};
    m.iVersion = 1; // xCreate stays empty: the table is there by its name alone
    m.xConnect = connect;
    m.xBestIndex = best_index;
    m.xDisconnect = disconnect;
    m.xOpen = open;
    m.xClose = close;
    m.xFilter = filter;
    m.xNext = next;
    m.xEof = eof;
    m.xColumn = column;
    m.xRowid = rowid;
    return m;
  }();
  return made;
}

} // namespace

void offer_cycle_table(sqlite3* database, const std::string& where) {
  const int outcome = sqlite3_create_module_v2(database, "cycle_log", &module(), new std::string(where),
                                               [](void* kept) { delete static_cast<std::string*>(kept); });
  if (outcome != SQLITE_OK)
    throw Error(ErrorKind::could_not_be_done, where,
                "The cycles can't be shown as a table: " + std::string(sqlite3_errmsg(database)) + ".",
                "Close other programs that have the file open, and try again.");
}

} // namespace docket
