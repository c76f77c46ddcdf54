// One SQLite file, in our words: statements that end by themselves, and failures that say what to do.
//
// Format      SQLite 3 database
// Spec        "Database File Format", sqlite.org/fileformat2.html; "Atomic Commit In SQLite", sqlite.org/atomiccommit.html
// Subset      rollback journal, so that one file is left after every transaction; every write synced to the disk
// Checked     tests/outside/docket_faults.py
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace docket {

class Database;

/// One statement with its values. Columns and values count from 0, in the order they are written.
class SqlStatement {
public:
  SqlStatement(Database& database, std::string_view sql);

  SqlStatement& bind(std::int64_t value);
  SqlStatement& bind(std::optional<std::int64_t> value);
  SqlStatement& bind(double value);
  SqlStatement& bind_text(std::string_view utf8);
  SqlStatement& bind_bytes(std::string_view bytes);

  /// Goes to the next row; false where there is none.
  bool next();

  /// Runs it to its end and makes it ready for other values.
  void run();

  std::int64_t whole(int column) const;
  std::optional<std::int64_t> maybe_whole(int column) const;
  double real(int column) const;
  /// Text or bytes of the row; valid until next() or run().
  std::string_view view(int column) const;
  std::string text(int column) const { return std::string(view(column)); }

private:
  struct Finalise {
    void operator()(sqlite3_stmt* statement) const;
  };
  Database* database_;
  std::unique_ptr<sqlite3_stmt, Finalise> statement_;
  int bound_ = 0;
};

/// How a file is opened.
enum class Opening : std::uint8_t {
  existing, ///< it must be there
  make,     ///< an empty one is made where it is not
};

class Database {
public:
  /// Opens the file. Throws Error (could_not_be_done) where that is not possible. An earlier transaction that was cut
  /// off is undone at the first look into the file.
  Database(const std::string& path, Opening opening);

  /// One without a name that goes away by itself. `path`: what messages name.
  static Database without_file(const std::string& path);

  const std::string& path() const { return path_; }

  /// Runs one or several statements that give no rows.
  void run(const std::string& sql);

  /// The first column of the only row.
  std::int64_t whole(std::string_view sql);
  std::string text(std::string_view sql);

  bool in_transaction() const;

  /// For parts that speak SQLite themselves.
  sqlite3* connection() { return connection_.get(); }

  /// True where the file has been deleted or renamed since it was opened.
  bool has_moved() const;

  /// Copies everything from another.
  void copy_from(Database& other);

  /// Throws what SQLite's result code means for whoever started the command. Never returns.
  [[noreturn]] void refuse(int result) const;

private:
  friend class SqlStatement;
  struct Close {
    void operator()(sqlite3* connection) const;
  };
  Database() = default;
  void set_up();

  std::string path_;
  std::unique_ptr<sqlite3, Close> connection_;
};

} // namespace docket
