// Stations with levels known exactly. All data are invented.
#pragma once

#include "core/content/lines/settled_operators.h"
#include "tests/core/made_case.h"

#include <string>
#include <vector>

namespace docket::made {

/// Operators whose times repeat a pattern of mean 1 around `levels`, 100 cycles a day on 4 days: settled by the rule,
/// with levels known exactly. Line cycle 60 s, standard 50 s.
inline Case steady_case(const std::vector<double>& levels) {
  Case c = one_element_case(60, 50);
  std::int64_t row = 2;
  for (std::size_t o = 0; o < levels.size(); ++o) {
    c.operators.push_back(trained("K" + std::to_string(o + 1)));
    for (int d = 0; d < 4; ++d)
      for (int i = 0; i < 100; ++i) {
        const double pattern = 1 + 0.02 * ((i % 4) - 1.5);
        c.cycle_log.push_back(logged(static_cast<std::int32_t>(o), at(d, 6 + i / 60.0), levels[o] * pattern, row++));
      }
  }
  return c;
}

inline SettledResult find_settled(const Case& c, bool with_differing = false) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  return find_settled_operators(c, evidence, build_standard_time(c, time.line_cycle), time, with_differing);
}

} // namespace docket::made
