#include "ingest/reading/cell_values.h"

#include "ingest/reading/cell_dates.h"
#include "ingest/reading/cell_numbers.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace docket {

namespace {

using Found = std::optional<Defect>;

Defect fault(std::string code, std::string wrong, std::string right) {
  return {IssueGrade::fault, std::move(code), std::move(wrong), std::move(right)};
}

std::string quoted(std::string_view text) { return "\"" + std::string(text) + "\""; }

/// Texts a spreadsheet program leaves in a CSV file in place of a value.
bool is_error_text(std::string_view text) {
  constexpr std::array<std::string_view, 8> errors{"#REF!",  "#N/A",  "#DIV/0!", "#VALUE!",
                                                   "#NAME?", "#NUM!", "#NULL!",  "#SPILL!"};
  return std::find(errors.begin(), errors.end(), text) != errors.end();
}

Found check_range(const ColumnDeclaration& column, double number, std::string_view raw) {
  const bool below = column.least && (column.least_excluded ? number <= *column.least : number < *column.least);
  const bool above = column.most && number > *column.most;
  if (below || above) {
    std::string expected;
    if (column.least && column.most && !(column.least_excluded && *column.least == 0 && *column.most >= 1000))
      expected = (column.least_excluded ? "above " + short_number(*column.least) + " and up to "
                                        : short_number(*column.least) + " to ") +
                 short_number(*column.most);
    else if (column.least)
      expected = (column.least_excluded ? "above " : "at least ") + short_number(*column.least);
    else
      expected = "at most " + short_number(*column.most);
    std::string right = "The value should be " + expected + ".";
    if (column.kind == ColumnKind::percent && number > 0 && number <= 2 && column.least.value_or(0) > 2)
      right += " Percent is expected: " + short_number(number * 100) + ", not " + short_number(number) + ".";
    if (column.kind == ColumnKind::seconds && above)
      right = "The time should be at most one day, in the unit of the header.";
    return fault("out_of_range", quoted(raw) + (below ? " is too small here." : " is too large here."), right);
  }
  if ((column.usual_least && number < *column.usual_least) || (column.usual_most && number > *column.usual_most)) {
    std::string right = "Please check it.";
    if (column.kind == ColumnKind::percent && number <= 2)
      right =
          "Please check it. Percent is expected: " + short_number(number * 100) + ", not " + short_number(number) + ".";
    return Defect{IssueGrade::question, "unusual_value", quoted(raw) + " is unusual here.", right};
  }
  return std::nullopt;
}

/// Names neither stay in the value nor stand in the message: both are printed and kept.
Defect refuse_name(std::string_view text, CellValue& value) {
  const bool number = std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  value.text.clear();
  value.list.clear();
  return fault(
      "operator_not_a_code",
      number ? "What stands here looks like a personnel number; a number points at a person."
             : "What stands here looks like a name; names never enter.",
      "Use a code: letters, then digits, at most 6 characters, for example A1 or OP-12; or give a list of names "
      "and codes with --codes FILE.csv.");
}

Found read_number(const RawCell& cell, const ColumnInFile& in_file, CellValue& value) {
  const ColumnDeclaration& column = *in_file.column;
  const bool percent = column.kind == ColumnKind::percent;
  switch (cell.kind) {
  case CellKind::number:
    value.number = cell.number;
    break;
  case CellKind::percent:
    if (!percent)
      return fault("percent_not_expected", "The cell is formatted as a percentage.",
                   "A plain number is expected; take the percent format off the cell and check the value.");
    // A stored 0.804 is the nearest binary fraction to 80.4 %; times 100 it would carry the last digit's error along.
    value.number = std::round(cell.number * 1e14) / 1e12;
    break;
  case CellKind::text: {
    const NumberText number = parse_number(cell.text, in_file.decimal_comma, percent, column.kind == ColumnKind::count);
    if (number.outcome == NumberText::Outcome::ambiguous)
      return fault(
          "number_ambiguous",
          quoted(cell.text) + " can be read in two ways: a comma or point may be a decimal mark or divide thousands.",
          "Write the number without dividing thousands, and with a point as decimal mark, for example 1234.5.");
    if (number.outcome == NumberText::Outcome::none) {
      std::string right = "Write the number alone, without a unit or a word.";
      if (column.kind == ColumnKind::seconds)
        right = "Write a time as a number alone, in the unit of the header, for example 12.5.";
      return fault("not_a_number", quoted(cell.text) + " is not a number.", right);
    }
    value.number = number.value;
    break;
  }
  case CellKind::date:
    return fault("not_a_number", "The cell holds a date, and a number is expected.",
                 "Format the cell as a number and write the value again.");
  case CellKind::duration:
    return fault("not_a_number", "The cell is formatted as a time of day, and a number is expected.",
                 "Format the cell as a number and write the value again.");
  default:
    return fault("not_a_number", quoted(cell.text) + " is not a number.", "Write the number alone.");
  }
  if (!std::isfinite(value.number))
    return fault("not_a_number", quoted(cell.text) + " is not a number.", "Write the number alone.");
  return std::nullopt;
}

Found read_seconds(const RawCell& cell, const ColumnInFile& in_file, CellValue& value) {
  constexpr double seconds_in_a_day = 86400;
  if (cell.kind == CellKind::duration) {
    // A time-formatted cell holds days; to the microsecond, so that 55 s typed as 0:00:55 is 55 and not its neighbour.
    value.number = std::round(cell.number * seconds_in_a_day * 1e6) / 1e6;
  } else if (cell.kind == CellKind::text && std::count(cell.text.begin(), cell.text.end(), ':') == 2) {
    const auto time = parse_time_of_day(cell.text);
    if (!time)
      return fault("not_a_number", quoted(cell.text) + " is not a time.",
                   "Write a time as a number in the unit of the header, for example 12.5, or as h:mm:ss.");
    value.number = Seconds(*time).count();
  } else if (cell.kind == CellKind::text && std::count(cell.text.begin(), cell.text.end(), ':') == 1) {
    return fault("time_ambiguous", quoted(cell.text) + " can be minutes and seconds, or hours and minutes.",
                 "Write a time as a number in the unit of the header, for example 68.4, or as h:mm:ss.");
  } else {
    if (Found defect = read_number(cell, in_file, value)) return defect;
    if (in_file.unit != TimeUnit::seconds) value.number *= seconds_in(in_file.unit);
  }
  return std::nullopt;
}

Found read_count(const RawCell& cell, const ColumnInFile& in_file, CellValue& value) {
  if (Found defect = read_number(cell, in_file, value)) return defect;
  if (value.number != std::floor(value.number) || std::abs(value.number) > 1e15)
    return fault("not_a_whole_number", quoted(value.text) + " is not a whole number.",
                 "Write a whole number, for example 12.");
  if (value.number < 0)
    return fault("out_of_range", quoted(value.text) + " is below 0.", "Write a whole number, 0 or more.");
  value.whole = static_cast<std::int64_t>(value.number);
  return std::nullopt;
}

Found check_year(const CellValue& value) {
  const std::chrono::year_month_day date{day_of(value.at)};
  const int year = static_cast<int>(date.year());
  if (year >= 1990 && year <= 2100) return std::nullopt;
  return fault("date_unlikely", quoted(value.text) + " lies in the year " + std::to_string(year) + ".",
               "Check the year; a day between 1990 and 2100 is expected.");
}

Found not_a_date(const CellValue& value, std::string_view example) {
  const bool dated = looks_like_a_date(value.text);
  const bool in_an_order = parse_day_in_order(value.text, DateOrder::day_month_year) ||
                           parse_day_in_order(value.text, DateOrder::month_day_year);
  return fault(
      "not_a_date",
      quoted(value.text) +
          (dated ? " is a date that can be read in more than one way, or is none." : " is not a date."),
      "Write it as " + std::string(example) +
          (in_an_order ? ", or say with --dates dmy or --dates mdy in which order day and month stand." : "."));
}

Found read_day(const RawCell& cell, std::string_view example, CellValue& value) {
  if (cell.kind == CellKind::date) {
    if (!(std::abs(cell.number) < 1e6)) return not_a_date(value, example);
    const DayAndTime when = from_days(cell.number);
    value.at = when.at;
    value.day_only = when.day_only;
    return check_year(value);
  }
  if (cell.kind == CellKind::text) {
    if (const auto when = parse_day_and_time(cell.text)) {
      value.at = when->at;
      value.day_only = when->day_only;
      return check_year(value);
    }
    if (cell.text.size() > 11 && parse_day_and_time(std::string_view(cell.text).substr(0, 10)) &&
        (cell.text.ends_with('Z') || cell.text.find_last_of('+') != std::string::npos))
      return fault("time_zone", quoted(cell.text) + " carries a time zone.",
                   "Write the plant's own clock without a zone, as " + std::string(example) + ".");
  }
  if (cell.kind == CellKind::number)
    return fault("not_a_date", quoted(value.text) + " is a number and not a date.",
                 "Format the cell as a date, or write it as " + std::string(example) + ".");
  return not_a_date(value, example);
}

Found read_time_of_day(const RawCell& cell, CellValue& value) {
  if (cell.kind == CellKind::duration && cell.number >= 0 && cell.number <= 1) {
    value.time = std::chrono::milliseconds(static_cast<std::int64_t>(std::round(cell.number * 86'400'000.0)));
    return std::nullopt;
  }
  if (cell.kind == CellKind::text) {
    if (const auto time = parse_time_of_day(cell.text)) {
      value.time = *time;
      return std::nullopt;
    }
  }
  return fault("not_a_time_of_day", quoted(value.text) + " is not a time of day.", "Write it as 14:30.");
}

Found read_choice(const RawCell& cell, const ColumnDeclaration& column, CellValue& value) {
  std::string_view text = value.text;
  if (cell.kind == CellKind::truth) text = cell.number != 0 ? "yes" : "no";
  for (std::size_t i = 0; i < column.words.size(); ++i) {
    if (column.words[i] == text) {
      value.whole = static_cast<std::int64_t>(i);
      return std::nullopt;
    }
  }
  const std::string word = plain_word(text);
  for (std::size_t i = 0; i < column.words.size(); ++i) {
    if (plain_word(column.words[i]) == word) {
      value.whole = static_cast<std::int64_t>(i);
      return std::nullopt;
    }
  }
  return fault("not_a_choice", quoted(value.text) + " is not one of the words that may stand here.",
               "Write " + words_text(column.words) + ".");
}

Found read_marks(CellValue& value) {
  for (const std::string& part : split_list(value.text)) {
    const std::string word = plain_word(part);
    const auto use = std::find_if(mark_uses.begin(), mark_uses.end(),
                                  [&](const MarkUse& u) { return u.name == part || plain_word(u.name) == word; });
    if (use == mark_uses.end()) {
      std::vector<std::string_view> words;
      for (const MarkUse& u : mark_uses) words.push_back(u.name);
      std::string right = "Leave it blank for a plain cycle, or write " + words_text(words) + "; several divided by ;.";
      if (const auto nearest = nearest_word(part, words))
        right = "Did you mean " + std::string(*nearest) + "? " + right;
      return fault("not_a_mark", quoted(part) + " is not a mark.", right);
    }
    value.marks.set(use->mark);
  }
  return std::nullopt;
}

Found read_codes(const ColumnDeclaration& column, CellValue& value) {
  const std::string small = small_letters(value.text);
  if (std::find(column.words.begin(), column.words.end(), small) != column.words.end()) {
    value.text = small;
    return std::nullopt;
  }
  value.list = split_list(value.text);
  for (const std::string& code : value.list)
    if (!is_operator_code(code)) return refuse_name(std::string(code), value);
  return std::nullopt;
}

Found read_kind(const RawCell& cell, const ColumnInFile& in_file, CellValue& value) {
  const ColumnDeclaration& column = *in_file.column;
  constexpr std::string_view day_example = "2026-11-03";
  constexpr std::string_view instant_example = "2026-11-03 14:30:00";
  Found defect;
  switch (column.kind) {
  case ColumnKind::text:
  case ColumnKind::name:
    return std::nullopt;
  case ColumnKind::names:
    value.list = split_list(value.text);
    return std::nullopt;
  case ColumnKind::code:
    if (!is_operator_code(value.text)) return refuse_name(std::string(value.text), value);
    return std::nullopt;
  case ColumnKind::codes:
    return read_codes(column, value);
  case ColumnKind::seconds:
    defect = read_seconds(cell, in_file, value);
    break;
  case ColumnKind::percent:
  case ColumnKind::number:
    defect = read_number(cell, in_file, value);
    break;
  case ColumnKind::count:
    defect = read_count(cell, in_file, value);
    break;
  case ColumnKind::date:
    defect = read_day(cell, day_example, value);
    if (!defect) value.at = day_of(value.at);
    return defect;
  case ColumnKind::instant:
    return read_day(cell, instant_example, value);
  case ColumnKind::time_of_day:
    return read_time_of_day(cell, value);
  case ColumnKind::time_on_day:
    if (!read_time_of_day(cell, value)) {
      value.time_only = true;
      return std::nullopt;
    }
    defect = read_day(cell, instant_example, value);
    if (!defect && value.day_only)
      defect = fault("time_of_day_missing", quoted(value.text) + " has no time of day.", "Write it as 14:30.");
    else if (defect && defect->code == "not_a_date")
      return fault("not_a_time_of_day", quoted(value.text) + " is not a time of day.", "Write it as 14:30.");
    return defect;
  case ColumnKind::choice:
    return read_choice(cell, column, value);
  case ColumnKind::marks:
    return read_marks(value);
  }
  if (defect) return defect;
  return check_range(column, value.number, value.text);
}

} // namespace

bool is_operator_code(std::string_view text) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (text.size() > 6) return false;
  std::size_t at = 0;
  while (at < text.size() && letter(text[at])) ++at;
  const bool letters = at > 0;
  if (letters && at < text.size() && text[at] == '-') ++at;
  const std::size_t first_digit = at;
  while (at < text.size() && digit(text[at])) ++at;
  return letters && at > first_digit && at == text.size();
}

double seconds_in(TimeUnit unit) {
  switch (unit) {
  case TimeUnit::seconds:
    return 1;
  case TimeUnit::minutes:
    return 60;
  case TimeUnit::hundredths_of_a_minute:
    return 0.6;
  case TimeUnit::tmu:
    return 0.036;
  }
  return 1;
}

std::optional<TimeUnit> match_header(std::string_view header, const ColumnDeclaration& column) {
  const std::string word = plain_word(header);
  if (word == plain_word(column.name)) return TimeUnit::seconds;
  if (column.kind != ColumnKind::seconds || !column.name.ends_with("_s")) return std::nullopt;
  const std::string stem = plain_word(column.name.substr(0, column.name.size() - 2));
  if (word == stem + "min") return TimeUnit::minutes;
  if (word == stem + "cmin") return TimeUnit::hundredths_of_a_minute;
  if (word == stem + "tmu") return TimeUnit::tmu;
  return std::nullopt;
}

std::optional<Defect> read_cell(const RawCell& cell, const ColumnInFile& in_file, CellValue& value) {
  value.given = false;
  value.from_text = cell.kind == CellKind::text;
  value.text.clear();
  value.list.clear();
  value.number = 0;
  value.whole = 0;
  value.at = {};
  value.day_only = value.time_only = false;
  value.time = {};
  value.marks = {};
  switch (cell.kind) {
  case CellKind::blank:
    return std::nullopt;
  case CellKind::not_calculated:
    value.given = true;
    return fault("not_calculated", "The cell holds a formula without a stored result.",
                 "Open the file in a spreadsheet program and save it.");
  case CellKind::error:
    value.given = true;
    value.text = cell.text;
    return fault("formula_error", "The formula in the cell gives an error.",
                 "Mend the formula, or write the value itself.");
  default:
    break;
  }
  if (cell.kind == CellKind::date)
    value.text = date_text(from_days(std::abs(cell.number) < 1e6 ? cell.number : 0));
  else
    value.text = trimmed(cell.text);
  if (cell.kind == CellKind::text && value.text.empty()) return std::nullopt;
  if (value.text.empty()) value.text = short_number(cell.number);
  value.given = true;
  if (cell.kind == CellKind::text && is_error_text(value.text))
    return fault("formula_error", "The formula behind this cell gave an error.",
                 "Mend the formula, or write the value itself.");
  return read_kind(cell, in_file, value);
}

} // namespace docket
