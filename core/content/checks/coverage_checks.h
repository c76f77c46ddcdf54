// Checks of how much a stopwatch study saw, of whom, when, and by what plan.
//
// Method    readings needed for +-5 % at the confidence set, from the rated cycles seen (core/content/lines/restudy.h);
//           part of the shift: the third of the shift, by the log's first start and last end of that shift and day, in
//           which the middle of the session lies;
//           count at a session: as given for it, else what came before the first row here and the cycles seen since;
//           a count that the cycles here reach by themselves is enough
// Told      number of readings: ten or more, fewer do not tell how many are needed; operators, days and shifts: the
//           shift of the sessions and their part of it are known
// Source    ILO, Introduction to Work Study (4th ed., Kanawaty 1992): number of observations; the rest common practice
// Checked   tests/core/content/checks/study_checks_test.cpp
#pragma once

#include "core/content/checks/study_check.h"
#include "core/content/lines/restudy.h"
#include "core/content/lines/standard_time.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

std::vector<StudyCheck> check_coverage(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                       const RestudyResult& restudy);

} // namespace docket
