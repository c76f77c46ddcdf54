#include "ingest/reading/code_list.h"

#include "core/error.h"
#include "ingest/csv.h"
#include "ingest/reading/cell_values.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <optional>

namespace docket {

namespace {

constexpr std::size_t shortest_name_in_text = 4; ///< [letters] Shorter ones stand in ordinary words too often.

[[noreturn]] void refuse(const std::string& file, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, file, what, remedy);
}

std::string_view text_at(const RawRow& row, std::size_t place) {
  return place < row.cells.size() ? std::string_view(row.cells[place].text) : std::string_view();
}

std::string rows_text(const std::vector<std::int64_t>& rows) {
  constexpr std::size_t most = 10;
  std::string text = rows.size() == 1 ? "row " : "rows ";
  for (std::size_t i = 0; i < std::min(rows.size(), most); ++i) text += (i > 0 ? ", " : "") + std::to_string(rows[i]);
  return text + (rows.size() > most ? " and others" : "");
}

bool is_word_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

} // namespace

CodeList read_code_list(const RawFile& file) {
  constexpr const char* example =
      "It needs a first row with name,code and then one row a person, for example a name and A1.";
  if (file.tables.empty() || file.tables.front().rows.empty())
    refuse(file.file, "The list of codes is empty.", example);
  const RawTable& table = file.tables.front();
  std::optional<std::size_t> name_at, code_at;
  const RawRow& header = table.rows.front();
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    const std::string word = plain_word(header.cells[i].text);
    if (word == "name") name_at = i;
    if (word == "code") code_at = i;
  }
  if (!name_at || !code_at)
    refuse(file.file, std::string("The list of codes has no column ") + (name_at ? "code" : "name") + ".", example);

  CodeList list;
  std::vector<std::int64_t> half, no_code, two_codes;
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    const RawRow& row = table.rows[i];
    const std::string_view name = trimmed(text_at(row, *name_at)), code = trimmed(text_at(row, *code_at));
    if (text_at(row, 0).starts_with('#')) continue;
    const std::string word = plain_word(name);
    if (word.empty() || code.empty()) {
      half.push_back(row.number);
      continue;
    }
    if (!is_operator_code(code)) {
      no_code.push_back(row.number);
      continue;
    }
    const auto [place, added] = list.codes.emplace(word, code);
    if (!added && small_letters(place->second) != small_letters(code)) two_codes.push_back(row.number);
    if (added) list.names.push_back(small_letters(name));
  }
  if (!half.empty())
    refuse(file.file, "A name or a code is missing in " + rows_text(half) + ".", "Fill in both, or delete the row.");
  if (!no_code.empty())
    refuse(file.file, "What stands in the column code is no code, in " + rows_text(no_code) + ".",
           "Use a code: letters, then digits, at most 6 characters, for example A1 or OP-12.");
  if (!two_codes.empty())
    refuse(file.file, "A name has got another code before, in " + rows_text(two_codes) + ".",
           "Each name has one code. Case, accents and blanks do not make it another name.");
  return list;
}

CodeList read_code_list(const std::string& path) { return read_code_list(read_csv_file(path)); }

std::string recoded(const CodeList& list, std::string_view text) {
  // A list of names may be one name with a `;` in it no more than a code may.
  std::string joined;
  for (const std::string& part : split_list(text)) {
    const auto found = is_operator_code(part) ? list.codes.end() : list.codes.find(plain_word(part));
    joined += (joined.empty() ? "" : ";") + (found == list.codes.end() ? part : found->second);
  }
  return joined;
}

bool holds_name(const CodeList& list, std::string_view text) {
  const std::string small = small_letters(text);
  return std::any_of(list.names.begin(), list.names.end(), [&](const std::string& name) {
    if (name.size() < shortest_name_in_text) return false;
    for (std::size_t at = small.find(name); at != std::string::npos; at = small.find(name, at + 1)) {
      const std::size_t end = at + name.size();
      if ((at == 0 || !is_word_letter(small[at - 1])) && (end == small.size() || !is_word_letter(small[end])))
        return true;
    }
    return false;
  });
}

} // namespace docket
