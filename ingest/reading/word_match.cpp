#include "ingest/reading/word_match.h"

#include <QString>
#include <algorithm>
#include <numeric>

namespace docket {

namespace {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

} // namespace

std::string plain_word(std::string_view text) {
  const bool ascii = std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 128; });
  std::string word;
  if (ascii) {
    for (const char c : text) {
      if (c >= 'A' && c <= 'Z')
        word += static_cast<char>(c - 'A' + 'a');
      else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
        word += c;
    }
    return word;
  }
  const QString apart = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()))
                            .normalized(QString::NormalizationForm_KD)
                            .toCaseFolded();
  QString kept;
  for (const QChar c : apart)
    if (c.isSurrogate() || c.isLetterOrNumber()) kept += c;
  return kept.toStdString();
}

std::optional<std::string_view> nearest_word(std::string_view written, std::span<const std::string_view> candidates) {
  const std::string word = plain_word(written);
  constexpr std::size_t longest = 100; // far beyond any name; a file may hold megabytes where a word belongs
  if (word.empty() || word.size() > longest) return std::nullopt;
  std::optional<std::string_view> nearest;
  std::size_t least = (word.size() < 4 ? 1 : std::max<std::size_t>(2, word.size() / 3)) + 1;
  for (const std::string_view candidate : candidates) {
    const std::string other = plain_word(candidate);
    std::size_t distance = edit_distance(word, other);
    if (distance >= std::max(word.size(), other.size())) continue;
    // One word inside the other is a likely meaning however long the rest is, but never before a closer one.
    const bool inside = std::min(word.size(), other.size()) >= 4 &&
                        (word.find(other) != std::string::npos || other.find(word) != std::string::npos);
    if (inside) distance = std::min<std::size_t>(distance, 2);
    if (distance < least) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string small_letters(std::string_view text) {
  std::string small(text);
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view no_break = "\xC2\xA0";
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
  while (!text.empty()) {
    if (blank(text.front()))
      text.remove_prefix(1);
    else if (text.starts_with(no_break))
      text.remove_prefix(2);
    else if (blank(text.back()))
      text.remove_suffix(1);
    else if (text.ends_with(no_break))
      text.remove_suffix(2);
    else
      break;
  }
  return text;
}

std::vector<std::string> split_list(std::string_view text) {
  std::vector<std::string> parts;
  while (true) {
    const std::size_t end = text.find(';');
    const std::string_view part = trimmed(text.substr(0, end));
    if (!part.empty()) parts.emplace_back(part);
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

} // namespace docket
