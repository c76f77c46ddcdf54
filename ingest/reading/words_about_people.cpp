#include "ingest/reading/words_about_people.h"

#include "ingest/reading/word_match.h"

#include <algorithm>
#include <array>

namespace docket {

namespace {

constexpr auto judges = WordTopic::judges_a_person;
constexpr auto health = WordTopic::speaks_of_health;

// Of health only words that are hardly ever said of things: a pain is a person's, a weak spring is not.
constexpr std::array words{
    WatchedWord{"lazy", judges},
    WatchedWord{"laziness", judges},
    WatchedWord{"unwilling*", judges},
    WatchedWord{"slow worker*", judges},
    WatchedWord{"slow operator*", judges},
    WatchedWord{"slacker*", judges},
    WatchedWord{"slacking", judges},
    WatchedWord{"malinger*", judges},
    WatchedWord{"incapable", judges},
    WatchedWord{"incompeten*", judges},
    WatchedWord{"bad attitude*", judges},
    WatchedWord{"poor attitude*", judges},
    WatchedWord{"underperform*", judges},
    WatchedWord{"unmotivated", judges},
    WatchedWord{"no motivation", judges},
    WatchedWord{"troublemaker*", judges},
    WatchedWord{"careless*", judges},
    WatchedWord{"stupid*", judges},
    WatchedWord{"clumsy", judges},
    WatchedWord{"pretend*", judges},
    WatchedWord{"does not want to", judges},
    WatchedWord{"doesn't want to", judges},
    WatchedWord{"not trying", judges},
    WatchedWord{"liar*", judges},
    WatchedWord{"not motivated", judges},
    WatchedWord{"uncooperative", judges},
    WatchedWord{"low performer*", judges},
    WatchedWord{"poor performer*", judges},
    WatchedWord{"not a team player", judges},
    WatchedWord{"cannot cope", judges},
    WatchedWord{"can't cope", judges},
    WatchedWord{"unfit for", judges},
    WatchedWord{"sleeps on", judges},
    WatchedWord{"toilet breaks", judges},
    WatchedWord{"too old", judges},
    WatchedWord{"simulates", judges},
    WatchedWord{"pain", health},
    WatchedWord{"pains", health},
    WatchedWord{"painful", health},
    WatchedWord{"numb", health},
    WatchedWord{"numbness", health},
    WatchedWord{"swelling", health},
    WatchedWord{"swollen", health},
    WatchedWord{"tingl*", health},
    WatchedWord{"injur*", health},
    WatchedWord{"diagnos*", health},
    WatchedWord{"disabilit*", health},
    WatchedWord{"pregnan*", health},
    WatchedWord{"surgery", health},
    WatchedWord{"medical*", health},
    WatchedWord{"medication*", health},
    WatchedWord{"sick", health},
    WatchedWord{"sick leave", health},
    WatchedWord{"illness*", health},
    WatchedWord{"carpal tunnel", health},
    WatchedWord{"tendinitis", health},
    WatchedWord{"doctor*", health},
    WatchedWord{"sore", health},
    WatchedWord{"hurts", health},
    WatchedWord{"hurt", health},
    WatchedWord{"depress*", health},
    WatchedWord{"diabet*", health},
    WatchedWord{"epilep*", health},
    WatchedWord{"cancer*", health},
    WatchedWord{"heart attack*", health},
    WatchedWord{"arthritis", health},
    WatchedWord{"tendonitis", health},
    WatchedWord{"burnout", health},
    WatchedWord{"disabled", health},
    WatchedWord{"bad back", health},
    WatchedWord{"alcohol*", health},
    WatchedWord{"drunk", health},
    WatchedWord{"ill", health},
};

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

/// Where the word stands as a word of its own; npos where it does not. `low` is in small letters.
std::size_t place_of(std::string_view low, std::string_view word) {
  const bool any_ending = word.ends_with('*');
  if (any_ending) word.remove_suffix(1);
  for (std::size_t at = low.find(word); at != std::string_view::npos; at = low.find(word, at + 1)) {
    const bool begins = at == 0 || !is_letter(low[at - 1]);
    const std::size_t end = at + word.size();
    if (begins && (any_ending || end == low.size() || !is_letter(low[end]))) return at;
  }
  return std::string_view::npos;
}

void ask(Draft& draft, const SourceRow& where, std::string_view column, const std::string& text) {
  for (const FoundWord& found : find_watched_words(text)) {
    if (found.topic == judges)
      row_issue(draft, where, column, found.word,
                {IssueGrade::question, "text_judges_a_person",
                 "\"" + found.word + "\" may judge a person. The text stays as it stands.",
                 "Say what was seen: the work, the time, the condition. Leave it where these are somebody's own words "
                 "and they are to stand."});
    else
      row_issue(draft, where, column, found.word,
                {IssueGrade::question, "text_speaks_of_health",
                 "\"" + found.word + "\" may speak of somebody's health. The text stays as it stands.",
                 "Report a health matter in the usual way and note in the sheet referrals that it was reported. Leave "
                 "it here only where the person it is about agrees."});
  }
}

SourceRow row_of_key(const Draft& draft, std::string_view key) {
  for (const auto& [name, origin] : draft.input.facts.origins)
    if (name == key) return origin;
  return {};
}

} // namespace

std::span<const WatchedWord> watched_words() { return words; }

std::vector<FoundWord> find_watched_words(std::string_view text) {
  const std::string low = small_letters(text);
  std::vector<FoundWord> found;
  for (const WordTopic topic : {judges, health}) {
    std::size_t first = std::string_view::npos, length = 0;
    for (const WatchedWord& watched : words) {
      if (watched.topic != topic) continue;
      const std::size_t at = place_of(low, watched.word);
      if (at >= first) continue;
      first = at;
      length = watched.word.size() - (watched.word.ends_with('*') ? 1 : 0);
      while (at + length < low.size() && is_letter(low[at + length])) ++length;
    }
    if (first != std::string_view::npos) found.push_back({std::string(text.substr(first, length)), topic});
  }
  return found;
}

void check_words(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  if (!facts.title.empty()) ask(draft, row_of_key(draft, "title"), "title", facts.title);
  if (!facts.complaint_text.empty())
    ask(draft, row_of_key(draft, "complaint_text"), "complaint_text", facts.complaint_text);
  for (const Statement& statement : draft.input.statements) {
    ask(draft, statement.origin, "who", statement.who);
    ask(draft, statement.origin, "text", statement.text);
  }
  for (const Condition& condition : draft.input.conditions) {
    ask(draft, condition.origin, "check", condition.check);
    ask(draft, condition.origin, "note", condition.note);
  }
  for (const Reading& reading : draft.input.readings) ask(draft, reading.origin, "note", reading.note);
  for (const StandardElement& element : draft.input.standard) {
    ask(draft, element.origin, "description", element.description);
    ask(draft, element.origin, "source_note", element.source_note);
  }
  for (const Training& training : draft.input.training) ask(draft, training.origin, "what", training.what);
  for (const Lift& lift : draft.input.lifts) ask(draft, lift.origin, "task", lift.task);
  for (const Effort& effort : draft.input.efforts) ask(draft, effort.origin, "task", effort.task);
}

} // namespace docket
