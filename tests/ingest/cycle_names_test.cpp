#include "ingest/reading/cycle_names.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

namespace docket {
namespace {

// Units that look alike, in every combination of head and digits, and odd ones.
std::vector<std::string> many_units() {
  std::vector<std::string> units{"HP-",
                                 "-",
                                 "0",
                                 "00",
                                 "1",
                                 "01",
                                 "999999999999",
                                 "1000000000000",
                                 "0000000000001",
                                 "12345678901234567890",
                                 "früh",
                                 "früh1",
                                 std::string("zero\0 7", 7),
                                 "7\n",
                                 "U 1 2"};
  for (const std::string head : {"", "HP-", "HP", "H1P-", "hp-", "HP-0x"})
    for (const std::string digits : {"1", "01", "10", "010", "118204", "0118204", "00000000118204"})
      units.push_back(head + digits);
  return units;
}

TEST(CycleNames, AUnitHasOneNumberAndComesBackFromIt) {
  CycleNames names;
  std::map<std::string, std::uint64_t> numbers;
  std::map<std::uint64_t, std::string> units;
  for (const std::string& unit : many_units()) {
    const std::uint64_t number = number_of_unit(names, unit);
    EXPECT_NE(number, 0U) << unit;
    EXPECT_TRUE(units.emplace(number, unit).second || numbers[unit] == number) << unit;
    numbers[unit] = number;
  }
  for (const auto& [unit, number] : numbers) {
    EXPECT_EQ(number_of_unit(names, unit), number) << unit;
    EXPECT_EQ(unit_of_number(names, number), unit);
  }
  EXPECT_EQ(number_of_unit(names, ""), 0U);
  EXPECT_EQ(unit_of_number(names, 0), "");
}

// More heads than there is room for: what finds none is a word of its own, each time the same.
TEST(CycleNames, HeadsMayBeMany) {
  CycleNames names;
  const auto unit = [](int i) { return "P" + std::to_string(i) + "-" + std::to_string(i % 10); };
  std::vector<std::uint64_t> numbers;
  for (int i = 0; i < 120'000; ++i) numbers.push_back(number_of_unit(names, unit(i)));
  EXPECT_GT(names.other_units.words.size(), 10'000U);
  for (int i = 0; i < 120'000; ++i) {
    ASSERT_EQ(number_of_unit(names, unit(i)), numbers[static_cast<std::size_t>(i)]) << i;
    ASSERT_EQ(unit_of_number(names, numbers[static_cast<std::size_t>(i)]), unit(i));
  }
  std::sort(numbers.begin(), numbers.end());
  EXPECT_EQ(std::adjacent_find(numbers.begin(), numbers.end()), numbers.end());
}

} // namespace
} // namespace docket
