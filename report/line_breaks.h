// Where a line must not end: between a number and its unit, and inside a day or an operator code.
#pragma once

#include <cstddef>
#include <string_view>

namespace docket {

/// Does the blank at `at` stand between a number and its unit (s, %, h, min)?
bool ties_unit(std::string_view text, std::size_t at);

/// The signs that end a word, as `breaks_badly` sees words.
inline constexpr std::string_view word_ends = " ,.;:()";

/// A day (2026-03-04) or an operator code (N-8): lines would break at their hyphens.
bool breaks_badly(std::string_view word);

} // namespace docket
