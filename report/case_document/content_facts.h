// What page one says of question A in numbers: three margins, and the strongest facts on either side.
#pragma once

#include "core/case.h"
#include "core/findings.h"

#include <cstddef>
#include <string>
#include <vector>

namespace docket {

/// One margin as printed: "+2.0 s", and from where to where.
struct MarginLine {
  std::string what, margin, range;
};

/// The mean of the planned mix, the heaviest variant, the order of units.
std::vector<MarginLine> margin_lines(const Case& input, const Findings& findings);

struct ContentFacts {
  std::vector<std::string> for_fitting, against;
};

/// At most `most` facts a side, the strongest first.
ContentFacts strongest_facts(const Findings& findings, std::size_t most);

} // namespace docket
