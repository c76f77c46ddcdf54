#include "ingest/docket/cells_text.h"
#include "ingest/docket/packed_bytes.h"
#include "ingest/file_hash.h"
#include "ingest/running_hash.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

// What the zstd command (1.5.4) makes of "line cycle time\n": printf 'line cycle time\n' | zstd -3 --check | xxd -p
constexpr unsigned char by_zstd[] = {0x28, 0xb5, 0x2f, 0xfd, 0x04, 0x58, 0x81, 0x00, 0x00, 0x6c,
                                     0x69, 0x6e, 0x65, 0x20, 0x63, 0x79, 0x63, 0x6c, 0x65, 0x20,
                                     0x74, 0x69, 0x6d, 0x65, 0x0a, 0xce, 0x8a, 0x55, 0x1c};

TEST(PackedBytes, ComeOutAsTheyWentIn) {
  const std::string text = "line cycle time\n" + std::string(100000, 'x');
  EXPECT_EQ(unpack_bytes(pack_bytes(text), text.size()), text);
  EXPECT_EQ(unpack_bytes(pack_bytes(""), 0), "");
  EXPECT_LT(pack_bytes(text).size(), 200U);
}

TEST(PackedBytes, ReadsWhatTheZstdCommandWrites) {
  EXPECT_EQ(unpack_bytes({reinterpret_cast<const char*>(by_zstd), sizeof by_zstd}, 16), "line cycle time\n");
}

TEST(PackedBytes, RefusesAnotherSizeAndDamage) {
  const std::string text = "2026-11-03 06:00:00,52.5,A1\n2026-11-03 06:01:00,51.9,A1\n";
  const std::string packed = pack_bytes(text);
  EXPECT_FALSE(unpack_bytes(packed, text.size() - 1));
  EXPECT_FALSE(unpack_bytes(packed, text.size() + 1));
  EXPECT_FALSE(unpack_bytes(packed.substr(0, packed.size() - 1), text.size()));
  EXPECT_FALSE(unpack_bytes("", 1));
  for (std::size_t i = 0; i < packed.size(); ++i) {
    std::string flipped = packed;
    flipped[i] = static_cast<char>(flipped[i] ^ 0x10);
    const auto unpacked = unpack_bytes(flipped, text.size());
    EXPECT_TRUE(!unpacked || *unpacked == text) << i; // a bit nobody reads
  }
}

TEST(RunningHash, IsTheHashOfTheWhole) {
  RunningHash hash;
  for (const char* piece : {"line ", "cycle", "", " time"}) hash.add(piece);
  EXPECT_EQ(hash.hex(), sha256_of("line cycle time"));
  // printf '' | sha256sum
  EXPECT_EQ(hash.hex(), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

RawCell cell(CellKind kind, const std::string& text, double number) { return {kind, text, number}; }

TEST(CellsText, EveryKindComesOutAsItWentIn) {
  const std::vector<RawCell> cells{
      text_cell("E10"),
      {},
      text_cell("\xC3\xBC \"quoted\" \\ and\ntwo lines\ttab"),
      cell(CellKind::number, "4.2", 4.2),
      cell(CellKind::number, "0.1", 0.1),
      cell(CellKind::number, "100000", 100000),
      cell(CellKind::number, "1e+300", 1e300),
      cell(CellKind::number, "0.30000000000000004", 0.30000000000000004),
      cell(CellKind::number, "as shown", 5),
      cell(CellKind::percent, "0.05", 0.05),
      cell(CellKind::date, "2026-03-02T06:05:00", 20514.253472222223),
      cell(CellKind::duration, "0:00:52.5", 0.000607638888888889),
      cell(CellKind::truth, "TRUE", 1),
      cell(CellKind::error, "#DIV/0!", 0),
      cell(CellKind::not_calculated, "", 0),
  };
  const std::string text = cells_as_text(cells);
  EXPECT_TRUE(text.starts_with(R"(["E10",null,"ü \"quoted\" \\ and\u000atwo lines\u0009tab",4.2,0.1,100000,1e+300,)"
                               R"(0.30000000000000004,{"kind":"number","number":5,"text":"as shown"},)"))
      << text;
  const auto again = cells_from_text(text);
  ASSERT_TRUE(again);
  ASSERT_EQ(again->size(), cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    EXPECT_EQ((*again)[i].kind, cells[i].kind) << i;
    EXPECT_EQ((*again)[i].text, cells[i].text) << i;
    EXPECT_EQ((*again)[i].number, cells[i].number) << i;
  }
  EXPECT_EQ(cells_as_text(*again), text);
  EXPECT_EQ(cells_as_text({}), "[]");
}

TEST(CellsText, ANumberWithoutAnEndStaysNone) {
  const auto again = cells_from_text(cells_as_text({cell(CellKind::number, "nan", std::nan(""))}));
  ASSERT_TRUE(again && again->size() == 1);
  EXPECT_TRUE(std::isnan(again->front().number));
}

TEST(CellsText, RefusesWhatItDidNotWrite) {
  for (const char* text : {"", "{}", "[1", "[[]]", "[{}]", R"([{"kind":"money","number":1,"text":""}])", "[true]"})
    EXPECT_FALSE(cells_from_text(text)) << text;
}

} // namespace
} // namespace docket
