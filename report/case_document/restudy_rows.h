// Question A in detail: the restudy by operator, without any one of them, and by the second observers' sheets.
#pragma once

#include "report/case_document/pages.h"

namespace docket {

/// Nothing where there is no restudy, or one operator and no second sheet.
void add_restudy_rows(CasePages& pages, const CaseView& view);

} // namespace docket
