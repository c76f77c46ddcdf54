// One check of the standard or of the stopwatch study: a question a reviewer asks, and what came of it.
//
// Method    found         what was seen lies beyond the threshold; where a check has an interval, all of it does, but
//                         where the header of the check says that the figure alone decides
//           passed        it does not, and the evidence was able to show it: the whole interval lies within the
//                         threshold, and nothing the check looks at was too rare or left unsaid
//           numbers_only  the check has no threshold; or nothing was found, and the evidence could not have told
//           could_not_run what the check needs is not there
// Source    no evidence of a fault is not evidence of none: D. G. Altman, J. M. Bland, BMJ 311 (1995), 485; the interval
//           against a margin set beforehand: D. J. Schuirmann, Journal of Pharmacokinetics and Biopharmaceutics 15
//           (1987), 657-680 (both from memory, to be confirmed)
// Checked   tests/core/content/checks/: every check finds, passes and can't run; those that can only show numbers, too
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

enum class CheckOutcome : std::uint8_t { passed, found, numbers_only, could_not_run };

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

/// `told`: the evidence could have shown it.
inline StudyCheck check_that_ran(std::string_view code, bool found, bool told, Bias bias) {
  StudyCheck check = check_that_ran(code, found, bias);
  if (!found && !told) check.outcome = CheckOutcome::numbers_only;
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
