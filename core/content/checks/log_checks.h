// Checks of the cycle log and of the people in it: warm-up, training records, leavers.
//
// Method    warm-up: per operator and worked spell of a day, the mean of ln(work / S_v) of the first cycles after the
//           start and after each pause, less that of the rest; Student's t over these days
//           one far from the rest: the furthest of the ln levels of settled operators, Grubbs's test on both sides, which
//           is the generalized ESD test with one value; found where it is also further from the others' mean than two
//           shifts may lie apart and count as equivalent
// Told      warm-up: the whole interval lies within 1 % of 1; one far from the rest: nobody is further off than that
// Source    first cycles after a start or a break: common practice; F. E. Grubbs, Procedures for detecting outlying
//           observations in samples, Technometrics 11 (1969), 1-21
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
