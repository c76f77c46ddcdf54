#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"

namespace docket::findings_json {
namespace {

JsonArray per_operator(const Case& input, const Restudy& line) {
  JsonArray list;
  for (const RestudiedOperator& person : line.per_operator)
    list.append(JsonObject{{"operator", operator_code(input, person.op)},
                           {"n", number(person.n)},
                           {"sessions", number(person.sessions)},
                           {"observed_s", number(person.observed)},
                           {"normal_s", number(person.normal)}});
  return list;
}

/// What a changed line says, beside what was changed.
void put_line(JsonObject& row, const Restudy& line) {
  row["operators"] = number(static_cast<std::int64_t>(line.operators.size()));
  row["cycles"] = number(line.cycles);
  row["mean_s"] = number(line.level.time);
  put_level(row, line.level);
}

JsonArray left_out_one(const Case& input, const RestudyResult& restudy) {
  JsonArray list;
  for (const RestudyWithoutOne& out : restudy.left_out_one) {
    JsonObject row{{"operator", operator_code(input, out.op)}};
    put_line(row, out.line);
    list.append(row);
  }
  return list;
}

JsonArray rows(const RestudyResult& restudy) {
  JsonArray list;
  for (const RestudyRow& one : restudy.rows) {
    JsonObject row{{"code", one.code}, {"changed", number(one.changed)}, {"sessions", one.sessions}};
    put_line(row, one.line);
    list.append(row);
  }
  return list;
}

} // namespace

JsonValue restudy(const Case& input, const Findings& findings) {
  if (!findings.content.restudy.line) return {};
  const Restudy& line = *findings.content.restudy.line;
  JsonObject restudy{{"operators", number(static_cast<std::int64_t>(line.operators.size()))},
                     {"cycles", number(line.cycles)},
                     {"observed_s", number(line.observed)},
                     {"normal_s", number(line.normal)},
                     {"mean_s", number(line.level.time)},
                     {"sd_of_operators", number(line.s)},
                     {"u_s", number(line.level.u * line.level.time)}};
  put(restudy, "df", number(line.level.df), infinite_df);
  put_or_why(restudy, "needed_cycles", line.needed_cycles, "too_few_cycles: one cycle has no spread");
  put_level(restudy, line.level);
  JsonArray elements;
  for (const SeenElement& seen : findings.content.restudy.elements) {
    JsonObject row{{"element", input.standard[static_cast<std::size_t>(seen.element)].element}};
    put_seen(row, &seen);
    elements.append(row);
  }
  restudy["elements"] = elements;
  restudy["per_operator"] = per_operator(input, line);
  restudy["rows"] = rows(findings.content.restudy);
  restudy["left_out_one"] = left_out_one(input, findings.content.restudy);
  return restudy;
}

} // namespace docket::findings_json
