// Checks of what the standard was made from: the mix behind it, and the sources of its times.
//
// Method    mixes: sum of p_v S_v at the mix of the standard, the planned and the built one; a built mix of n units is off
//           by chance with variance (sum q_v S_v^2 - S_q^2)/n;
//           motions against times given: |given - motions| of the given time, seconds a unit each way apart;
//           values not confirmed: of an element whose time is from its motions, the share of its counting rows that were
//           read from a shipped value that is marked as from memory, times its seconds a unit
// Told      mix built: within the threshold; further apart, but by no more than chance, is numbers only
// Source    mix, sources and motions against times given: common practice of standard reviews; n units drawn: multinomial
// Assumes   units of the built mix are one draw each; of a move with a weight the whole row rests on each of its values
// Checked   tests/core/content/checks/source_checks_test.cpp
#pragma once

#include "core/content/checks/study_check.h"
#include "core/content/lines/standard_time.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

/// Two checks: mix of the standard against the planned one, mix built against the planned one.
std::vector<StudyCheck> check_mixes(const Case& input, const Evidence& evidence, const StandardTime& standard);

/// Times not measured; times given against motions; motion values not confirmed.
std::vector<StudyCheck> check_sources(const Case& input, const StandardTime& standard);

} // namespace docket
