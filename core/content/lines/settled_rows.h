// The settled operators with other cycles or people counted: what a reviewer asks about help, about people who left, about
// short records and about any one person.
//
// Rows      with_help       helped and cut short cycles of the settled operators, as y + helped_s; without the seconds of
//                           help a cycle is a lower bound: it counts as no less than the person's own level
//           with_leavers    each person who left and is not counted, at the last known mean; one without any cycle at the
//                           slowest stayer's mean and one s more, where three or more stayed
//           with_too_short  trained people whose record is too short to tell, at their own mean so far
//           with_foreign    cycles of the settled operators that hold foreign work
// Source    the rows are ours. People who leave are not a random part of those who came (survivorship): R. J. A. Little,
//           D. B. Rubin, Statistical Analysis with Missing Data (2nd ed. 2002), ch. 1; a worst plausible value in place of
//           what is missing: common practice
// Assumes   a leaver who was never trained is not among the people A asks about
// Checked   tests/core/content/lines/settled_rows_test.cpp
#pragma once

#include "core/content/lines/settled_record.h"
#include "core/statistics/uncertainty.h"

#include <vector>

namespace docket {

/// The line with these ratios in it: level, spread between people and counts anew, the spreads of cycles kept. `alone`:
/// the random part where there is one ratio.
SettledOperators with_ratios(SettledOperators line, const std::vector<double>& ratios, const UncertaintyPart& alone,
                             const Case& input, const StandardTime& standard, const TimeAvailable& time);

/// Random part of one operator's level: from days, or from cycles where there is one day.
UncertaintyPart random_part_of_one(const OperatorRecord& record, const OperatorLevel& level,
                                   const StandardTime& standard, const TimeAvailable& time);

/// Fills in `rows` and `left_out_one`; a leaver's row that can't be computed makes the line lean.
void add_settled_rows(SettledResult& result, const std::vector<const OperatorRecord*>& settled,
                      const std::vector<OperatorLevel>& levels, const Case& input, const Evidence& evidence,
                      const StandardTime& standard, const TimeAvailable& time, bool with_differing);

} // namespace docket
