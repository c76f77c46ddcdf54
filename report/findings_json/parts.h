// The topics of findings.json, a function each. The findings hold indices, the file holds names: hence the case beside them.
#pragma once

#include "core/case.h"
#include "core/findings.h"
#include "report/findings_json/json_tree.h"

namespace docket::findings_json {

// case_and_settings.cpp
JsonArray settings(const Case& input);
JsonObject facts(const Case& input, const Findings& findings);

// content.cpp: question A; it holds the topics from here to alternatives
JsonObject content(const Case& input, const Findings& findings);

// standard.cpp
JsonObject standard(const Case& input, const Findings& findings);
JsonArray study_checks(const Findings& findings);

// settled.cpp
JsonValue settled(const Case& input, const Findings& findings); ///< null: no operator is settled
JsonArray operators_seen(const Case& input, const Findings& findings);
JsonObject shifts(const Case& input, const Findings& findings);
JsonValue overrun(const Case& input, const Findings& findings); ///< null: no cycle of a person
JsonObject share_within_at_own_pace(const Findings& findings);

// restudy.cpp
JsonValue restudy(const Case& input, const Findings& findings); ///< null: no restudy that can be used

// sequence.cpp
JsonObject sequence(const Case& input, const Findings& findings);
JsonValue heaviest(const Case& input, const Findings& findings); ///< null: no variant has a time
JsonValue pace_price(const Findings& findings);                  ///< null: the takt time is not known
JsonObject alternatives(const Case& input, const Findings& findings);

// adaptation.cpp: question B
JsonArray adaptation(const Case& input, const Findings& findings);
JsonValue adaptation_band(const Findings& findings);  ///< null: too few others
JsonValue earlier_learners(const Findings& findings); ///< null: none, or nothing to set them beside
JsonArray bridge(const Case& input, const Findings& findings);

// excess.cpp
JsonArray excess(const Case& input, const Findings& findings);

// ergonomics.cpp
JsonObject ergonomics(const Case& input, const Findings& findings);

// conditions_and_evidence.cpp
JsonArray conditions(const Case& input, const Findings& findings);
JsonArray data_faults(const Findings& findings);
/// Made while it is written, from `input` and `findings`.
JsonRows excluded(const Case& input, const Findings& findings);
JsonArray evidence(const Case& input);
JsonArray counts(const Case& input);
JsonArray set_aside(const Case& input);

} // namespace docket::findings_json
