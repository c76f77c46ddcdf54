// Checks that look at more than one row or table, made when every table has been read.
#pragma once

#include "ingest/reading/draft.h"

namespace docket {

void check_repeated_readings(Draft& draft);
/// Cycles and readings without variant or operator, and a log without marks: counted, one warning each.
void check_gaps(Draft& draft);
/// Times five times too long or too short against the standard, and the standard against the line cycle time.
void check_units_of_times(Draft& draft);
void check_safety_answer(Draft& draft);
void check_allowance(Draft& draft);
/// Early start without late finish, or the other way round.
void check_work_zone(Draft& draft);
void check_station_of_log(Draft& draft);
void check_people_asked_about(Draft& draft);

} // namespace docket
