// Checks of how much a stopwatch study saw, when, and by what plan.
//
// Method    readings needed for +-5 % at the confidence set, from the rated cycles seen (core/content/lines/restudy.h);
//           part of the shift: the third of the shift, by the log's first start and last end of that shift and day, in
//           which the middle of the session lies
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
