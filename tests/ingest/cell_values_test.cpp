// Units: 1 TMU = 0.00001 h = 0.036 s, 1 cmin = 0.01 min = 0.6 s (definitions; common practice).
// Dates: ISO 8601-1:2019. 1970-01-01 to 2026-11-03 is 20,760 days (56 years of 365, 14 leap days, 306 days into 2026).
#include "ingest/reading/cell_dates.h"
#include "ingest/reading/cell_numbers.h"
#include "ingest/reading/cell_values.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace docket {
namespace {

using std::chrono::day;
using std::chrono::month;
using std::chrono::year;

constexpr double days_to_2026_11_03 = 20760;

ColumnDeclaration of_kind(ColumnKind kind) {
  ColumnDeclaration column;
  column.name = "time_s";
  column.kind = kind;
  return column;
}

struct Read {
  CellValue value;
  std::string code; ///< empty: no defect
  std::string wrong, right;
};

Read read(const ColumnDeclaration& column, const RawCell& cell, TimeUnit unit = TimeUnit::seconds, bool comma = false) {
  Read result;
  if (const auto defect = read_cell(cell, {&column, unit, comma}, result.value)) {
    result.code = defect->code;
    result.wrong = defect->wrong;
    result.right = defect->right;
  }
  return result;
}

Read read(ColumnKind kind, const RawCell& cell, TimeUnit unit = TimeUnit::seconds, bool comma = false) {
  return read(of_kind(kind), cell, unit, comma);
}

RawCell text(std::string written) { return {CellKind::text, std::move(written), 0}; }

RawCell value(CellKind kind, double number) { return {kind, "", number}; }

TEST(CellValues, BlankIsNeitherValueNorDefect) {
  for (const ColumnKind kind : {ColumnKind::text, ColumnKind::seconds, ColumnKind::date, ColumnKind::choice}) {
    EXPECT_FALSE(read(kind, {}).value.given);
    EXPECT_EQ(read(kind, {}).code, "");
  }
}

struct NumberCase {
  std::string written;
  bool comma;
  NumberText::Outcome outcome;
  double number;
};
void PrintTo(const NumberCase& c, std::ostream* out) { *out << '"' << c.written << "\" comma " << c.comma; }

class Numbers : public testing::TestWithParam<NumberCase> {};

TEST_P(Numbers, AreReadAsWritten) {
  const NumberCase& c = GetParam();
  const NumberText number = parse_number(c.written, c.comma, false);
  EXPECT_EQ(number.outcome, c.outcome);
  EXPECT_EQ(number.value, c.number);
}

INSTANTIATE_TEST_SUITE_P(Written, Numbers,
                         testing::Values(NumberCase{"12.5", false, NumberText::Outcome::read, 12.5},
                                         NumberCase{" 12.5\u00a0", false, NumberText::Outcome::read, 12.5},
                                         NumberCase{"+3", false, NumberText::Outcome::read, 3},
                                         NumberCase{"-3", false, NumberText::Outcome::read, -3},
                                         NumberCase{"1e3", false, NumberText::Outcome::read, 1000},
                                         NumberCase{"12,5", true, NumberText::Outcome::read, 12.5},
                                         NumberCase{"12,5", false, NumberText::Outcome::read, 12.5},
                                         NumberCase{"1,234", true, NumberText::Outcome::read, 1.234},
                                         NumberCase{"0,234", false, NumberText::Outcome::read, 0.234},
                                         NumberCase{"1,234", false, NumberText::Outcome::ambiguous, 0},
                                         NumberCase{"1.234,5", true, NumberText::Outcome::ambiguous, 0},
                                         NumberCase{"1,2,3", true, NumberText::Outcome::ambiguous, 0},
                                         NumberCase{"nan", false, NumberText::Outcome::none, 0},
                                         NumberCase{"inf", false, NumberText::Outcome::none, 0},
                                         NumberCase{"-infinity", false, NumberText::Outcome::none, 0},
                                         NumberCase{"1e999", false, NumberText::Outcome::none, 0},
                                         NumberCase{"12 s", false, NumberText::Outcome::none, 0},
                                         NumberCase{"0x10", false, NumberText::Outcome::none, 0},
                                         NumberCase{"twelve", false, NumberText::Outcome::none, 0},
                                         NumberCase{"", false, NumberText::Outcome::none, 0}));

TEST(CellValues, NumbersStoredAsTextAreNumbers) {
  EXPECT_EQ(read(ColumnKind::number, text("12.5")).value.number, 12.5);
  EXPECT_EQ(read(ColumnKind::number, value(CellKind::number, 12.5)).value.number, 12.5);
}

TEST(CellValues, TextInANumberCell) {
  const Read r = read(ColumnKind::seconds, text("about 12"));
  EXPECT_EQ(r.code, "not_a_number");
  EXPECT_EQ(r.wrong, "\"about 12\" is not a number.");
  EXPECT_EQ(r.right, "Write a time as a number alone, in the unit of the header, for example 12.5.");
}

TEST(CellValues, ACommaThatCouldDivideThousandsIsAsked) {
  EXPECT_EQ(read(ColumnKind::number, text("1,234")).code, "number_ambiguous");
}

TEST(CellValues, NotFiniteIsNoNumber) {
  EXPECT_EQ(read(ColumnKind::number, value(CellKind::number, std::nan(""))).code, "not_a_number");
  EXPECT_EQ(read(ColumnKind::number, value(CellKind::number, INFINITY)).code, "not_a_number");
}

TEST(CellValues, FormulasWithoutResultAndWithError) {
  const Read open = read(ColumnKind::number, {CellKind::not_calculated, "", 0});
  EXPECT_EQ(open.code, "not_calculated");
  EXPECT_EQ(open.right, "Open the file in a spreadsheet program and save it.");
  EXPECT_EQ(read(ColumnKind::text, {CellKind::error, "#DIV/0!", 0}).code, "formula_error");
  EXPECT_EQ(read(ColumnKind::text, text("#REF!")).code, "formula_error");
}

TEST(CellValues, TimesInOtherUnits) {
  EXPECT_DOUBLE_EQ(read(ColumnKind::seconds, text("1.5"), TimeUnit::minutes).value.number, 90);
  EXPECT_DOUBLE_EQ(read(ColumnKind::seconds, text("10"), TimeUnit::hundredths_of_a_minute).value.number, 6);
  EXPECT_DOUBLE_EQ(read(ColumnKind::seconds, text("1000"), TimeUnit::tmu).value.number, 36);
}

TEST(CellValues, HeadersOfTimesNameTheirUnit) {
  const ColumnDeclaration column = of_kind(ColumnKind::seconds);
  EXPECT_EQ(match_header("time_s", column), TimeUnit::seconds);
  EXPECT_EQ(match_header("Time (min)", column), TimeUnit::minutes);
  EXPECT_EQ(match_header("time_cmin", column), TimeUnit::hundredths_of_a_minute);
  EXPECT_EQ(match_header("TIME TMU", column), TimeUnit::tmu);
  EXPECT_EQ(match_header("time", column), std::nullopt);
  EXPECT_EQ(match_header("time_min", of_kind(ColumnKind::number)), std::nullopt);
}

TEST(CellValues, TimeFormattedCellsAreConverted) {
  EXPECT_EQ(read(ColumnKind::seconds, value(CellKind::duration, 55.0 / 86400)).value.number, 55);
  EXPECT_EQ(read(ColumnKind::seconds, text("0:01:08.4")).value.number, 68.4);
  EXPECT_EQ(read(ColumnKind::seconds, text("1:08")).code, "time_ambiguous");
  EXPECT_EQ(read(ColumnKind::number, value(CellKind::duration, 0.1)).code, "not_a_number");
}

TEST(CellValues, PercentFormattedCellsAreReadAsPercent) {
  EXPECT_EQ(read(ColumnKind::percent, value(CellKind::percent, 0.804)).value.number, 80.4);
  EXPECT_EQ(read(ColumnKind::percent, value(CellKind::number, 80.4)).value.number, 80.4);
  EXPECT_EQ(read(ColumnKind::percent, text("80.4 %")).value.number, 80.4);
  EXPECT_EQ(read(ColumnKind::seconds, value(CellKind::percent, 0.5)).code, "percent_not_expected");
}

TEST(CellValues, Ranges) {
  ColumnDeclaration column = of_kind(ColumnKind::percent);
  column.least = 30;
  column.most = 200;
  column.usual_least = 50;
  column.usual_most = 150;
  EXPECT_EQ(read(column, text("100")).code, "");
  EXPECT_EQ(read(column, text("160")).code, "unusual_value");
  EXPECT_EQ(read(column, text("160")).value.number, 160);
  EXPECT_EQ(read(column, text("201")).code, "out_of_range");
  EXPECT_EQ(read(column, text("1.05")).code, "out_of_range");
  EXPECT_EQ(read(column, text("1.05")).right, "The value should be 30 to 200. Percent is expected: 105, not 1.05.");
  column = of_kind(ColumnKind::seconds);
  column.least = 0;
  column.least_excluded = true;
  EXPECT_EQ(read(column, text("0")).code, "out_of_range");
  EXPECT_EQ(read(column, text("0")).right, "The value should be above 0.");
}

TEST(CellValues, Counts) {
  EXPECT_EQ(read(ColumnKind::count, text("12")).value.whole, 12);
  EXPECT_EQ(read(ColumnKind::count, value(CellKind::number, 12)).value.whole, 12);
  EXPECT_EQ(read(ColumnKind::count, text("12.5")).code, "not_a_whole_number");
  EXPECT_EQ(read(ColumnKind::count, text("-1")).code, "out_of_range");
}

TEST(CellValues, Dates) {
  const Instant expected{std::chrono::local_days(year(2026) / month(11) / day(3))};
  EXPECT_EQ(read(ColumnKind::date, text("2026-11-03")).value.at, expected);
  EXPECT_EQ(read(ColumnKind::date, text("2026-11-03T06:12")).value.at, expected);
  EXPECT_EQ(read(ColumnKind::date, value(CellKind::date, days_to_2026_11_03)).value.at, expected);
  for (const char* other : {"3.11.2026", "11/03/2026", "31.12.2026"}) {
    EXPECT_EQ(read(ColumnKind::date, text(other)).code, "not_a_date") << other;
    EXPECT_EQ(read(ColumnKind::date, text(other)).right,
              "Write it as 2026-11-03, or say with --dates dmy or --dates mdy in which order day and month stand.")
        << other;
  }
  for (const char* other : {"3 Nov 2026", "2026-13-01", "2026-02-30", "31.31.2026"}) {
    EXPECT_EQ(read(ColumnKind::date, text(other)).code, "not_a_date") << other;
    EXPECT_EQ(read(ColumnKind::date, text(other)).right, "Write it as 2026-11-03.") << other;
  }
  EXPECT_EQ(read(ColumnKind::date, value(CellKind::number, 46329)).code, "not_a_date");
  EXPECT_EQ(read(ColumnKind::date, text("1926-11-03")).code, "date_unlikely");
}

TEST(CellValues, Instants) {
  const Instant day_start{std::chrono::local_days(year(2026) / month(11) / day(3))};
  const Instant expected = day_start + std::chrono::milliseconds(22'360'500); // 06:12:40.5
  EXPECT_EQ(read(ColumnKind::instant, text("2026-11-03 06:12:40.5")).value.at, expected);
  EXPECT_EQ(read(ColumnKind::instant, text("2026-11-03T06:12:40,5")).value.at, expected);
  EXPECT_EQ(read(ColumnKind::instant, value(CellKind::date, days_to_2026_11_03 + 22360.5 / 86400)).value.at, expected);
  EXPECT_TRUE(read(ColumnKind::instant, text("2026-11-03")).value.day_only);
  EXPECT_FALSE(read(ColumnKind::instant, text("2026-11-03 00:00")).value.day_only);
  EXPECT_EQ(read(ColumnKind::instant, text("2026-11-03T06:12:40Z")).code, "time_zone");
  EXPECT_EQ(read(ColumnKind::instant, text("2026-11-03T06:12:40+01:00")).code, "time_zone");
  EXPECT_EQ(date_text({expected, false}), "2026-11-03 06:12:40");
}

TEST(CellValues, TimesOfDay) {
  EXPECT_EQ(read(ColumnKind::time_of_day, text("6:05")).value.time, std::chrono::minutes(365));
  EXPECT_EQ(read(ColumnKind::time_of_day, text("24:00")).value.time, std::chrono::hours(24));
  EXPECT_EQ(read(ColumnKind::time_of_day, value(CellKind::duration, 0.25)).value.time, std::chrono::hours(6));
  EXPECT_EQ(read(ColumnKind::time_of_day, text("25:00")).code, "not_a_time_of_day");
  EXPECT_EQ(read(ColumnKind::time_of_day, value(CellKind::number, 6)).code, "not_a_time_of_day");
  EXPECT_TRUE(read(ColumnKind::time_on_day, text("08:10")).value.time_only);
  EXPECT_FALSE(read(ColumnKind::time_on_day, text("2026-11-05 00:20")).value.time_only);
  EXPECT_EQ(read(ColumnKind::time_on_day, text("2026-11-05")).code, "time_of_day_missing");
}

TEST(CellValues, ChoicesAreMatchedWithoutCase) {
  constexpr std::array<std::string_view, 3> words{"as_standard", "differs", "not_checked"};
  ColumnDeclaration column = of_kind(ColumnKind::choice);
  column.words = words;
  EXPECT_EQ(read(column, text("differs")).value.whole, 1);
  EXPECT_EQ(read(column, text("As Standard")).value.whole, 0);
  EXPECT_EQ(read(column, text("ok")).code, "not_a_choice");
  EXPECT_EQ(read(column, text("ok")).right, "Write as_standard, differs or not_checked.");
  constexpr std::array<std::string_view, 2> yes_no{"yes", "no"};
  column.words = yes_no;
  EXPECT_EQ(read(column, {CellKind::truth, "FALSE", 0}).value.whole, 1);
}

TEST(CellValues, Marks) {
  const Marks marks = read(ColumnKind::marks, text("Helped; cut short")).value.marks;
  EXPECT_TRUE(marks.has(Mark::helped));
  EXPECT_TRUE(marks.has(Mark::cut_short));
  EXPECT_FALSE(marks.has(Mark::starved));
  const Read wrong = read(ColumnKind::marks, text("helpd"));
  EXPECT_EQ(wrong.code, "not_a_mark");
  EXPECT_TRUE(wrong.right.starts_with("Did you mean helped? ")) << wrong.right;
}

TEST(CellValues, CodesAreLettersThenDigits) {
  for (const char* code : {"A1", "OP-12", "abc123", "Z-9"})
    EXPECT_EQ(read(ColumnKind::code, text(code)).code, "") << code;
  for (const char* name : {"Maria", "A", "A1B", "OP-1234", "A--1", "A 1", "-1", "4711"})
    EXPECT_EQ(read(ColumnKind::code, text(name)).code, "operator_not_a_code") << name;
  // A name is neither in the message nor in the value: both are printed and kept.
  EXPECT_EQ(read(ColumnKind::code, text("Maria")).wrong, "What stands here looks like a name; names never enter.");
  EXPECT_EQ(
      read(ColumnKind::code, text("Maria")).right,
      "Use a code: letters, then digits, at most 6 characters, for example A1 or OP-12; or give a list of names and "
      "codes with --codes FILE.csv.");
  EXPECT_EQ(read(ColumnKind::code, text("Maria")).value.text, "");
  EXPECT_EQ(read(ColumnKind::code, text("4711")).wrong,
            "What stands here looks like a personnel number; a number points at a person.");
  EXPECT_TRUE(read(ColumnKind::codes, text("A1;Maria")).value.list.empty());
  EXPECT_EQ(read(ColumnKind::codes, text("A1; B3")).value.list, (std::vector<std::string>{"A1", "B3"}));
  EXPECT_EQ(read(ColumnKind::codes, text("A1;Maria")).code, "operator_not_a_code");
}

TEST(CellDates, OnATwelveHourClock) {
  using namespace std::chrono_literals;
  EXPECT_EQ(parse_time_of_day("06:16:00 AM"), 6h + 16min);
  EXPECT_EQ(parse_time_of_day("7:30 pm"), 19h + 30min);
  EXPECT_EQ(parse_time_of_day("12:00:55AM"), 55s); // as a spreadsheet shows 55 s in a time format
  EXPECT_EQ(parse_time_of_day("12:30 PM"), 12h + 30min);
  for (const char* none : {"0:30 AM", "13:00 PM", "PM", "AM", "6 AM", "m", ""})
    EXPECT_FALSE(parse_time_of_day(none)) << none;
}

TEST(CellDates, InAnOrderThatIsSaid) {
  const auto shown = [](const char* written, DateOrder order) {
    const auto when = parse_day_in_order(written, order);
    return when ? date_text(*when) : "none";
  };
  constexpr auto dmy = DateOrder::day_month_year, mdy = DateOrder::month_day_year;
  EXPECT_EQ(shown("3.11.2026", dmy), "2026-11-03");
  EXPECT_EQ(shown("03/11/2026", dmy), "2026-11-03");
  EXPECT_EQ(shown("03/11/2026", mdy), "2026-03-11");
  EXPECT_EQ(shown("3-11-26", dmy), "2026-11-03");
  EXPECT_EQ(shown("3. 11. 2026 6:05", dmy), "2026-11-03 06:05:00");
  EXPECT_EQ(shown("3/11/2026 06:05:07", mdy), "2026-03-11 06:05:07");
  EXPECT_EQ(shown("3/11/2026 2:30 PM", mdy), "2026-03-11 14:30:00");
  EXPECT_EQ(shown("3/11/2026, 12:05:00 AM", mdy), "2026-03-11 00:05:00");
  EXPECT_EQ(shown("3/11/2026 12:05 pm", mdy), "2026-03-11 12:05:00");
  for (const char* none :
       {"31/12/2026", "2026-11-03", "3.11", "3.11.", "3/11-2026", "3/11/226", "13/1/2026", "3/11/2026x",
        "3/11/2026 25:00", "3/11/2026 13:00 PM", "3/11/2026 0:30 AM", "", "3/11/20261"})
    EXPECT_EQ(shown(none, mdy), "none") << none;
  EXPECT_EQ(shown("31/02/2026", dmy), "none");
  EXPECT_EQ(shown("3/11/2026", DateOrder::iso_only), "none");
}

TEST(CellValues, NamesMayLookLikeNumbersOrDays) {
  EXPECT_EQ(read(ColumnKind::name, {CellKind::number, "12", 12}).value.text, "12");
  EXPECT_EQ(read(ColumnKind::name, value(CellKind::date, days_to_2026_11_03)).value.text, "2026-11-03");
}

} // namespace
} // namespace docket
