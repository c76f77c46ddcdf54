// The words of a cycle log as numbers, so that millions of cycles stay small.
//
// Model     A unit such as HP-0118204 is its head (HP-), how many digits follow, and their number, all in 64 bits; one
//           that does not fit is a word of a list. The same unit always has the same number, another unit another one
// Checked   tests/ingest/cycle_names_test.cpp
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace docket {

/// Words, each with its place.
struct PlacedWords {
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view word) const { return std::hash<std::string_view>{}(word); }
  };

  std::vector<std::string> words;
  std::unordered_map<std::string, std::uint32_t, Hash, std::equal_to<>> places;
};

struct CycleNames {
  PlacedWords stations_and_shifts; ///< Case::log_words, to find a word by
  PlacedWords heads, other_units;
};

/// The place of a word, which is added where it is new.
std::uint32_t place_of(PlacedWords& list, std::string_view word);

/// The number of a unit; 0 for none.
std::uint64_t number_of_unit(CycleNames& names, std::string_view unit);

/// The unit a number stands for.
std::string unit_of_number(const CycleNames& names, std::uint64_t number);

} // namespace docket
