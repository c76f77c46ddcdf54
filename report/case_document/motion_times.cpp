#include "report/case_document/pages.h"

namespace docket {

void add_motion_times(CasePages&, const CaseView&) {}

} // namespace docket
