// Words as people write them: matched without case, accents and blanks, and the nearest one found for "did you mean".
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// Lower-case letters and digits alone: "Time (s)" and "time_s" are both "times", "Prüfung" is "prufung".
std::string plain_word(std::string_view text);

/// The candidate nearest to what was written, by edit distance of the plain words (or one word inside the other);
/// absent where none is near. The first of equals.
std::optional<std::string_view> nearest_word(std::string_view written, std::span<const std::string_view> candidates);

/// ASCII letters made small; for codes.
std::string small_letters(std::string_view text);

/// Parts between `;`, trimmed, blank ones left out.
std::vector<std::string> split_list(std::string_view text);

/// Without blanks (also no-break ones) at both ends.
std::string_view trimmed(std::string_view text);

} // namespace docket
