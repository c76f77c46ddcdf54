// Free texts of the input that judge a person or speak of health: asked about, never refused. The texts stay as
// they stand; whoever fills the sheet may choose other words.
//
// Words in English only; a text in another language is not looked at. A word counts where it stands as a word of its own,
// whatever its case: `numb` is not found in `number`.
#pragma once

#include "ingest/reading/draft.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace docket {

enum class WordTopic : std::uint8_t { judges_a_person, speaks_of_health };

struct WatchedWord {
  std::string_view word; ///< small letters; a `*` at its end: any ending
  WordTopic topic = WordTopic::judges_a_person;
};

/// The one list.
std::span<const WatchedWord> watched_words();

struct FoundWord {
  std::string word; ///< as it stands in the text
  WordTopic topic = WordTopic::judges_a_person;
};

/// The first one of each topic in a text.
std::vector<FoundWord> find_watched_words(std::string_view text);

/// Every free text that is printed: one question a row, column and topic.
void check_words(Draft& draft);

} // namespace docket
