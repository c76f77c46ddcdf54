#include "ingest/reading/roster_fill.h"

#include "ingest/reading/cell_dates.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <map>
#include <set>

namespace docket {

namespace {

struct Shift {
  std::string name;
  bool crosses_midnight = false;
};

/// Shifts by plain name. One crosses midnight where a roster row of it does, or where the log has cycles of it in both
/// the last and the first hour of the day.
std::map<std::string, Shift> find_shifts(const Case& input) {
  std::map<std::string, Shift> shifts;
  for (const RosterEntry& entry : input.roster) {
    Shift& shift = shifts[plain_word(entry.shift)];
    shift.name = entry.shift;
    if (entry.from && entry.to && *entry.to <= *entry.from) shift.crosses_midnight = true;
  }
  struct Hours {
    bool first = false, last = false;
  };
  std::vector<Hours> of_word(input.log_words.size());
  for (const LoggedCycle& cycle : input.cycle_log) {
    if (cycle.shift < 0) continue;
    const auto time = cycle.started_at - Instant(day_of(cycle.started_at));
    Hours& hours = of_word[static_cast<std::size_t>(cycle.shift)];
    hours.first = hours.first || time < std::chrono::hours(1);
    hours.last = hours.last || time >= std::chrono::hours(23);
  }
  std::map<std::string, Hours> by_name;
  for (std::size_t i = 0; i < of_word.size(); ++i) {
    Hours& hours = by_name[plain_word(input.log_words[i])];
    hours.first = hours.first || of_word[i].first;
    hours.last = hours.last || of_word[i].last;
  }
  for (const auto& [name, hours] : by_name)
    if (hours.first && hours.last) shifts[name].crosses_midnight = true;
  return shifts;
}

bool covers(const RosterEntry& entry, bool shift_crosses_midnight, Instant at) {
  const Instant day(entry.date);
  if (entry.from && entry.to) {
    const Instant end = day + *entry.to + (*entry.to <= *entry.from ? std::chrono::hours(24) : std::chrono::hours(0));
    return at >= day + *entry.from && at < end;
  }
  Date shift_day = day_of(at);
  const bool morning = at - Instant(shift_day) < std::chrono::hours(12);
  if (shift_crosses_midnight && morning) shift_day -= std::chrono::days(1);
  if (shift_day != entry.date) return false;
  const auto since = at - day;
  if (entry.from && since < *entry.from) return false;
  return !entry.to ||
         since < *entry.to + (shift_crosses_midnight && *entry.to < std::chrono::hours(12) ? std::chrono::hours(24)
                                                                                           : std::chrono::hours(0));
}

} // namespace

void fill_from_roster(Draft& draft) {
  Case& input = draft.input;
  if (input.roster.empty()) return;
  const std::map<std::string, Shift> shifts = find_shifts(input);
  std::multimap<Date, std::size_t> by_day;
  std::vector<std::string> words;
  for (std::size_t i = 0; i < input.roster.size(); ++i) {
    by_day.emplace(input.roster[i].date, i);
    words.push_back(plain_word(input.roster[i].shift));
  }
  std::vector<std::string> plain_words; // of the log
  for (const std::string& word : input.log_words) plain_words.push_back(plain_word(word));
  std::set<std::pair<std::size_t, std::size_t>> reported;
  for (LoggedCycle& cycle : input.cycle_log) {
    if (cycle.op >= 0) continue;
    const std::string word = cycle.shift < 0 ? "" : plain_words[static_cast<std::size_t>(cycle.shift)];
    const Date day = day_of(cycle.started_at);
    std::optional<std::size_t> found;
    bool several = false;
    const auto end = by_day.upper_bound(day);
    for (auto at = by_day.lower_bound(day - std::chrono::days(1)); at != end; ++at) {
      const std::size_t i = at->second;
      const RosterEntry& entry = input.roster[i];
      if (!word.empty() && word != words[i]) continue;
      const auto shift = shifts.find(words[i]);
      if (!covers(entry, shift->second.crosses_midnight, cycle.started_at)) continue;
      if (!found) {
        found = i;
      } else if (entry.op != input.roster[*found].op) {
        several = true;
        const auto pair = std::minmax(i, *found);
        if (reported.insert(pair).second)
          row_issue(draft, input.roster[pair.second].origin, "operator",
                    input.operators[static_cast<std::size_t>(input.roster[pair.second].op)].code,
                    {IssueGrade::warning, "roster_overlap",
                     "This row and " +
                         row_text(draft, input.roster[pair.first].origin, input.roster[pair.second].origin) +
                         " both cover the same time with different people.",
                     "Give from and to, so that one person is at the station at a time. Until then these cycles stay "
                     "without an operator."});
      }
    }
    if (found && !several) cycle.op = input.roster[*found].op;
  }
}

} // namespace docket
