#include "core/content/checks/study_checks.h"

#include "core/content/checks/coverage_checks.h"
#include "core/content/checks/log_checks.h"
#include "core/content/checks/reading_checks.h"
#include "core/content/checks/standard_checks.h"

namespace docket {

std::vector<StudyCheck> check_study(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                    const TimeAvailable& time, const SettledResult& settled,
                                    const RestudyResult& restudy) {
  std::vector<StudyCheck> checks;
  const auto add = [&](std::vector<StudyCheck> more) {
    checks.insert(checks.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  };
  add(check_standard(input, evidence, standard, time, restudy));
  add(check_readings(input, evidence, standard));
  add(check_coverage(input, evidence, standard, restudy));
  add(check_log(input, evidence, standard, settled, restudy));
  return checks;
}

} // namespace docket
