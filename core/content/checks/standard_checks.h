// Checks of the standard itself. Its mixes and the sources of its times are in source_checks.h.
//
// Method    elements reconciled with the element readings, both ways: an element is missed where three or more were to
//           be expected among the cycles read (none of them by chance: e^-3 = 5 %);
//           order of elements: a circle in `after` by depth-first search
// Told      elements not seen: none comes too seldom to tell; element times: no interval is wider than 10 % of the
//           element's time either side; efficiency and utilisation have no threshold
// Source    reconciliation, allowances and posts: common practice of standard reviews
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
