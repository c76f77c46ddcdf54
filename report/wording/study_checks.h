// The words of the checks of the standard and of the study.
#pragma once

#include "core/content/checks/study_check.h"

#include <span>
#include <string>
#include <string_view>

namespace docket::wording {

/// In `found`, `passed` and `numbers`, "{name}" stands for a number of the check or its names, "{+name}" for one with its sign;
/// what is in square brackets is left out where one of its numbers is absent. Where a check never ends so, the text is
/// empty. `to_tell`: what would let it find or pass; empty beside `numbers`: nothing would, it has no threshold.
struct CheckRow {
  std::string_view code, check, found, passed, affects, remedy, numbers = {}, to_tell = {};
};

/// What a check lacked, and what to give.
struct LackRow {
  std::string_view code, words, remedy;
};

std::span<const CheckRow> check_table();
std::span<const LackRow> lack_table();

struct CheckWords {
  std::string check, result, direction, affects, remedy;
};

/// A code that is not known is printed as it is.
CheckWords check_in_words(const StudyCheck& check);

/// The stable word of findings.json.
std::string_view outcome_code(CheckOutcome outcome);
std::string_view bias_in_words(Bias bias);

} // namespace docket::wording
