#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"
#include "report/wording/wording.h"

namespace docket::findings_json {
namespace {

JsonValue with_differing(const Findings& findings) {
  if (!findings.content.with_differing) return {};
  JsonObject with{{"finding", wording::finding_word(findings.content.with_differing->word)}};
  put_or_why(with, "p_fits", findings.content.with_differing->p_fits, "no_usable_line: no line of evidence");
  return with;
}

JsonValue combined(const Findings& findings) {
  if (!findings.content.combined) return {};
  const CombinedLine& line = *findings.content.combined;
  JsonObject combined{{"ln_ratio", number(line.ln_ratio)},
                      {"u", number(line.u)},
                      {"weights", JsonObject{{"standard", number(line.weights[0])},
                                             {"settled", number(line.weights[1])},
                                             {"restudy", number(line.weights[2])}}},
                      {"shared", JsonObject{{"standard_restudy", number(line.shared.standard_restudy)},
                                            {"settled_restudy", number(line.shared.settled_restudy)}}},
                      {"p_fits", number(line.p_fits)},
                      {"p_as_agreed", number(line.p_as_agreed)},
                      {"time_s", number(line.time)},
                      {"margin_s", number(line.margin)},
                      {"margin_low_s", number(line.margin_low)},
                      {"margin_high_s", number(line.margin_high)}};
  put(combined, "df", number(line.df), infinite_df);
  return combined;
}

JsonArray clashes(const Findings& findings) {
  JsonArray list;
  for (const Clash& clash : findings.content.clashes)
    list.append(JsonObject{{"a", word_of(clash.a)},
                           {"b", word_of(clash.b)},
                           {"diff_s", number(clash.difference)},
                           {"u_s", number(clash.u)},
                           {"blocks", clash.blocks}});
  return list;
}

JsonArray flips(const Findings& findings) {
  JsonArray list;
  for (const Flip& flip : findings.content.flips) {
    JsonObject row = changed(flip);
    row["code"] = flip.code;
    row["what"] = wording::flip_in_words(flip);
    list.append(row);
  }
  return list;
}

} // namespace

JsonObject content(const Case& input, const Findings& findings) {
  const ContentFindings& found = findings.content;
  JsonObject content{{"finding", wording::finding_word(found.word)},
                     {"decision_row", found.decision_row},
                     {"held", found.held},
                     {"limit_s", number(findings.time.limit)},
                     {"leans", word_of(found.leans)},
                     {"average_person_only", found.average_person_only},
                     {"reasons", coded(found.reasons, wording::reason_in_words)},
                     {"would_decide", coded(found.would_decide, wording::would_decide_in_words)},
                     {"flips", flips(findings)},
                     {"clash", clashes(findings)},
                     {"standard", standard(input, findings)},
                     {"checks", study_checks(findings)},
                     {"sequence", sequence(input, findings)}};
  JsonArray only_if;
  for (std::int32_t condition : found.only_if)
    only_if.append(input.conditions[static_cast<std::size_t>(condition)].check);
  content["only_if"] = only_if;
  put(content, "with_differing", with_differing(findings), "no_condition_differs: nothing was taken out");
  put(content, "combined", combined(findings), "no_usable_line: no line of evidence can be used");
  put(content, "settled", settled(input, findings), none_why(found.settled.none_why));
  put(content, "restudy", restudy(input, findings), none_why(found.restudy.none_why));
  put(content, "heaviest", heaviest(input, findings), "no_variant: no variant has a time");
  content["alternatives"] = alternatives(input, findings);
  put(content, "pace_price", pace_price(findings), "no_takt: the takt time is not known");
  content["shifts"] = shifts(input, findings);
  put(content, "overrun", overrun(input, findings), "no_cycles: there is no cycle of a person");
  content["share_within_at_own_pace"] = share_within_at_own_pace(findings);
  // Operators looked at without one of them settled are listed all the same.
  content["operators_seen"] = operators_seen(input, findings);
  return content;
}

} // namespace docket::findings_json
