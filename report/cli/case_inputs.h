// The inputs of check and brief: a docket, or loose files.
#pragma once

#include "ingest/case_reader.h"

#include <span>
#include <string>

namespace docket {

/// Reads one docket, or workbooks, CSV files and folders of them, as one case. Throws Error (wrong_usage) where a docket
/// is given together with anything else, or with an option of reading: what it holds was read when it was added.
Intake read_case_inputs(std::span<const std::string> inputs, const ReadingOptions& options = {});

} // namespace docket
