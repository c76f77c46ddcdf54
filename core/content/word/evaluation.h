// One evaluation of question A: the lines found, weighed, followed over the build order and set before the table.
// Everything here is computed anew where the cycles touched by a differing condition are taken in.
//
// Source    as the parts: settled_operators.h, restudy.h, sequence.h, weighing.h
// Checked   tests/core/content/content_test.cpp
#pragma once

#include "core/content/lines/restudy.h"
#include "core/content/lines/settled_operators.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/order/sequence.h"
#include "core/content/word/weighing.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

struct Evaluation {
  SettledResult settled;
  RestudyResult restudy;
  SequenceBasis sequence_basis;
  SequenceFindings sequence;
  WeighingBasis basis; ///< what was weighed: changed in one thing and weighed again, it says what flips the word
  Weighing weighing;
};

/// Conditions that still differ on the last day of evidence, as indices into Case::conditions.
std::vector<std::int32_t> standing_conditions(const Case& input, const Evidence& evidence);

Evaluation evaluate(const Case& input, const Evidence& evidence, const StandardTime& standard,
                    const TimeAvailable& time, const std::vector<std::int32_t>& standing, bool with_differing);

} // namespace docket
