// findings.json: the findings for programs, and for whoever checks the numbers.
//
// Format      JSON, UTF-8, keys in order of their letters, numbers to 9 significant digits
// Spec        RFC 8259 (The JavaScript Object Notation Data Interchange Format); report/findings.schema.json
// Subset      shares, weights and probabilities are 0 to 1; only `*_percent` is percent; times are seconds in `*_s`
// Deviations  none; a value that is not known or has no end is null, with the reason in a sibling `..._why`
// Checked     tests/report/findings_json_test.cpp; tests/outside/findings_schema.py with a validator that is not ours
#pragma once

#include "core/case.h"
#include "core/findings.h"

#include <string>
#include <string_view>

namespace docket {

/// What `schema` says in a findings.json of ours.
inline constexpr std::string_view findings_schema = "station-docket/findings/1";

/// The whole file, with a line end at its end. Same case and findings: same bytes.
std::string write_findings_json(const Case& input, const Findings& findings);

} // namespace docket
