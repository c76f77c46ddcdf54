// Times from motions: what the sheets `motions` and `motion_table` give the elements of the standard, and what is wrong
// in them.
#pragma once

#include "ingest/reading/draft.h"

namespace docket {

/// Fills the time of every element whose time_s is blank, and its uncertainty where two analysts worked it out. Reports
/// codes without time, elements with neither, and times that differ. After every table has been read.
void take_motion_times(Draft& draft);

} // namespace docket
