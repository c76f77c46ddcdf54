#include "report/cli/case_inputs.h"

#include "core/error.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/store.h"

#include <algorithm>

namespace docket {

Intake read_case_inputs(std::span<const std::string> inputs) {
  const auto given = std::find_if(inputs.begin(), inputs.end(), is_docket_name);
  if (given == inputs.end()) return read_case(inputs);
  if (inputs.size() > 1)
    throw Error(ErrorKind::wrong_usage, *given, "A docket is a whole case; other inputs can't stand beside it.",
                "Give it alone, or add the others first: docket add " + *given + " FILE.");
  return read_docket_case(*given);
}

} // namespace docket
