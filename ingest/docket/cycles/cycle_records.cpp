#include "ingest/docket/cycles/cycle_records.h"

#include <map>
#include <utility>

namespace docket {

namespace {

bool is_line_end(char c) { return c == '\n' || c == '\r'; }

struct Walk {
  std::string_view text;
  char separator;
  RecordPlace place;

  bool at_end() const { return place.at >= text.size(); }
  char here() const { return text[place.at]; }
  bool at_cell_end() const { return at_end() || is_line_end(here()) || here() == separator; }

  void pass_line_end() {
    if (at_end()) return;
    place.at += text.substr(place.at, 2) == "\r\n" ? 2U : 1U;
    ++place.line;
  }

  void pass_spaces() {
    while (!at_end() && here() == ' ') ++place.at;
  }

  /// Stands behind the opening quotation mark.
  std::optional<RecordProblem> pass_quoted() {
    const std::string opened_in = std::to_string(place.line);
    for (;; ++place.at) {
      // A line end takes one or two bytes; pass_line_end stops behind it.
      while (!at_end() && is_line_end(here())) pass_line_end();
      if (at_end())
        return RecordProblem{"The quotation mark opened in line " + opened_in + " is never closed.",
                             "Close it, or double a quotation mark that belongs to the text."};
      if (here() != '"') continue;
      if (text.substr(place.at, 2) != "\"\"") break;
      ++place.at;
    }
    ++place.at;
    pass_spaces();
    if (at_cell_end()) return std::nullopt;
    return RecordProblem{"In line " + std::to_string(place.line) + " text follows a closing quotation mark.",
                         "Double a quotation mark that belongs to the text."};
  }
};

} // namespace

std::optional<RecordProblem> pass_record(std::string_view text, char separator, RecordPlace& place,
                                         std::size_t& cells) {
  Walk walk{text, separator, place};
  cells = 0;
  for (;;) {
    ++cells;
    walk.pass_spaces();
    if (!walk.at_end() && walk.here() == '"') {
      ++walk.place.at;
      if (auto problem = walk.pass_quoted()) return problem;
    } else {
      while (!walk.at_cell_end()) ++walk.place.at;
    }
    if (walk.at_end() || walk.here() != separator) break;
    ++walk.place.at;
  }
  walk.pass_line_end();
  place = walk.place;
  return std::nullopt;
}

SeparatorFound find_separator(std::string_view text) {
  constexpr std::size_t records_looked_at = 50;
  const std::string_view start = text.substr(0, 5);
  if ((start.starts_with("sep=") || start.starts_with("SEP=")) && start.size() == 5 &&
      std::string_view(",;\t").find(start[4]) != std::string_view::npos && (text.size() == 5 || is_line_end(text[5]))) {
    Walk walk{text, start[4], {5, 1}};
    walk.pass_line_end();
    return {start[4], walk.place};
  }
  // The separator that divides most records into the same number of cells; at a tie the one that makes more cells.
  SeparatorFound found;
  std::pair<std::size_t, std::size_t> best{0, 0};
  for (const char separator : {'\t', ';', ','}) {
    std::map<std::size_t, std::size_t> records_of_length;
    RecordPlace place;
    for (std::size_t seen = 0; seen < records_looked_at && place.at < text.size(); ++seen) {
      std::size_t cells = 0;
      if (pass_record(text, separator, place, cells)) break;
      if (cells > 1) ++records_of_length[cells];
    }
    for (const auto& [length, records] : records_of_length) {
      if (const std::pair score{records, length}; score > best) {
        best = score;
        found.separator = separator;
      }
    }
  }
  return found;
}

} // namespace docket
