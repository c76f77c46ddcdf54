// Checks of the ratings of each observer, and of two observers of the same cycles. See reading_checks.h.
#pragma once

#include "core/case.h"
#include "core/content/checks/study_check.h"
#include "core/content/checks/timed_cycles.h"

#include <vector>

namespace docket {

/// Observers in order of code; the readings of sessions without an observer count as one observer's.
std::vector<StudyCheck> check_ratings(const Case& input, const std::vector<TimedCycle>& cycles);

/// Two checks a session that names another in `same_as`: of the times, of the ratings.
std::vector<StudyCheck> check_pairs_of_observers(const Case& input, const std::vector<TimedCycle>& cycles);

} // namespace docket
