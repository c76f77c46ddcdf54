// Time available: what the line gives the station for each unit.
//
// Model     takt = 60 x working minutes / units;  L = takt x OEE;  over-speed = 1 - L / takt
//           limit = L / (1 + a) for an allowance inside the cycle, else L
// Source    common practice (takt, line cycle time and OEE as plants use them); JCGM 106 for the one limit
// Assumes   what is given agrees within 0.5 %
// Checked   tests/core/content/lines/time_available_test.cpp
#pragma once

#include "core/case.h"

#include <optional>
#include <string>

namespace docket {

struct TimeAvailable {
  Seconds line_cycle{};             ///< L
  std::optional<Seconds> takt;      ///< customer's pace
  std::optional<double> oee;        ///< [1]
  std::optional<double> over_speed; ///< [1] 1 - L / takt
  double allowance = 0;             ///< a [1]
  AllowanceWhere allowance_where = AllowanceWhere::none;
  Seconds limit{};            ///< the one limit every comparison is with
  double measured_factor = 1; ///< (1 + a) on measured times where the standard already holds the allowance, else 1
};

/// What can't be reconciled: two ways to the same number that differ by more than 0.5 %.
struct TimeDisagreement {
  std::string what; ///< "line cycle time" or "takt"
  Seconds given{}, computed{};
};

struct TimeAvailableResult {
  std::optional<TimeAvailable> time; ///< Absent: too little was given, or it does not agree.
  std::optional<TimeDisagreement> disagreement;
};

/// Takt from working minutes and units a day; absent where one of them is.
std::optional<Seconds> computed_takt(const CaseFacts& facts);

/// True where two ways to the same time differ by no more than 0.5 %.
bool times_agree(Seconds a, Seconds b);

TimeAvailableResult find_time_available(const CaseFacts& facts);

} // namespace docket
