// The words that only the PDF has.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace docket::wording {

inline constexpr std::string_view contents = "Contents";

/// Stands where a sign has no letter in the bundled fonts.
inline constexpr std::string_view sign_without_letter = "\ufffd";
inline constexpr std::string_view sign_without_letter_note =
    "\ufffd stands for a sign that the letters of this file lack; casefile.html has it.";

inline std::string pdf_foot_case(const std::string& case_ref) { return "Case file " + case_ref; }

inline std::string pdf_foot_page(std::size_t number, std::size_t count) {
  return "page " + std::to_string(number) + " of " + std::to_string(count);
}

} // namespace docket::wording
