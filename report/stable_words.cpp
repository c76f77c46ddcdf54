#include "report/stable_words.h"

#include "report/format.h"

#include <array>

namespace docket {
namespace {

std::string two_digits(unsigned value) { return (value < 10 ? "0" : "") + std::to_string(value); }

} // namespace

std::string iso(Instant instant) {
  const Date date = std::chrono::floor<std::chrono::days>(instant);
  const std::chrono::hh_mm_ss time(std::chrono::floor<std::chrono::seconds>(instant - date));
  return format_date(date) + "T" + two_digits(static_cast<unsigned>(time.hours().count())) + ":" +
         two_digits(static_cast<unsigned>(time.minutes().count())) + ":" +
         two_digits(static_cast<unsigned>(time.seconds().count()));
}

std::string_view word_of(Leaning leans) {
  constexpr std::array<std::string_view, 3> words{"fits", "over", "neither"};
  return words[static_cast<std::size_t>(leans)];
}

std::string_view word_of(Line line) {
  constexpr std::array<std::string_view, 3> words{"standard", "settled", "restudy"};
  return words[static_cast<std::size_t>(line)];
}

std::string_view word_of(AllowanceWhere where) {
  constexpr std::array<std::string_view, 4> words{"none", "in_cycle", "by_relief", "in_standard"};
  return words[static_cast<std::size_t>(where)];
}

std::string_view word_of(OperatorStatus status) {
  constexpr std::array<std::string_view, 6> words{"settled", "too_short", "falling", "untrained", "left", "not_said"};
  return words[static_cast<std::size_t>(status)];
}

std::string_view word_of(ConditionState state) {
  constexpr std::array<std::string_view, 3> words{"as_standard", "differs", "not_checked"};
  return words[static_cast<std::size_t>(state)];
}

std::string_view word_of(Exclusion why) {
  constexpr std::array<std::string_view, 9> words{"mark",          "condition",        "line_time",
                                                  "other_station", "no_operator",      "no_variant",
                                                  "in_the_log",    "elements_missing", "timed_twice"};
  return words[static_cast<std::size_t>(why)];
}

std::string_view end_of(const SequenceMargin& margin) {
  return margin.at_low_end ? "low" : margin.at_high_end ? "high" : "none";
}

std::string words_of(Marks marks) {
  std::string words;
  for (const MarkUse& use : mark_uses)
    if (marks.has(use.mark)) words += (words.empty() ? "" : ";") + std::string(use.name);
  return words;
}

} // namespace docket
