// The ergonomics screening in a few rows, for page one: each method's numbers with its source and its range.
#pragma once

#include "report/case_document/pages.h"

namespace docket {

/// One row a method. Where nothing was given: what is missing.
Table screening_summary(const CaseView& view);

} // namespace docket
