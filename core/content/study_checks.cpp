#include "core/content/study_checks.h"

namespace docket {

std::vector<StudyCheck> check_study(const Case&, const Evidence&, const StandardTime&, const TimeAvailable&,
                                    const SettledResult&, const RestudyResult&) {
  return {};
}

} // namespace docket
