#include "ingest/docket/store.h"

#include "core/error.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/ledger.h"
#include "ingest/docket/schema.h"

#include <filesystem>
#include <system_error>

namespace docket {

namespace {

namespace fs = std::filesystem;

void refuse_damage(const Database& docket, const std::vector<std::string>& damage) {
  if (damage.empty()) return;
  std::string what = "The docket is damaged: " + damage.front();
  if (damage.size() > 1) what += ", and " + std::to_string(damage.size() - 1) + " more";
  throw Error(ErrorKind::verification_failed, docket.path(), what + ".",
              "Take a copy of it from before the damage. Nothing was changed.");
}

std::string last_entry_of(Database& docket) {
  return docket.text("SELECT sha256 FROM ledger ORDER BY number DESC LIMIT 1");
}

void check_name(const std::string& path) {
  std::error_code failed;
  if (fs::is_directory(path, failed))
    throw Error(ErrorKind::could_not_be_done, path, "This is a folder, not a docket.",
                "Give the name of a file that ends in .docket.");
}

/// Opens the file and takes the lock. Another program may have taken the file away in between; then once more.
Database open_locked(const std::string& path) {
  constexpr int tries = 5;
  for (int i = 0; i < tries; ++i) {
    Database database(path, Opening::make);
    database.run("BEGIN IMMEDIATE");
    if (!database.has_moved()) return database;
  }
  throw Error(ErrorKind::could_not_be_done, path, "The docket is taken away again and again by another program.",
              "Wait until it is done, then give the command again.");
}

} // namespace

bool is_docket_name(const std::string& path) { return fs::path(path).extension() == ".docket"; }

std::optional<Database> open_docket_if_any(const std::string& path) {
  check_name(path);
  std::error_code failed;
  if (!fs::exists(path, failed)) return std::nullopt;
  Database database(path, Opening::existing);
  const SchemaState state = look_at_schema(database);
  if (state == SchemaState::none) return std::nullopt;
  if (state == SchemaState::older) {
    Database copy = Database::without_file(path);
    copy.copy_from(database);
    copy.run("BEGIN");
    migrate_schema(copy, schema_steps(), schema_version);
    copy.run("COMMIT");
    database = std::move(copy);
    look_at_schema(database);
  }
  database.run("PRAGMA query_only = ON; BEGIN"); // one state of it, whatever others add meanwhile
  refuse_damage(database, find_damage(database, Thoroughness::at_opening));
  return database;
}

Database open_docket(const std::string& path) {
  if (auto docket = open_docket_if_any(path)) return *std::move(docket);
  std::error_code failed;
  if (fs::exists(path, failed))
    throw Error(ErrorKind::input_has_faults, path, "The docket is empty: nothing was added to it yet.",
                "Add the files of the case: docket add " + path + " station.xlsx.");
  throw Error(ErrorKind::could_not_be_done, path, "There is no such docket.",
              "Check the name and the folder; docket add makes one.");
}

DocketChange::DocketChange(const std::string& path, const std::string& at, const std::string& by_role)
    : database_((check_name(path), open_locked(path))) {
  try {
    switch (look_at_schema(database_)) {
    case SchemaState::none:
      made_ = true;
      make_schema(database_);
      break;
    case SchemaState::older: {
      const std::int64_t from = database_.whole("PRAGMA user_version");
      last_entry_ = last_entry_of(database_);
      migrate_schema(database_, schema_steps(), schema_version);
      LedgerEntry entry;
      entry.at = at;
      entry.by_role = by_role;
      entry.act = "migrate";
      entry.what = "Schema " + std::to_string(from) + " became schema " + std::to_string(schema_version) + ".";
      entry.details = "{\"from\":" + std::to_string(from) + ",\"to\":" + std::to_string(schema_version) + "}";
      append_to_ledger(database_, entry);
      look_at_schema(database_);
      break;
    }
    case SchemaState::present:
      last_entry_ = last_entry_of(database_);
      break;
    }
  } catch (...) {
    undo();
    throw;
  }
}

DocketChange::~DocketChange() {
  if (!committed_) undo();
}

void DocketChange::commit() {
  database_.run("COMMIT");
  committed_ = true;
}

void DocketChange::undo() {
  try {
    if (database_.in_transaction()) database_.run("ROLLBACK");
    if (!made_) return;
    // Only under the lock and only while it is empty: another program may have filled it by now.
    database_.run("BEGIN EXCLUSIVE");
    std::error_code failed;
    if (!database_.has_moved() && fs::file_size(database_.path(), failed) == 0) fs::remove(database_.path(), failed);
    database_.run("ROLLBACK");
  } catch (const Error&) {
    // What was in the way stays; an empty file is no docket yet.
  }
}

} // namespace docket
