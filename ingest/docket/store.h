// A docket opened: to read it, or to change it in one piece.
//
// Method      a change is one transaction: all of it is there afterwards, or nothing; one file is left either way
// Checked     tests/ingest/docket/store_test.cpp; tests/outside/docket_faults.py
#pragma once

#include "ingest/docket/database.h"

#include <optional>
#include <string>

namespace docket {

/// True for a file name that ends in .docket.
bool is_docket_name(const std::string& path);

/// Opens a docket to read it, and looks for damage as far as that is cheap. The file stays as it is: an older one is
/// migrated in a copy that goes away again. Throws Error: the file is not there, no docket, from a newer version
/// (schema.h), or damaged (verification_failed).
Database open_docket(const std::string& path);

/// The same; absent where there is no such file yet, or an empty one.
std::optional<Database> open_docket_if_any(const std::string& path);

/// A change of a docket, made where it is not there yet. From here to its end no other program changes it.
class DocketChange {
public:
  /// Takes the lock; waits some seconds for another program that has it. An older docket is migrated, which has its entry
  /// in the ledger. Throws Error as open_docket does, but for a file that is not there.
  DocketChange(const std::string& path, const std::string& at, const std::string& by_role);
  DocketChange(const DocketChange&) = delete;
  DocketChange& operator=(const DocketChange&) = delete;

  /// Undoes what was not committed; a file that was made goes away.
  ~DocketChange();

  Database& docket() { return database_; }

  /// Hash of the last entry of the ledger before this change; empty in a new docket.
  const std::string& last_entry() const { return last_entry_; }

  void commit();

private:
  void undo();

  Database database_;
  bool made_ = false, committed_ = false;
  std::string last_entry_;
};

} // namespace docket
