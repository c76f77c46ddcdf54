// Where the excess lies: an operator whom question B is asked about beside the settled operators, by element and by
// variant. Facts with intervals. It decides nothing, says nothing about why, and reads the results of both questions
// including the inside of neither.
//
// Model     element: ratio = own mean / e^mean(ln of the peers' means), seconds as timed, unrated, one occurrence;
//             seconds a unit = peers' time x (ratio - 1) x times per unit x share of units
//           variant: ln(y / S_v) = worked day + effect_v, per person; effects weighed by planned content have mean 0;
//             ratio = e^(own effect - mean of the peers' effects): against this person's own overall ratio;
//             seconds on one unit of it = own mean time x (1 - 1/ratio)
// Source    one person beside a few others: J. R. Crawford, D. C. Howell 1998, The Clinical Neuropsychologist 12, 482-486
//           (pages from memory, to be confirmed): t with m - 1 degrees of freedom, spread s sqrt(1 + 1/m); parts of unequal
//           variance: B. L. Welch 1947, Biometrika 34, 28-35; effects: core/statistics/fitting/block_contrasts.h; effective
//           count: core/statistics/autocorrelation.h
// Method    u^2 = s^2 (1 + 1/m) + max(0, own - mean of the peers' own variances); an own variance is that of the means of
//           three days or more, else of cycles at their effective count
// Spread    at 1 - alpha, and it holds how far settled operators lie apart among themselves: 1 in it says that the person
//           lies as one more of them may. Of k compared, alpha k lie outside by chance alone
// Rules     peers: settled operators of A2 without this person, three or more. Plain readings and cycles, no differing
//           condition, of peers past the own count of A2. An element: 5 timed cycles of each person; a variant: 20 plain
//           cycles of each person, and two variants or more. Nothing by time of day. No peer is told apart
// Assumes   an element takes the same in every variant that has it; people's logarithms are normal; the likeness of
//           neighbours widens a variant's interval, as if equal variants followed one another
// Checked   tests/core/bridge/excess_test.cpp: R, closed forms, how often one more settled operator stands out
#pragma once

#include "core/adaptation/adaptation.h"
#include "core/content/content.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// One element or variant of this person against the peers.
struct ExcessPart {
  std::int32_t index = -1;             ///< into Case::standard, or into Case::variants
  std::int64_t n = 0;                  ///< own cycles
  std::int64_t peers = 0, peers_n = 0; ///< people and their cycles
  double ratio = 1, low = 1, high = 1; ///< [1]
  Seconds seconds{}, seconds_low{}, seconds_high{};

  bool stands_out() const { return low > 1 || high < 1; }
};

struct ExcessParts {
  std::vector<ExcessPart> parts; ///< in the order of the input; empty: `absent_why`
  /// not_assessable_now; no_element_readings, too_few_peers_timed; one_variant, too_few_peers_by_variant, variants_apart
  std::string absent_why;
  std::int64_t standing_out = 0;
  double by_chance = 0; ///< so many would stand out if the person were one more of the settled operators
};

struct Excess {
  std::int32_t op = -1;
  ExcessParts elements, variants;
};

/// Everything is absent where the word of B, after the gate of core/findings, is NOT ASSESSABLE NOW.
Excess find_excess(const Case& input, const Evidence& evidence, const ContentFindings& content,
                   const Adaptation& adaptation);

/// A value with its own variance.
struct OwnValue {
  double value = 0, variance = 0, df = 1;
};

struct BesidePeers {
  double difference = 0, u = 0, df = 1;
};

/// Own value less the mean of the peers' values; two peers or more.
BesidePeers compare_with_peers(const OwnValue& own, std::span<const OwnValue> peers);

} // namespace docket
