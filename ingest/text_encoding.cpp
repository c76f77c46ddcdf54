#include "ingest/text_encoding.h"

namespace docket {

void append_utf8(std::string& text, char32_t code) {
  const auto tail = [&](unsigned shift) { text += static_cast<char>(0x80U | ((code >> shift) & 0x3FU)); };
  if (code < 0x80) {
    text += static_cast<char>(code);
  } else if (code < 0x800) {
    text += static_cast<char>(0xC0U | (code >> 6));
    tail(0);
  } else if (code < 0x10000) {
    text += static_cast<char>(0xE0U | (code >> 12));
    tail(6);
    tail(0);
  } else {
    text += static_cast<char>(0xF0U | (code >> 18));
    tail(12);
    tail(6);
    tail(0);
  }
}

std::optional<std::size_t> find_invalid_utf8(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  for (std::size_t i = 0; i < text.size();) {
    const unsigned char first = byte(i);
    if (first < 0x80) {
      ++i;
      continue;
    }
    // RFC 3629 section 4: the range of the second byte rules out overlong forms, surrogates and codes too large.
    std::size_t tails = 0;
    unsigned char low = 0x80, high = 0xBF;
    if (first >= 0xC2 && first <= 0xDF) {
      tails = 1;
    } else if (first >= 0xE0 && first <= 0xEF) {
      tails = 2;
      if (first == 0xE0) low = 0xA0;
      if (first == 0xED) high = 0x9F;
    } else if (first >= 0xF0 && first <= 0xF4) {
      tails = 3;
      if (first == 0xF0) low = 0x90;
      if (first == 0xF4) high = 0x8F;
    } else {
      return i;
    }
    if (text.size() - i <= tails) return i;
    for (std::size_t k = 1; k <= tails; ++k) {
      if (byte(i + k) < low || byte(i + k) > high) return i;
      low = 0x80;
      high = 0xBF;
    }
    i += tails + 1;
  }
  return std::nullopt;
}

std::string with_question_marks(std::string_view text) {
  std::string sound(text);
  for (std::size_t from = 0;;) {
    const auto bad = find_invalid_utf8(std::string_view(sound).substr(from));
    if (!bad) return sound;
    from += *bad;
    sound[from++] = '?';
  }
}

std::string_view first_of_utf8(std::string_view text, std::size_t most) {
  if (text.size() <= most) return text;
  const auto goes_on = [&](std::size_t at) { return (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80; };
  while (most > 0 && goes_on(most)) --most;
  return text.substr(0, most);
}

std::optional<std::string> utf8_from_utf16(std::string_view bytes, bool big_end_first) {
  if (bytes.size() % 2 != 0) return std::nullopt;
  const auto unit = [&](std::size_t i) -> char32_t {
    const auto a = static_cast<unsigned char>(bytes[i]), b = static_cast<unsigned char>(bytes[i + 1]);
    return big_end_first ? (a * 256U + b) : (b * 256U + a);
  };
  std::string text;
  text.reserve(bytes.size() / 2);
  for (std::size_t i = 0; i < bytes.size(); i += 2) {
    char32_t code = unit(i);
    if (code >= 0xDC00 && code <= 0xDFFF) return std::nullopt;
    if (code >= 0xD800 && code <= 0xDBFF) {
      i += 2;
      if (i >= bytes.size()) return std::nullopt;
      const char32_t low = unit(i);
      if (low < 0xDC00 || low > 0xDFFF) return std::nullopt;
      code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
    }
    append_utf8(text, code);
  }
  return text;
}

} // namespace docket
