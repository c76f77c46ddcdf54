// The findings in a few lines, for a terminal.
#pragma once

#include "core/case.h"
#include "core/findings.h"

#include <string>

namespace docket {

/// Finding, margins, what is not asked, cautions; every line with its end. Seconds with a sign are limit less time:
/// + is room.
std::string summarise_findings(const Case& input, const Findings& findings);

} // namespace docket
