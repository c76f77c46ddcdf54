// How what several topics of findings.json share is written: numbers, reasons for a null, codes, rows of the input, levels.
#pragma once

#include "core/case.h"
#include "core/content/content.h"
#include "report/findings_json/json_tree.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace docket::findings_json {

// Every reason for a null starts with a stable word, then says it in words. These are given in more than one topic.
inline constexpr std::string_view not_given = "not_given: the input does not say";
inline constexpr std::string_view infinite_df = "infinite: no part of it is estimated from few values";

/// Nine significant digits; null where the value is not finite.
JsonValue number(double value);
JsonValue number(Seconds value);
JsonValue number(std::int64_t value);

/// A value, or null with its reason beside it.
void put(JsonObject& to, std::string_view key, const JsonValue& value, std::string_view why);

template <class Value>
void put_or_why(JsonObject& to, std::string_view key, const std::optional<Value>& value, std::string_view why) {
  put(to, key, value ? number(*value) : JsonValue(), why);
}

/// The reason for a line of evidence that is absent: its code, then the words.
std::string none_why(const std::string& code);

using InWords = std::string (*)(const Reason&);
JsonArray coded(const std::vector<Reason>& reasons, InWords in_words);
JsonArray codes(const std::vector<Reason>& reasons);

/// File, table and row.
void put_origin(JsonObject& to, const Case& input, const SourceRow& origin);

void put_level(JsonObject& to, const LineLevel& level);

/// What was seen of an element; absent: nothing.
void put_seen(JsonObject& to, const SeenElement* seen);

/// The word and the numbers of one changed assumption.
JsonObject changed(const Flip& flip);

const std::string& operator_code(const Case& input, std::int32_t op);
const std::string& variant_name(const Case& input, std::int32_t variant);

} // namespace docket::findings_json
