// Checks of the cycle log and of the people in it: warm-up, training records, leavers.
//
// Method    warm-up: per operator and worked spell of a day, the mean of ln(work / S_v) of the first cycles after the
//           start and after each pause, less that of the rest; Student's t over these days
// Told      warm-up: the whole interval lies within 1 % of 1
// Source    first cycles after a start or a break: common practice
// Assumes   days are independent; settled operators, so nothing is left to learn within a day
// Checked   tests/core/content/checks/study_checks_test.cpp
#pragma once

#include "core/content/checks/study_check.h"
#include "core/content/lines/restudy.h"
#include "core/content/lines/settled_operators.h"
#include "core/content/lines/standard_time.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

std::vector<StudyCheck> check_log(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                  const SettledResult& settled, const RestudyResult& restudy);

} // namespace docket
