#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"

namespace docket::findings_json {

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
  return restudy;
}

} // namespace docket::findings_json
