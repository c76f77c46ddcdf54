// The tables of a case, read one by one into the draft, in the order in which they refer to each other.
#pragma once

#include "ingest/reading/draft.h"

namespace docket {

void read_case_facts(Draft& draft);     ///< reading/read_case_facts.cpp
void read_settings(Draft& draft);       ///< reading/read_settings.cpp
void read_standard(Draft& draft);       ///< reading/read_content.cpp
void read_variants(Draft& draft);       ///< reading/read_content.cpp
void read_build_sequence(Draft& draft); ///< reading/read_content.cpp
void read_operators(Draft& draft);      ///< reading/read_people.cpp
void read_roster(Draft& draft);         ///< reading/read_people.cpp
void read_sessions(Draft& draft);       ///< reading/read_times.cpp
void read_readings(Draft& draft);       ///< reading/read_times.cpp
void read_cycle_log(Draft& draft);      ///< reading/read_cycle_log.cpp
void read_training(Draft& draft);       ///< reading/read_people.cpp
void read_motions(Draft& draft);        ///< reading/read_motions.cpp
void read_motion_table(Draft& draft);   ///< reading/read_motions.cpp
void read_conditions(Draft& draft);     ///< reading/read_record.cpp
void read_referrals(Draft& draft);      ///< reading/read_record.cpp
void read_statements(Draft& draft);     ///< reading/read_record.cpp
void read_lifts(Draft& draft);          ///< reading/read_ergonomics.cpp
void read_efforts(Draft& draft);        ///< reading/read_ergonomics.cpp

/// Checks a table that no computation uses yet: every cell, and the names it refers to.
void read_unused(Draft& draft, TableName table); ///< reading/read_record.cpp

} // namespace docket
