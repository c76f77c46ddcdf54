// The parts of question B in detail on one operator: the figure of the practice curve, and the tables.
#pragma once

#include "report/case_document/pages.h"

#include <string>

namespace docket {

Figure curve_figure(const CaseView& view, const Adaptation& adaptation); ///< where there are estimates

Table what_the_cycles_say(const CaseView& view, const Adaptation& adaptation); ///< where there are estimates
Table model_table(const AdaptationEstimates& own);
std::string disagreement_of(const AdaptationEstimates& own);
Table interruption_table(const Adaptation& adaptation);
Table checks_table(const AdaptationEstimates& own);                               ///< where there are checks
Table earlier_learners_table(const CaseView& view, const Adaptation& adaptation); ///< no rows: nothing to show

/// "53.0 s (51.0 to 55.0)".
std::string level_with_range(const TimeEstimate& level);

} // namespace docket
