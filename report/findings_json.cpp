#include "report/findings_json.h"

#include "core/rules.h"
#include "report/stable_words.h"
#include "report/version.h"
#include "report/wording/adaptation.h"
#include "report/wording/alternatives.h"
#include "report/wording/motions.h"
#include "report/wording/shifts.h"
#include "report/wording/study_checks.h"
#include "report/wording/wording.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <optional>
#include <set>
#include <string>

namespace docket {
namespace {

// Every reason for a null starts with a stable word, then says it in words.
constexpr std::string_view not_given = "not_given: the input does not say";
constexpr std::string_view at_own_pace_only =
    "at_own_pace_only: the bounds are those of share_within_at_own_pace, without the level and pace of this estimate";
constexpr std::string_view too_few_operators = "too_few_operators: it takes settled operators that differ, two or more";
constexpr std::string_view no_zone_or_spread =
    "no_zone_or_spread: it takes the work zone and the spread from cycle to cycle";
constexpr std::string_view no_build_sequence = "no_build_sequence: the build order is not given";
constexpr std::string_view infinite_df = "infinite: no part of it is estimated from few values";
constexpr std::string_view not_asked = "not_asked: question B is not asked about anybody";
constexpr std::string_view no_curve = "no_curve: too few plain cycles for a curve, or all the same";
constexpr std::string_view no_end = "no_end: the interval has no end on this side";
constexpr std::string_view never = "never: not within three times the cycles seen, after the last one";
constexpr std::string_view no_plain_cycles = "no_plain_cycles: there is no plain cycle of this operator";

QString text(std::string_view utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

QString key(std::string_view name) { return text(name); }

/// Nine significant digits: what another compiler or order of sums changes lies beyond them.
double rounded(double value) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::scientific, 8);
  double result = 0;
  std::from_chars(digits.data(), end.ptr, result);
  return result == 0 ? 0 : result; // no minus zero
}

QJsonValue number(double value) { return std::isfinite(value) ? QJsonValue(rounded(value)) : QJsonValue(); }
QJsonValue number(Seconds value) { return number(value.count()); }
QJsonValue number(std::int64_t value) { return QJsonValue(static_cast<qint64>(value)); }

/// A value, or null with its reason beside it.
void put(QJsonObject& to, std::string_view name, const QJsonValue& value, std::string_view why) {
  to[key(name)] = value;
  if (value.isNull()) to[key(std::string(name) + "_why")] = text(why);
}

template <class Value>
void put_or_why(QJsonObject& to, std::string_view name, const std::optional<Value>& value, std::string_view why) {
  put(to, name, value ? number(*value) : QJsonValue(), why);
}

std::string none_why(const std::string& code) { return code + ": " + wording::none_why_in_words(code); }

using InWords = std::string (*)(const Reason&);

QJsonArray coded(const std::vector<Reason>& reasons, InWords in_words) {
  QJsonArray list;
  for (const Reason& reason : reasons)
    list.append(QJsonObject{{"code", text(reason.code)}, {"text", text(in_words(reason))}});
  return list;
}

QJsonArray codes(const std::vector<Reason>& reasons) {
  QJsonArray list;
  for (const Reason& reason : reasons) list.append(text(reason.code));
  return list;
}

/// Reads a case beside its findings: the findings hold indices, the file holds names.
class FindingsWriter {
public:
  FindingsWriter(const Case& input, const Findings& findings) : case_(input), findings_(findings) {}

  QJsonObject write() const {
    QJsonObject all{{"schema", text(findings_schema)},
                    {"version", text(program_version())},
                    {"rule_version", rules::rule_version},
                    {"seed", number(static_cast<std::int64_t>(case_.settings.seed))},
                    {"settings", settings()},
                    {"case", facts()},
                    {"content", content()},
                    {"adaptation", adaptation()},
                    {"bridge", bridge()},
                    {"conditions", conditions()},
                    {"ergonomics", ergonomics()},
                    {"data_faults", data_faults()},
                    {"excluded", excluded()},
                    {"evidence", evidence()},
                    {"counts", counts()},
                    {"referrals_open", findings_.referrals_open}};
    put(all, "adaptation_band", adaptation_band(),
        findings_.adaptation.empty() ? not_asked
                                     : "too_few_others: fewer than five others, or nobody to set them beside");
    return all;
  }

private:
  const Case& case_;
  const Findings& findings_;

  void put_origin(QJsonObject& to, const SourceRow& origin) const {
    const bool known = origin.source >= 0;
    put(to, "file", known ? text(case_.sources[static_cast<std::size_t>(origin.source)].file) : QJsonValue(),
        "preset: it does not come from a file");
    to["table"] = text(name_of(origin.table));
    to["row"] = number(origin.row);
  }

  void put_level(QJsonObject& to, const LineLevel& level) const {
    const LineAgainstLimit& against = level.against;
    to["margin_s"] = number(against.margin);
    to["margin_low_s"] = number(against.margin_low);
    to["margin_high_s"] = number(against.margin_high);
    to["p_fits"] = number(against.p_fits);
    to["u_ln"] = number(level.u);
    to["se_ln"] = number(level.se);
    to["leans"] = codes(level.leans);
  }

  const std::string& operator_code(std::int32_t op) const { return case_.operators[static_cast<std::size_t>(op)].code; }
  const std::string& variant_name(std::int32_t variant) const {
    return case_.variants[static_cast<std::size_t>(variant)].variant;
  }

  QJsonArray settings() const {
    QJsonArray list;
    for (const Settings::Given& setting : case_.settings.given)
      list.append(QJsonObject{{"key", text(setting.key)},
                              {"value", text(setting.value)},
                              {"given", setting.given},
                              {"reason", text(setting.reason)}});
    return list;
  }

  QJsonObject facts() const {
    const TimeAvailable& time = findings_.time;
    QJsonObject facts{{"case_ref", text(case_.facts.case_ref)},
                      {"station", text(case_.facts.station)},
                      {"line_cycle_s", number(time.line_cycle)},
                      {"allowance_percent", number(100 * time.allowance)},
                      {"allowance_where", text(word_of(time.allowance_where))},
                      {"confidence_percent", number(100 * case_.settings.confidence)}};
    put_or_why(facts, "takt_s", time.takt, not_given);
    put(facts, "oee_percent", time.oee ? number(100 * *time.oee) : QJsonValue(), not_given);
    put_or_why(facts, "over_speed", time.over_speed, not_given);
    return facts;
  }

  QJsonObject content() const {
    const ContentFindings& found = findings_.content;
    QJsonObject content{{"finding", text(wording::finding_word(found.word))},
                        {"decision_row", found.decision_row},
                        {"held", found.held},
                        {"limit_s", number(findings_.time.limit)},
                        {"leans", text(word_of(found.leans))},
                        {"average_person_only", found.average_person_only},
                        {"reasons", coded(found.reasons, wording::reason_in_words)},
                        {"would_decide", coded(found.would_decide, wording::would_decide_in_words)},
                        {"flips", flips()},
                        {"clash", clashes()},
                        {"standard", standard()},
                        {"checks", study_checks()},
                        {"sequence", sequence()}};
    QJsonArray only_if;
    for (std::int32_t condition : found.only_if)
      only_if.append(text(case_.conditions[static_cast<std::size_t>(condition)].check));
    content["only_if"] = only_if;
    put(content, "with_differing", with_differing(), "no_condition_differs: nothing was taken out");
    put(content, "combined", combined(), "no_usable_line: no line of evidence can be used");
    put(content, "settled", settled(), none_why(found.settled.none_why));
    put(content, "restudy", restudy(), none_why(found.restudy.none_why));
    put(content, "heaviest", heaviest(), "no_variant: no variant has a time");
    content["alternatives"] = alternatives();
    put(content, "pace_price", pace_price(), "no_takt: the takt time is not known");
    content["shifts"] = shifts();
    put(content, "overrun", overrun(), "no_cycles: there is no cycle of a person");
    content["share_within_at_own_pace"] = share_within_at_own_pace();
    // Operators looked at without one of them settled are listed all the same.
    content["operators_seen"] = operators_seen();
    return content;
  }

  QJsonArray study_checks() const {
    QJsonArray list;
    for (const StudyCheck& check : findings_.content.checks) {
      const wording::CheckWords words = wording::check_in_words(check);
      QJsonObject numbers;
      for (const auto& [name, value] : check.numbers) numbers[key(name)] = number(value);
      list.append(QJsonObject{{"check", text(check.code)},
                              {"outcome", text(wording::outcome_code(check.outcome))},
                              {"lacks", text(check.lacks)},
                              {"names", text(check.names)},
                              {"result", text(words.result)},
                              {"direction", text(words.direction)},
                              {"affects", text(words.affects)},
                              {"remedy", text(words.remedy)},
                              {"numbers", numbers}});
    }
    return list;
  }

  QJsonValue with_differing() const {
    if (!findings_.content.with_differing) return {};
    QJsonObject with{{"finding", text(wording::finding_word(findings_.content.with_differing->word))}};
    put_or_why(with, "p_fits", findings_.content.with_differing->p_fits, "no_usable_line: no line of evidence");
    return with;
  }

  QJsonValue combined() const {
    if (!findings_.content.combined) return {};
    const CombinedLine& line = *findings_.content.combined;
    QJsonObject combined{{"ln_ratio", number(line.ln_ratio)},
                         {"u", number(line.u)},
                         {"weights", QJsonObject{{"standard", number(line.weights[0])},
                                                 {"settled", number(line.weights[1])},
                                                 {"restudy", number(line.weights[2])}}},
                         {"shared", QJsonObject{{"standard_restudy", number(line.shared.standard_restudy)},
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

  QJsonArray clashes() const {
    QJsonArray list;
    for (const Clash& clash : findings_.content.clashes)
      list.append(QJsonObject{{"a", text(word_of(clash.a))},
                              {"b", text(word_of(clash.b))},
                              {"diff_s", number(clash.difference)},
                              {"u_s", number(clash.u)},
                              {"blocks", clash.blocks}});
    return list;
  }

  QJsonObject standard() const {
    const StandardTime& time = findings_.content.standard;
    QJsonObject standard{{"mean_s", number(time.mean)},
                         {"u_s", number(std::hypot(time.u_random.count(), time.u_systematic.count()))},
                         {"u_random_s", number(time.u_random)},
                         {"u_systematic_s", number(time.u_systematic)},
                         {"efficiency", number(time.efficiency)},
                         {"utilisation", number(time.utilisation)},
                         {"by_class", by_class(time.by_class)},
                         {"unmatched_per_unit_s", number(time.unmatched_per_unit)}};
    put_level(standard, time.level);
    QJsonArray variants, elements, unmatched;
    for (const VariantTime& variant : time.variants)
      variants.append(QJsonObject{{"variant", text(variant_name(variant.variant))},
                                  {"share", number(variant.share)},
                                  {"time_s", number(variant.time)},
                                  {"by_class", by_class(variant.by_class)}});
    for (const ElementTime& element : time.elements) elements.append(standard_element(element));
    for (const std::string& name : time.unmatched) unmatched.append(text(name));
    standard["variants"] = variants;
    standard["elements"] = elements;
    standard["unmatched"] = unmatched;
    standard["motions"] = motions();
    return standard;
  }

  QJsonArray motions() const {
    QJsonArray list;
    for (const ElementMotions& motions : findings_.content.standard.motions) {
      const StandardElement& element = case_.standard[static_cast<std::size_t>(motions.element)];
      const MotionAnalysis& first = motions.first();
      assert(first.time()); // a code without time is a fault of the input
      const auto second = motions.second() ? motions.second()->time() : std::nullopt;
      std::set<std::string> from_memory;
      for (const MotionStepTime& row : first.result.rows)
        for (const MotionValueUsed& value : row.used)
          if (value.origin.status != MotionValueStatus::found) from_memory.insert(value.what);
      QJsonArray problems;
      for (const MotionAnalysis& analysis : motions.analyses)
        for (const MotionProblem& problem : analysis.result.problems)
          problems.append(QJsonObject{{"code", text(problem.code)},
                                      {"text", text(wording::motion_problem_in_words(case_, analysis, problem))}});
      QJsonObject row{{"element", text(element.element)},
                      {"tmu", number(*first.result.tmu)},
                      {"time_s", number(*first.time())},
                      {"one_after_another_s", number(first.one_after_another())},
                      {"from_memory", number(static_cast<std::int64_t>(from_memory.size()))},
                      {"plant_table", !case_.motion_table.empty()},
                      {"problems", problems}};
      put_or_why(row, "given_s", element.time_from_motions ? std::nullopt : element.time,
                 "blank: the motions give the time");
      put_or_why(row, "second_analysis_s", second, "one_analysis: no second analyst's motions of this element");
      list.append(row);
    }
    return list;
  }

  static QJsonObject by_class(const std::array<Seconds, 3>& times) {
    return {{"va_s", number(times[0])}, {"nnva_s", number(times[1])}, {"nva_s", number(times[2])}};
  }

  QJsonObject standard_element(const ElementTime& time) const {
    const StandardElement& element = case_.standard[static_cast<std::size_t>(time.element)];
    QJsonObject row{{"element", text(element.element)},
                    {"standard_s", number(time.time)},
                    {"u_s", number(time.u)},
                    {"times_per_unit", number(time.times_per_unit)},
                    {"share_of_units", number(time.share_of_units)}};
    put_origin(row, element.origin);
    const SeenElement* seen = nullptr;
    for (const SeenElement& one : findings_.content.restudy.elements)
      if (one.element == time.element) seen = &one;
    put_seen(row, seen);
    return row;
  }

  static void put_seen(QJsonObject& row, const SeenElement* seen) {
    constexpr std::string_view unseen = "not_seen: no reading of this element";
    constexpr std::string_view no_interval = "too_few_readings: one reading has no spread";
    row["n"] = number(seen ? seen->n : std::int64_t{0});
    put(row, "seen_s", seen ? number(seen->seen.time) : QJsonValue(), unseen);
    put(row, "low_s", seen && seen->seen.low ? number(*seen->seen.low) : QJsonValue(), seen ? no_interval : unseen);
    put(row, "high_s", seen && seen->seen.high ? number(*seen->seen.high) : QJsonValue(), seen ? no_interval : unseen);
  }

  QJsonValue settled() const {
    if (!findings_.content.settled.line) return {};
    const SettledOperators& line = *findings_.content.settled.line;
    QJsonObject settled{{"operators", number(line.operators)},
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
                        {"share_able", share_able()},
                        {"within_line_cycle", QJsonObject{{"k", number(line.within_limit)},
                                                          {"m", number(line.operators)},
                                                          {"lower", number(line.within_limit_lower)}}},
                        {"per_operator", operators_seen()},
                        {"rows", settled_rows()},
                        {"left_out_one", left_out_one()},
                        {"leavers", leavers()}};
    put(settled, "df", number(line.level.df), infinite_df);
    put_or_why(settled, "variant_test_p", line.variant_test_p,
               "too_few: it takes two operators with own means for two variants");
    put_level(settled, line.level);
    return settled;
  }

  /// The word and the numbers of one changed assumption.
  static QJsonObject changed(const Flip& flip) {
    return {
        {"finding", text(wording::finding_word(flip.word))}, {"margin_s", number(flip.margin)}, {"p", number(flip.p)}};
  }

  QJsonArray flips() const {
    QJsonArray list;
    for (const Flip& flip : findings_.content.flips) {
      QJsonObject row = changed(flip);
      row["code"] = text(flip.code);
      row["what"] = text(wording::flip_in_words(flip));
      list.append(row);
    }
    return list;
  }

  QJsonArray settled_rows() const {
    QJsonArray list;
    for (const SettledRow& one : findings_.content.settled.rows) {
      QJsonObject row{{"code", text(one.code)},
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

  QJsonArray left_out_one() const {
    QJsonArray list;
    const std::vector<LeftOutOne>& lines = findings_.content.settled.left_out_one;
    for (std::size_t i = 0; i < lines.size() && i < findings_.content.left_out.size(); ++i) {
      QJsonObject row{{"operator", text(operator_code(lines[i].op))},
                      {"mean_s", number(lines[i].line.level.time)},
                      {"p_fits", number(lines[i].line.level.against.p_fits)},
                      {"combined", changed(findings_.content.left_out[i])}};
      list.append(row);
    }
    return list;
  }

  /// Codes of those who left and are counted in the row of the leavers.
  QJsonArray leavers() const {
    QJsonArray list;
    for (const Operator& person : case_.operators)
      if (person.left_station) list.append(text(person.code));
    return list;
  }

  QJsonObject share_able() const {
    const ShareAble& share = findings_.content.share_able;
    QJsonObject able{{"required", number(share.required)}};
    put_or_why(able, "estimate", share.estimate, too_few_operators);
    put_or_why(able, "low", share.low, at_own_pace_only);
    put_or_why(able, "high", share.high, at_own_pace_only);
    put_or_why(able, "p_able", share.p_able, too_few_operators);
    put_or_why(able, "p_zone", share.p_zone, too_few_operators);
    return able;
  }

  QJsonArray operators_seen() const {
    QJsonArray list;
    for (const OperatorLevel& level : findings_.content.settled.per_operator) {
      QJsonObject row{{"operator", text(operator_code(level.op))},
                      {"status", text(word_of(level.status))},
                      {"n", number(level.n)},
                      {"plain_seen", number(level.plain_seen)},
                      {"days", level.days},
                      {"n_eff", number(level.n_eff)},
                      {"lag1", number(level.lag1)},
                      {"bridged", level.bridged}};
      const bool seen = level.n > 0;
      put(row, "mean_s", seen ? number(level.level.time) : QJsonValue(), no_plain_cycles);
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

  QJsonValue restudy() const {
    if (!findings_.content.restudy.line) return {};
    const Restudy& line = *findings_.content.restudy.line;
    QJsonObject restudy{{"operators", static_cast<qint64>(line.operators.size())},
                        {"cycles", number(line.cycles)},
                        {"observed_s", number(line.observed)},
                        {"normal_s", number(line.normal)},
                        {"mean_s", number(line.level.time)},
                        {"sd_of_operators", number(line.s)},
                        {"u_s", number(line.level.u * line.level.time)}};
    put(restudy, "df", number(line.level.df), infinite_df);
    put_or_why(restudy, "needed_cycles", line.needed_cycles, "too_few_cycles: one cycle has no spread");
    put_level(restudy, line.level);
    QJsonArray elements;
    for (const SeenElement& seen : findings_.content.restudy.elements) {
      QJsonObject row{{"element", text(case_.standard[static_cast<std::size_t>(seen.element)].element)}};
      put_seen(row, &seen);
      elements.append(row);
    }
    restudy["elements"] = elements;
    return restudy;
  }

  QJsonObject shifts() const {
    const ShiftComparison& found = findings_.content.shifts;
    QJsonArray per_shift, pairs;
    for (const ShiftFacts& shift : found.shifts) per_shift.append(shift_facts(shift));
    for (const ShiftPair& pair : found.pairs) pairs.append(shift_pair(pair));
    return {{"per_shift", per_shift},
            {"pairs", pairs},
            {"common_variants", variant_names(found.common)},
            {"common_share", number(found.common_share)},
            {"cycles_without_shift", number(found.without_shift)}};
  }

  QJsonArray variant_names(const std::vector<std::int32_t>& variants) const {
    QJsonArray names;
    for (const std::int32_t variant : variants) names.append(text(variant_name(variant)));
    return names;
  }

  QJsonObject shift_facts(const ShiftFacts& shift) const {
    QJsonObject row{{"shift", text(shift.shift)},
                    {"operators", number(shift.operators)},
                    {"cycles", number(shift.cycles)},
                    {"days", shift.days},
                    {"level_operators", number(shift.level_operators)},
                    {"bridged", shift.bridged},
                    {"spread_from", text(wording::spread_code(shift.spread))}};
    const std::string none = shift.no_level_why + ": " + wording::shift_why_in_words({shift.no_level_why, ""});
    const std::string no_interval = shift.level ? std::string("no_spread: all values are the same") : none;
    put(row, "level_s", shift.level ? number(shift.level->time) : QJsonValue(), none);
    put(row, "low_s", shift.level && shift.level->low ? number(*shift.level->low) : QJsonValue(), no_interval);
    put(row, "high_s", shift.level && shift.level->high ? number(*shift.level->high) : QJsonValue(), no_interval);
    QJsonArray mix, conditions;
    for (std::size_t v = 0; v < shift.built.size(); ++v)
      mix.append(QJsonObject{{"variant", text(variant_name(static_cast<std::int32_t>(v)))},
                             {"cycles", number(shift.built[v])}});
    for (const ShiftCondition& condition : shift.conditions)
      conditions.append(
          QJsonObject{{"check", text(case_.conditions[static_cast<std::size_t>(condition.condition)].check)},
                      {"cycles", number(condition.cycles)}});
    row["mix"] = mix;
    row["conditions"] = conditions;
    return row;
  }

  QJsonObject shift_pair(const ShiftPair& pair) const {
    const std::vector<ShiftFacts>& shifts = findings_.content.shifts.shifts;
    QJsonObject row{{"first", text(shifts[pair.first].shift)},
                    {"second", text(shifts[pair.second].shift)},
                    {"outcome", text(wording::outcome_code(pair.outcome))},
                    {"variants", variant_names(pair.variants)},
                    {"share", number(pair.share)},
                    {"operators_first", number(pair.operators_first)},
                    {"operators_second", number(pair.operators_second)},
                    {"operators_in_both", number(pair.in_both)},
                    {"spread_first", text(wording::spread_code(pair.spread_first))},
                    {"spread_second", text(wording::spread_code(pair.spread_second))}};
    const std::string why = pair.why.code + ": " + wording::shift_why_in_words(pair.why);
    const auto put_part = [&](const char* name, double ShiftDifference::*part) {
      put(row, name, pair.difference ? number((*pair.difference).*part) : QJsonValue(), why);
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

  static QJsonObject cycles_beyond(const CyclesBeyond& cycles) {
    return {{"n", number(cycles.n)},         {"k", number(cycles.k)},
            {"lag1", number(cycles.lag1)},   {"n_effective", number(cycles.n_effective)},
            {"share", number(cycles.share)}, {"low", number(cycles.low)},
            {"high", number(cycles.high)}};
  }

  QJsonValue overrun() const {
    const Overrun& found = findings_.content.shifts.overrun;
    if (!found.plain && !found.everybody_with_help) return {};
    QJsonArray by_variant;
    for (const VariantBeyond& variant : found.by_variant) {
      QJsonObject row = cycles_beyond(variant.cycles);
      row["variant"] = text(variant_name(variant.variant));
      by_variant.append(row);
    }
    QJsonObject overrun{{"operators", number(found.operators)}, {"by_variant", by_variant}};
    const auto put_row = [&](const char* name, const std::optional<CyclesBeyond>& row, std::string_view why) {
      put(overrun, name, row ? QJsonValue(cycles_beyond(*row)) : QJsonValue(), why);
    };
    put_row("plain", found.plain, "nobody_settled: no operator counts as settled");
    put_row("with_help", found.with_help, "none_helped: no cycle of a settled operator was helped or cut short");
    put_row("everybody_with_help", found.everybody_with_help, "nothing_added: the row before holds all cycles");
    return overrun;
  }

  QJsonObject share_within_at_own_pace() const {
    const ShareWithin& found = findings_.content.shifts.share_within_at_own_pace;
    QJsonObject share{{"n", number(found.n)}, {"low", number(found.low)}, {"high", number(found.high)}};
    put_or_why(share, "estimate", found.estimate, "too_few_operators: it takes two settled operators or more");
    return share;
  }

  QJsonValue heaviest() const {
    const HeaviestVariant& variant = findings_.content.heaviest;
    if (variant.variant < 0) return {};
    QJsonObject heaviest{{"variant", text(variant_name(variant.variant))},
                         {"time_s", number(variant.time)},
                         {"margin_s", number(variant.margin)},
                         {"margin_low_s", number(variant.margin_low)},
                         {"margin_high_s", number(variant.margin_high)}};
    put_or_why(heaviest, "longest_run", variant.longest_run, no_build_sequence);
    put_or_why(heaviest, "run_that_fits", variant.run_that_fits,
               findings_.content.sequence.zone_given ? "no_end: any number in a row"
                                                     : "no_zone: the work zone is not given");
    return heaviest;
  }

  static QJsonObject posts(const PostsNeeded& posts) {
    return {{"filled", number(posts.filled)},
            {"at_efficiency", number(posts.at_efficiency)},
            {"at_utilisation", number(posts.at_utilisation)}};
  }

  QJsonValue pace_price() const {
    if (!findings_.content.pace_price) return {};
    const PacePrice& price = *findings_.content.pace_price;
    return QJsonObject{{"over_speed", number(price.over_speed)},
                       {"per_unit_s", number(price.per_unit)},
                       {"target_efficiency", rules::target_efficiency},
                       {"target_utilisation", rules::target_utilisation},
                       {"posts_at_line_cycle", posts(price.at_line_cycle)},
                       {"posts_at_takt", posts(price.at_takt)}};
  }

  QJsonObject alternatives() const {
    const Alternatives& found = findings_.content.alternatives;
    const OutOfEveryUnit& out = found.out_of_every_unit;
    QJsonObject every_unit{{"mean_s", number(out.mean)}, {"both_s", number(out.both)}};
    put_or_why(every_unit, "sequence_s", out.sequence, no_zone_or_spread);
    put(every_unit, "sequence_end", out.sequence ? QJsonValue(text(end_of(out.k_star))) : QJsonValue(),
        no_zone_or_spread);
    QJsonArray enough, waste, moves;
    for (const EnoughForOrder& order : found.enough) enough.append(enough_for(order));
    for (const WasteElement& line : found.waste) {
      const StandardElement& element = case_.standard[static_cast<std::size_t>(line.element)];
      waste.append(QJsonObject{{"element", text(element.element)},
                               {"class", element.element_class == ElementClass::nva ? "nva" : "nnva"},
                               {"per_unit_s", number(line.per_unit)},
                               {"sum_s", number(line.sum)},
                               {"margin_standard_s", number(line.margin_standard)},
                               {"margin_s", number(line.margin)}});
    }
    for (const MovableElement& line : found.movable)
      moves.append(QJsonObject{{"element", text(case_.standard[static_cast<std::size_t>(line.element)].element)},
                               {"earlier", line.earlier},
                               {"later", line.later},
                               {"per_unit_s", number(line.per_unit)},
                               {"in_heaviest_s", number(line.in_heaviest)}});
    QJsonObject all{{"tolerated_per_1000", number(found.tolerated_per_1000)},
                    {"out_of_every_unit", every_unit},
                    {"enough", enough},
                    {"waste", waste},
                    {"precedence_given", found.precedence_given},
                    {"moves", moves}};
    constexpr std::string_view no_order = "no_order: it takes a build order and the work zone";
    put(all, "worst_stretch", worst_stretch(),
        found.stretches ? "none_late: no unit is finished past the limit" : no_order);
    const auto put_row = [&](std::string_view name, const std::optional<Stretch>& row) {
      put(all, name, row ? QJsonValue(stretch(*row)) : QJsonValue(),
          found.stretches ? "none: there is no such unit" : no_order);
    };
    put_row("longest_heaviest", found.stretches ? found.stretches->longest_heaviest : std::nullopt);
    put_row("longest_above_limit", found.stretches ? found.stretches->longest_above : std::nullopt);
    put(all, "even_order", even_order(), "no_order: it takes a build order of two variants or more, and the work zone");
    return all;
  }

  static QJsonObject count_of(const OrderCount& count) {
    return {{"overloads", number(count.overloads)},
            {"seconds_lost", number(count.lost)},
            {"longest_heaviest", number(count.longest_heaviest)}};
  }

  QJsonValue even_order() const {
    const std::optional<EvenOrder>& even = findings_.content.alternatives.even;
    if (!even) return {};
    QJsonObject order{{"units", number(even->units)},
                      {"changed", number(even->changed)},
                      {"before", count_of(even->before)},
                      {"after", count_of(even->after)}};
    put(order, "k_star", even->k_star ? number(even->k_star->factor) : QJsonValue(), no_zone_or_spread);
    put_or_why(order, "p", even->p, no_zone_or_spread);
    return order;
  }

  QJsonObject stretch(const Stretch& row) const {
    return {{"first_position", number(case_.build_sequence[row.first].position)},
            {"last_position", number(case_.build_sequence[row.last].position)},
            {"units", number(static_cast<std::int64_t>(row.last - row.first + 1))}};
  }

  QJsonValue worst_stretch() const {
    const std::optional<HeaviestStretches>& found = findings_.content.alternatives.stretches;
    if (!found || !found->worst) return {};
    QJsonObject worst = stretch(*found->worst);
    QJsonArray variants;
    for (std::size_t i = found->worst->first; i <= found->worst->last; ++i)
      variants.append(text(variant_name(case_.build_sequence[i].variant)));
    worst["variants"] = variants;
    worst["over_limit_s"] = number(found->over_limit);
    worst["finish_s"] = number(found->finish);
    worst["over_zone_s"] = number(found->over_zone);
    return worst;
  }

  QJsonObject enough_for(const EnoughForOrder& order) const {
    QJsonArray out;
    for (const OutOfVariant& of : order.out_of_variant) {
      QJsonObject row{{"variant", text(variant_name(of.variant))}, {"at_least_spare", of.at_least_spare}};
      put_or_why(row, "seconds_s", of.seconds, "not_alone: not by this variant alone");
      out.append(row);
    }
    QJsonObject enough{{"order", order.drawn ? "drawn" : "given"},
                       {"units", number(order.units)},
                       {"overloads_per_1000", number(order.rate_per_1000)},
                       {"out_of_variant", out}};
    const std::string why =
        order.late_finish.none_why + ": " + std::string(wording::no_late_finish_in_words(order.late_finish.none_why));
    put_or_why(enough, "late_finish_s", order.late_finish.needed, why);
    return enough;
  }

  QJsonObject sequence() const {
    const SequenceFindings& found = findings_.content.sequence;
    QJsonObject sequence{{"zone_given", found.zone_given}, {"spread_known", found.spread_known}};
    put_or_why(sequence, "p", found.p, no_zone_or_spread);
    const auto put_room = [&](const char* key, Seconds SequenceRoom::*part) {
      put(sequence, key, found.room ? number((*found.room).*part) : QJsonValue(), no_zone_or_spread);
    };
    put_room("margin_s", &SequenceRoom::margin);
    put_room("margin_low_s", &SequenceRoom::low);
    put_room("margin_high_s", &SequenceRoom::high);
    put(sequence, "given", given_sequence(), case_.build_sequence.empty() ? no_build_sequence : no_zone_or_spread);
    put(sequence, "drawn", drawn_sequence(), no_zone_or_spread);
    return sequence;
  }

  QJsonValue given_sequence() const {
    if (!findings_.content.sequence.given) return {};
    const GivenSequence& given = *findings_.content.sequence.given;
    return QJsonObject{{"units", number(given.units)},
                       {"overloads", number(given.overloads)},
                       {"overloads_per_1000", number(given.overloads_per_1000)},
                       {"seconds_lost", number(given.lost)},
                       {"worst_position", number(given.worst_position)},
                       {"k_star", number(given.k_star.factor)},
                       {"k_star_end", text(end_of(given.k_star))},
                       {"p", number(given.p)}};
  }

  QJsonValue drawn_sequence() const {
    if (!findings_.content.sequence.drawn) return {};
    const DrawnSequence& drawn = *findings_.content.sequence.drawn;
    QJsonArray rates;
    for (const MarginAtRate& rate : drawn.at_rates)
      rates.append(QJsonObject{{"tolerated", number(rate.tolerated_per_1000)},
                               {"k_star", number(rate.k_star.factor)},
                               {"k_star_end", text(end_of(rate.k_star))},
                               {"p", number(rate.p)}});
    return QJsonObject{{"units", number(drawn.units)},
                       {"overloads_per_1000", number(drawn.overloads_per_1000)},
                       {"low", number(drawn.low)},
                       {"high", number(drawn.high)},
                       {"seconds_lost_per_1000", number(drawn.lost_per_1000)},
                       {"people_averaged_per_1000", number(drawn.people_averaged_per_1000)},
                       {"rate_at_1_10_50", rates},
                       {"k_star", number(drawn.k_star.factor)},
                       {"k_star_end", text(end_of(drawn.k_star))},
                       {"p", number(drawn.p)},
                       {"tolerated", number(drawn.tolerated_per_1000)},
                       {"sd_of_cycles", number(drawn.spread.sigma)},
                       {"lag1", number(drawn.spread.rho)},
                       {"cycles_per_shift", number(drawn.cycles_per_shift)}};
  }

  QJsonArray adaptation() const {
    QJsonArray list;
    for (const Adaptation& one : findings_.adaptation) list.append(adaptation_of(one));
    return list;
  }

  /// Under NOT ASSESSABLE NOW every value is null with the same reason: nothing can be read from what surrounds the word.
  QJsonObject adaptation_of(const Adaptation& one) const {
    const bool closed = one.word == AdaptationWord::not_assessable_now;
    const std::string closed_why = "not_assessable_now: " + std::string(wording::not_assessable_line);
    const AdaptationEstimates* own = one.estimates ? &*one.estimates : nullptr;
    const std::string_view why = closed ? std::string_view(closed_why) : no_curve;
    QJsonObject row{{"operator", text(operator_code(one.op))},
                    {"finding", text(wording::finding_word(one.word))},
                    {"reasons", coded(one.reasons, wording::adaptation_reason_in_words)},
                    {"would_decide", coded(one.would_decide, wording::would_decide_adaptation)}};
    put(row, "decision_row", closed || !one.decision_row ? QJsonValue() : QJsonValue(*one.decision_row), why);
    const auto put_count = [&](std::string_view name, std::int64_t count) {
      put(row, name, closed ? QJsonValue() : number(count), why);
    };
    put_count("cycles", one.series.cycles);
    put_count("plain_cycles", static_cast<std::int64_t>(one.series.plain.size()));
    put_count("lower_bounds", one.series.lower_bounds);
    put_count("days", one.series.days);
    put_count("first_cycle", one.series.first_cycle);
    put_count("last_cycle", one.series.last_cycle);
    put(row, "first_cycle_estimated", closed ? QJsonValue() : QJsonValue(one.series.first_cycle_estimated), why);
    put(row, "segments", closed ? QJsonValue() : QJsonValue(QJsonArray()), why);
    put(row, "horizon_cycles", own ? number(own->horizon_cycles) : QJsonValue(), why);
    put(row, "reach_cycles", own ? number(own->reach_cycles) : QJsonValue(), why);
    put(row, "course", own ? QJsonValue(course(*own)) : QJsonValue(), why);
    put(row, "models", own ? QJsonValue(models(*own)) : QJsonValue(), why);
    put_estimate(row, "settled", own ? &own->settled : nullptr, why);
    put_estimate(row, "today", own ? &own->today : nullptr, why);
    put(row, "settled_with_helped_s", own ? number(own->settled_with_helped) : QJsonValue(), why);
    put(row, "mean_seen_s", own ? number(own->mean_seen) : QJsonValue(), why);
    put(row, "improvement_left_percent",
        own ? QJsonValue(QJsonObject{{"median", number(100 * own->improvement)},
                                     {"low", number(100 * own->improvement_low)},
                                     {"high", number(100 * own->improvement_high)}})
            : QJsonValue(),
        why);
    put(row, "p_improving", own ? number(own->p_improving) : QJsonValue(), why);
    put(row, "p_improving_with_helped", own ? number(own->p_improving_with_helped) : QJsonValue(), why);
    put(row, "p_within", own ? number(own->p_within) : QJsonValue(), why);
    put(row, "p_never", own ? number(own->to_limit.p_never) : QJsonValue(), why);
    const auto put_to_go = [&](std::string_view name, const std::optional<double>& cycles) {
      put(row, name, own && cycles ? number(*cycles) : QJsonValue(), own ? never : why);
    };
    const CyclesToGo to_go = own ? own->to_limit : CyclesToGo{};
    put_to_go("cycles_to_line_cycle", to_go.median);
    put_to_go("cycles_to_line_cycle_low", to_go.low);
    put_to_go("cycles_to_line_cycle_high", to_go.high);
    put(row, "lag1", own ? number(own->lag1) : QJsonValue(), why);
    put(row, "phi", own ? number(own->phi) : QJsonValue(), why);
    return row;
  }

  /// `name`_s with `name`_low_s and `name`_high_s.
  static void put_estimate(QJsonObject& to, const std::string& name, const TimeEstimate* estimate,
                           std::string_view why) {
    put(to, name + "_s", estimate ? number(estimate->time) : QJsonValue(), why);
    put(to, name + "_low_s", estimate && estimate->low ? number(*estimate->low) : QJsonValue(),
        estimate ? no_end : why);
    put(to, name + "_high_s", estimate && estimate->high ? number(*estimate->high) : QJsonValue(),
        estimate ? no_end : why);
  }

  static QJsonArray course(const AdaptationEstimates& own) {
    QJsonArray list;
    for (const LevelAtCycle& at : own.course) {
      QJsonObject row{{"cycle", number(at.cycle)}};
      put_estimate(row, "level", &at.level, no_end);
      list.append(row);
    }
    return list;
  }

  static QJsonArray models(const AdaptationEstimates& own) {
    QJsonArray list;
    for (const ModelAnswer& answer : own.models) {
      const CurveFit& fit = answer.fit;
      QJsonObject parameters{{"c_s", number(fit.c)}};
      if (fit.model != CurveModel::constant) {
        parameters["excess_s"] = number(fit.excess);
        parameters["from_cycle"] = number(fit.first);
        parameters[fit.model == CurveModel::exponential_plateau ? "tau_cycles" : "b"] = number(fit.shape);
      }
      QJsonObject row{{"model", text(name_of(fit.model))},
                      {"weight", number(answer.weight)},
                      {"parameters", parameters},
                      {"sigma_log", number(fit.sigma)},
                      {"converged", std::isfinite(fit.log_likelihood)}};
      put(row, "aicc", number(answer.aicc), "infinite: the curve meets every value");
      put(row, "log_likelihood", number(fit.log_likelihood), "infinite: the curve meets every value");
      put_estimate(row, "settled", &answer.settled, no_end);
      put_estimate(row, "asymptote", answer.asymptote ? &*answer.asymptote : nullptr,
                   "no_floor: this curve falls without end");
      list.append(row);
    }
    return list;
  }

  QJsonValue adaptation_band() const {
    if (!findings_.adaptation_band) return {};
    const AdaptationBand& band = *findings_.adaptation_band;
    return QJsonObject{{"n", number(band.n)}, {"low_s", number(band.low)}, {"high_s", number(band.high)}};
  }

  QJsonArray bridge() const {
    QJsonArray list;
    for (const TimeBridge& bridge : findings_.bridges) {
      QJsonObject row{{"operator", text(operator_code(bridge.op))}};
      QJsonValue terms;
      if (bridge.terms) {
        QJsonArray steps;
        for (const BridgeTerm& term : *bridge.terms) {
          QJsonObject step{{"term", text(term.term)}, {"s", number(term.seconds)}};
          put(step, "low_s", number(term.low), no_end);
          put(step, "high_s", number(term.high), no_end);
          steps.append(step);
        }
        terms = steps;
      }
      const std::string why = bridge.absent_why + ": " + wording::bridge_absent_in_words(bridge.absent_why);
      put(row, "terms", terms, why);
      put(row, "sum_s", bridge.terms ? number(bridge.sum) : QJsonValue(), why);
      list.append(row);
    }
    return list;
  }

  QJsonArray conditions() const {
    QJsonArray list;
    for (std::size_t i = 0; i < case_.conditions.size(); ++i) {
      const Condition& condition = case_.conditions[i];
      std::int64_t cycles_out = 0;
      for (const ConditionEffect& effect : findings_.conditions)
        if (effect.condition == static_cast<std::int32_t>(i)) cycles_out = effect.cycles_out;
      QJsonObject row{{"check", text(condition.check)},
                      {"state", text(word_of(condition.state))},
                      {"affects", affects(condition)},
                      {"cycles_out", number(cycles_out)}};
      put(row, "from", condition.from ? text(iso(*condition.from)) : QJsonValue(), not_given);
      put(row, "to", condition.to ? text(iso(*condition.to)) : QJsonValue(),
          "open: no end is given, so it still is so");
      put_origin(row, condition.origin);
      list.append(row);
    }
    return list;
  }

  QJsonArray affects(const Condition& condition) const {
    QJsonArray names;
    for (std::int32_t i : condition.elements) names.append(text(case_.standard[static_cast<std::size_t>(i)].element));
    for (std::int32_t i : condition.sessions) names.append(text(case_.sessions[static_cast<std::size_t>(i)].session));
    for (std::int32_t i : condition.variants) names.append(text(variant_name(i)));
    return names;
  }

  static QJsonObject ergonomics() {
    QJsonArray cautions;
    for (const char* code : {"injury_risk_not_assessed", "fits_void_while_referral_open", "do_not_speed_up",
                             "report_pain_early", "breaks_are_no_savings", "stop_work_right_first"})
      cautions.append(code);
    return {{"cautions", cautions}, {"lifts", QJsonArray()}, {"efforts", QJsonArray()}};
  }

  QJsonArray data_faults() const {
    QJsonArray list;
    for (const DataFault& fault : findings_.data_faults) {
      const wording::FaultWords in_words = wording::fault_in_words(fault);
      list.append(QJsonObject{{"check", text(fault.check)},
                              {"result", text(in_words.result)},
                              {"direction", text(in_words.direction)},
                              {"affects", text(in_words.affects)},
                              {"remedy", text(in_words.remedy)}});
    }
    return list;
  }

  QJsonArray excluded() const {
    QJsonArray list;
    for (const ExcludedRow& excluded : findings_.evidence.excluded) {
      QJsonObject row{{"reason", text(word_of(excluded.why))}, {"mark", text(words_of(excluded.marks))}};
      if (excluded.condition >= 0)
        row["condition"] = text(case_.conditions[static_cast<std::size_t>(excluded.condition)].check);
      put_origin(row, excluded.origin);
      list.append(row);
    }
    return list;
  }

  QJsonArray evidence() const {
    QJsonArray list;
    for (const Source& source : case_.sources)
      list.append(
          QJsonObject{{"file", text(source.file)}, {"sha256", text(source.sha256)}, {"rows", number(source.rows)}});
    return list;
  }

  QJsonArray counts() const {
    QJsonArray list;
    for (const TableCounts& table : case_.counts)
      list.append(QJsonObject{{"table", text(name_of(table.table))},
                              {"read", number(table.read)},
                              {"used", number(table.used)},
                              {"with_issue", number(table.with_issue)},
                              {"used_now", table.used_now}});
    return list;
  }
};

} // namespace

std::string write_findings_json(const Case& input, const Findings& findings) {
  return QJsonDocument(FindingsWriter(input, findings).write()).toJson(QJsonDocument::Indented).toStdString();
}

} // namespace docket
