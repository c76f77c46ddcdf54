#include "report/wording/shifts.h"

#include "report/format.h"

namespace docket::wording {
namespace {

constexpr CodeWords why[] = {
    {"no_settled_operator", "no cycle of a settled operator counts[ in the shift \u201C{}\u201D]"},
    {"all_under_condition", "every cycle that could count[ in the shift \u201C{}\u201D] was worked under a condition "
                            "that differs from the standard"},
    {"no_common_variant",
     "too few plain cycles of settled operators of a variant that the shifts have in common (20 in "
     "each, of a variant that makes 5 % of the planned mix or more)"},
    {"no_spread",
     "all values[ of the shift \u201C{}\u201D] are the same, so that nothing is known of how far they spread"},
};

} // namespace

std::span<const CodeWords> shift_why_table() { return why; }

std::string shift_why_in_words(const Reason& reason) {
  for (const CodeWords& row : why)
    if (row.code == reason.code) return fill_in(row.words, reason.detail);
  return reason.detail.empty() ? reason.code : reason.code + " (" + reason.detail + ")";
}

std::string outcome_in_words(const ShiftPair& pair, double margin) {
  const std::string percent = format_percent(margin);
  switch (pair.outcome) {
  case ShiftOutcome::equivalent:
    return "Equivalent: the difference is shown to be within " + percent + ".";
  case ShiftOutcome::different:
    return "They differ by more than " + percent + ". This does not say why.";
  case ShiftOutcome::not_shown:
    return "Not shown either way: the difference may be more than " + percent +
           " or less. This does not say that they are equal.";
  case ShiftOutcome::not_comparable:
    break;
  }
  return "Not comparable: " + shift_why_in_words(pair.why) + ".";
}

std::string spread_in_words(ShiftSpread spread, std::int64_t operators) {
  std::string words = format_count(operators) + (operators == 1 ? " operator" : " operators");
  if (spread == ShiftSpread::days) words += ", by days";
  if (spread == ShiftSpread::cycles) words += ", by cycles of one day";
  if (spread == ShiftSpread::none) words += ", no spread seen";
  return words;
}

std::string_view too_few_in_words(std::int64_t operators) {
  if (operators <= 1) return "one person is not a shift, and how people differ is a setting, not seen";
  return "two people have 1 degree of freedom, so the range is very wide";
}

std::string_view outcome_code(ShiftOutcome outcome) {
  static constexpr std::string_view codes[] = {"equivalent", "different", "not_shown", "not_comparable"};
  return codes[static_cast<std::size_t>(outcome)];
}

std::string_view spread_code(ShiftSpread spread) {
  static constexpr std::string_view codes[] = {"none", "operators", "days", "cycles"};
  return codes[static_cast<std::size_t>(spread)];
}

} // namespace docket::wording
