// The whole cycles of the readings with what checks of the study need beside: number in the session, observer, rating.
#pragma once

#include "core/content/lines/standard_time.h"
#include "core/evidence.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

struct TimedCycle {
  std::int32_t session = -1; ///< index into Case::sessions
  std::int64_t number = 0;   ///< in the session
  std::int32_t op = -1;
  std::string observer; ///< role code; empty: not given
  Seconds work{};
  double ln_ratio = 0;          ///< ln(work / S_v)
  std::optional<double> rating; ///< 1 = normal pace
  bool rated_itself = false;    ///< the rating was given for the cycle, not for the session
  Marks marks;
};

/// By session and number. Cycles without a time, or of a variant without one, are left out.
std::vector<TimedCycle> timed_cycles(const Case& input, const Evidence& evidence, const StandardTime& standard);

} // namespace docket
