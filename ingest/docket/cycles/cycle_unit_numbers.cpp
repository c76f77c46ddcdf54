#include "ingest/docket/cycles/cycle_unit_numbers.h"

#include <array>
#include <charconv>
#include <cstring>

namespace docket {

namespace {

constexpr std::size_t most_digits = 18; // what a 64-bit number always holds
constexpr std::size_t longest_prefix = 64;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t digits_behind(std::string_view text) {
  std::size_t digits = 0;
  while (digits < text.size() && is_digit(text[text.size() - 1 - digits])) ++digits;
  return digits;
}

} // namespace

UnitNumbers read_unit_numbers(const CycleTexts& units) {
  UnitNumbers result;
  result.given.resize(units.parts.size());
  result.numbers.reserve(units.parts.size());
  bool first = true, same_length = true, no_leading_zero = true;
  std::size_t length = 0;
  for (std::size_t i = 0; i < units.parts.size(); ++i) {
    const std::string_view text = units.at(i);
    if (text.empty()) continue;
    if (first) {
      result.form.prefix = text.substr(0, text.size() - digits_behind(text));
      length = text.size();
      first = false;
    }
    const std::size_t prefix = result.form.prefix.size();
    if (prefix > longest_prefix || text.size() <= prefix || text.size() - prefix > most_digits ||
        std::memcmp(text.data(), result.form.prefix.data(), prefix) != 0)
      return {};
    std::int64_t number = 0;
    for (std::size_t k = prefix; k < text.size(); ++k) {
      if (!is_digit(text[k])) return {};
      number = number * 10 + (text[k] - '0');
    }
    same_length = same_length && text.size() == length;
    no_leading_zero = no_leading_zero && (text[prefix] != '0' || text.size() == prefix + 1);
    if (!same_length && !no_leading_zero) return {};
    result.given[i] = 1;
    result.numbers.push_back(number);
  }
  if (!no_leading_zero) result.form.digits = static_cast<std::uint8_t>(length - result.form.prefix.size());
  result.all_numbers = true;
  return result;
}

bool write_unit_numbers(const UnitForm& form, const std::vector<std::int64_t>& numbers,
                        const std::vector<std::int64_t>& given, CycleTexts& units) {
  if (form.digits > most_digits || form.prefix.size() > longest_prefix) return false;
  units.parts.reserve(given.size());
  std::size_t next = 0;
  for (const std::int64_t is_given : given) {
    const auto start = static_cast<std::uint32_t>(units.text.size());
    if (is_given != 0) {
      std::array<char, 24> digits{};
      if (numbers[next] < 0) return false;
      const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), numbers[next++]).ptr;
      const auto length = static_cast<std::size_t>(end - digits.data());
      if (length > most_digits || (form.digits != 0 && length > form.digits)) return false;
      units.text += form.prefix;
      if (form.digits != 0) units.text.append(form.digits - length, '0');
      units.text.append(digits.data(), length);
    }
    units.parts.push_back({start, static_cast<std::uint32_t>(units.text.size()) - start});
  }
  return true;
}

} // namespace docket
