// One evaluation of question A: the lines found, combined, followed over the build order and set before the table.
// Everything here is computed anew where the cycles touched by a differing condition are taken in.
//
// Source    as the parts: settled_operators.h, restudy.h, combined.h, sequence.h, decision.h
// Checked   tests/core/content/content_test.cpp
#pragma once

#include "core/content/combined.h"
#include "core/content/decision.h"
#include "core/content/restudy.h"
#include "core/content/sequence.h"
#include "core/content/settled_operators.h"
#include "core/content/standard_time.h"
#include "core/content/time_available.h"
#include "core/evidence.h"

#include <optional>
#include <vector>

namespace docket {

struct Evaluation {
  SettledResult settled;
  RestudyResult restudy;
  std::vector<LineInput> lines;
  SharedParts shared;
  std::vector<Clash> clashes;
  std::optional<CombinedLine> combined;
  SequenceBasis basis;
  SequenceFindings sequence;
  ShareAble share_able;
  DecisionFacts facts;
  Decision decision;
};

/// Conditions that still differ on the last day of evidence, as indices into Case::conditions.
std::vector<std::int32_t> standing_conditions(const Case& input, const Evidence& evidence);

Evaluation evaluate(const Case& input, const Evidence& evidence, const StandardTime& standard,
                    const TimeAvailable& time, const std::vector<std::int32_t>& standing, bool with_differing);

/// What the rows look at with only these lines. The sequence margin scales with the level, so nothing is drawn again;
/// the spread of cycles is kept, for leaning is about a line's level. Absent where there is no line.
std::optional<DecisionView> view_of(const std::vector<LineInput>& lines, const Evaluation& pass, const Case& input,
                                    const TimeAvailable& time);

} // namespace docket
