#include "core/evidence.h"

#include "core/rules.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>
#include <tuple>

namespace docket {

namespace {

using std::chrono::floor;
using std::chrono::hours;

constexpr hours pause_between_days{6};
constexpr double line_time_within = 0.01; ///< [1] of L
constexpr double line_time_share = 0.5;   ///< [1] of the log's cycles

/// A cycle on its way into the evidence, with what only the ordering needs.
struct Placed {
  PersonCycle cycle;
  Instant at{};             ///< when it began, as far as known
  bool counts_only = false; ///< line time: experience, but no time of a person
};

bool counts_as_practice(Marks marks) {
  return !marks.has(Mark::starved) && !marks.has(Mark::blocked) && !marks.has(Mark::instrument);
}

bool in_period(const Condition& condition, Instant first, Instant last) {
  if (condition.from && last < *condition.from) return false;
  return !(condition.to && first > *condition.to);
}

bool session_holds(const Session& session, Instant at) {
  if (session.start && session.end) return at >= *session.start && at <= *session.end;
  return floor<std::chrono::days>(at) == session.date;
}

/// The differing condition that touches a cycle, or -1. A reading without a time of day is its whole day.
std::int32_t touching_condition(const Case& input, const PersonCycle& cycle, Instant first, Instant last) {
  const auto among = [](const std::vector<std::int32_t>& list, std::int32_t value) {
    return std::find(list.begin(), list.end(), value) != list.end();
  };
  for (std::size_t i = 0; i < input.conditions.size(); ++i) {
    const Condition& condition = input.conditions[i];
    if (condition.state != ConditionState::differs || !in_period(condition, first, last)) continue;
    bool touches = condition.whole_station();
    if (cycle.variant >= 0) {
      touches = touches || among(condition.variants, cycle.variant);
      const Variant& variant = input.variants[static_cast<std::size_t>(cycle.variant)];
      for (const std::int32_t element : condition.elements)
        touches = touches || carries(variant, input.standard[static_cast<std::size_t>(element)]);
    }
    for (const std::int32_t session : condition.sessions) {
      const Session& s = input.sessions[static_cast<std::size_t>(session)];
      touches =
          touches || cycle.session == session || (cycle.session < 0 && s.op == cycle.op && session_holds(s, first));
    }
    if (touches) return static_cast<std::int32_t>(i);
  }
  return -1;
}

bool log_is_line_time(const Case& input, Seconds line_cycle) {
  std::int64_t all = 0, near = 0;
  for (const LoggedCycle& row : input.cycle_log) {
    if (row.is_line_time || !is_of_this_station(input, row)) continue;
    ++all;
    if (std::abs(row.cycle / line_cycle - 1) <= line_time_within) ++near;
  }
  return all > 0 && static_cast<double>(near) > line_time_share * static_cast<double>(all);
}

std::int32_t variant_or_only(const Case& input, std::int32_t variant) {
  return variant < 0 && input.variants.size() == 1 ? 0 : variant;
}

bool follows_alike(const ExcludedRow& before, const ExcludedRow& row) {
  return before.origin.source == row.origin.source && before.origin.table == row.origin.table &&
         before.origin.row + before.rows == row.origin.row && before.why == row.why && before.marks == row.marks;
}

/// The log's cycles of persons; every other row is set apart.
std::vector<Placed> place_log(const Case& input, Evidence& evidence) {
  std::vector<Placed> placed;
  const auto set_apart = [&](const LoggedCycle& row, Exclusion why, std::int64_t& count) {
    const ExcludedRow excluded{row.origin, why, row.marks, -1};
    if (!evidence.excluded.empty() && follows_alike(evidence.excluded.back(), excluded))
      ++evidence.excluded.back().rows;
    else
      evidence.excluded.push_back(excluded);
    ++count;
  };
  for (const LoggedCycle& row : input.cycle_log) {
    if (!is_of_this_station(input, row)) {
      set_apart(row, Exclusion::other_station, evidence.facts.other_station_rows);
      continue;
    }
    const bool line_time = row.is_line_time || evidence.facts.log_is_line_time;
    if (line_time) {
      set_apart(row, Exclusion::line_time, evidence.facts.line_time_rows);
    } else if (row.op < 0) {
      set_apart(row, Exclusion::no_operator, evidence.facts.no_operator_rows);
    }
    if (row.op < 0) continue;
    Placed p;
    p.at = row.started_at;
    p.counts_only = line_time;
    PersonCycle& cycle = p.cycle;
    cycle.op = row.op;
    cycle.variant = variant_or_only(input, row.variant);
    cycle.shift = log_word(input, row.shift);
    cycle.work = row.cycle - row.wait;
    cycle.helped = row.helped;
    cycle.helped_given = row.helped_given;
    cycle.marks = row.marks;
    cycle.origin = row.origin;
    cycle.condition = touching_condition(input, cycle, row.started_at, row.started_at);
    if (cycle.variant < 0 && !line_time) {
      set_apart(row, Exclusion::no_variant, evidence.facts.no_variant_rows);
      p.counts_only = true;
    }
    placed.push_back(std::move(p));
  }
  return placed;
}

/// The rows of one cycle of one session.
using CycleRows = std::vector<const Reading*>;

bool elements_add_up(const Case& input, const CycleRows& rows, std::int32_t variant) {
  if (variant < 0) return false;
  for (std::size_t e = 0; e < input.standard.size(); ++e) {
    const StandardElement& element = input.standard[e];
    // What is done less than once a unit is not in every cycle, and is right on average.
    if (element.times_per_unit < 1 || !carries(input.variants[static_cast<std::size_t>(variant)], element)) continue;
    const bool seen = std::any_of(rows.begin(), rows.end(),
                                  [&](const Reading* r) { return r->element == static_cast<std::int32_t>(e); });
    if (!seen) return false;
  }
  return true;
}

/// The session whose sheet counts where this one's is a second observer's; -1: this one counts itself.
std::int32_t first_sheet_of(const Case& input, std::int32_t second) {
  const Session& session = input.sessions[static_cast<std::size_t>(second)];
  if (session.same_as.empty()) return -1;
  for (std::size_t i = 0; i < input.sessions.size(); ++i) {
    const Session& other = input.sessions[i];
    if (other.session != session.same_as || other.op != session.op) continue;
    const auto first = static_cast<std::int32_t>(i);
    // Two sessions that name each other are one pair, and the first in the table counts.
    return other.same_as == session.session && first > second ? -1 : first;
  }
  return -1;
}

/// Whole cycles from the readings, by session and cycle number.
std::vector<Placed> place_readings(const Case& input, Evidence& evidence) {
  std::map<std::pair<std::int32_t, std::int64_t>, CycleRows> by_cycle;
  for (const Reading& reading : input.readings) by_cycle[{reading.session, reading.cycle}].push_back(&reading);

  std::vector<Placed> placed;
  for (const auto& [key, rows] : by_cycle) {
    const Session& session = input.sessions[static_cast<std::size_t>(key.first)];
    Placed p;
    PersonCycle& cycle = p.cycle;
    cycle.session = key.first;
    cycle.op = session.op;
    cycle.shift = session.shift;
    cycle.origin = rows.front()->origin;
    cycle.day = session.date;
    double rated = 0;
    bool every_row_rated = true, by_element = false;
    for (const Reading* row : rows) {
      cycle.work += row->time;
      cycle.helped += row->helped;
      cycle.helped_given = cycle.helped_given || row->helped_given;
      cycle.marks.bits = static_cast<std::uint16_t>(cycle.marks.bits | row->marks.bits);
      cycle.variant = std::max(cycle.variant, row->variant);
      by_element = by_element || row->element >= 0 || !row->seen_element.empty();
      const std::optional<double> rating = row->rating ? row->rating : session.rating;
      every_row_rated = every_row_rated && rating.has_value();
      rated += row->time.count() * rating.value_or(1);
    }
    cycle.variant = variant_or_only(input, cycle.variant);
    if (every_row_rated && cycle.work > Seconds::zero()) cycle.rating = rated / cycle.work.count();
    if (session.first_cycle) cycle.own_count = *session.first_cycle + key.second - 1;

    p.at = session.start.value_or(Instant{session.date});
    const Instant last = session.end.value_or(session.start ? *session.start : Instant{session.date} + hours{24});
    cycle.condition = touching_condition(input, cycle, p.at, last);

    const auto set_apart = [&](Exclusion why) {
      for (const Reading* row : rows) evidence.excluded.push_back({row->origin, why, cycle.marks, -1});
    };
    if (cycle.variant < 0) {
      set_apart(Exclusion::no_variant);
      evidence.facts.no_variant_rows += static_cast<std::int64_t>(rows.size());
      continue;
    }
    if (by_element && !elements_add_up(input, rows, cycle.variant)) {
      set_apart(Exclusion::elements_missing);
      continue;
    }
    const std::int32_t first = first_sheet_of(input, key.first);
    if (first >= 0 && by_cycle.contains({first, key.second})) {
      set_apart(Exclusion::timed_twice);
      evidence.second_sheets.push_back(std::move(cycle));
      continue;
    }
    if (!cycle.marks.plain()) {
      set_apart(Exclusion::mark);
    } else if (cycle.condition >= 0) {
      for (const Reading* row : rows)
        evidence.excluded.push_back({row->origin, Exclusion::condition, cycle.marks, cycle.condition});
    }
    placed.push_back(std::move(p));
  }
  return placed;
}

/// Gives every cycle its worked day. `own` is one operator's, in time order.
void assign_worked_days(std::span<Placed> own) {
  Instant previous{};
  Date day{};
  bool first = true;
  for (Placed& p : own) {
    if (first || p.at - previous >= pause_between_days) day = floor<std::chrono::days>(p.at);
    first = false;
    previous = p.at;
    p.cycle.day = day;
  }
}

/// Gives every cycle its own count; a session that states the operator's count is believed where it is higher.
void number_cycles(std::span<Placed> own, std::int64_t before) {
  std::int64_t n = before;
  for (Placed& p : own) {
    if (!counts_as_practice(p.cycle.marks)) continue;
    n = std::max(n + 1, p.cycle.own_count);
    p.cycle.own_count = n;
  }
}

std::int64_t count_before(const Operator& op, std::int64_t cycles_per_shift) {
  if (op.prior_cycles) return *op.prior_cycles;
  if (op.shifts_before) return *op.shifts_before * cycles_per_shift;
  return 0;
}

/// Median count of cycles per operator and worked day in the log; 0 where the log has none.
std::int64_t usual_cycles_per_shift(const std::vector<Placed>& placed) {
  std::map<std::tuple<std::int32_t, Date, std::string>, double> counts;
  for (const Placed& p : placed)
    if (p.cycle.session < 0) counts[{p.cycle.op, p.cycle.day, p.cycle.shift}] += 1;
  if (counts.empty()) return 0;
  std::vector<double> values;
  for (const auto& [key, count] : counts) values.push_back(count);
  return std::llround(median(values));
}

bool displaced_by_log(const Case& input, const Session& session) {
  return std::any_of(input.cycle_log.begin(), input.cycle_log.end(), [&](const LoggedCycle& row) {
    if (row.op != session.op || row.op < 0) return false;
    const bool shift_agrees = session.start && session.end ? true
                                                           : session.shift.empty() || row.shift < 0 ||
                                                                 session.shift == log_word(input, row.shift);
    return shift_agrees && session_holds(session, row.started_at);
  });
}

} // namespace

std::int64_t rows_excluded(const Evidence& evidence) {
  std::int64_t rows = 0;
  for (const ExcludedRow& row : evidence.excluded) rows += row.rows;
  return rows;
}

Evidence gather_evidence(const Case& input, Seconds line_cycle) {
  Evidence evidence;
  evidence.facts.log_is_line_time = log_is_line_time(input, line_cycle);

  std::vector<Placed> placed = place_log(input, evidence);
  evidence.facts.log_without_marks =
      !input.cycle_log.empty() && std::all_of(input.cycle_log.begin(), input.cycle_log.end(),
                                              [](const LoggedCycle& row) { return row.marks.plain(); });

  const std::vector<Placed> readings = place_readings(input, evidence);
  std::vector<bool> in_the_log;
  for (const Session& session : input.sessions) in_the_log.push_back(displaced_by_log(input, session));
  for (const Placed& reading : readings) {
    evidence.restudy.push_back(reading.cycle);
    if (in_the_log[static_cast<std::size_t>(reading.cycle.session)]) {
      ++evidence.facts.readings_in_the_log;
    } else {
      placed.push_back(reading);
    }
  }

  std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
    return std::tie(a.cycle.op, a.at) < std::tie(b.cycle.op, b.at);
  });
  const auto each_operator = [&](auto&& act) {
    for (auto first = placed.begin(); first != placed.end();) {
      const auto last =
          std::find_if(first, placed.end(), [&](const Placed& p) { return p.cycle.op != first->cycle.op; });
      act(std::span<Placed>(first, last));
      first = last;
    }
  };
  each_operator(assign_worked_days);

  evidence.cycles_per_shift = input.facts.cycles_per_shift.value_or(usual_cycles_per_shift(placed));
  if (evidence.cycles_per_shift <= 0) {
    evidence.cycles_per_shift = rules::cycles_per_shift_assumed;
    evidence.cycles_per_shift_assumed = true;
  }
  each_operator([&](std::span<Placed> own) {
    number_cycles(
        own, count_before(input.operators[static_cast<std::size_t>(own.front().cycle.op)], evidence.cycles_per_shift));
  });

  const auto saw_day = [&](Date day) {
    evidence.facts.last_day = std::max(evidence.facts.last_day.value_or(day), day);
  };
  for (Placed& p : placed) {
    saw_day(p.cycle.day);
    if (p.counts_only) continue;
    if (p.cycle.session < 0) {
      if (!p.cycle.marks.plain()) {
        evidence.excluded.push_back({p.cycle.origin, Exclusion::mark, p.cycle.marks, -1});
      } else if (p.cycle.condition >= 0) {
        evidence.excluded.push_back({p.cycle.origin, Exclusion::condition, p.cycle.marks, p.cycle.condition});
      }
    }
    evidence.cycles.push_back(std::move(p.cycle));
  }
  for (const PersonCycle& cycle : evidence.restudy) saw_day(cycle.day);
  std::sort(evidence.excluded.begin(), evidence.excluded.end(), [](const ExcludedRow& a, const ExcludedRow& b) {
    return std::tie(a.origin.source, a.origin.table, a.origin.row) <
           std::tie(b.origin.source, b.origin.table, b.origin.row);
  });
  return evidence;
}

} // namespace docket
