#include "report/cli/reading_line.h"

#include "core/error.h"
#include "ingest/reading/word_match.h"
#include "ingest/tables.h"

#include <string>
#include <vector>

namespace docket {
namespace {

/// The value of an option that needs one; null where it is not given.
const std::string* find_value(const CommandLine& line, std::string_view command, std::string_view option) {
  const auto given = line.options.find(option);
  if (given == line.options.end()) return nullptr;
  if (given->second.empty())
    throw Error(ErrorKind::wrong_usage, std::string(command), "--" + std::string(option) + " is empty.",
                "See: " + std::string(command) + " --help");
  return &given->second;
}

TableName read_table(std::string_view command, const std::string& written) {
  if (const auto table = find_table(written)) return *table;
  std::vector<std::string_view> names;
  for (const TableDeclaration& table : all_tables()) names.push_back(name_of(table.table));
  const auto nearest = nearest_word(written, names);
  throw Error(ErrorKind::wrong_usage, std::string(command), "--as: there is no table \"" + written + "\".",
              nearest ? "Did you mean " + std::string(*nearest) + "?"
                      : "The tables are listed by: docket template --tables");
}

DateOrder read_order(std::string_view command, const std::string& written) {
  const std::string word = small_letters(written);
  if (word == "dmy") return DateOrder::day_month_year;
  if (word == "mdy") return DateOrder::month_day_year;
  throw Error(ErrorKind::wrong_usage, std::string(command), "--dates \"" + written + "\" can't be followed.",
              "Give dmy (3/11/2026 is 3 November) or mdy (it is 11 March). 2026-11-03 is read without it.");
}

} // namespace

ReadingOptions read_reading_options(const CommandLine& line, std::string_view command) {
  ReadingOptions options;
  if (const std::string* as = find_value(line, command, "as")) options.as = read_table(command, *as);
  if (const std::string* sheet = find_value(line, command, "sheet")) options.sheet = *sheet;
  if (const std::string* dates = find_value(line, command, "dates")) options.dates = read_order(command, *dates);
  if (const std::string* codes = find_value(line, command, "codes")) options.codes_file = *codes;
  options.set_aside = line.has("set-aside");
  return options;
}

bool has_reading_options(const ReadingOptions& options) {
  return options.as || !options.sheet.empty() || options.dates != DateOrder::iso_only || !options.codes_file.empty() ||
         options.set_aside;
}

} // namespace docket
