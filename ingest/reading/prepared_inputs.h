// What the reading options change in files before anything is checked: which sheet is which table, how dates are meant,
// codes in the place of names. The files then read as if they had been given so.
#pragma once

#include "ingest/reading_options.h"
#include "ingest/table.h"

#include <vector>

namespace docket {

/// Throws Error (wrong_usage) where an option fits none of the files, and (input_has_faults) where the list of codes
/// can't be used. What was recoded is counted in the notes of the tables.
void prepare_inputs(std::vector<RawFile>& files, const ReadingOptions& options);

} // namespace docket
