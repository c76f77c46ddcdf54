#include "core/content/checks/coverage_checks.h"

#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

namespace docket {
namespace {

using std::chrono::days;

StudyCheck enough_readings(const Case& input, const RestudyResult& restudy) {
  constexpr const char* code = "enough_readings";
  if (!restudy.line) return check_that_lacks(code, "rated_readings");
  if (!restudy.line->needed_cycles || !std::isfinite(*restudy.line->needed_cycles))
    return check_that_lacks(code, "more_than_one_reading");
  const double needed = std::max(1.0, std::ceil(*restudy.line->needed_cycles));
  const auto n = static_cast<double>(restudy.line->cycles);
  // Each person weighs the same, so each is to have enough.
  double fewest = n;
  std::string names;
  for (const RestudiedOperator& person : restudy.line->per_operator) {
    const auto own = static_cast<double>(person.n);
    fewest = std::min(fewest, own);
    if (own < needed) add_name(names, input.operators[static_cast<std::size_t>(person.op)].code);
  }
  StudyCheck check = check_that_ran(code, fewest < needed, n >= rules::least_pilot_readings, Bias::either);
  check.names = names;
  check.numbers = {{"n", n}, {"needed", needed}, {"fewest", fewest}};
  return check;
}

/// The third of its shift (0, 1, 2) in which the middle of a session lies, where the log shows the shift.
std::optional<int> part_of_shift(const Case& input, const Session& session) {
  if (!session.start || !session.end) return std::nullopt;
  std::optional<Instant> first, last;
  for (const LoggedCycle& row : input.cycle_log) {
    if (log_word(input, row.shift) != session.shift) continue;
    // Twelve hours either side: the same shift of the same day, past midnight too (common practice).
    if (std::chrono::abs(row.started_at - *session.start) > std::chrono::hours{12}) continue;
    const Instant end = row.started_at + std::chrono::duration_cast<Instant::duration>(row.cycle);
    first = std::min(first.value_or(row.started_at), row.started_at);
    last = std::max(last.value_or(end), end);
  }
  if (!first || *last <= *first) return std::nullopt;
  const Instant middle = *session.start + (*session.end - *session.start) / 2;
  const double place = Seconds{middle - *first} / Seconds{*last - *first};
  return std::clamp(static_cast<int>(std::floor(3 * place)), 0, 2);
}

StudyCheck coverage(const Case& input, const Evidence& evidence) {
  constexpr const char* code = "coverage";
  std::set<std::int32_t> operators, sessions;
  std::set<Date> dates;
  std::set<std::string> shifts;
  std::set<int> parts;
  for (const PersonCycle& cycle : evidence.restudy) {
    if (!cycle.marks.plain()) continue;
    operators.insert(cycle.op);
    sessions.insert(cycle.session);
  }
  if (sessions.empty()) return check_that_lacks(code, "readings");
  for (const std::int32_t index : sessions) {
    const Session& session = input.sessions[static_cast<std::size_t>(index)];
    dates.insert(session.date);
    if (!session.shift.empty()) shifts.insert(session.shift);
    if (const std::optional<int> part = part_of_shift(input, session)) parts.insert(*part);
  }
  std::set<std::string> all_shifts = shifts;
  for (const Operator& op : input.operators)
    if (!op.shift.empty()) all_shifts.insert(op.shift);
  const bool found = operators.size() < rules::usual_operators || dates.size() < rules::usual_days ||
                     shifts.size() < std::min<std::size_t>(rules::usual_shifts, all_shifts.size()) ||
                     (!parts.empty() && parts.size() < rules::usual_parts);
  StudyCheck check = check_that_ran(code, found, !shifts.empty() && !parts.empty(), Bias::either);
  check.numbers = {{"operators", static_cast<double>(operators.size())},
                   {"days", static_cast<double>(dates.size())},
                   {"sessions", static_cast<double>(sessions.size())}};
  if (!shifts.empty()) check.numbers["shifts"] = static_cast<double>(shifts.size());
  if (!parts.empty()) check.numbers["parts"] = static_cast<double>(parts.size());
  return check;
}

/// Every variant of 5 % of the mix or more, and the heaviest whatever its share.
StudyCheck variants_seen(const Case& input, const Evidence& evidence, const StandardTime& standard) {
  constexpr const char* code = "variants_seen";
  std::set<std::int32_t> seen;
  for (const PersonCycle& cycle : evidence.restudy)
    if (cycle.marks.plain()) seen.insert(cycle.variant);
  if (seen.empty()) return check_that_lacks(code, "readings");
  const auto heaviest = std::max_element(standard.variants.begin(), standard.variants.end(),
                                         [](const auto& a, const auto& b) { return a.time < b.time; });
  StudyCheck check;
  double missing = 0, share = 0;
  for (auto line = standard.variants.begin(); line != standard.variants.end(); ++line) {
    if (seen.contains(line->variant)) continue;
    if (line->share < rules::common_variant_share && line != heaviest) continue;
    ++missing;
    share += line->share;
    add_name(check.names, input.variants[static_cast<std::size_t>(line->variant)].variant);
  }
  const std::string names = check.names;
  check = check_that_ran(code, missing > 0, Bias::either);
  check.names = names;
  check.numbers = {{"missing", missing},
                   {"missing_share", share},
                   {"seen", static_cast<double>(seen.size())},
                   {"variants", static_cast<double>(input.variants.size())}};
  return check;
}

/// Sessions outside the period of a condition that differs, but within two weeks of it.
StudyCheck near_a_condition(const Case& input) {
  constexpr const char* code = "near_a_condition";
  if (input.sessions.empty()) return check_that_lacks(code, "readings");
  if (input.conditions.empty()) return check_that_lacks(code, "conditions");
  std::set<std::size_t> near;
  double conditions = 0;
  for (const Condition& condition : input.conditions) {
    if (condition.state != ConditionState::differs) continue;
    bool any = false;
    for (std::size_t s = 0; s < input.sessions.size(); ++s) {
      const Instant day{input.sessions[s].date};
      const bool before = condition.from && day < std::chrono::floor<days>(*condition.from) &&
                          *condition.from - day <= days{rules::near_condition_days};
      const bool after = condition.to && day > *condition.to && day - *condition.to <= days{rules::near_condition_days};
      if (!before && !after) continue;
      near.insert(s);
      any = true;
    }
    if (any) ++conditions;
  }
  StudyCheck check = check_that_ran(code, !near.empty(), Bias::either);
  for (const std::size_t s : near) add_name(check.names, input.sessions[s].session);
  check.numbers = {{"sessions", static_cast<double>(near.size())}, {"conditions", conditions}};
  return check;
}

StudyCheck planned_cycles(const Case& input) {
  constexpr const char* code = "planned_cycles";
  std::map<std::int32_t, std::set<std::int64_t>> had;
  for (const Reading& reading : input.readings) had[reading.session].insert(reading.cycle);
  double sessions = 0, fewer = 0, more = 0;
  std::string names;
  for (std::size_t s = 0; s < input.sessions.size(); ++s) {
    if (!input.sessions[s].planned_cycles) continue;
    ++sessions;
    const auto cycles = static_cast<std::int64_t>(had[static_cast<std::int32_t>(s)].size());
    if (cycles == *input.sessions[s].planned_cycles) continue;
    ++(cycles < *input.sessions[s].planned_cycles ? fewer : more);
    add_name(names, input.sessions[s].session);
  }
  if (sessions == 0) return check_that_lacks(code, input.sessions.empty() ? "readings" : "planned_cycles");
  StudyCheck check = check_that_ran(code, fewer + more > 0, Bias::either);
  check.names = names;
  check.numbers = {{"sessions", sessions}, {"fewer", fewer}, {"more", more}};
  return check;
}

StudyCheck blind_rating(const Case& input, const Evidence& evidence) {
  constexpr const char* code = "blind_rating";
  std::set<std::int32_t> rated;
  for (const PersonCycle& cycle : evidence.restudy)
    if (cycle.rating) rated.insert(cycle.session);
  if (rated.empty()) return check_that_lacks(code, "rated_readings");
  double not_blind = 0, not_said = 0;
  std::string names;
  for (const std::int32_t index : rated) {
    const Session& session = input.sessions[static_cast<std::size_t>(index)];
    if (session.blind_rating == YesNo::yes) continue;
    ++(session.blind_rating == YesNo::no ? not_blind : not_said);
    add_name(names, session.session);
  }
  StudyCheck check = check_that_ran(code, not_blind + not_said > 0, Bias::either);
  check.names = names;
  check.numbers = {{"sessions", static_cast<double>(rated.size())}, {"not_blind", not_blind}, {"not_said", not_said}};
  return check;
}

StudyCheck plan_agreed(const Case& input) {
  constexpr const char* code = "plan_agreed";
  if (input.sessions.empty()) return check_that_lacks(code, "readings");
  if (!input.facts.plan_agreed_on) return check_that_lacks(code, "plan_date");
  double before = 0;
  std::string names;
  for (const Session& session : input.sessions) {
    if (session.date >= *input.facts.plan_agreed_on) continue;
    ++before;
    add_name(names, session.session);
  }
  StudyCheck check = check_that_ran(code, before > 0, Bias::either);
  check.names = names;
  check.numbers = {{"sessions", static_cast<double>(input.sessions.size())}, {"before", before}};
  return check;
}

/// The person's own cycles before the session, as far as known.
struct CountAtSession {
  std::int64_t at_least = 0; ///< where not known: what the cycles here show by themselves
  bool known = false;        ///< what came before them is given
};

CountAtSession count_at_session(const Case& input, const Evidence& evidence, std::int32_t op, std::int32_t index) {
  const Session& session = input.sessions[static_cast<std::size_t>(index)];
  if (session.first_cycle) return {*session.first_cycle - 1, true};
  const Operator& person = input.operators[static_cast<std::size_t>(op)];
  CountAtSession count{0, person.prior_cycles || person.shifts_before};
  if (person.prior_cycles)
    count.at_least = *person.prior_cycles;
  else if (person.shifts_before)
    count.at_least = *person.shifts_before * evidence.cycles_per_shift;
  for (const PersonCycle& cycle : evidence.cycles)
    if (cycle.op == op && cycle.session != index && cycle.day < session.date)
      count.at_least = std::max(count.at_least, cycle.own_count);
  return count;
}

/// The restudy asks only for `trained`. Named are operators with a session before the count from which the program
/// takes somebody as settled, and those whose count nobody gave.
StudyCheck timed_while_learning(const Case& input, const Evidence& evidence, const RestudyResult& restudy) {
  constexpr const char* code = "timed_while_learning";
  if (!restudy.line) return check_that_lacks(code, "rated_readings");
  const std::int64_t settled_after = input.settings.settled_after_cycles;
  double below = 0, not_known = 0;
  std::string names;
  for (const RestudiedOperator& person : restudy.line->per_operator) {
    std::optional<std::int64_t> least;
    bool known = true;
    std::set<std::int32_t> sessions;
    for (const PersonCycle& cycle : evidence.restudy)
      if (cycle.op == person.op && cycle.rating && cycle.marks.plain()) sessions.insert(cycle.session);
    for (const std::int32_t session : sessions) {
      const CountAtSession count = count_at_session(input, evidence, person.op, session);
      if (count.at_least >= settled_after) continue;
      if (!count.known)
        known = false;
      else
        least = std::min(least.value_or(count.at_least), count.at_least);
    }
    if (!least && known) continue;
    ++(least ? below : not_known);
    add_name(names, input.operators[static_cast<std::size_t>(person.op)].code +
                        (least ? " (" + std::to_string(*least) + " cycles before)" : " (count not known)"));
  }
  StudyCheck check = check_that_ran(code, below + not_known > 0, Bias::too_heavy);
  check.names = names;
  check.numbers = {{"operators", static_cast<double>(restudy.line->per_operator.size())},
                   {"below", below},
                   {"not_known", not_known},
                   {"settled_after", static_cast<double>(settled_after)}};
  return check;
}

} // namespace

std::vector<StudyCheck> check_coverage(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                       const RestudyResult& restudy) {
  return {enough_readings(input, restudy),
          coverage(input, evidence),
          variants_seen(input, evidence, standard),
          near_a_condition(input),
          planned_cycles(input),
          blind_rating(input, evidence),
          plan_agreed(input),
          timed_while_learning(input, evidence, restudy)};
}

} // namespace docket
