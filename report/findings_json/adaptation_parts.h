// The parts of one operator's finding on B that have a structure of their own, and what stands beside it.
#pragma once

#include "core/findings.h"
#include "report/findings_json/json_values.h"

#include <string>
#include <string_view>

namespace docket::findings_json {

inline constexpr std::string_view no_end = "no_end: the interval has no end on this side";

/// `name`_s with `name`_low_s and `name`_high_s.
void put_estimate(JsonObject& to, const std::string& name, const TimeEstimate* estimate, std::string_view why);

JsonArray segments(const Adaptation& adaptation);
JsonArray by_variant(const Case& input, const PracticeSeries& series);
JsonObject late_slope(const LateSlope& late);
JsonObject outlook(const Outlook& outlook);
JsonObject residual_checks(const ResidualChecks& checks);
JsonObject borrowed(const BorrowedEstimate& borrowed);

} // namespace docket::findings_json
