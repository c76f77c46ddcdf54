#include "report/case_document/pages.h"

namespace docket {

void add_study_checks(CasePages&, const CaseView&) {}

} // namespace docket
