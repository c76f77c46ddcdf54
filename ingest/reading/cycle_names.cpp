#include "ingest/reading/cycle_names.h"

#include <algorithm>

namespace docket {

namespace {

// Bits from the lowest: the number of 40, how many digits it has of 4, the place of its head and one more.
constexpr unsigned number_bits = 40, digits_bits = 4;
constexpr std::size_t most_digits = 12; // 10^12 < 2^40
constexpr std::size_t most_heads = 100'000;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

} // namespace

std::uint32_t place_of(PlacedWords& list, std::string_view word) {
  const auto found = list.places.find(word);
  if (found != list.places.end()) return found->second;
  const auto place = static_cast<std::uint32_t>(list.words.size());
  list.words.emplace_back(word);
  list.places.emplace(word, place);
  return place;
}

std::uint64_t number_of_unit(CycleNames& names, std::string_view unit) {
  if (unit.empty()) return 0;
  std::size_t digits = 0;
  while (digits < std::min(most_digits, unit.size()) && is_digit(unit[unit.size() - 1 - digits])) ++digits;
  const std::string_view head = unit.substr(0, unit.size() - digits);
  // A head that found no room once never finds any, so a unit is never numbered in two ways.
  if (digits > 0 && (names.heads.words.size() < most_heads || names.heads.places.contains(head))) {
    std::uint64_t number = 0;
    for (const char c : unit.substr(head.size())) number = 10 * number + static_cast<std::uint64_t>(c - '0');
    const std::uint64_t place = place_of(names.heads, head);
    return (place + 1) << (number_bits + digits_bits) | std::uint64_t{digits} << number_bits | number;
  }
  return (std::uint64_t{1} << (number_bits + digits_bits)) | place_of(names.other_units, unit);
}

std::string unit_of_number(const CycleNames& names, std::uint64_t number) {
  if (number == 0) return {};
  const std::uint64_t value = number & ((std::uint64_t{1} << number_bits) - 1);
  const std::size_t digits = (number >> number_bits) & ((1U << digits_bits) - 1);
  if (digits == 0) return names.other_units.words[value];
  std::string text = std::to_string(value);
  text.insert(0, digits - text.size(), '0');
  return names.heads.words[(number >> (number_bits + digits_bits)) - 1] + text;
}

} // namespace docket
