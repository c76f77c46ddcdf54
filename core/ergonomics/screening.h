// What every result of an ergonomics method carries: where the method is from, how far it reaches, how sure its values
// are. A result is a screening result: a number or none, and why. There is no total, no class and no clearance.
//
// Model     none: codes, whose words are made in report/wording
// Assumes   whoever prints a number prints the range and the source with it
// Checked   tests/core/ergonomics/screening_test.cpp
#pragma once

#include "core/estimate.h"

#include <algorithm>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct ScreeningMethod {
  std::string_view code;                   ///< of the method
  std::string_view source;                 ///< of the publication
  std::string_view certainty;              ///< `published`, `published_in_part`, `from_memory`: of the values used here
  std::span<const std::string_view> range; ///< for whom and what it is, and what it leaves out
};

/// Waters, Putz-Anderson & Garg 1994.
const ScreeningMethod& revised_lifting_equation();
/// The composite lifting index of the same manual.
const ScreeningMethod& composite_lifting_index();
/// Potvin 2012.
const ScreeningMethod& maximum_acceptable_effort_method();
/// Moore & Garg 1995.
const ScreeningMethod& strain_index_1995();
/// Garg, Moore & Kapellusch 2017.
const ScreeningMethod& revised_strain_index_2017();
/// Silverstein, Fine & Armstrong 1986.
const ScreeningMethod& repetition_definition();

/// True where the list has the code.
inline bool has_code(std::span<const Reason> reasons, std::string_view code) {
  return std::any_of(reasons.begin(), reasons.end(), [&](const Reason& r) { return r.code == code; });
}

} // namespace docket
