// What numbers look like. Sources: ISO 80000-1 (minus sign, groups of three, blank before the unit), ISO 8601 (dates).
#include "report/format.h"

#include <gtest/gtest.h>

#include <limits>

namespace docket {
namespace {

TEST(Format, SecondsHaveOneDecimal) {
  EXPECT_EQ(format_seconds(Seconds{53}), "53.0 s");
  EXPECT_EQ(format_bare_seconds(Seconds{2.26}), "2.3");
  EXPECT_EQ(format_signed_seconds(Seconds{2}), "+2.0 s");
  EXPECT_EQ(format_signed_seconds(Seconds{-2}), "\u22122.0 s");
}

TEST(Format, NothingIsMinusZero) {
  EXPECT_EQ(format_signed_seconds(Seconds{-0.04}), "0.0 s");
  EXPECT_EQ(format_seconds(Seconds{-0.0}), "0.0 s");
  EXPECT_EQ(format_plain_number(-0.001, 2), "0");
}

TEST(Format, WhatIsNoNumberIsNotKnown) {
  EXPECT_EQ(format_seconds(Seconds{std::numeric_limits<double>::quiet_NaN()}), "not known");
  EXPECT_EQ(format_fixed(std::numeric_limits<double>::infinity(), 1), "not known");
}

TEST(Format, IntervalsSayWhichEndIsMissing) {
  EXPECT_EQ(format_interval(Seconds{51.2}, Seconds{54.9}), "51.2 to 54.9 s");
  EXPECT_EQ(format_interval(Seconds{51.2}, {}), "at least 51.2 s");
  EXPECT_EQ(format_interval({}, Seconds{54.9}), "at most 54.9 s");
  EXPECT_EQ(format_interval({}, {}), "no interval");
  EXPECT_EQ(format_signed_interval(Seconds{-1.2}, Seconds{5}), "\u22121.2 to +5.0 s");
}

TEST(Format, SharesAndChances) {
  EXPECT_EQ(format_percent(0.12), "12 %");
  EXPECT_EQ(format_percent(0.025), "2.5 %");
  EXPECT_EQ(format_chance(0.68), "68 %");
  EXPECT_EQ(format_chance(0.975), "97.5 %");
  EXPECT_EQ(format_chance(1.0), "more than 99.9 %");
  EXPECT_EQ(format_chance(0.0), "less than 0.1 %");
}

// 1 - 0.95 = 0.05, half of it 0.025 = 1/40.
TEST(Format, HowOftenASideIsWrong) {
  EXPECT_EQ(format_times_wrong(0.95), "1 time in 40");
  EXPECT_EQ(format_times_wrong(0.90), "1 time in 20");
}

TEST(Format, CountsAreGroupedFromTenThousand) {
  EXPECT_EQ(format_count(4018), "4018");
  EXPECT_EQ(format_count(12345), "12\u202F345");
  EXPECT_EQ(format_count(1234567), "1\u202F234\u202F567");
  EXPECT_EQ(format_count(123456), "123\u202F456");
}

TEST(Format, Dates) {
  using namespace std::chrono;
  const Date day{local_days{year{2026} / 3 / 4}};
  EXPECT_EQ(format_date(day), "2026-03-04");
  EXPECT_EQ(format_instant(Instant{day} + 6h + 5min), "2026-03-04 06:05");
}

} // namespace
} // namespace docket
