// ISO 8601 texts. The expected milliseconds are Python's: datetime(...).timestamp() * 1000 and timedelta(...).
#include "ingest/iso_times.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

TEST(IsoInstant, with_and_without_a_zone) {
  // datetime(2026, 3, 2, 6, 5, 30, 250000, tzinfo=UTC).timestamp() = 1772431530.25
  for (const char* text : {"2026-03-02T06:05:30.250", "2026-03-02T06:05:30.25Z", "2026-03-02T06:05:30.250+01:00",
                           "2026-03-02T06:05:30.250000-0330", "2026-03-02T06:05:30.25+02"}) {
    const auto when = read_iso_instant(text);
    ASSERT_TRUE(when) << text;
    EXPECT_EQ(when->ms, 1'772'431'530'250) << text;
  }
  EXPECT_FALSE(read_iso_instant("2026-03-02T06:05:30")->offset_minutes);
  EXPECT_EQ(read_iso_instant("2026-03-02T06:05:30Z")->offset_minutes, 0);
  EXPECT_EQ(read_iso_instant("2026-03-02T06:05:30+01:00")->offset_minutes, 60);
  EXPECT_EQ(read_iso_instant("2026-03-02T06:05:30-0330")->offset_minutes, -210);
  EXPECT_EQ(read_iso_instant("2026-03-02")->ms, 1'772'409'600'000);
}

TEST(IsoInstant, any_other_text_is_none) {
  for (const char* text :
       {"", "2026-3-2", "2026-02-30", "2026-03-02 06:05:30", "2026-03-02T06:05:30+1", "2026-03-02T06:05:30+15:00",
        "2026-03-02T24:05:30", "06:05:30", "2026-03-02T06:05:30+01:00Z", "-2026-03-02", "2026-03-02T"})
    EXPECT_FALSE(read_iso_instant(text)) << text;
}

TEST(IsoDuration, in_milliseconds) {
  EXPECT_EQ(iso_duration_ms("PT06H05M00S"), 21'900'000); // timedelta(hours=6, minutes=5)
  EXPECT_EQ(iso_duration_ms("PT00H00M57.500000000S"), 57'500);
  EXPECT_EQ(iso_duration_ms("P2DT0.5S"), 172'800'500); // timedelta(days=2, seconds=0.5)
  EXPECT_EQ(iso_duration_ms("-PT1M"), -60'000);
  EXPECT_EQ(iso_duration_ms("P1D"), 86'400'000);
  for (const char* text : {"", "P", "PT", "P1Y", "P1M", "PT5", "5S", "PTS", "PT1e3S", "PT-5S", "PT1S ", "PTinfS",
                           "PT99999999999999999999H", "P1H", "PT1D"})
    EXPECT_FALSE(iso_duration_ms(text)) << text;
}

} // namespace
} // namespace docket
