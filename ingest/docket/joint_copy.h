// A docket to give to everybody at the table: the case as it is now, without what was written beside it.
//
// Method      every source in use again, with its number's place, name, reading and the hash of the file as it came; its
//             cells without columns of notes, rows of notes, columns and sheets that docket does not read; of a referral only
//             its state; no reasons of stops and helps. In the place of
//             its bytes stand these cells (recoded_file.h). Superseded sources are not in it. The ledger has one entry, which
//             names the last one of the full docket
// Assumes     names are codes already; a name in a text that is read was warned of when it came in
// Checked     tests/ingest/docket/joint_copy_test.cpp: the same case; no note is left anywhere in the file
#pragma once

#include "ingest/docket/database.h"
#include "ingest/table.h"

#include <string>

namespace docket {

/// Writes the new docket. Throws Error (could_not_be_done) where it can't.
void write_joint_copy(Database& full, const std::string& path, const std::string& at, const std::string& by_role);

/// Leaves out what a joint copy has not: of one sheet.
void leave_out_notes(RawTable& sheet);

} // namespace docket
