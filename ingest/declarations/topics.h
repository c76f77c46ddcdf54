// The declarations of tables.h by topic; tables.cpp puts them in order.
#pragma once

#include "ingest/tables.h"

namespace docket::declarations {

// declarations/complaint.cpp: the complaint and its review.
TableDeclaration case_facts();
TableDeclaration statements();
TableDeclaration referrals();
TableDeclaration steps();
TableDeclaration checklist();

// declarations/people.cpp: who worked when.
TableDeclaration operators();
TableDeclaration roster();
TableDeclaration training();

// declarations/times.cpp: what was seen at the station.
TableDeclaration conditions();
TableDeclaration sessions();
TableDeclaration readings();
TableDeclaration cycle_log();
TableDeclaration stops();
TableDeclaration helps();

// declarations/content.cpp: the prescribed content.
TableDeclaration standard();
TableDeclaration variants();
TableDeclaration build_sequence();
TableDeclaration motions();
TableDeclaration motion_table();

// declarations/ergonomics.cpp
TableDeclaration lifts();
TableDeclaration efforts();

// declarations/settings.cpp
TableDeclaration settings();

} // namespace docket::declarations
