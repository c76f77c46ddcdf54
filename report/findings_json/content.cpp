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

/// What the rows of the decision looked at: all lines, without those that lean, and the rows FITS needs too.
JsonArray decision_views(const Findings& findings) {
  const Recomputation& again = findings.content.again;
  constexpr std::string_view no_line = "no_line: without them no line is left";
  constexpr std::string_view no_order = "no_zone_or_spread: it takes the work zone and the spread from cycle to cycle";
  constexpr std::string_view no_share = "not_known: it takes settled operators that differ, in these lines";
  JsonArray list;
  const auto add = [&](std::string_view what, const JsonArray& without, const std::optional<DecisionView>& view) {
    JsonObject row{{"what", what}, {"without", without}};
    put_or_why(row, "p", view ? std::optional(view->p) : std::nullopt, no_line);
    put_or_why(row, "p_seq", view ? view->p_seq : std::nullopt, view ? no_order : no_line);
    put_or_why(row, "p_able", view ? view->p_able : std::nullopt, view ? no_share : no_line);
    put_or_why(row, "p_zone", view ? view->p_zone : std::nullopt, view ? no_share : no_line);
    list.append(row);
  };
  add("all_lines", {}, again.facts.all);
  for (std::size_t i = 0; i < again.without.size(); ++i) {
    JsonArray without;
    for (const Line line : again.without[i]) without.append(word_of(line));
    add("without_leaning", without, again.facts.without_leaning[i]);
  }
  std::size_t next = 0;
  for (const SettledRow& row : findings.content.settled.rows)
    if ((row.code == "with_help" || row.code == "with_leavers") && next < again.facts.must_agree.size())
      add(row.code, {}, again.facts.must_agree[next++]);
  if (again.facts.others) {
    JsonArray without;
    without.append(word_of(Line::settled));
    add("beside_two_operators", without, again.facts.others);
  }
  return list;
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
                      {"margin_high_s", number(line.margin_high)},
                      {"t_quantile", number(findings.content.again.reach)},
                      {"settled_and_restudied", number(findings.content.again.settled_and_restudied)},
                      {"decision_views", decision_views(findings)}};
  put(combined, "df", number(line.df), infinite_df);
  put_or_why(combined, "ln_k_star", findings.content.again.ln_k_star,
             "no_zone_or_spread: it takes the work zone and the spread from cycle to cycle");
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
