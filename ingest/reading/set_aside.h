// Rows with a fault taken out of the files, so that the others can be used.
//
// Method      Read, take out every row with a fault, read again, until no row has one: a reading of a session that was
//             set aside is set aside as well. Only rows of a record may go. A row that says what the standard is, who
//             works there, what differs or which matter is open is never set aside, for without it the answer would be
//             to another question.
#pragma once

#include "core/case.h"
#include "ingest/reading/found_issues.h"
#include "ingest/table.h"

#include <vector>

namespace docket {

/// True for a table whose rows may be set aside.
bool may_be_set_aside(TableName table);

/// Takes the rows out of the files that a fault was found in, where they may go, and adds them to `taken` with their
/// raw text; operators that are no code are not in it. Returns how many. The faults of these rows go to `heard`, as
/// warnings.
std::int64_t take_faulty_rows(std::vector<RawFile>& files, const FoundIssues& issues, std::vector<SetAsideRow>& taken,
                              std::vector<FoundIssue>& heard);

/// Adds the rows set aside to the counts: they were read, and have an issue.
void count_set_aside(const std::vector<SetAsideRow>& taken, std::vector<TableCounts>& counts,
                     std::vector<Source>& sources);

} // namespace docket
