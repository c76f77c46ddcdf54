// Why the row was reached, and what would decide an open word, in the order in which it is worth doing.
// Checked   tests/core/content/content_test.cpp
#pragma once

#include "core/content/word/evaluation.h"
#include "core/estimate.h"

#include <string>
#include <vector>

namespace docket {

/// Strongest first. `differing`: the conditions that differ now, as the words name them.
std::vector<Reason> reasons_for(const Evaluation& pass, const std::string& differing);

/// Empty where the word is FITS or DOES NOT FIT.
std::vector<Reason> what_would_decide(const Evaluation& pass, const Case& input, const std::string& differing);

} // namespace docket
