// Checks of the standard and of the stopwatch study: what a reviewer attacks, tried beforehand.
// Checked   tests/core/content/study_checks_test.cpp
#pragma once

#include "core/content/restudy.h"
#include "core/content/settled_operators.h"
#include "core/content/standard_time.h"
#include "core/content/time_available.h"
#include "core/evidence.h"

#include <map>
#include <string>
#include <vector>

namespace docket {

enum class CheckOutcome : std::uint8_t { passed, found, could_not_run };

/// One check: what came of it. The words, with direction of bias, effect on A and remedy, are in report/wording.
struct StudyCheck {
  std::string code; ///< stable
  CheckOutcome outcome = CheckOutcome::could_not_run;
  std::map<std::string, double> numbers; ///< what the words need, by name with its unit, e.g. "slope", "extra_s"
  std::string names;                     ///< elements, sessions, observers the words need, ", " between
};

std::vector<StudyCheck> check_study(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                    const TimeAvailable& time, const SettledResult& settled,
                                    const RestudyResult& restudy);

} // namespace docket
