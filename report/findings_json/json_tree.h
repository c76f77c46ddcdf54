// A tree of JSON values, and the text it is written as.
//
// Format      JSON, UTF-8, four spaces a level, the keys of an object in order of their letters
// Spec        RFC 8259 (The JavaScript Object Notation Data Interchange Format)
// Subset      a number is finite: what has no end is null; a file is an object or an array
// Deviations  none; a key that is given twice keeps the later value
// Checked     tests/report/json_tree_test.cpp
#pragma once

#include <cstdint>
#include <functional>
#include <initializer_list>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace docket {

struct JsonMember;
struct JsonValue;

struct JsonArray {
  std::vector<JsonValue> values;

  void append(JsonValue value);
};

/// An array whose values are made one by one while they are written: there may be millions.
struct JsonRows {
  std::function<void(const std::function<void(const JsonValue&)>& write)> each; ///< empty: there are none
};

struct JsonObject {
  std::vector<JsonMember> members; ///< in the order given; a key once

  JsonObject() = default;
  JsonObject(std::initializer_list<JsonMember> given);

  /// The value of a key; null and added when the key is new.
  JsonValue& operator[](std::string_view key);
};

struct JsonValue {
  /// The first is null.
  std::variant<std::monostate, bool, std::int64_t, double, std::string, JsonArray, JsonRows, JsonObject> held;

  JsonValue();
  JsonValue(bool value);
  JsonValue(int value);
  JsonValue(std::int64_t value);
  JsonValue(double value); ///< finite
  JsonValue(const char* utf8);
  JsonValue(std::string_view utf8);
  JsonValue(const std::string& utf8);
  JsonValue(JsonArray array);
  JsonValue(JsonRows rows);
  JsonValue(JsonObject object);

  bool is_null() const { return held.index() == 0; }
};

struct JsonMember {
  std::string key;
  JsonValue value;

  JsonMember(std::string_view name, JsonValue of);
};

/// The text of an object or an array, with a line end at its end. Same tree: same bytes.
std::string write_json(const JsonValue& tree);

} // namespace docket
