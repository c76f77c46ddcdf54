// Numbers as text.
#pragma once

#include <string>
#include <string_view>

namespace docket {

struct NumberText {
  enum class Outcome { read, none, ambiguous };
  Outcome outcome = Outcome::none;
  double value = 0;
};

/// Reads a number written as text. A comma is the decimal mark where the file allows it (`decimal_comma`); elsewhere a
/// single comma is one only where it can't divide thousands (12,5 but not 1,234: ambiguous). NaN and infinity are no
/// numbers. `percent_sign`: a `%` behind the number is left out.
/// `whole`: a count is wanted, so that 5.000 may be five thousand.
NumberText parse_number(std::string_view text, bool decimal_comma, bool percent_sign, bool whole = false);

} // namespace docket
