#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"
#include "report/wording/shifts.h"
#include "report/wording/study_checks.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace docket::findings_json {
namespace {

constexpr std::string_view at_own_pace_only =
    "at_own_pace_only: the bounds are those of share_within_at_own_pace, without the level and pace of this estimate";
constexpr std::string_view too_few_operators = "too_few_operators: it takes settled operators that differ, two or more";
constexpr std::string_view no_plain_cycles = "no_plain_cycles: there is no plain cycle of this operator";

JsonArray settled_rows(const Findings& findings) {
  JsonArray list;
  for (const SettledRow& one : findings.content.settled.rows) {
    JsonObject row{{"code", one.code},
                   {"added", number(one.added)},
                   {"unseen", number(one.unseen)},
                   {"operators", number(one.line.operators)},
                   {"cycles", number(one.line.cycles)},
                   {"sd_of_operators", number(one.line.s)},
                   {"mean_s", number(one.line.level.time)}};
    put_level(row, one.line.level);
    list.append(row);
  }
  return list;
}

JsonArray left_out_one(const Case& input, const Findings& findings) {
  JsonArray list;
  const std::vector<LeftOutOne>& lines = findings.content.settled.left_out_one;
  for (std::size_t i = 0; i < lines.size() && i < findings.content.left_out.size(); ++i) {
    JsonObject row{{"operator", operator_code(input, lines[i].op)},
                   {"mean_s", number(lines[i].line.level.time)},
                   {"p_fits", number(lines[i].line.level.against.p_fits)},
                   {"combined", changed(findings.content.left_out[i])}};
    list.append(row);
  }
  return list;
}

JsonArray bridged_variants(const Case& input, const Findings& findings) {
  JsonArray list;
  for (const BridgedVariant& one : findings.content.again.bridged)
    list.append(JsonObject{{"operator", operator_code(input, one.op)},
                           {"variant", variant_name(input, one.variant)},
                           {"own_cycles", number(one.own)},
                           {"by", one.by_others ? "others" : "standard"}});
  return list;
}

/// Codes of those who left and are counted in the row of the leavers.
JsonArray leavers(const Case& input) {
  JsonArray list;
  for (const Operator& person : input.operators)
    if (person.left_station) list.append(person.code);
  return list;
}

JsonObject share_able(const Findings& findings) {
  const ShareAble& share = findings.content.share_able;
  JsonObject able{{"required", number(share.required)}};
  put_or_why(able, "estimate", share.estimate, too_few_operators);
  put_or_why(able, "low", share.low, at_own_pace_only);
  put_or_why(able, "high", share.high, at_own_pace_only);
  put_or_why(able, "p_able", share.p_able, too_few_operators);
  put_or_why(able, "p_zone", share.p_zone, too_few_operators);
  return able;
}

JsonArray variant_names(const Case& input, const std::vector<std::int32_t>& variants) {
  JsonArray names;
  for (const std::int32_t variant : variants) names.append(variant_name(input, variant));
  return names;
}

JsonObject shift_facts(const Case& input, const ShiftFacts& shift) {
  JsonObject row{{"shift", shift.shift},
                 {"operators", number(shift.operators)},
                 {"cycles", number(shift.cycles)},
                 {"days", shift.days},
                 {"level_operators", number(shift.level_operators)},
                 {"bridged", shift.bridged},
                 {"spread_from", wording::spread_code(shift.spread)}};
  const std::string none = shift.no_level_why + ": " + wording::shift_why_in_words({shift.no_level_why, ""});
  const std::string no_interval = shift.level ? std::string("no_spread: all values are the same") : none;
  put(row, "level_s", shift.level ? number(shift.level->time) : JsonValue(), none);
  put(row, "low_s", shift.level && shift.level->low ? number(*shift.level->low) : JsonValue(), no_interval);
  put(row, "high_s", shift.level && shift.level->high ? number(*shift.level->high) : JsonValue(), no_interval);
  JsonArray mix, conditions;
  for (std::size_t v = 0; v < shift.built.size(); ++v)
    mix.append(
        JsonObject{{"variant", variant_name(input, static_cast<std::int32_t>(v))}, {"cycles", number(shift.built[v])}});
  for (const ShiftCondition& condition : shift.conditions)
    conditions.append(JsonObject{{"check", input.conditions[static_cast<std::size_t>(condition.condition)].check},
                                 {"cycles", number(condition.cycles)}});
  row["mix"] = mix;
  row["conditions"] = conditions;
  return row;
}

JsonObject shift_pair(const Case& input, const Findings& findings, const ShiftPair& pair) {
  const std::vector<ShiftFacts>& shifts = findings.content.shifts.shifts;
  JsonObject row{{"first", shifts[pair.first].shift},
                 {"second", shifts[pair.second].shift},
                 {"outcome", wording::outcome_code(pair.outcome)},
                 {"variants", variant_names(input, pair.variants)},
                 {"share", number(pair.share)},
                 {"operators_first", number(pair.operators_first)},
                 {"operators_second", number(pair.operators_second)},
                 {"operators_in_both", number(pair.in_both)},
                 {"spread_first", wording::spread_code(pair.spread_first)},
                 {"spread_second", wording::spread_code(pair.spread_second)}};
  const std::string why = pair.why.code + ": " + wording::shift_why_in_words(pair.why);
  const auto put_part = [&](const char* name, double ShiftDifference::*part) {
    put(row, name, pair.difference ? number((*pair.difference).*part) : JsonValue(), why);
  };
  put_part("ln_ratio", &ShiftDifference::ln_ratio);
  put_part("u", &ShiftDifference::u);
  put_part("df", &ShiftDifference::df);
  put_part("low", &ShiftDifference::low);
  put_part("high", &ShiftDifference::high);
  put_part("p_lower", &ShiftDifference::p_lower);
  put_part("p_upper", &ShiftDifference::p_upper);
  return row;
}

JsonObject cycles_beyond(const CyclesBeyond& cycles) {
  return {{"n", number(cycles.n)},         {"k", number(cycles.k)},
          {"lag1", number(cycles.lag1)},   {"n_effective", number(cycles.n_effective)},
          {"share", number(cycles.share)}, {"low", number(cycles.low)},
          {"high", number(cycles.high)}};
}

} // namespace

JsonValue settled(const Case& input, const Findings& findings) {
  if (!findings.content.settled.line) return {};
  const SettledOperators& line = *findings.content.settled.line;
  JsonObject settled{{"operators", number(line.operators)},
                     {"cycles", number(line.cycles)},
                     {"ratio", number(line.ratio)},
                     {"ratio_se", number(line.ratio_se)},
                     {"sd_of_operators", number(line.s)},
                     {"sd_between", number(line.sd_between)},
                     {"sd_within", number(line.sd_within)},
                     {"lag1", number(line.lag1)},
                     {"u_bridged", number(line.u_bridged)},
                     {"mean_s", number(line.level.time)},
                     {"u_s", number(line.level.u * line.level.time)},
                     {"share_able", share_able(findings)},
                     {"within_line_cycle", JsonObject{{"k", number(line.within_limit)},
                                                      {"m", number(line.operators)},
                                                      {"lower", number(line.within_limit_lower)}}},
                     {"per_operator", operators_seen(input, findings)},
                     {"rows", settled_rows(findings)},
                     {"left_out_one", left_out_one(input, findings)},
                     {"bridged_variants", bridged_variants(input, findings)},
                     {"leavers", leavers(input)}};
  put(settled, "df", number(line.level.df), infinite_df);
  put_or_why(settled, "variant_test_p", line.variant_test_p,
             "too_few: it takes two operators with own means for two variants");
  put_level(settled, line.level);
  return settled;
}

JsonArray operators_seen(const Case& input, const Findings& findings) {
  JsonArray list;
  for (const OperatorLevel& level : findings.content.settled.per_operator) {
    if (level.status == OperatorStatus::not_said) {
      list.append(JsonObject{{"operator", operator_code(input, level.op)},
                             {"status", JsonValue()},
                             {"status_why", "not_assessable_now: not counted; question B is closed for this person"}});
      continue;
    }
    JsonObject row{{"operator", operator_code(input, level.op)},
                   {"status", word_of(level.status)},
                   {"n", number(level.n)},
                   {"plain_seen", number(level.plain_seen)},
                   {"days", level.days},
                   {"n_eff", number(level.n_eff)},
                   {"lag1", number(level.lag1)},
                   {"bridged", level.bridged}};
    const bool seen = level.n > 0;
    put(row, "ratio", seen ? number(level.ratio) : JsonValue(), no_plain_cycles);
    put(row, "mean_s", seen ? number(level.level.time) : JsonValue(), no_plain_cycles);
    constexpr std::string_view no_interval = "too_few_cycles: they have no spread to reckon with";
    put_or_why(row, "low_s", level.level.low, seen ? no_interval : no_plain_cycles);
    put_or_why(row, "high_s", level.level.high, seen ? no_interval : no_plain_cycles);
    constexpr std::string_view not_tried = "not_tried: the settled rule needs more cycles or days";
    put_or_why(row, "fall", level.fall, not_tried);
    put_or_why(row, "fall_bound", level.fall_bound, not_tried);
    list.append(row);
  }
  return list;
}

JsonObject shifts(const Case& input, const Findings& findings) {
  const ShiftComparison& found = findings.content.shifts;
  JsonArray per_shift, pairs;
  for (const ShiftFacts& shift : found.shifts) per_shift.append(shift_facts(input, shift));
  for (const ShiftPair& pair : found.pairs) pairs.append(shift_pair(input, findings, pair));
  return {{"per_shift", per_shift},
          {"pairs", pairs},
          {"common_variants", variant_names(input, found.common)},
          {"common_share", number(found.common_share)},
          {"cycles_without_shift", number(found.without_shift)}};
}

JsonValue overrun(const Case& input, const Findings& findings) {
  const Overrun& found = findings.content.shifts.overrun;
  if (!found.plain && !found.everybody_with_help) return {};
  JsonArray by_variant;
  for (const VariantBeyond& variant : found.by_variant) {
    JsonObject row = cycles_beyond(variant.cycles);
    row["variant"] = variant_name(input, variant.variant);
    by_variant.append(row);
  }
  JsonObject overrun{{"operators", number(found.operators)}, {"by_variant", by_variant}};
  const auto put_row = [&](const char* name, const std::optional<CyclesBeyond>& row, std::string_view why) {
    put(overrun, name, row ? JsonValue(cycles_beyond(*row)) : JsonValue(), why);
  };
  JsonValue by_person;
  if (found.by_person)
    by_person = JsonObject{{"mean", number(found.by_person->mean)},
                           {"least", number(found.by_person->least)},
                           {"most", number(found.by_person->most)}};
  put(overrun, "by_person", by_person, "too_few_operators: it takes three settled operators or more");
  put_row("plain", found.plain, "nobody_settled: no operator counts as settled");
  put_row("with_help", found.with_help, "none_helped: no cycle of a settled operator was helped or cut short");
  put_row("everybody_with_help", found.everybody_with_help,
          found.no_everybody_why == "few_others"
              ? "few_others: fewer than five people beside the settled ones, and one could be read from the difference"
              : "nothing_added: the row before holds all cycles");
  return overrun;
}

JsonObject share_within_at_own_pace(const Findings& findings) {
  const ShareWithin& found = findings.content.shifts.share_within_at_own_pace;
  JsonObject share{{"n", number(found.n)}, {"low", number(found.low)}, {"high", number(found.high)}};
  put_or_why(share, "estimate", found.estimate, "too_few_operators: it takes two settled operators or more");
  return share;
}

} // namespace docket::findings_json
