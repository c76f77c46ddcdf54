// Question B on page one: the box beside A, and what the pair allows. The same short lines serve the command line.
#pragma once

#include "report/case_document/pages.h"

#include <string>
#include <vector>

namespace docket {

Box adaptation_box(const CaseView& view);

/// One sentence for every different finding of B; one for none asked.
std::vector<std::string> pair_sentences(const CaseView& view);

} // namespace docket
