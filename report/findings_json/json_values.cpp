#include "report/findings_json/json_values.h"

#include "report/wording/wording.h"

#include <array>
#include <charconv>
#include <cmath>

namespace docket::findings_json {
namespace {

/// Nine significant digits: what another compiler or order of sums changes lies beyond them.
double rounded(double value) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::scientific, 8);
  double result = 0;
  std::from_chars(digits.data(), end.ptr, result);
  return result == 0 ? 0 : result; // no minus zero
}

} // namespace

JsonValue number(double value) { return std::isfinite(value) ? JsonValue(rounded(value)) : JsonValue(); }
JsonValue number(Seconds value) { return number(value.count()); }
JsonValue number(std::int64_t value) { return value; }

void put(JsonObject& to, std::string_view key, const JsonValue& value, std::string_view why) {
  to[key] = value;
  if (value.is_null()) to[std::string(key) + "_why"] = why;
}

std::string none_why(const std::string& code) { return code + ": " + wording::none_why_in_words(code); }

JsonArray coded(const std::vector<Reason>& reasons, InWords in_words) {
  JsonArray list;
  for (const Reason& reason : reasons) list.append(JsonObject{{"code", reason.code}, {"text", in_words(reason)}});
  return list;
}

JsonArray codes(const std::vector<Reason>& reasons) {
  JsonArray list;
  for (const Reason& reason : reasons) list.append(reason.code);
  return list;
}

void put_origin(JsonObject& to, const Case& input, const SourceRow& origin) {
  const bool known = origin.source >= 0;
  put(to, "file", known ? input.sources[static_cast<std::size_t>(origin.source)].file : JsonValue(),
      "preset: it does not come from a file");
  to["table"] = name_of(origin.table);
  to["row"] = number(origin.row);
}

void put_level(JsonObject& to, const LineLevel& level) {
  const LineAgainstLimit& against = level.against;
  to["margin_s"] = number(against.margin);
  to["margin_low_s"] = number(against.margin_low);
  to["margin_high_s"] = number(against.margin_high);
  to["p_fits"] = number(against.p_fits);
  to["u_ln"] = number(level.u);
  to["se_ln"] = number(level.se);
  to["leans"] = codes(level.leans);
}

void put_seen(JsonObject& to, const SeenElement* seen) {
  constexpr std::string_view unseen = "not_seen: no reading of this element";
  constexpr std::string_view no_interval = "too_few_readings: one reading has no spread";
  to["n"] = number(seen ? seen->n : std::int64_t{0});
  put(to, "seen_s", seen ? number(seen->seen.time) : JsonValue(), unseen);
  put(to, "low_s", seen && seen->seen.low ? number(*seen->seen.low) : JsonValue(), seen ? no_interval : unseen);
  put(to, "high_s", seen && seen->seen.high ? number(*seen->seen.high) : JsonValue(), seen ? no_interval : unseen);
}

JsonObject changed(const Flip& flip) {
  JsonObject changed{
      {"finding", wording::finding_word(flip.word)}, {"margin_s", number(flip.margin)}, {"p", number(flip.p)}};
  put_or_why(changed, "p_seq", flip.p_seq,
             "no_zone_or_spread: it takes the work zone and the spread from cycle to cycle");
  return changed;
}

const std::string& operator_code(const Case& input, std::int32_t op) {
  return input.operators[static_cast<std::size_t>(op)].code;
}

const std::string& variant_name(const Case& input, std::int32_t variant) {
  return input.variants[static_cast<std::size_t>(variant)].variant;
}

} // namespace docket::findings_json
