// Question A, content: does the prescribed content fit in the time this line gives the station, for trained people
// working to the prescribed method, at normal pace, under the stated conditions?
#pragma once

#include "core/content/beside/alternatives.h"
#include "core/content/beside/pace_price.h"
#include "core/content/beside/recomputation.h"
#include "core/content/beside/shift_comparison.h"
#include "core/content/checks/study_checks.h"
#include "core/content/lines/combined.h"
#include "core/content/lines/restudy.h"
#include "core/content/lines/settled_operators.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/order/sequence.h"
#include "core/content/word/decision.h"
#include "core/content/word/what_flips.h"
#include "core/evidence.h"

#include <optional>
#include <string>
#include <vector>

namespace docket {

enum class Leaning : std::uint8_t { fits, over, neither };

/// The finding with the cycles touched by differing conditions taken in.
struct WithDiffering {
  ContentWord word = ContentWord::not_shown;
  std::optional<double> p_fits;
};

struct ContentFindings {
  ContentWord word = ContentWord::not_shown;
  int decision_row = 6;
  bool held = false; ///< a safety or health matter is open
  Leaning leans = Leaning::neither;
  bool average_person_only = false; ///< FITS said "for the average trained person": the share able is not known
  std::vector<Reason> reasons, would_decide;
  std::vector<std::int32_t> only_if; ///< indices into Case::conditions
  std::optional<WithDiffering> with_differing;
  std::vector<Flip> flips;
  std::vector<Flip> left_out; ///< without each settled operator, as SettledResult::left_out_one

  StandardTime standard;
  SettledResult settled;
  RestudyResult restudy;
  std::optional<CombinedLine> combined;
  std::vector<Clash> clashes;
  ShareAble share_able;
  SequenceFindings sequence;
  HeaviestVariant heaviest;
  Alternatives alternatives;
  std::optional<PacePrice> pace_price; ///< absent where takt is not known
  ShiftComparison shifts;
  std::vector<StudyCheck> checks;
  Recomputation again; ///< for whoever computes A again by hand
};

ContentFindings answer_content(const Case& input, const Evidence& evidence, const TimeAvailable& time);

} // namespace docket
