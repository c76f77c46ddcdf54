// The sequence part of question A: the line drift at the combined level, over the order given and over drawn ones.
//
// Model     P_seq = F_t(ln k* / u), u and degrees of freedom of the combined level
// Source    Yano & Rachamadugu 1991 (see line_drift.h); longest run of heavy units from a start on time without an
//           overload: D / (t - limit), e.g. Scholl, Balancing and Sequencing of Assembly Lines (1999)
// Method    the ratios between variants are those of the settled operators where they have own means, else the standard's:
//           where times do not follow the standard's ratios, its ratios gave false words in 16 to 33 % (simulated)
// Assumes   the average trained person; differences between people enter through the share able alone
// Checked   tests/core/content/order/sequence_test.cpp
#pragma once

#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/order/line_drift.h"
#include "core/evidence.h"

#include <optional>
#include <vector>

namespace docket {

/// By how many seconds the mean could grow before overloads reach the tolerated rate: k* T - T, with its range.
struct SequenceRoom {
  Seconds margin{}, low{}, high{}; ///< at 1 - alpha; negative: time that is missing
};

/// A sequence margin at one tolerated rate.
struct MarginAtRate {
  double tolerated_per_1000 = 0;
  SequenceMargin k_star;
  SequenceRoom room;
  double p = 0; ///< P_seq at this rate
};

struct GivenSequence {
  std::int64_t units = 0, overloads = 0; ///< at the standard's own times, without spread
  double overloads_per_1000 = 0;
  Seconds lost{};
  std::int64_t worst_position = 0; ///< the position whose finish is furthest beyond the limit
  SequenceMargin k_star;           ///< with spread
  SequenceRoom room;
  double p = 0;
  std::vector<DriftStep> steps; ///< as in `overloads`, in the order of Case::build_sequence
};

struct DrawnSequence {
  std::int64_t units = 0;
  double overloads_per_1000 = 0, low = 0, high = 0; ///< at T and at T exp(-+ t u)
  Seconds lost_per_1000{};
  double people_averaged_per_1000 = 0;
  std::vector<MarginAtRate> at_rates; ///< 1, 10 and 50 per 1,000
  SequenceMargin k_star;
  SequenceRoom room;
  double p = 0;
  double tolerated_per_1000 = 0;
  SpreadOfCycles spread;
  std::int64_t cycles_per_shift = 0;
};

struct SequenceFindings {
  bool zone_given = false;
  bool spread_known = false;
  std::optional<double> p;              ///< the smaller of drawn and given
  std::optional<SequenceMargin> k_star; ///< of the one with the smaller p
  std::optional<SequenceRoom> room;     ///< of the same
  std::optional<GivenSequence> given;
  std::optional<DrawnSequence> drawn;
};

struct HeaviestVariant {
  std::int32_t variant = -1;
  Seconds time{};                            ///< at the combined level
  Seconds margin{};                          ///< limit + D - time; limit - time where no zone is given
  Seconds margin_low{}, margin_high{};       ///< at 1 - alpha
  std::optional<std::int64_t> longest_run;   ///< in the build sequence
  std::optional<std::int64_t> run_that_fits; ///< heavy units in a row from a start on time, at the mean time
};

/// What the sequence is computed from: a level and the spread around it.
struct SequenceBasis {
  Seconds level{}; ///< T
  double u = 0, df = 0;
  SpreadOfCycles spread;
  double sd_between = 0;
  bool spread_known = false;
  std::vector<double> variant_factors{}; ///< by variant, on the standard's ratios [1]; empty: the ratios as they are
};

/// Time of each variant at the level T: S_v with its factor, the planned mix averaging T.
std::vector<Seconds> variant_times(const StandardTime& standard, const SequenceBasis& basis);

SequenceFindings find_sequence(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SequenceBasis& basis);

HeaviestVariant find_heaviest(const Case& input, const StandardTime& standard, const TimeAvailable& time,
                              const SequenceBasis& basis);

} // namespace docket
