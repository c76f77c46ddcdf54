#include "report/cli/case_inputs.h"

#include "core/error.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/store.h"
#include "report/cli/reading_line.h"

#include <algorithm>

namespace docket {

Intake read_case_inputs(std::span<const std::string> inputs, const ReadingOptions& options) {
  const auto given = std::find_if(inputs.begin(), inputs.end(), is_docket_name);
  if (given == inputs.end()) return read_case(inputs, options);
  if (inputs.size() > 1)
    throw Error(ErrorKind::wrong_usage, *given, "A docket is a whole case; other inputs can't stand beside it.",
                "Give it alone, or add the others first: docket add " + *given + " FILE.");
  if (has_reading_options(options))
    throw Error(ErrorKind::wrong_usage, *given, "A docket holds what was read when it was added.",
                "Leave --as, --sheet, --dates, --codes and --set-aside out.");
  return read_docket_case(*given);
}

} // namespace docket
