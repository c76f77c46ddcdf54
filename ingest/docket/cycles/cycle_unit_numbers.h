// Unit numbers as numbers: 118204, or HP-0118204 as HP- and 0118204.
//
// Model     all units that are given are one prefix and decimal digits: all with the same count of digits, or all
//           without a leading zero
// Checked   tests/ingest/docket/cycles/cycle_pack_test.cpp
#pragma once

#include "ingest/docket/cycles/cycle_block.h"

namespace docket {

struct UnitForm {
  std::string prefix;      ///< at most 64 bytes
  std::uint8_t digits = 0; ///< of every number, with its leading zeros; 0: no leading zeros. At most 18
};

struct UnitNumbers {
  bool all_numbers = false; ///< false: some unit is no number in this form, and the rest is empty
  UnitForm form;
  std::vector<std::int64_t> given;   ///< by row: 1 or 0
  std::vector<std::int64_t> numbers; ///< of the rows that have a unit
};

UnitNumbers read_unit_numbers(const CycleTexts& units);

/// The texts again; false where a number has more digits than the form, is below 0, or the form is none.
bool write_unit_numbers(const UnitForm& form, const std::vector<std::int64_t>& numbers,
                        const std::vector<std::int64_t>& given, CycleTexts& units);

} // namespace docket
