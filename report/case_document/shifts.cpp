#include "report/case_document/pages.h"

namespace docket {

void add_shifts(CasePages&, const CaseView&) {}

} // namespace docket
