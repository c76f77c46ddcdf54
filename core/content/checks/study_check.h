// One check of the standard or of the stopwatch study: a question a reviewer asks, and what came of it.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

enum class CheckOutcome : std::uint8_t { passed, found, could_not_run };

/// Which way question A is off if what was found is so.
enum class Bias : std::uint8_t { none, too_light, too_heavy, either };

/// The words, with effect on A and remedy, are in report/wording.
struct StudyCheck {
  std::string code; ///< stable
  CheckOutcome outcome = CheckOutcome::could_not_run;
  Bias bias = Bias::none; ///< none unless something was found
  std::string lacks;      ///< stable code of what is missing, where the check could not run; else empty
  /// What the words need, by name: "_s" is seconds, "share" 0 to 1, the rest plain numbers and counts. All finite.
  std::map<std::string, double> numbers;
  std::string names; ///< elements, sessions, variants, one observer: ", " between; empty for none
};

/// `found` decides the outcome; the bias counts only where something was found.
inline StudyCheck check_that_ran(std::string_view code, bool found, Bias bias) {
  StudyCheck check;
  check.code = code;
  check.outcome = found ? CheckOutcome::found : CheckOutcome::passed;
  check.bias = found ? bias : Bias::none;
  return check;
}

inline StudyCheck check_that_lacks(std::string_view code, std::string_view lacks) {
  StudyCheck check;
  check.code = code;
  check.lacks = lacks;
  return check;
}

inline void add_name(std::string& names, std::string_view name) {
  if (!names.empty()) names += ", ";
  names += name;
}

} // namespace docket
