// Checks of the standard itself.
//
// Method    elements reconciled with the element readings, both ways: an element is missed where three or more were to
//           be expected among the cycles read (none of them by chance: e^-3 = 5 %);
//           stale mix: sum of p_v S_v at the mix of the standard, the planned and the built one; a built mix of n units
//           is off by chance with variance (sum q_v S_v^2 - S_q^2)/n;
//           order of elements: a circle in `after` by depth-first search
// Source    reconciliation, mix, allowances and posts: common practice of standard reviews; n units drawn: multinomial
// Assumes   units of the built mix are one draw each
// Checked   tests/core/content/checks/study_checks_test.cpp
#pragma once

#include "core/content/checks/study_check.h"
#include "core/content/lines/restudy.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

std::vector<StudyCheck> check_standard(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                       const TimeAvailable& time, const RestudyResult& restudy);

} // namespace docket
