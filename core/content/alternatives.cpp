#include "core/content/alternatives.h"

namespace docket {

Alternatives find_alternatives(const Case&, const Evidence&, const StandardTime&, const TimeAvailable&,
                               const SequenceBasis&, const SequenceFindings&) {
  return {};
}

} // namespace docket
