// What an addition will write: which files are new, and what each supersedes.
//
// Checked   tests/ingest/docket/addition_test.cpp
#pragma once

#include "ingest/docket/addition.h"
#include "ingest/docket/given_files.h"
#include "ingest/docket/sources.h"
#include "ingest/docket/stored_sheets.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// The docket before the addition. Rows that were set aside are only in it where those of the new files may be too.
struct Present {
  std::string last_entry; ///< hash
  std::vector<StoredSource> sources;
  std::vector<RawFile> current; ///< cells of current_of(sources)
};

/// What is to be written: by file given, its source; absent where the file is there already.
struct AdditionPlan {
  std::vector<std::optional<StoredSource>> sources;
  AddOutcome outcome;
};

Present read_present(Database& docket, SetAside set_aside);

/// Throws Error (wrong_usage) where it can't be told what a file supersedes.
AdditionPlan plan_addition(const Present& present, const std::vector<GivenFile>& given, const Addition& addition);

bool anything_new(const AdditionPlan& plan);
bool brings_large_log(const AdditionPlan& plan, const std::vector<GivenFile>& given);

/// True where the case has no other log than this one and no roster, so that no row of it can be another's cycle.
bool is_only_log(const AdditionPlan& plan, const Present& present, const std::vector<GivenFile>& given,
                 std::size_t log);

} // namespace docket
