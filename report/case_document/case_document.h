// The case file as a document: what it says, and in which order. It computes nothing; it prints the findings.
#pragma once

#include "core/case.h"
#include "core/findings.h"
#include "core/issue.h"
#include "report/document.h"

#include <cstdint>

namespace docket {

/// For whom it is: everybody at the table, or a review. Notes of the input are printed in the second only.
enum class CopyFor : std::uint8_t { joint, review };

/// `intake_issues`: what the reading of the input asked, warned about or set aside.
Document build_case_document(const Case& input, const Findings& findings, const Issues& intake_issues,
                             CopyFor copy = CopyFor::joint);

} // namespace docket
