// Checks of the standard and of the stopwatch study: what a reviewer attacks, tried beforehand. They decide nothing;
// each says what it found, which way that would pull question A, or what it lacks to be tried.
// Checked   tests/core/content/checks/study_checks_test.cpp
#pragma once

#include "core/content/checks/study_check.h"
#include "core/content/lines/restudy.h"
#include "core/content/lines/settled_operators.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

/// In a fixed order of checks; a check of observers or of pairs of sheets comes once for each of them.
std::vector<StudyCheck> check_study(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                    const TimeAvailable& time, const SettledResult& settled,
                                    const RestudyResult& restudy);

} // namespace docket
