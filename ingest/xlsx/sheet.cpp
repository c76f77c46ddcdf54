#include "ingest/xlsx/sheet.h"

#include "ingest/iso_times.h"
#include "ingest/text_encoding.h"
#include "ingest/xlsx/dates.h"
#include "ingest/xlsx/strings.h"

#include <algorithm>
#include <charconv>
#include <cstring>
#include <optional>
#include <utility>

namespace docket {

namespace {

constexpr std::int64_t most_rows = 1'048'576;
constexpr std::int64_t most_columns = 16'384;
constexpr std::int64_t most_styles = 1'000'000'000; // far beyond any workbook

enum class Place : std::uint8_t { outside, sheet_data, row, cell, value, formula, inline_string };

// A sheet has millions of cells, so the three attributes of one are read in one walk each.

/// 18.18.11 ST_CellType.
enum class CellType : std::uint8_t {
  number,
  shared_string,
  inline_string,
  formula_string,
  truth,
  error,
  date,
  unknown
};

CellType cell_type(const char* word) {
  if (std::strcmp(word, "inlineStr") == 0) return CellType::inline_string;
  if (std::strcmp(word, "str") == 0) return CellType::formula_string;
  if (word[0] == '\0' || word[1] != '\0') return CellType::unknown;
  switch (word[0]) {
  case 'n':
    return CellType::number;
  case 's':
    return CellType::shared_string;
  case 'b':
    return CellType::truth;
  case 'e':
    return CellType::error;
  case 'd':
    return CellType::date;
  default:
    return CellType::unknown;
  }
}

/// Digits and nothing else, at most `most`.
std::optional<std::int64_t> read_count(const char* text, std::int64_t most) {
  std::int64_t number = 0;
  const char* at = text;
  for (; *at >= '0' && *at <= '9' && number <= most; ++at) number = 10 * number + (*at - '0');
  if (at == text || *at != '\0' || number > most) return std::nullopt;
  return number;
}

struct Reference {
  std::int64_t column = 0;
  std::int64_t row = 0;
};

/// "C5" is column 3, row 5.
std::optional<Reference> read_reference(const char* text) {
  Reference reference;
  std::size_t letters = 0;
  while (letters < 3 && text[letters] >= 'A' && text[letters] <= 'Z')
    reference.column = reference.column * 26 + (text[letters++] - 'A' + 1);
  const auto row = read_count(text + letters, most_rows);
  if (letters == 0 || !row || *row < 1 || reference.column > most_columns) return std::nullopt;
  reference.row = *row;
  return reference;
}

std::string column_letters(std::int64_t column) {
  std::string letters;
  for (; column > 0; column = (column - 1) / 26) {
    letters.insert(letters.begin(), static_cast<char>('A' + (column - 1) % 26));
  }
  return letters;
}

template <typename Number>
std::optional<Number> read_number(std::string_view text) {
  Number number{};
  const char* const end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number);
  if (read.ec != std::errc() || read.ptr != end) return std::nullopt;
  return number;
}

/// Enough of a hostile value to find it by.
std::string shown(std::string_view text) { return "\"" + std::string(first_of_utf8(text, 40)) + "\""; }

class SheetReader {
public:
  SheetReader(const Package& package, const std::string& sheet, WorkbookFacts& facts, const ReaderCaps& caps)
      : package_(package), sheet_(sheet), facts_(facts), caps_(caps) {
    table_.name = sheet;
  }

  void start(std::string_view name, const XmlAttributes& attributes);
  void end(std::string_view name);
  void text(std::string_view piece);
  RawTable take() { return std::move(table_); }

private:
  void start_row(const XmlAttributes& attributes);
  void start_cell(const XmlAttributes& attributes);
  void end_cell();
  void end_row();
  RawCell cell() const;
  RawCell number_cell() const;
  RawCell shared_string_cell() const;
  [[noreturn]] void refuse(const std::string& detail) const;

  const Package& package_;
  const std::string& sheet_;
  WorkbookFacts& facts_;
  const ReaderCaps& caps_;
  RawTable table_;
  Place place_ = Place::outside;
  int skipped_depth_ = 0; ///< Inside an element that says nothing about values.
  RawRow row_;
  std::size_t usual_cells_ = 0; ///< In the row before.
  std::int64_t column_ = 0;
  CellType type_ = CellType::number;
  std::string unknown_type_;
  std::int64_t style_ = 0;
  bool has_formula_ = false;
  bool has_value_ = false;
  std::string value_;
  StringCollector inline_string_;
};

void SheetReader::start(std::string_view name, const XmlAttributes& attributes) {
  if (skipped_depth_ > 0) {
    ++skipped_depth_;
  } else if (place_ == Place::inline_string) {
    inline_string_.start(name, attributes);
  } else if (place_ == Place::outside) {
    if (name == "sheetData") place_ = Place::sheet_data;
  } else if (place_ == Place::sheet_data && name == "row") {
    start_row(attributes);
    place_ = Place::row;
  } else if (place_ == Place::row && name == "c") {
    start_cell(attributes);
    place_ = Place::cell;
  } else if (place_ == Place::cell && name == "v") {
    place_ = Place::value;
    has_value_ = true;
  } else if (place_ == Place::cell && name == "f") {
    place_ = Place::formula;
    has_formula_ = true;
  } else if (place_ == Place::cell && name == "is") {
    place_ = Place::inline_string;
  } else {
    skipped_depth_ = 1;
  }
}

void SheetReader::end(std::string_view name) {
  if (skipped_depth_ > 0) {
    --skipped_depth_;
    return;
  }
  switch (place_) {
  case Place::outside:
    break;
  case Place::sheet_data:
    place_ = Place::outside;
    break;
  case Place::row:
    end_row();
    place_ = Place::sheet_data;
    break;
  case Place::cell:
    end_cell();
    place_ = Place::row;
    break;
  case Place::value:
  case Place::formula:
    place_ = Place::cell;
    break;
  case Place::inline_string:
    if (name == "is") {
      value_ = inline_string_.take();
      place_ = Place::cell;
    } else {
      inline_string_.end(name);
    }
    break;
  }
}

void SheetReader::text(std::string_view piece) {
  if (skipped_depth_ > 0) return;
  if (place_ == Place::value) value_ += piece;
  if (place_ == Place::inline_string) inline_string_.text(piece);
}

void SheetReader::start_row(const XmlAttributes& attributes) {
  const std::int64_t before = row_.number;
  row_ = RawRow{before + 1, {}};
  row_.cells.reserve(usual_cells_);
  column_ = 0;
  if (const auto r = attributes.find("r")) {
    const auto number = read_number<std::int64_t>(*r);
    if (!number || *number < 1 || *number > most_rows) refuse("row number " + shown(*r));
    if (*number <= before) refuse("row " + std::string(*r) + " comes twice or out of order");
    row_.number = *number;
  }
}

void SheetReader::start_cell(const XmlAttributes& attributes) {
  const std::int64_t before = column_++;
  const char *place = nullptr, *type = nullptr, *style = nullptr;
  // One walk over the attributes: a sheet has millions of cells.
  for (const char* const* at = attributes.names_and_values; *at != nullptr; at += 2) {
    const char* const name = *at;
    if (name[0] == '\0' || name[1] != '\0') continue;
    if (name[0] == 'r') place = at[1];
    if (name[0] == 't') type = at[1];
    if (name[0] == 's') style = at[1];
  }
  if (place != nullptr) {
    const auto reference = read_reference(place);
    if (!reference || reference->row != row_.number)
      refuse("cell " + shown(place) + " in row " + std::to_string(row_.number));
    if (reference->column <= before) refuse("cell " + std::string(place) + " comes twice or out of order");
    column_ = reference->column;
  }
  if (column_ > most_columns) refuse("row " + std::to_string(row_.number) + " is too long");
  type_ = type != nullptr ? cell_type(type) : CellType::number;
  if (type_ == CellType::unknown) unknown_type_ = type;
  style_ = style != nullptr ? read_count(style, most_styles).value_or(-1) : 0;
  has_formula_ = false;
  has_value_ = false;
  value_.clear();
}

void SheetReader::end_cell() {
  RawCell read = cell();
  if (read.kind == CellKind::blank) return;
  const auto column = static_cast<std::size_t>(column_);
  count_cells(facts_.used, static_cast<std::int64_t>(column - row_.cells.size()), read.text.size(), caps_,
              package_.file, "workbook");
  if (column == row_.cells.size() + 1) {
    row_.cells.push_back(std::move(read));
    return;
  }
  row_.cells.resize(column);
  row_.cells.back() = std::move(read);
}

void SheetReader::end_row() {
  const std::int64_t number = row_.number;
  usual_cells_ = std::min<std::size_t>(row_.cells.size(), 64);
  add_row(table_, std::move(row_));
  row_ = RawRow{number, {}};
}

RawCell SheetReader::cell() const {
  if (type_ == CellType::inline_string) return text_cell(value_);
  if (has_formula_ && !has_value_) return {CellKind::not_calculated, {}, 0};
  if (type_ == CellType::formula_string) return text_cell(decode_xstring(value_));
  if (value_.empty()) return has_formula_ ? RawCell{CellKind::not_calculated, {}, 0} : RawCell{};
  switch (type_) {
  case CellType::number:
    return number_cell();
  case CellType::shared_string:
    return shared_string_cell();
  case CellType::truth:
    if (value_ == "1" || value_ == "true") return {CellKind::truth, "TRUE", 1};
    if (value_ == "0" || value_ == "false") return {CellKind::truth, "FALSE", 0};
    refuse("truth value " + shown(value_));
  case CellType::error:
    return {CellKind::error, value_, 0};
  case CellType::date:
    return cell_of_iso(value_).value_or(text_cell(value_));
  default:
    refuse("cell type " + shown(unknown_type_));
  }
}

RawCell SheetReader::number_cell() const {
  auto number = read_number<double>(value_);
  if (!number) {
    const std::string digits = text_cell(value_).text; // white space around it is no fault
    if (digits.empty()) return {};
    number = read_number<double>(digits);
  }
  if (!number) refuse("number " + shown(value_));
  const auto style = static_cast<std::size_t>(style_);
  const NumberFormat format = style < facts_.formats.size() ? facts_.formats[style] : NumberFormat::plain;
  return cell_of_serial(*number, format, facts_.date1904);
}

RawCell SheetReader::shared_string_cell() const {
  const auto index = read_number<std::size_t>(text_cell(value_).text);
  if (!index || *index >= facts_.shared_strings.size()) refuse("shared text number " + shown(value_));
  return text_cell(facts_.shared_strings[*index]);
}

void SheetReader::refuse(const std::string& detail) const {
  const std::string cell =
      place_ == Place::cell ? ", cell " + column_letters(column_) + std::to_string(row_.number) : "";
  refuse_damaged(package_.file, "sheet \"" + sheet_ + "\"" + cell + ": " + detail);
}

} // namespace

RawTable read_sheet(const Package& package, std::string_view part, const std::string& sheet, WorkbookFacts& facts,
                    const ReaderCaps& caps) {
  SheetReader reader(package, sheet, facts, caps);
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) { reader.start(name, attributes); };
  events.end = [&](std::string_view name) { reader.end(name); };
  events.text = [&](std::string_view piece) { reader.text(piece); };
  read_xml_part(package, part, events, caps, caps.unpacked_bytes);
  return reader.take();
}

} // namespace docket
