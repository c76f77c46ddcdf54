#include "report/findings_json/json_tree.h"

#include <QByteArray>
#include <QLocale>
#include <QString>
#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>

namespace docket {
namespace {

constexpr std::size_t indent = 4; // spaces a level

bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

void write_text(std::string& out, std::string_view utf8) {
  // What is no UTF-8 becomes a replacement character, so that the file is always JSON.
  const std::string sound = is_ascii(utf8)
                                ? std::string()
                                : QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())).toStdString();
  constexpr std::string_view digits = "0123456789abcdef";
  constexpr std::string_view escaped = "\b\f\n\r\t\"\\", names = "bfnrt\"\\";
  out += '"';
  for (const char c : sound.empty() ? utf8 : std::string_view(sound)) {
    if (const std::size_t found = escaped.find(c); found != std::string_view::npos) {
      out += '\\';
      out += names[found];
    } else if (static_cast<unsigned char>(c) < 0x20) {
      out += "\\u00";
      out += digits[static_cast<unsigned char>(c) >> 4];
      out += digits[static_cast<unsigned char>(c) & 0xF];
    } else {
      out += c;
    }
  }
  out += '"';
}

class Writer {
public:
  void write(const JsonValue& value) {
    std::visit([&](const auto& held) { write_held(held); }, value.held);
  }
  std::string take() {
    text_ += '\n';
    return std::move(text_);
  }

private:
  void write_held(std::monostate) { text_ += "null"; }
  void write_held(bool value) { text_ += value ? "true" : "false"; }
  void write_held(std::int64_t value) { text_ += std::to_string(value); }
  void write_held(double value) {
    constexpr double beyond_whole = 9007199254740992.0; // 2^53: from here on a double need not be the number meant
    if (std::trunc(value) == value && std::abs(value) < beyond_whole)
      write_held(static_cast<std::int64_t>(value));
    else
      text_ += QByteArray::number(value, 'g', QLocale::FloatingPointShortest).toStdString();
  }
  void write_held(const std::string& value) { write_text(text_, value); }

  void write_held(const JsonArray& array) {
    open('[');
    for (const JsonValue& value : array.values) {
      begin_item();
      write(value);
    }
    close(']');
  }

  void write_held(const JsonRows& rows) {
    open('[');
    if (rows.each)
      rows.each([&](const JsonValue& value) {
        begin_item();
        write(value);
      });
    close(']');
  }

  void write_held(const JsonObject& object) {
    std::vector<const JsonMember*> members;
    for (const JsonMember& member : object.members) members.push_back(&member);
    std::sort(members.begin(), members.end(), [](const JsonMember* a, const JsonMember* b) { return a->key < b->key; });
    open('{');
    for (const JsonMember* member : members) {
      begin_item();
      write_text(text_, member->key);
      text_ += ": ";
      write(member->value);
    }
    close('}');
  }

  void open(char bracket) {
    text_ += bracket;
    ++level_;
    first_ = true;
  }

  void begin_item() {
    text_ += first_ ? "\n" : ",\n";
    text_.append(level_ * indent, ' ');
    first_ = false;
  }

  void close(char bracket) {
    --level_;
    text_ += '\n';
    text_.append(level_ * indent, ' ');
    text_ += bracket;
    first_ = false;
  }

  std::string text_;
  std::size_t level_ = 0;
  bool first_ = true; ///< nothing was written since the last bracket
};

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
JsonValue::JsonValue(JsonRows rows) : held(std::move(rows)) {}
JsonValue::JsonValue(JsonObject object) : held(std::move(object)) {}

JsonMember::JsonMember(std::string_view name, JsonValue of) : key(name), value(std::move(of)) {}

std::string write_json(const JsonValue& tree) {
  assert(std::holds_alternative<JsonObject>(tree.held) ||
         std::holds_alternative<JsonArray>(tree.held)); // a file of ours
  Writer writer;
  writer.write(tree);
  return writer.take();
}

} // namespace docket
