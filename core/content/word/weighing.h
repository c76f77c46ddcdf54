// From levels to a word: the lines combined, the share able, the views the table looks at, and the first row that holds.
// A pure function of small structs, so that one changed assumption at a time can be weighed again without a new draw.
//
// Model     P = F_t(-z / u) of the combined line; P_seq = F_t(ln k* / u), k* moved along with the level;
//           P_able = F_t((ln(limit / T) - z_able s) / u_able), u_able^2 = u^2 + z_able^2 s^2 / (2 (m - 1)); P_zone the same
//           with ln k* in place of ln(limit / T)
// Source    JCGM 100:2008, G.4 (Welch-Satterthwaite); JCGM 106:2012, 7.2; SD of a sample SD: s / sqrt(2 (m - 1)), e.g.
//           Kendall & Stuart, The Advanced Theory of Statistics 1, 10.5 (from memory, to be confirmed)
// Assumes   the spread of cycles is kept where a line is left out or changed: these questions are about its level
// Checked   tests/core/content/word/weighing_test.cpp, tests/core/content/content_test.cpp
#pragma once

#include "core/content/lines/combined.h"
#include "core/content/lines/line_of_evidence.h"
#include "core/content/lines/settled_operators.h"
#include "core/content/word/decision.h"
#include "core/quantity.h"

#include <optional>
#include <vector>

namespace docket {

/// The sequence margin as a logarithm, and the level (ln T / limit) at which it was found.
struct SequenceRoomAtLevel {
  double ln_k_star = 0, at_ln_ratio = 0;
};

struct WeighingBasis {
  LineLevel standard;
  std::optional<SettledOperators> settled;
  std::optional<LineLevel> restudy;
  std::int64_t restudied = 0; ///< operators of the restudy
  std::int64_t settled_and_restudied = 0;
  double shared_level = 0; ///< covariance of the standard's level with the rating [1]; 0: not shared
  /// As if the errors of level, pace and rating went together, two by two; only what_flips sets them.
  SharedParts alike;
  std::vector<SettledOperators> must_agree; ///< the settled operators with help, with leavers: FITS needs each too
  bool help_of_unknown_length = false;      ///< see DecisionFacts
  bool zone_given = false, spread_known = false;
  std::optional<SequenceRoomAtLevel> sequence; ///< absent: work zone or spread not known
  bool condition_differs_now = false, restored_state_has_evidence = false;
  Seconds limit{};
  double confidence = 0.95; ///< 1 - alpha
  double able = 0.90;       ///< share of trained people that must be able [1]
};

/// What the chance that enough people are able is made from.
struct ShareParts {
  double z_able = 0;   ///< normal quantile of the share asked for
  double u_spread = 0; ///< what is unsure of the spread between people: z_able s / sqrt(2 (m - 1))
  double u = 0, df = 0;
};

struct Weighing {
  std::vector<LineInput> lines;
  SharedParts shared;
  std::vector<Clash> clashes;
  CombinedLine combined;
  std::optional<double> ln_k_star;        ///< at the combined level
  ShareAble share_able;                   ///< without the bounds at people's own pace
  std::optional<ShareParts> share_parts;  ///< absent where the spread between people is not known or 0
  std::vector<std::vector<Line>> without; ///< the lines left out of each of facts.without_leaning
  DecisionFacts facts;
  Decision decision;
};

Weighing weigh(const WeighingBasis& basis);

} // namespace docket
