// Blocks of cycles as bytes: what goes in comes out, and no bytes whatever do harm.
#include "core/error.h"
#include "ingest/docket/cycles/cycle_integers.h"
#include "ingest/docket/cycles/cycle_pack.h"
#include "ingest/docket/cycles/cycle_unit_numbers.h"
#include "tests/ingest/docket/cycles/made_cycle_log.h"
#include "tests/ingest/docket/cycles/plain_cycle_rows.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <limits>
#include <random>
#include <string>
#include <vector>

namespace docket {
namespace {

using Numbers = std::vector<std::int64_t>;

NarrowShape shape_of(const Numbers& numbers, bool in_order = false) {
  std::string bytes;
  const NarrowShape shape = narrow(numbers, in_order, bytes);
  const std::size_t stored = shape.differences ? numbers.size() - 1 : numbers.size();
  EXPECT_EQ(bytes.size(), shape.width * stored);
  Numbers again;
  widen(shape, bytes, numbers.size(), again);
  EXPECT_EQ(again, numbers);
  return shape;
}

// The widths follow from the definition: the largest u_i of the narrower form.
TEST(CycleIntegers, takes_the_narrower_form) {
  EXPECT_EQ(shape_of({7, 7, 7}).width, 0);
  EXPECT_EQ(shape_of({1000, 2000, 3000, 4000}).width, 1); // steps of 1,000 in one byte, as they are
  std::vector<std::int64_t> even;
  for (int i = 0; i < 1000; ++i) even.push_back(i * 7);
  EXPECT_EQ(shape_of(even).width, 0); // differences, all alike
  EXPECT_FALSE(shape_of({1, 2, 3, 4}).differences);
  // Steps of 100,000: 2, 0, 257 and 1. Then steps of 200,000: 1, 0, 128 and 0.
  EXPECT_EQ(shape_of({53'100'000, 52'900'000, 78'600'000, 53'000'000}).width, 2);
  EXPECT_EQ(shape_of({53'100'000, 52'900'000, 78'500'000, 52'900'000}).width, 1);
  EXPECT_EQ(shape_of({1'000'000, 1'000'255, 1'000'001}).width, 1);
  EXPECT_TRUE(shape_of({0, 200, 400, 601}).differences);      // 200 and 201 in one byte, 601 in two
  EXPECT_FALSE(shape_of({0, 20'000, 1, 40'000}).differences); // two bytes each way
  EXPECT_TRUE(shape_of({0, 20'000, 1, 40'000}, true).differences);
}

TEST(CycleIntegers, holds_the_ends_of_the_range) {
  constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min(),
                         most = std::numeric_limits<std::int64_t>::max();
  shape_of({});
  shape_of({least});
  shape_of({least, most});
  shape_of({most, least, 0, -1, 1, most, most, least});
  std::mt19937_64 draw(1);
  for (int width = 0; width < 64; ++width) {
    Numbers numbers;
    for (int i = 0; i < 100; ++i) numbers.push_back(static_cast<std::int64_t>(draw() >> width) - 1000);
    shape_of(numbers, width % 2 == 0);
  }
}

UnitNumbers numbers_of(const std::vector<std::string>& texts) {
  CycleTexts units;
  for (const std::string& text : texts) {
    units.parts.push_back({static_cast<std::uint32_t>(units.text.size()), static_cast<std::uint32_t>(text.size())});
    units.text += text;
  }
  UnitNumbers found = read_unit_numbers(units);
  if (found.all_numbers) {
    CycleTexts again;
    EXPECT_TRUE(write_unit_numbers(found.form, found.numbers, found.given, again));
    for (std::size_t i = 0; i < texts.size(); ++i) EXPECT_EQ(again.at(i), texts[i]);
  }
  return found;
}

TEST(CycleUnitNumbers, tells_numbers_from_texts) {
  EXPECT_EQ(numbers_of({"118204", "", "118205"}).numbers, (Numbers{118204, 118205}));
  EXPECT_EQ(numbers_of({"9", "10", "0"}).form.digits, 0);
  EXPECT_EQ(numbers_of({"HP-0009", "HP-0010"}).form.prefix, "HP-");
  EXPECT_EQ(numbers_of({"HP-0009", "HP-0010"}).form.digits, 4);
  EXPECT_TRUE(numbers_of({"", ""}).all_numbers);
  EXPECT_TRUE(numbers_of({"999999999999999999"}).all_numbers);
  for (const std::vector<std::string>& texts : std::vector<std::vector<std::string>>{
           {"09", "100"}, {"A1", "B1"}, {"A1", "A"}, {"A1", "A1x"}, {"1000000000000000000"}, {"fan"}, {"1", "-1"}})
    EXPECT_FALSE(numbers_of(texts).all_numbers) << texts.front();
}

CycleBlock made_block(std::size_t rows, double awkward) {
  MadeLog log(rows, {',', '.', "\n", awkward});
  CycleBlock block;
  CycleWords words;
  for (CycleRow& row : read_plain_log(log.text(rows), "cycle_log.csv").used) append(block, words, row);
  return block;
}

/// True where the bytes give this very block, false where they are refused; anything else fails the test.
bool same_or_refused(const std::string& bytes, const std::string& right) {
  try {
    CycleBlock block;
    unpack_cycles(bytes, CycleColumns::all(), "case.docket", block);
    EXPECT_EQ(pack_cycles(block), right);
    return true;
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::verification_failed);
    EXPECT_EQ(error.where(), "case.docket");
    return false;
  }
}

TEST(CyclePack, never_takes_a_flipped_bit_for_another_block) {
  const std::string bytes = pack_cycles(made_block(60, 0.1));
  int refused = 0;
  for (std::size_t at = 0; at < bytes.size() * 8; ++at) {
    std::string flipped = bytes;
    flipped[at / 8] = static_cast<char>(static_cast<unsigned char>(flipped[at / 8]) ^ (1U << at % 8));
    if (!same_or_refused(flipped, bytes)) ++refused;
  }
  // A frame has bits that mean nothing (RFC 8878, 3.1.1.1.1); all others are noticed.
  EXPECT_GT(refused, static_cast<int>(bytes.size() * 8 * 9 / 10));
}

TEST(CyclePack, refuses_bytes_that_are_cut_or_too_many) {
  const std::string bytes = pack_cycles(made_block(60, 0.1));
  for (std::size_t size = 0; size < bytes.size(); ++size) EXPECT_FALSE(same_or_refused(bytes.substr(0, size), bytes));
  EXPECT_FALSE(same_or_refused(bytes + '\0', bytes));
  EXPECT_TRUE(same_or_refused(bytes, bytes));
}

TEST(CyclePack, takes_no_harm_from_bytes_at_random) {
  std::mt19937_64 draw(2);
  const std::string bytes = pack_cycles(made_block(300, 0.2));
  for (int round = 0; round < 2000; ++round) {
    std::string changed = bytes;
    for (std::uint64_t i = 0; i <= draw() % 20; ++i) changed[draw() % changed.size()] = static_cast<char>(draw());
    same_or_refused(changed, bytes);
  }
}

TEST(CyclePack, says_what_is_wrong) {
  std::string bytes = pack_cycles(made_block(10, 0));
  bytes[0] = 2;
  try {
    CycleBlock block;
    unpack_cycles(bytes, CycleColumns::all(), "case.docket", block);
    FAIL();
  } catch (const Error& error) {
    EXPECT_STREQ(error.what(), "case.docket: The stored cycles can't be read: they are of version 2, and this program "
                               "knows version 1. The file was damaged or changed. Take an undamaged copy of it.");
  }
}

TEST(CyclePack, unpacks_only_what_is_asked_for) {
  const CycleBlock block = made_block(500, 0);
  CycleColumns wanted;
  wanted.cycle = true;
  wanted.words[static_cast<std::size_t>(CycleWordKind::op)] = true;
  CycleBlock part;
  unpack_cycles(pack_cycles(block), wanted, "case.docket", part);
  EXPECT_EQ(part.cycle, block.cycle);
  EXPECT_EQ(part.codes(CycleWordKind::op), block.codes(CycleWordKind::op));
  EXPECT_TRUE(part.started_at.empty() && part.unit.parts.empty() && part.codes(CycleWordKind::shift).empty());
  EXPECT_EQ(part.rows, block.rows);
}

} // namespace
} // namespace docket
