#include "report/findings_json/json_tree.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <cassert>
#include <cmath>
#include <utility>

namespace docket {
namespace {

QString text(const std::string& utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

QJsonValue qt_value(const JsonValue& value);

QJsonValue as_qt(std::monostate) { return {}; }
QJsonValue as_qt(bool value) { return value; }
QJsonValue as_qt(std::int64_t value) { return static_cast<qint64>(value); }
QJsonValue as_qt(double value) { return value; }
QJsonValue as_qt(const std::string& value) { return text(value); }

QJsonArray as_qt(const JsonArray& array) {
  QJsonArray list;
  for (const JsonValue& value : array.values) list.append(qt_value(value));
  return list;
}

QJsonObject as_qt(const JsonObject& object) {
  QJsonObject all;
  for (const JsonMember& member : object.members) all[text(member.key)] = qt_value(member.value);
  return all;
}

QJsonValue qt_value(const JsonValue& value) {
  return std::visit([](const auto& held) -> QJsonValue { return as_qt(held); }, value.held);
}

} // namespace

void JsonArray::append(JsonValue value) { values.push_back(std::move(value)); }

JsonObject::JsonObject(std::initializer_list<JsonMember> given) {
  for (const JsonMember& member : given) (*this)[member.key] = member.value;
}

JsonValue& JsonObject::operator[](std::string_view key) {
  for (JsonMember& member : members)
    if (member.key == key) return member.value;
  return members.emplace_back(key, JsonValue()).value;
}

JsonValue::JsonValue() = default;
JsonValue::JsonValue(bool value) : held(value) {}
JsonValue::JsonValue(int value) : held(std::int64_t{value}) {}
JsonValue::JsonValue(std::int64_t value) : held(value) {}
JsonValue::JsonValue(double value) : held(value) { assert(std::isfinite(value)); }
JsonValue::JsonValue(const char* utf8) : held(std::string(utf8)) {}
JsonValue::JsonValue(std::string_view utf8) : held(std::string(utf8)) {}
JsonValue::JsonValue(const std::string& utf8) : held(utf8) {}
JsonValue::JsonValue(JsonArray array) : held(std::move(array)) {}
JsonValue::JsonValue(JsonObject object) : held(std::move(object)) {}

JsonMember::JsonMember(std::string_view name, JsonValue of) : key(name), value(std::move(of)) {}

std::string write_json(const JsonValue& tree) {
  QJsonDocument document;
  if (const JsonObject* object = std::get_if<JsonObject>(&tree.held)) {
    document.setObject(as_qt(*object));
  } else {
    const JsonArray* array = std::get_if<JsonArray>(&tree.held);
    assert(array); // a file of ours is never a bare value
    document.setArray(as_qt(*array));
  }
  return document.toJson(QJsonDocument::Indented).toStdString();
}

} // namespace docket
