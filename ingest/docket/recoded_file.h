// A file that held names, as it may be stored: its cells with codes in the place of names.
//
// Format      stored in the place of the file's own bytes: JSON (RFC 8259), an array of sheets {"sheet", "rows"} with a
//             row as [number, cell, cell ...] and cells as in cells_text.h
// Subset      names of the list that stand in a column or sheet that docket does not read are left out; those in a text it
//             does read stay, with a warning (prepared_inputs.h)
// Checked     tests/ingest/docket/addition_test.cpp
#pragma once

#include "ingest/reading/code_list.h"
#include "ingest/table.h"

#include <string>

namespace docket {

/// Leaves out names in cells that are not read. True where the file held a name anywhere that is a code now or is left
/// out: then its own bytes must not be stored. `file` was prepared with the same list (prepared_inputs.h).
bool leave_out_names(RawFile& file, const CodeList& list);

/// The bytes that are stored instead.
std::string recoded_bytes(const RawFile& file);

} // namespace docket
