// What number formats say, and what serial numbers mean. Expected values: the built-in list of ISO/IEC 29500-1, 18.8.30,
// and the two date systems of 18.17.4.1 (their first and last days: from memory); the rest by calendar arithmetic in
// Python's datetime.
#include "ingest/iso_times.h"
#include "ingest/xlsx/dates.h"
#include "ingest/xlsx/number_format.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

TEST(NumberFormat, knows_the_built_in_ones) {
  for (const int number : {0, 1, 2, 3, 4, 11, 12, 13, 37, 38, 39, 40, 48, 49}) {
    EXPECT_EQ(built_in_format(number), NumberFormat::plain) << number;
  }
  for (const int number : {9, 10}) EXPECT_EQ(built_in_format(number), NumberFormat::percent) << number;
  for (const int number : {14, 15, 16, 17, 22}) EXPECT_EQ(built_in_format(number), NumberFormat::date) << number;
  for (const int number : {18, 19, 20, 21, 45, 47}) EXPECT_EQ(built_in_format(number), NumberFormat::time) << number;
  EXPECT_EQ(built_in_format(46), NumberFormat::elapsed);
  EXPECT_EQ(built_in_format(-1), NumberFormat::plain);
}

TEST(NumberFormat, reads_codes) {
  for (const char* code : {"General", "0", "0.00", "#,##0.00", "0.00E+00", "@", "", "0.00 \"days\"", "0.0\\ \\d",
                           "0.00 s", "[Red]0.00;[Blue]-0.00", "#,##0.00\\ [$\xE2\x82\xAC-407]", "\"d\"General", "# ?/?",
                           "_-* #,##0_-", "0;\"yes\"", "\"unclosed dmy"}) {
    EXPECT_EQ(format_of_code(code), NumberFormat::plain) << code;
  }
  for (const char* code : {"0%", "0.0\\ %", "[Red]0.00%;0"})
    EXPECT_EQ(format_of_code(code), NumberFormat::percent) << code;
  for (const char* code :
       {"yyyy-mm-dd", "dd\\.mm\\.yyyy", "DD/MM/YY", "[$-407]d/\\ mmmm\\ yyyy;@", "mmm", "mm/dd", "d-mmm hh:mm",
        "yyyy\\-mm\\-dd\\Thh:mm:ss.000", "[$-F800]dddd\\,\\ mmmm\\ dd\\,\\ yyyy", "hh:mm:ss dd.mm.", "mmm\\ h"}) {
    EXPECT_EQ(format_of_code(code), NumberFormat::date) << code;
  }
  for (const char* code :
       {"h:mm", "hh:mm:ss", "mm:ss", "mm:ss.0", "h:mm AM/PM", "h:mm\\ A/P", "[$-F400]h:mm:ss\\ AM/PM", "ss.00"}) {
    EXPECT_EQ(format_of_code(code), NumberFormat::time) << code;
  }
  for (const char* code : {"[h]:mm", "[hh]:mm:ss", "[mm]:ss", "[s]", "[ss].00", "[H]:MM", "[Red][h]:mm"}) {
    EXPECT_EQ(format_of_code(code), NumberFormat::elapsed) << code;
  }
}

struct Serial {
  const char* what;
  double serial;
  NumberFormat format;
  bool date1904;
  CellKind kind;
  const char* text;
  double number;
};

void PrintTo(const Serial& serial, std::ostream* out) { *out << serial.what; }

class Serials : public testing::TestWithParam<Serial> {};

TEST_P(Serials, make_cells) {
  const Serial& given = GetParam();
  const RawCell cell = cell_of_serial(given.serial, given.format, given.date1904);
  EXPECT_EQ(cell.kind, given.kind);
  EXPECT_EQ(cell.text, given.text);
  EXPECT_DOUBLE_EQ(cell.number, given.number);
}

constexpr auto date = NumberFormat::date, time = NumberFormat::time, elapsed = NumberFormat::elapsed;

INSTANTIATE_TEST_SUITE_P(
    Dates, Serials,
    testing::Values(
        Serial{"the first day of 1900", 1, date, false, CellKind::date, "1900-01-01", -25567},
        Serial{"the day before the one that never was", 59, date, false, CellKind::date, "1900-02-28", -25509},
        Serial{"the day that never was", 60.5, date, false, CellKind::text, "1900-02-29", 0},
        Serial{"the day after it", 61, date, false, CellKind::date, "1900-03-01", -25508},
        Serial{"1970", 25569, date, false, CellKind::date, "1970-01-01", 0},
        Serial{"the last day", 2958465, date, false, CellKind::date, "9999-12-31", 2932896},
        Serial{"beyond the last day", 2958466, date, false, CellKind::number, "2958466", 2958466},
        Serial{"before the first day", -1, date, false, CellKind::number, "-1", -1},
        Serial{"far too large", 1e300, date, false, CellKind::number, "1e+300", 1e300},
        Serial{"the first day of 1904", 0, date, true, CellKind::duration, "0:00:00", 0},
        Serial{"the second day of 1904", 1, date, true, CellKind::date, "1904-01-02", -24106},
        Serial{"the last day from 1904", 2957003, date, true, CellKind::date, "9999-12-31", 2932896},
        Serial{"rounded to the millisecond", 46023.12783564815, date, false, CellKind::date, "2026-01-01T03:04:05",
               20454 + 11045.0 / 86400},
        Serial{"rounded from 15 digits", 46023.1278356481, date, false, CellKind::date, "2026-01-01T03:04:05",
               20454 + 11045.0 / 86400},
        Serial{"rounded up to the next day", 46023.999999999, date, false, CellKind::date, "2026-01-02", 20455},
        Serial{"no day", 0.25, date, false, CellKind::duration, "6:00:00", 0.25},
        Serial{"a time of day", 0.25, time, false, CellKind::duration, "6:00:00", 0.25},
        Serial{"more than a day in a time format", 1.5, time, false, CellKind::duration, "36:00:00", 1.5},
        Serial{"a date shown as its time", 46023.25, time, false, CellKind::date, "2026-01-01T06:00:00", 20454.25},
        Serial{"a date shown as its time, from 1904", 44561.25, time, true, CellKind::date, "2026-01-01T06:00:00",
               20454.25},
        Serial{"many hours", 46023.25, elapsed, false, CellKind::duration, "1104558:00:00", 46023.25},
        Serial{"less than none", -0.25, elapsed, false, CellKind::duration, "-6:00:00", -0.25},
        Serial{"57.5 s", 57.5 / 86400, time, false, CellKind::duration, "0:00:57.500", 57.5 / 86400},
        Serial{"a percentage", 0.05, NumberFormat::percent, false, CellKind::percent, "0.05", 0.05},
        Serial{"a number", 46023, NumberFormat::plain, false, CellKind::number, "46023", 46023}));

TEST(IsoCells, are_read_or_left_as_text) {
  const auto text = [](const char* iso) {
    const auto cell = cell_of_iso(iso);
    return cell ? cell->text : "none";
  };
  EXPECT_EQ(text("2026-03-02"), "2026-03-02");
  EXPECT_EQ(text("2024-02-29T06:05:30.250"), "2024-02-29T06:05:30.250");
  EXPECT_EQ(text("2026-03-02T06:05Z"), "2026-03-02T06:05:00");
  EXPECT_EQ(text("06:05:30"), "6:05:30");
  EXPECT_EQ(text("T06:05"), "6:05:00");
  EXPECT_EQ(cell_of_iso("2026-03-02")->number, 20514); // Python: (date(2026, 3, 2) - date(1970, 1, 1)).days
  EXPECT_EQ(cell_of_iso("06:00:00")->number, 0.25);
  EXPECT_EQ(cell_of_iso("06:00:00")->kind, CellKind::duration);
  for (const char* bad :
       {"", "2026", "2026-02-30", "2026-13-01", "2026-03-02 06:05", "2026-03-02T24:01", "2026-03-02T06:60",
        "2026-03-02T06:05:60", "2026-03-02T06:05:", "2026-03-02T06:05+01:00", "2.3.2026", "T", "06:05:-1"}) {
    EXPECT_EQ(text(bad), "none") << bad;
  }
}

TEST(NumberText, reads_back_the_same_and_writes_no_exponent_without_need) {
  EXPECT_EQ(number_text(100000), "100000");
  EXPECT_EQ(number_text(20260302000001), "20260302000001");
  EXPECT_EQ(number_text(0.1 + 0.2), "0.30000000000000004");
  EXPECT_EQ(number_text(0.000036), "0.000036");
  EXPECT_EQ(number_text(57.5), "57.5");
  EXPECT_EQ(number_text(-0.0), "0");
  EXPECT_EQ(number_text(1e300), "1e+300");
}

} // namespace
} // namespace docket
