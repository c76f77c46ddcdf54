// The motion table that comes with the program, from the CSV files in ingest/motion_data, which are part of the program.
//
// Format      reach, move, turn: a row a distance, a column a case; move_weight: a row a weight class; the others: a row
//             a code
// Spec        ingest/motion_data/ORIGIN: where the values come from, which are from memory, and who may use them
// Checked     tests/ingest/motion_data_test.cpp
#pragma once

#include "core/content/motions/motion_table.h"

#include <string>

namespace docket {

/// The same at every call. The values are for checking an analysis; rights are not cleared.
MotionTimes read_shipped_motion_times();

/// The note on where the values come from, as it stands in ingest/motion_data/ORIGIN.
std::string read_motion_data_origin();

} // namespace docket
