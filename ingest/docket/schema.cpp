#include "ingest/docket/schema.h"

#include "core/error.h"
#include "ingest/docket/cycles/cycle_store.h"

#include <QFile>
#include <array>
#include <cassert>

static void load_docket_schema() { Q_INIT_RESOURCE(docket_schema); }

namespace docket {

namespace {

/// As schema.sql has it.
constexpr std::int64_t application_id = 1147366260;

std::string read_schema() {
  load_docket_schema();
  QFile file(":/docket/schema.sql");
  const bool opened = file.open(QIODevice::ReadOnly);
  assert(opened);
  static_cast<void>(opened);
  return file.readAll().toStdString();
}

} // namespace

std::span<const SchemaStep> schema_steps() {
  static const std::string cycles = cycle_chunks_sql();
  static const std::array steps{SchemaStep{1, cycles}};
  return steps;
}

std::string schema_text(Database& docket) {
  SqlStatement rows(docket, "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema ORDER BY type, name");
  std::string text;
  while (rows.next()) text += rows.text(0) + " " + rows.text(1) + " " + rows.text(2) + "\n" + rows.text(3) + "\n";
  return text;
}

SchemaState look_at_schema(Database& docket) {
  const std::int64_t id = docket.whole("PRAGMA application_id");
  const std::int64_t version = docket.whole("PRAGMA user_version");
  if (id == 0 && version == 0 && docket.whole("SELECT count(*) FROM sqlite_schema") == 0) return SchemaState::none;
  if (id != application_id)
    throw Error(ErrorKind::input_has_faults, docket.path(), "This is a database, but no docket.",
                "Give the file that docket add made, or another name ending in .docket for a new one.");
  if (version > schema_version)
    throw Error(ErrorKind::could_not_be_done, docket.path(),
                "A newer version of docket wrote this file: its schema is " + std::to_string(version) +
                    ", and this program knows " + std::to_string(schema_version) + ".",
                "Use the newer version. Nothing was changed.");
  if (version < schema_version) return SchemaState::older;
  Database fresh = Database::without_file(docket.path());
  make_schema(fresh);
  if (schema_text(docket) != schema_text(fresh))
    throw Error(ErrorKind::verification_failed, docket.path(),
                "The tables of this docket are not as docket makes them: somebody or something changed the file.",
                "Take a copy of it from before the change. Nothing was changed.");
  return SchemaState::present;
}

void make_schema(Database& docket) { docket.run(read_schema() + cycle_chunks_sql()); }

void migrate_schema(Database& docket, std::span<const SchemaStep> steps, std::int64_t version) {
  for (const SchemaStep& step : steps) {
    if (step.from >= version || docket.whole("PRAGMA user_version") != step.from) continue;
    docket.run(std::string(step.sql) + "\nPRAGMA user_version = " + std::to_string(step.from + 1) + ";");
  }
  if (docket.whole("PRAGMA user_version") != version)
    throw Error(ErrorKind::could_not_be_done, docket.path(), "A docket this old can't be read any more.",
                "Open it with an earlier version of docket. Nothing was changed.");
}

} // namespace docket
