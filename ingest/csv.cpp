#include "ingest/csv.h"

#include "core/error.h"
#include "ingest/file_hash.h"
#include "ingest/text_encoding.h"

#include <filesystem>
#include <map>
#include <optional>
#include <utility>

namespace docket {

namespace {

[[noreturn]] void refuse(const std::string& file, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, file, what, remedy);
}

/// What keeps the text from being split to its end.
struct Problem {
  std::string what;
  std::string remedy;
};

/// Walks over text, one record after the other, and keeps count of its lines.
struct Walk {
  std::string_view text;
  char separator = ',';
  std::size_t at = 0;
  std::int64_t line = 1;

  bool at_end() const { return at >= text.size(); }
  bool at_line_end() const { return at_end() || text[at] == '\n' || text[at] == '\r'; }
  bool at_separator() const { return !at_end() && text[at] == separator; }

  void pass_line_end() {
    if (at_end()) return;
    at += text.substr(at, 2) == "\r\n" ? 2U : 1U;
    ++line;
  }

  void pass_spaces() {
    while (!at_end() && text[at] == ' ') ++at;
  }
};

/// The text between quotation marks; `walk` stands behind the opening one.
std::optional<Problem> read_quoted(Walk& walk, std::string& field) {
  const std::string opened_in = std::to_string(walk.line);
  for (;;) {
    if (walk.at_end()) {
      return Problem{"The quotation mark opened in line " + opened_in + " is never closed.",
                     "Close it, or double a quotation mark that belongs to the text."};
    }
    if (walk.at_line_end()) {
      field += '\n';
      walk.pass_line_end();
    } else if (walk.text[walk.at] != '"') {
      field += walk.text[walk.at++];
    } else if (walk.text.substr(walk.at, 2) == "\"\"") {
      field += '"';
      walk.at += 2;
    } else {
      ++walk.at;
      break;
    }
  }
  walk.pass_spaces();
  if (walk.at_line_end() || walk.at_separator()) return std::nullopt;
  return Problem{"In line " + std::to_string(walk.line) + " text follows a closing quotation mark.",
                 "Double a quotation mark that belongs to the text."};
}

std::optional<Problem> read_record(Walk& walk, std::vector<std::string>& fields) {
  fields.clear();
  for (;;) {
    std::string field;
    const std::size_t start = walk.at;
    walk.pass_spaces();
    if (!walk.at_end() && walk.text[walk.at] == '"') {
      ++walk.at;
      if (auto problem = read_quoted(walk, field)) return problem;
    } else {
      while (!walk.at_line_end() && !walk.at_separator()) ++walk.at;
      field = walk.text.substr(start, walk.at - start);
    }
    fields.push_back(std::move(field));
    if (!walk.at_separator()) break;
    ++walk.at;
  }
  walk.pass_line_end();
  return std::nullopt;
}

/// The separator that divides most of the first records into the same number of fields; at a tie the one that makes
/// more fields. A decimal comma or a list in a cell divides some records, but hardly ever the header too.
char find_separator(std::string_view text) {
  constexpr std::size_t records_looked_at = 50;
  char best = ',';
  std::pair<std::size_t, std::size_t> best_score{0, 0};
  for (const char separator : {'\t', ';', ','}) {
    std::map<std::size_t, std::size_t> records_of_length;
    Walk walk{text, separator};
    std::vector<std::string> fields;
    for (std::size_t seen = 0; seen < records_looked_at && !walk.at_end(); ++seen) {
      if (read_record(walk, fields)) break;
      if (fields.size() > 1) ++records_of_length[fields.size()];
    }
    for (const auto& [length, records] : records_of_length) {
      if (const std::pair score{records, length}; score > best_score) {
        best_score = score;
        best = separator;
      }
    }
  }
  return best;
}

/// What a first line `sep=;` says, and takes the line away.
std::optional<char> take_stated_separator(Walk& walk) {
  const std::string_view start = walk.text.substr(0, 5);
  if (!(start.starts_with("sep=") || start.starts_with("SEP=")) || start.size() < 5) return std::nullopt;
  const char separator = start[4];
  if (separator != ',' && separator != ';' && separator != '\t') return std::nullopt;
  Walk behind = walk;
  behind.at = 5;
  if (!behind.at_line_end()) return std::nullopt;
  behind.pass_line_end();
  walk = behind;
  return separator;
}

std::string as_utf8(std::string_view text, const std::string& file) {
  const std::string remedy = "Open it in a spreadsheet program and save it as CSV UTF-8.";
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    auto converted = utf8_from_utf16(text.substr(2), text.front() == '\xFE');
    if (!converted) refuse(file, "The text is marked as UTF-16, but is not.", remedy);
    return *std::move(converted);
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  if (const auto bad = find_invalid_utf8(text)) {
    Walk walk{text.substr(0, *bad)};
    while (!walk.at_end()) {
      if (walk.at_line_end())
        walk.pass_line_end();
      else
        ++walk.at;
    }
    refuse(file, "The text in line " + std::to_string(walk.line) + " is not UTF-8.", remedy);
  }
  return std::string(text);
}

} // namespace

RawTable parse_csv(std::string_view text, const std::string& file) {
  const std::string utf8 = as_utf8(text, file);
  // UTF-16 without its mark is valid UTF-8 full of zeros.
  if (utf8.find('\0') != std::string::npos) {
    refuse(file, "This is not CSV text: zero bytes are in it.",
           "Open it in a spreadsheet program and save it as CSV UTF-8.");
  }
  RawTable table;
  table.name = std::filesystem::path(file).stem().string();
  Walk walk{utf8};
  const auto stated = take_stated_separator(walk);
  walk.separator = stated ? *stated : find_separator(utf8);
  table.decimal_comma_possible = walk.separator != ',';
  std::vector<std::string> fields;
  while (!walk.at_end()) {
    RawRow row{walk.line, {}};
    if (const auto problem = read_record(walk, fields)) refuse(file, problem->what, problem->remedy);
    row.cells.reserve(fields.size());
    for (const auto& field : fields) row.cells.push_back(text_cell(field));
    add_row(table, std::move(row));
  }
  return table;
}

RawFile read_csv_file(const std::string& path) {
  const std::string bytes = read_file_bytes(path);
  RawFile result{name_without_folder(path), sha256_of(bytes), {}};
  if (bytes.starts_with("PK\x03\x04")) {
    refuse(result.file, "This is not CSV text but a workbook or a zip file.",
           "Give a workbook the ending .xlsx, or save the sheet as CSV UTF-8.");
  }
  result.tables.push_back(parse_csv(bytes, result.file));
  return result;
}

} // namespace docket
