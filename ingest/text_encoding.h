// UTF-8 and UTF-16.
//
// Spec        RFC 3629 (UTF-8), RFC 2781 (UTF-16)
// Checked     tests/ingest/csv_test.cpp
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace docket {

/// `code` is a Unicode scalar value.
void append_utf8(std::string& text, char32_t code);

/// Where the first byte stands that is not UTF-8: overlong forms, surrogates and codes above 10FFFF count as such.
std::optional<std::size_t> find_invalid_utf8(std::string_view text);

/// The text with a question mark for each byte that is not UTF-8: what a damaged file says of itself, for a message.
std::string with_question_marks(std::string_view text);

/// The first bytes of a UTF-8 text, at most so many, without half a character at the end.
std::string_view first_of_utf8(std::string_view text, std::size_t most);

/// Absent where a surrogate stands alone or half a unit is left over. The byte-order mark is not expected in it.
std::optional<std::string> utf8_from_utf16(std::string_view bytes, bool big_end_first);

} // namespace docket
