// The schema of a docket and how an older one becomes the present one.
//
// Format      schema.sql and cycles/cycle_chunks.sql, which come with the program; PRAGMA user_version is its version
// Checked     tests/ingest/docket/store_test.cpp
#pragma once

#include "ingest/docket/database.h"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace docket {

/// The version this program writes.
inline constexpr std::int64_t schema_version = 2;

/// SQL that makes version `from` + 1 of version `from`.
struct SchemaStep {
  std::int64_t from = 0;
  std::string_view sql;
};

/// The steps there are, one a version.
std::span<const SchemaStep> schema_steps();

enum class SchemaState : std::uint8_t {
  none,    ///< an empty file: nothing was ever added
  older,   ///< to be migrated
  present, ///< the very schema of this program
};

/// Looks what is there. Throws Error on a database that is no docket (input_has_faults), on a newer one
/// (could_not_be_done), and on one whose tables, triggers or views are not those of its version (verification_failed).
SchemaState look_at_schema(Database& docket);

/// Makes the tables of an empty file. In a transaction of the caller.
void make_schema(Database& docket);

/// Takes an older docket up to `version` by the steps given. In a transaction of the caller.
void migrate_schema(Database& docket, std::span<const SchemaStep> steps, std::int64_t version);

/// Every table, trigger, view and index with its text.
std::string schema_text(Database& docket);

} // namespace docket
