#include "report/findings_json.h"

#include "core/rules.h"
#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/version.h"
#include "report/wording/adaptation.h"

namespace docket {

std::string write_findings_json(const Case& input, const Findings& findings) {
  JsonObject all{{"schema", findings_schema},
                 {"version", program_version()},
                 {"rule_version", rules::rule_version},
                 {"seed", findings_json::number(static_cast<std::int64_t>(input.settings.seed))},
                 {"settings", findings_json::settings(input)},
                 {"case", findings_json::facts(input, findings)},
                 {"content", findings_json::content(input, findings)},
                 {"adaptation", findings_json::adaptation(input, findings)},
                 {"bridge", findings_json::bridge(input, findings)},
                 {"excess", findings_json::excess(input, findings)},
                 {"conditions", findings_json::conditions(input, findings)},
                 {"ergonomics", findings_json::ergonomics(input, findings)},
                 {"data_faults", findings_json::data_faults(findings)},
                 {"excluded", findings_json::excluded(input, findings)},
                 {"evidence", findings_json::evidence(input)},
                 {"counts", findings_json::counts(input)},
                 {"set_aside", findings_json::set_aside(input)},
                 {"referrals_open", findings.referrals_open}};
  findings_json::put(all, "adaptation_band", findings_json::adaptation_band(findings),
                     findings.adaptation.empty()
                         ? "not_asked: question B is not asked about anybody"
                         : "too_few_others: fewer than five others, or nobody to set them beside");
  const std::string& learners_why = findings.earlier_learners_none_why;
  findings_json::put(all, "earlier_learners", findings_json::earlier_learners(findings),
                     learners_why + ": " + wording::no_earlier_learners_in_words(learners_why));
  return write_json(all);
}

} // namespace docket
