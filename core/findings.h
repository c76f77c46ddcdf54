// The findings of a case: both questions with what stands beside them. Documents are made from this and the case, and
// compute nothing of their own.
#pragma once

#include "core/adaptation/adaptation.h"
#include "core/adaptation/earlier_learners.h"
#include "core/bridge/excess.h"
#include "core/bridge/time_bridge.h"
#include "core/case.h"
#include "core/content/content.h"
#include "core/ergonomics/ergonomics.h"
#include "core/evidence.h"
#include "core/issue.h"

#include <string>
#include <vector>

namespace docket {

/// Something about the data that a reader must know: which check, what came of it. The words are in report/wording.
struct DataFault {
  std::string check;  ///< stable code
  std::string detail; ///< numbers and names for the words
};

/// A condition with the cycles it takes out.
struct ConditionEffect {
  std::int32_t condition = -1; ///< index into Case::conditions
  std::int64_t cycles_out = 0;
};

/// The levels of the settled operators of A2 whom B is not asked about, as one band without codes; only where there are
/// five or more.
struct AdaptationBand {
  std::int64_t n = 0;
  Seconds low{}, high{}; ///< smallest and largest
};

/// Beside SETTLED ABOVE: how many of the other settled operators of A have a level above the limit too.
struct OthersAbove {
  std::int64_t above = 0, of = 0;
};

/// What stands beside one person's answer to B and is not their own. All absent under NOT ASSESSABLE NOW.
struct BesideAdaptation {
  std::int32_t op = -1;
  std::optional<OthersAbove> others_above;  ///< only beside SETTLED ABOVE, from three others on
  std::optional<BorrowedEstimate> borrowed; ///< only with few plain cycles of their own
};

/// The gate: SETTLED ABOVE is said only where A is FITS for the conditions that person had.
AdaptationWord gate_adaptation(AdaptationWord word, ContentWord content, bool under_differing_condition);

/// A person whose answer to B is closed, and who is not counted in A's line of settled operators: status, counts and level
/// are taken out of what A shows of people, for they would say what is closed. The line, and all that A decides, stay.
void withhold_level(ContentFindings& content, const Case& input, std::int32_t op);

struct Findings {
  TimeAvailable time;
  Evidence evidence;
  ContentFindings content;
  std::vector<Adaptation> adaptation;         ///< of those asked about, in the order asked; gated
  std::vector<std::string> asked_not_in_data; ///< codes that B is asked about and the data do not hold
  std::optional<AdaptationBand> adaptation_band;
  std::vector<BesideAdaptation> beside_adaptation; ///< as `adaptation`
  /// Of everybody B is not asked about; only beside an answer that is given.
  std::optional<EarlierLearnersBand> earlier_learners;
  /// Code where there is none: not_asked, not_assessable_now, too_few, too_few_for_band, no_practice, spread_not_seen.
  std::string earlier_learners_none_why = "not_asked";
  std::vector<TimeBridge> bridges; ///< as `adaptation`
  std::vector<Excess> excesses;    ///< as `adaptation`
  std::vector<DataFault> data_faults;
  std::vector<ConditionEffect> conditions;
  bool referrals_open = false;
  Ergonomics ergonomics; ///< beside both questions, which never see it
};

/// Beside one operator's answer; absent: too few others, or nothing to set them beside.
std::optional<OthersAbove> others_above(const Findings& findings, std::int32_t op);

/// Computes everything. `input` has passed the checks of ingest/, so the time available is known.
Findings find_all(const Case& input);

} // namespace docket
