#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"
#include "report/wording/motions.h"
#include "report/wording/study_checks.h"

#include <array>
#include <cassert>
#include <cmath>
#include <optional>
#include <set>
#include <string>

namespace docket::findings_json {
namespace {

JsonObject by_class(const std::array<Seconds, 3>& times) {
  return {{"va_s", number(times[0])}, {"nnva_s", number(times[1])}, {"nva_s", number(times[2])}};
}

JsonObject standard_element(const Case& input, const Findings& findings, const ElementTime& time) {
  const StandardElement& element = input.standard[static_cast<std::size_t>(time.element)];
  JsonObject row{{"element", element.element},
                 {"standard_s", number(time.time)},
                 {"u_s", number(time.u)},
                 {"times_per_unit", number(time.times_per_unit)},
                 {"share_of_units", number(time.share_of_units)}};
  put_origin(row, input, element.origin);
  const SeenElement* seen = nullptr;
  for (const SeenElement& one : findings.content.restudy.elements)
    if (one.element == time.element) seen = &one;
  put_seen(row, seen);
  return row;
}

JsonArray motions(const Case& input, const Findings& findings) {
  JsonArray list;
  for (const ElementMotions& motions : findings.content.standard.motions) {
    const StandardElement& element = input.standard[static_cast<std::size_t>(motions.element)];
    const MotionAnalysis& first = motions.first();
    assert(first.time()); // a code without time is a fault of the input
    const auto second = motions.second() ? motions.second()->time() : std::nullopt;
    std::set<std::string> from_memory;
    for (const MotionStepTime& row : first.result.rows)
      for (const MotionValueUsed& value : row.used)
        if (value.origin.status != MotionValueStatus::found) from_memory.insert(value.what);
    JsonArray problems;
    for (const MotionAnalysis& analysis : motions.analyses)
      for (const MotionProblem& problem : analysis.result.problems)
        problems.append(
            JsonObject{{"code", problem.code}, {"text", wording::motion_problem_in_words(input, analysis, problem)}});
    JsonObject row{{"element", element.element},
                   {"tmu", number(*first.result.tmu)},
                   {"time_s", number(*first.time())},
                   {"one_after_another_s", number(first.one_after_another())},
                   {"from_memory", number(static_cast<std::int64_t>(from_memory.size()))},
                   {"plant_table", !input.motion_table.empty()},
                   {"problems", problems}};
    put_or_why(row, "given_s", element.time_from_motions ? std::nullopt : element.time,
               "blank: the motions give the time");
    put_or_why(row, "second_analysis_s", second, "one_analysis: no second analyst's motions of this element");
    list.append(row);
  }
  return list;
}

} // namespace

JsonObject standard(const Case& input, const Findings& findings) {
  const StandardTime& time = findings.content.standard;
  JsonObject standard{{"mean_s", number(time.mean)},
                      {"u_s", number(std::hypot(time.u_random.count(), time.u_systematic.count()))},
                      {"u_random_s", number(time.u_random)},
                      {"u_systematic_s", number(time.u_systematic)},
                      {"efficiency", number(time.efficiency)},
                      {"utilisation", number(time.utilisation)},
                      {"by_class", by_class(time.by_class)},
                      {"unmatched_per_unit_s", number(time.unmatched_per_unit)}};
  put_level(standard, time.level);
  JsonArray variants, elements, unmatched;
  for (const VariantTime& variant : time.variants)
    variants.append(JsonObject{{"variant", variant_name(input, variant.variant)},
                               {"share", number(variant.share)},
                               {"time_s", number(variant.time)},
                               {"by_class", by_class(variant.by_class)}});
  for (const ElementTime& element : time.elements) elements.append(standard_element(input, findings, element));
  for (const std::string& name : time.unmatched) unmatched.append(name);
  standard["variants"] = variants;
  standard["elements"] = elements;
  standard["unmatched"] = unmatched;
  standard["motions"] = motions(input, findings);
  return standard;
}

JsonArray study_checks(const Findings& findings) {
  JsonArray list;
  for (const StudyCheck& check : findings.content.checks) {
    const wording::CheckWords words = wording::check_in_words(check);
    JsonObject numbers;
    for (const auto& [name, value] : check.numbers) numbers[name] = number(value);
    list.append(JsonObject{{"check", check.code},
                           {"outcome", wording::outcome_code(check.outcome)},
                           {"lacks", check.lacks},
                           {"names", check.names},
                           {"result", words.result},
                           {"direction", words.direction},
                           {"affects", words.affects},
                           {"remedy", words.remedy},
                           {"numbers", numbers}});
  }
  return list;
}

} // namespace docket::findings_json
