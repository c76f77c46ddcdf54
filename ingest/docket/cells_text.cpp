#include "ingest/docket/cells_text.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace docket {

namespace {

/// By CellKind; the first three have a plain form of their own.
constexpr std::array<std::string_view, 9> kinds{"blank",    "text",  "number", "percent",       "date",
                                                "duration", "truth", "error",  "not_calculated"};

void add_string(std::string& text, std::string_view value) {
  constexpr std::string_view digits = "0123456789abcdef";
  text += '"';
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      text += '\\';
      text += c;
    } else if (byte < 0x20) {
      text += "\\u00";
      text += digits[byte >> 4U];
      text += digits[byte & 0xFU];
    } else {
      text += c;
    }
  }
  text += '"';
}

void add_number(std::string& text, double number) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number);
  text.append(digits.data(), end.ptr);
}

void add_cell(std::string& text, const RawCell& cell) {
  if (cell.kind == CellKind::blank) {
    text += "null";
  } else if (cell.kind == CellKind::text) {
    add_string(text, cell.text);
  } else if (cell.kind == CellKind::number && std::isfinite(cell.number) && cell.text == number_text(cell.number)) {
    text += cell.text;
  } else {
    text += R"({"kind":")";
    text += kinds[static_cast<std::size_t>(cell.kind)];
    text += R"(","number":)";
    if (std::isfinite(cell.number))
      add_number(text, cell.number);
    else
      text += "null"; // JSON has no word for it
    text += R"(,"text":)";
    add_string(text, cell.text);
    text += '}';
  }
}

std::optional<RawCell> cell_from(const QJsonValue& value) {
  if (value.isNull()) return RawCell{};
  if (value.isString()) return RawCell{CellKind::text, value.toString().toStdString(), 0};
  if (value.isDouble()) return RawCell{CellKind::number, number_text(value.toDouble()), value.toDouble()};
  const QJsonObject object = value.toObject();
  const auto kind = std::find(kinds.begin(), kinds.end(), object["kind"].toString().toStdString());
  if (kind == kinds.end() || !object["text"].isString()) return std::nullopt;
  return RawCell{static_cast<CellKind>(kind - kinds.begin()), object["text"].toString().toStdString(),
                 object["number"].toDouble(std::nan(""))};
}

std::optional<QJsonArray> array_from(std::string_view text) {
  const QJsonDocument document =
      QJsonDocument::fromJson(QByteArray::fromRawData(text.data(), static_cast<qsizetype>(text.size())));
  if (!document.isArray()) return std::nullopt;
  return document.array();
}

} // namespace

std::string texts_as_text(const std::vector<std::string>& texts) {
  std::string text = "[";
  for (const std::string& one : texts) {
    if (text.size() > 1) text += ',';
    add_string(text, one);
  }
  return text + "]";
}

std::optional<std::vector<std::string>> texts_from_text(std::string_view text) {
  const auto array = array_from(text);
  if (!array) return std::nullopt;
  std::vector<std::string> texts;
  for (const QJsonValue value : *array) {
    if (!value.isString()) return std::nullopt;
    texts.push_back(value.toString().toStdString());
  }
  return texts;
}

std::string cells_as_text(const std::vector<RawCell>& cells) {
  std::string text = "[";
  for (const RawCell& cell : cells) {
    if (text.size() > 1) text += ',';
    add_cell(text, cell);
  }
  return text + "]";
}

std::optional<std::vector<RawCell>> cells_from_text(std::string_view text) {
  const auto array = array_from(text);
  if (!array) return std::nullopt;
  std::vector<RawCell> cells;
  for (const QJsonValue value : *array) {
    auto cell = cell_from(value);
    if (!cell) return std::nullopt;
    cells.push_back(*std::move(cell));
  }
  return cells;
}

} // namespace docket
