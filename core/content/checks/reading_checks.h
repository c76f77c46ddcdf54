// Checks of stopwatch readings: rating, drift, two observers at once, last digits, extreme readings, closure.
//
// Method    flat rating: straight line of ln(rated) on ln(raw / S_v), both as deviations from each operator's mean, so
//           n - operators - 1 degrees of freedom; 0: the rating follows the pace, 1: it does not answer to it
//           drift: straight line of ln(time / S_v) on the cycle number, each session alone
//           two observers: cycles paired by number; limits of agreement, ICC(2,1)
//           last digits: readings of one element and variant whose own spread is wide enough, then chi-square
//           extreme readings: generalized ESD on ln(time / S_v), plain cycles
//           closure: readings + waits + help against the time from start to end
// Told      flat rating: the interval of the slope lies within the threshold; drift: in every session tried the interval
//           of the change from first to last cycle lies within 5 %; two observers: the interval of the mean difference,
//           and that of a limit, within the thresholds; last digits: the exact interval of the share on 0 and 5 lies
//           below 40 %; closure: no session is over by what ends in whole minutes may hide
// Source    J. M. Bland, D. G. Altman, The Lancet 327 (1986), 307-310; P. E. Shrout, J. L. Fleiss, Psychological
//           Bulletin 86 (1979), 420-428; B. Rosner, Technometrics 25 (1983), 165-172; thresholds: common practice
// Assumes   what moves a cycle's raw time at one station and operator is mostly pace (flat rating); independent cycles
// Checked   tests/core/content/checks/study_checks_test.cpp
#pragma once

#include "core/content/checks/study_check.h"
#include "core/content/lines/standard_time.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

/// One check an observer, a pair of sheets, or for all sessions together.
std::vector<StudyCheck> check_readings(const Case& input, const Evidence& evidence, const StandardTime& standard);

} // namespace docket
