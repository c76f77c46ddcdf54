#include "core/content/shift_comparison.h"

namespace docket {

ShiftComparison compare_shifts(const Case&, const Evidence&, const StandardTime&, const TimeAvailable&,
                               const SettledResult&) {
  return {};
}

} // namespace docket
