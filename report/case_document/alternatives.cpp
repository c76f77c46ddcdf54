#include "report/case_document/pages.h"

namespace docket {

void add_alternatives(CasePages&, const CaseView&) {}

} // namespace docket
