#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"

namespace docket::findings_json {

JsonArray settings(const Case& input) {
  JsonArray list;
  for (const Settings::Given& setting : input.settings.given)
    list.append(JsonObject{
        {"key", setting.key}, {"value", setting.value}, {"given", setting.given}, {"reason", setting.reason}});
  return list;
}

JsonObject facts(const Case& input, const Findings& findings) {
  const TimeAvailable& time = findings.time;
  JsonObject facts{{"case_ref", input.facts.case_ref},
                   {"station", input.facts.station},
                   {"line_cycle_s", number(time.line_cycle)},
                   {"allowance_percent", number(100 * time.allowance)},
                   {"allowance_where", word_of(time.allowance_where)},
                   {"confidence_percent", number(100 * input.settings.confidence)}};
  put_or_why(facts, "takt_s", time.takt, not_given);
  put(facts, "oee_percent", time.oee ? number(100 * *time.oee) : JsonValue(), not_given);
  put_or_why(facts, "over_speed", time.over_speed, not_given);
  return facts;
}

} // namespace docket::findings_json
