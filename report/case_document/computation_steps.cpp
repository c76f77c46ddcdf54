#include "report/case_document/computation_steps.h"

#include "report/format.h"

#include <cmath>
#include <utility>

namespace docket {

void Steps::step(std::string_view title, std::string_view text, std::string_view source) {
  list_.items.push_back({strong(std::string(title) + ". "), plain(std::string(text) + " "),
                         plain("Source: " + std::string(source) + ".")});
}

List Steps::take() {
  list_.numbered = true;
  return std::move(list_);
}

std::string in_brackets(double value, int decimals) {
  const std::string text = format_fixed(value, decimals);
  return value < 0 ? "(" + text + ")" : text;
}

std::string log_of(double value) { return format_fixed(value, 5); }
std::string seconds3(Seconds time) { return format_fixed(time.count(), 3) + " s"; }

std::string worked_on(double value) { return format_fixed(value, 7); }
std::string seconds2(Seconds time) { return format_fixed(time.count(), 2) + " s"; }

std::string square(double value) { return log_of(value) + "\u00B2"; }

std::string df_in_words(double df) {
  constexpr double countless = 1e6; ///< a random part next to nothing: rounding alone makes such a number
  if (!std::isfinite(df)) return "without end (normal)";
  return df > countless ? "more than a million" : format_fixed(df, 1);
}

std::string root_of_squares(std::initializer_list<double> parts, double sum) {
  std::string text;
  for (const double part : parts)
    if (part != 0) text += (text.empty() ? "" : " + ") + square(part);
  return "\u221A(" + (text.empty() ? "0" : text) + ") = " + log_of(sum);
}

std::string level_as_z(std::string_view name, Seconds time, Seconds limit) {
  return std::string(name) + " = ln(" + seconds3(time) + " / " + seconds3(limit) +
         ") = " + log_of(std::log(time / limit));
}
} // namespace docket
