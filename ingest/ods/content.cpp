#include "ingest/ods/content.h"

#include "ingest/iso_times.h"
#include "ingest/ods/paragraphs.h"
#include "ingest/package/xml.h"
#include "ingest/text_encoding.h"

#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

namespace docket {

namespace {

constexpr std::int64_t most_rows = 1'048'576; ///< As many as an XLSX sheet has.
constexpr std::int64_t most_columns = 16'384;
constexpr std::int64_t ms_per_day = 86'400'000;
constexpr std::int64_t first_day_of_2000 = 10'957; // 1970-01-01 to 2000-01-01

enum class Place : std::uint8_t { outside, sheets, sheet, row, cell, paragraph };

/// Enough of a hostile value to find it by.
std::string shown(std::string_view text) { return "\"" + std::string(first_of_utf8(text, 40)) + "\""; }

/// What the attributes of one cell say.
struct CellFacts {
  std::string type;  ///< float, percentage, currency, date, time, boolean, string, error; empty: no value
  std::string value; ///< office:value, office:date-value, office:time-value or office:boolean-value
  bool has_value = false;
  std::optional<std::string> string_value;
  bool has_formula = false;
  bool is_truth_formula = false; ///< of:=TRUE() or of:=FALSE()
  std::int64_t repeated = 1;
};

class ContentReader {
public:
  ContentReader(const Package& package, const ReaderCaps& caps) : package_(package), caps_(caps) {}

  void start(std::string_view name, const XmlAttributes& attributes);
  void end(std::string_view name);
  void text(std::string_view piece);
  bool saw_sheets() const { return saw_sheets_; }
  std::vector<RawTable> take() { return std::move(tables_); }

private:
  void start_in_sheets(std::string_view name, const XmlAttributes& attributes);
  void start_row(const XmlAttributes& attributes);
  void start_cell(const XmlAttributes& attributes);
  void end_cell();
  void end_row();
  RawCell cell() const;
  RawCell number_cell() const;
  RawCell date_value_cell() const;
  RawCell time_value_cell() const;
  RawCell string_cell() const;
  std::int64_t repetitions(std::string_view count) const;
  [[noreturn]] void refuse(const std::string& detail) const;

  const Package& package_;
  const ReaderCaps& caps_;
  CapsUsed used_;
  std::vector<RawTable> tables_;
  RawTable table_;
  Place place_ = Place::outside;
  bool saw_sheets_ = false;
  bool is_cache_ = false;           ///< The sheet only keeps what another file held.
  int group_depth_ = 0;             ///< Rows may stand in groups.
  int skipped_depth_ = 0;           ///< Inside an element that says nothing about values.
  int paragraph_depth_ = 0;         ///< Inside a paragraph.
  std::int64_t null_day_ = -25'569; ///< 9.4.2: day 0 of time values, 1899-12-30 [days since 1970-01-01]
  RawRow row_;
  std::int64_t row_repeated_ = 1;
  std::int64_t next_row_ = 1;
  std::int64_t column_ = 0; ///< Cells of the row so far.
  CellFacts facts_;
  ParagraphCollector paragraphs_;
};

void ContentReader::start(std::string_view name, const XmlAttributes& attributes) {
  if (skipped_depth_ > 0) {
    ++skipped_depth_;
    return;
  }
  switch (place_) {
  case Place::outside:
    if (name == "spreadsheet") {
      place_ = Place::sheets;
      saw_sheets_ = true;
    }
    return;
  case Place::sheets:
    start_in_sheets(name, attributes);
    return;
  case Place::sheet:
    if (name == "table-row") {
      start_row(attributes);
      place_ = Place::row;
    } else if (name == "table-row-group" || name == "table-rows" || name == "table-header-rows") {
      ++group_depth_;
    } else {
      skipped_depth_ = 1;
    }
    return;
  case Place::row:
    if (name == "table-cell" || name == "covered-table-cell") {
      start_cell(attributes);
      place_ = Place::cell;
    } else {
      skipped_depth_ = 1;
    }
    return;
  case Place::cell:
    if (name == "p") {
      paragraphs_.begin_paragraph();
      paragraph_depth_ = 0;
      place_ = Place::paragraph;
    } else {
      skipped_depth_ = 1; // annotations, drawings, tables inside the cell
    }
    return;
  case Place::paragraph:
    ++paragraph_depth_;
    paragraphs_.start(name, attributes);
    // Repeated blanks grow where the file does not.
    if (static_cast<std::int64_t>(paragraphs_.joined().size()) > caps_.text_bytes)
      count_cells(used_, 0, paragraphs_.joined().size(), caps_, package_.file, "workbook");
    return;
  }
}

void ContentReader::end(std::string_view name) {
  if (skipped_depth_ > 0) {
    --skipped_depth_;
    return;
  }
  switch (place_) {
  case Place::outside:
    return;
  case Place::sheets:
    if (name == "spreadsheet") place_ = Place::outside;
    return;
  case Place::sheet:
    if (group_depth_ > 0) {
      --group_depth_;
      return;
    }
    if (!is_cache_) tables_.push_back(std::move(table_));
    place_ = Place::sheets;
    return;
  case Place::row:
    end_row();
    place_ = Place::sheet;
    return;
  case Place::cell:
    end_cell();
    place_ = Place::row;
    return;
  case Place::paragraph:
    if (paragraph_depth_ == 0) {
      place_ = Place::cell;
    } else {
      --paragraph_depth_;
      paragraphs_.end();
    }
    return;
  }
}

void ContentReader::text(std::string_view piece) {
  if (skipped_depth_ > 0 || place_ != Place::paragraph) return;
  paragraphs_.text(piece);
}

void ContentReader::start_in_sheets(std::string_view name, const XmlAttributes& attributes) {
  if (name == "calculation-settings") return; // for the null-date inside
  if (name == "null-date") {
    if (const auto value = attributes.find("date-value")) {
      const auto day = read_iso_instant(*value);
      if (!day) refuse("day 0 " + shown(*value));
      null_day_ = day->ms / ms_per_day;
    }
    return;
  }
  if (name != "table") {
    skipped_depth_ = 1;
    return;
  }
  table_ = RawTable{};
  table_.name = attributes.find("name").value_or("");
  is_cache_ = table_.name.starts_with("'file:");
  group_depth_ = 0;
  next_row_ = 1;
  place_ = Place::sheet;
}

std::int64_t ContentReader::repetitions(std::string_view count) const {
  std::int64_t number = 0;
  const auto read = std::from_chars(count.data(), count.data() + count.size(), number);
  if (read.ec != std::errc() || read.ptr != count.data() + count.size() || number < 1 || number > (1LL << 31))
    refuse("repeated " + shown(count) + " times");
  return number;
}

void ContentReader::start_row(const XmlAttributes& attributes) {
  row_ = RawRow{next_row_, {}};
  column_ = 0;
  const auto repeated = attributes.find("number-rows-repeated");
  row_repeated_ = repeated ? repetitions(*repeated) : 1;
}

void ContentReader::start_cell(const XmlAttributes& attributes) {
  facts_.type.clear();
  facts_.value.clear();
  facts_.has_value = false;
  facts_.string_value.reset();
  facts_.has_formula = facts_.is_truth_formula = false;
  facts_.repeated = 1;
  paragraphs_.clear();
  bool own_type = false;
  for (const char* const* at = attributes.names_and_values; *at != nullptr; at += 2) {
    const std::string_view written(at[0]), value(at[1]);
    const std::size_t colon = written.find(':');
    const std::string_view name = colon == std::string_view::npos ? written : written.substr(colon + 1);
    if (name == "value" || name == "date-value" || name == "time-value" || name == "boolean-value") {
      facts_.value = value;
      facts_.has_value = true;
    } else if (name == "value-type") {
      // One program says in an attribute of its own (calcext) what the standard has no word for: an error.
      const bool calculated = written.starts_with("calcext:");
      if (calculated ? value == "error" : !own_type) {
        facts_.type = value;
        own_type = calculated;
      }
    } else if (name == "string-value") {
      facts_.string_value = value;
    } else if (name == "formula") {
      facts_.has_formula = true;
      const std::string_view body = value.substr(value.find('=') == std::string_view::npos ? 0 : value.find('='));
      facts_.is_truth_formula = body == "=TRUE()" || body == "=FALSE()";
    } else if (name == "number-columns-repeated") {
      facts_.repeated = repetitions(value);
    }
  }
}

void ContentReader::end_cell() {
  const std::int64_t first = column_;
  column_ += facts_.repeated;
  if (is_cache_) return;
  const RawCell read = cell();
  if (read.kind == CellKind::blank) return;
  if (column_ > most_columns) refuse("row " + std::to_string(row_.number) + " is too long");
  const auto blank = first - static_cast<std::int64_t>(row_.cells.size());
  count_cells(used_, blank + facts_.repeated, read.text.size() * static_cast<std::size_t>(facts_.repeated), caps_,
              package_.file, "workbook");
  row_.cells.resize(static_cast<std::size_t>(first));
  row_.cells.resize(static_cast<std::size_t>(column_), read);
}

void ContentReader::end_row() {
  const std::int64_t number = row_.number;
  next_row_ = number + row_repeated_;
  if (row_.cells.empty()) return;
  if (next_row_ - 1 > most_rows) refuse("it has more than " + std::to_string(most_rows) + " rows");
  if (row_repeated_ > 1) {
    std::size_t text_bytes = 0;
    for (const RawCell& read : row_.cells) text_bytes += read.text.size();
    count_cells(used_, static_cast<std::int64_t>(row_.cells.size()) * (row_repeated_ - 1),
                text_bytes * static_cast<std::size_t>(row_repeated_ - 1), caps_, package_.file, "workbook");
  }
  for (std::int64_t i = 1; i < row_repeated_; ++i) {
    add_row(table_, row_);
    ++row_.number;
  }
  add_row(table_, std::move(row_));
}

RawCell ContentReader::cell() const {
  const std::string& type = facts_.type;
  if (type.empty() || type == "void") {
    if (facts_.has_formula) return {CellKind::not_calculated, {}, 0};
    return text_cell(paragraphs_.joined()); // a text without a type: 19.385 makes it a string
  }
  if (type == "string") return string_cell();
  if (type == "error") return {CellKind::error, text_cell(paragraphs_.joined()).text, 0};
  if (!facts_.has_value) {
    if (facts_.has_formula) return {CellKind::not_calculated, {}, 0};
    refuse("a cell of type " + shown(type) + " without a value");
  }
  if (type == "float" || type == "currency" || type == "percentage") return number_cell();
  if (type == "date") return date_value_cell();
  if (type == "time") return time_value_cell();
  if (type == "boolean") {
    if (facts_.value == "true") return {CellKind::truth, "TRUE", 1};
    if (facts_.value == "false") return {CellKind::truth, "FALSE", 0};
    refuse("truth value " + shown(facts_.value));
  }
  refuse("cell type " + shown(type));
}

RawCell ContentReader::number_cell() const {
  double number = 0;
  const char* const end = facts_.value.data() + facts_.value.size();
  const auto read = std::from_chars(facts_.value.data(), end, number);
  if (read.ec != std::errc() || read.ptr != end || !std::isfinite(number)) refuse("number " + shown(facts_.value));
  if (facts_.is_truth_formula) return {CellKind::truth, number != 0 ? "TRUE" : "FALSE", number != 0 ? 1.0 : 0.0};
  return {facts_.type == "percentage" ? CellKind::percent : CellKind::number, number_text(number), number};
}

RawCell ContentReader::date_value_cell() const {
  const auto when = read_iso_instant(facts_.value);
  if (!when) return text_cell(facts_.value);
  // A time of day on day 0 has no day.
  const std::int64_t since_day_0 = when->ms - null_day_ * ms_per_day;
  if (since_day_0 >= 0 && since_day_0 < ms_per_day) return duration_cell(since_day_0);
  return date_cell(when->ms);
}

RawCell ContentReader::time_value_cell() const {
  const auto ms = iso_duration_ms(facts_.value);
  if (!ms) refuse("time " + shown(facts_.value));
  // A date of which only the time of day is shown.
  const std::int64_t since_1970 = *ms + null_day_ * ms_per_day;
  return since_1970 >= first_day_of_2000 * ms_per_day ? date_cell(since_1970) : duration_cell(*ms);
}

RawCell ContentReader::string_cell() const {
  return text_cell(facts_.string_value ? std::string_view(*facts_.string_value)
                                       : std::string_view(paragraphs_.joined()));
}

void ContentReader::refuse(const std::string& detail) const {
  const std::string row = place_ == Place::row || place_ == Place::cell || place_ == Place::paragraph
                              ? ", row " + std::to_string(row_.number)
                              : "";
  refuse_damaged(package_.file, "sheet \"" + table_.name + "\"" + row + ": " + detail);
}

} // namespace

std::vector<RawTable> read_content(const Package& package, const ReaderCaps& caps) {
  ContentReader reader(package, caps);
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) { reader.start(name, attributes); };
  events.end = [&](std::string_view name) { reader.end(name); };
  events.text = [&](std::string_view piece) { reader.text(piece); };
  read_xml_part(package, "content.xml", events, caps, caps.unpacked_bytes);
  if (!reader.saw_sheets()) refuse_damaged(package.file, "content.xml holds no sheets");
  return reader.take();
}

} // namespace docket
