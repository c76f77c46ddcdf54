#include "report/wording/excess.h"

#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"

#include <string>

namespace docket::findings_json {
namespace {

template <class Name>
void put_parts(JsonObject& to, std::string_view key, const ExcessParts& found, Name name) {
  JsonValue value;
  if (!found.parts.empty()) {
    JsonArray parts;
    for (const ExcessPart& part : found.parts)
      parts.append(JsonObject{{"name", name(part.index)},
                              {"n", number(part.n)},
                              {"others", number(part.peers)},
                              {"others_n", number(part.peers_n)},
                              {"ratio", number(part.ratio)},
                              {"ratio_low", number(part.low)},
                              {"ratio_high", number(part.high)},
                              {"s", number(part.seconds)},
                              {"low_s", number(part.seconds_low)},
                              {"high_s", number(part.seconds_high)}});
    value = JsonObject{
        {"parts", parts}, {"standing_out", number(found.standing_out)}, {"by_chance", number(found.by_chance)}};
  }
  put(to, key, value, found.absent_why + ": " + wording::excess_absent_in_words(found.absent_why));
}

} // namespace

JsonArray excess(const Case& input, const Findings& findings) {
  JsonArray list;
  for (const Excess& one : findings.excesses) {
    JsonObject row{{"operator", operator_code(input, one.op)}};
    put_parts(row, "elements", one.elements,
              [&](std::int32_t e) { return input.standard[static_cast<std::size_t>(e)].element; });
    put_parts(row, "variants", one.variants,
              [&](std::int32_t v) { return input.variants[static_cast<std::size_t>(v)].variant; });
    list.append(row);
  }
  return list;
}

} // namespace docket::findings_json
