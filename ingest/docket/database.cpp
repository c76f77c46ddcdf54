#include "ingest/docket/database.h"

#include "core/error.h"
#include "ingest/text_encoding.h"

#include <sqlite3.h>

#include <chrono>
#include <system_error>

namespace docket {

namespace {

/// How long another program that holds the file is waited for.
constexpr std::chrono::milliseconds longest_wait{5000};

/// No value of a docket is larger; a file that says otherwise is not one.
constexpr int largest_value = 64 << 20;

constexpr const char* nothing_changed = " Nothing was changed.";

} // namespace

void SqlStatement::Finalise::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

void Database::Close::operator()(sqlite3* connection) const { sqlite3_close(connection); }

SqlStatement::SqlStatement(Database& database, std::string_view sql) : database_(&database) {
  sqlite3_stmt* statement = nullptr;
  const int result =
      sqlite3_prepare_v2(database.connection_.get(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
  statement_.reset(statement);
  if (result != SQLITE_OK) database.refuse(result);
}

SqlStatement& SqlStatement::bind(std::int64_t value) {
  if (const int result = sqlite3_bind_int64(statement_.get(), ++bound_, value); result != SQLITE_OK)
    database_->refuse(result);
  return *this;
}

SqlStatement& SqlStatement::bind(std::optional<std::int64_t> value) {
  if (value) return bind(*value);
  if (const int result = sqlite3_bind_null(statement_.get(), ++bound_); result != SQLITE_OK) database_->refuse(result);
  return *this;
}

SqlStatement& SqlStatement::bind(double value) {
  if (const int result = sqlite3_bind_double(statement_.get(), ++bound_, value); result != SQLITE_OK)
    database_->refuse(result);
  return *this;
}

SqlStatement& SqlStatement::bind_text(std::string_view utf8) {
  // An empty view may have no address, which SQLite would take as no value.
  if (const int result = sqlite3_bind_text64(statement_.get(), ++bound_, utf8.empty() ? "" : utf8.data(), utf8.size(),
                                             SQLITE_TRANSIENT, SQLITE_UTF8);
      result != SQLITE_OK)
    database_->refuse(result);
  return *this;
}

SqlStatement& SqlStatement::bind_bytes(std::string_view bytes) {
  if (const int result = sqlite3_bind_blob64(statement_.get(), ++bound_, bytes.empty() ? "" : bytes.data(),
                                             bytes.size(), SQLITE_TRANSIENT);
      result != SQLITE_OK)
    database_->refuse(result);
  return *this;
}

bool SqlStatement::next() {
  const int result = sqlite3_step(statement_.get());
  if (result == SQLITE_ROW) return true;
  if (result != SQLITE_DONE) database_->refuse(sqlite3_extended_errcode(database_->connection_.get()));
  return false;
}

void SqlStatement::run() {
  while (next()) {
  }
  sqlite3_reset(statement_.get());
  bound_ = 0;
}

std::int64_t SqlStatement::whole(int column) const { return sqlite3_column_int64(statement_.get(), column); }

std::optional<std::int64_t> SqlStatement::maybe_whole(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return whole(column);
}

double SqlStatement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }

std::string_view SqlStatement::view(int column) const {
  const void* bytes = sqlite3_column_blob(statement_.get(), column);
  const int size = sqlite3_column_bytes(statement_.get(), column);
  if (bytes == nullptr || size <= 0) return {};
  return {static_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

Database::Database(const std::string& path, Opening opening) : path_(path) {
  // Open for writing also to read: only so can a transaction that was cut off be undone. SQLite falls back to reading
  // where the file is read-only.
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE | (opening == Opening::make ? SQLITE_OPEN_CREATE : 0);
  sqlite3* connection = nullptr;
  const int result = sqlite3_open_v2(path.c_str(), &connection, flags, nullptr);
  connection_.reset(connection);
  if (result != SQLITE_OK) refuse(result);
  set_up();
}

Database Database::without_file(const std::string& path) {
  Database database;
  database.path_ = path;
  sqlite3* connection = nullptr;
  const int result = sqlite3_open_v2("", &connection, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE, nullptr);
  database.connection_.reset(connection);
  if (result != SQLITE_OK) database.refuse(result);
  database.set_up();
  return database;
}

void Database::set_up() {
  sqlite3_busy_timeout(connection_.get(), static_cast<int>(longest_wait.count()));
  sqlite3_limit(connection_.get(), SQLITE_LIMIT_LENGTH, largest_value);
  // What is written in a file is data, whoever wrote it: it may not call functions with effects or write its own schema.
  sqlite3_db_config(connection_.get(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(connection_.get(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  run("PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0; PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA;");
}

void Database::run(const std::string& sql) {
  if (const int result = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr); result != SQLITE_OK)
    refuse(result);
}

std::int64_t Database::whole(std::string_view sql) {
  SqlStatement statement(*this, sql);
  return statement.next() ? statement.whole(0) : 0;
}

std::string Database::text(std::string_view sql) {
  SqlStatement statement(*this, sql);
  return statement.next() ? statement.text(0) : std::string();
}

bool Database::in_transaction() const { return sqlite3_get_autocommit(connection_.get()) == 0; }

bool Database::has_moved() const {
  int moved = 0;
  sqlite3_file_control(connection_.get(), "main", SQLITE_FCNTL_HAS_MOVED, &moved);
  return moved != 0;
}

void Database::copy_from(Database& other) {
  sqlite3_backup* backup = sqlite3_backup_init(connection_.get(), "main", other.connection_.get(), "main");
  if (backup == nullptr) refuse(sqlite3_extended_errcode(connection_.get()));
  sqlite3_backup_step(backup, -1);
  const int result = sqlite3_backup_finish(backup);
  if (result != SQLITE_OK) refuse(result);
}

void Database::refuse(int result) const {
  const int errno_then = connection_ ? sqlite3_system_errno(connection_.get()) : 0;
  const std::string reason = errno_then != 0 ? ": " + std::generic_category().message(errno_then) : std::string();
  const auto can_not = [&](const std::string& what, const std::string& remedy) -> Error {
    return {ErrorKind::could_not_be_done, path_, what, remedy + nothing_changed};
  };
  switch (result & 0xFF) {
  case SQLITE_BUSY:
  case SQLITE_LOCKED:
    throw can_not("Another program is using this docket.", "Wait until it is done, then give the command again.");
  case SQLITE_FULL:
    throw can_not("There is no space left where the docket lies.", "Make space there, then give the command again.");
  case SQLITE_READONLY:
  case SQLITE_CANTOPEN:
  case SQLITE_PERM:
  case SQLITE_AUTH:
    throw can_not(
        "The docket can't be opened or written here" + reason + ".",
        "You must be allowed to write to the file and to its folder; else copy the docket to a place where you "
        "are.");
  case SQLITE_IOERR:
    throw can_not("The disk did not take or give the docket" + reason + ".",
                  "Check that there is space and that the disk is sound, then give the command again.");
  case SQLITE_NOMEM:
    throw can_not("There is not enough memory.", "Close other programs, then give the command again.");
  case SQLITE_TOOBIG:
  case SQLITE_CORRUPT:
    throw Error(ErrorKind::verification_failed, path_,
                "The docket is damaged: " + std::string(sqlite3_errstr(result & 0xFF)) + ".",
                "Take a copy of it from before the damage. Nothing was changed.");
  case SQLITE_NOTADB:
    throw Error(ErrorKind::input_has_faults, path_, "This is no docket.",
                "Give the file that docket add made, or another name ending in .docket for a new one.");
  default:
    break;
  }
  throw Error(ErrorKind::could_not_be_done, path_,
              "The docket could not be used: " +
                  with_question_marks(connection_ ? sqlite3_errmsg(connection_.get()) : sqlite3_errstr(result)) + ".",
              "Please report it with the command.");
}

} // namespace docket
