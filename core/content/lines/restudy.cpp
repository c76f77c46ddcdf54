#include "core/content/lines/restudy.h"

#include "core/content/lines/operator_order.h"
#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/studies/sample_size.h"
#include "core/statistics/summary.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <limits>
#include <map>
#include <set>
#include <tuple>

namespace docket {

namespace {

constexpr double needed_precision = 0.05; ///< [1] of the mean, the usual aim of a study (ILO)

bool trained(const Case& input, std::int32_t op) {
  return op >= 0 && input.operators[static_cast<std::size_t>(op)].trained == YesNo::yes;
}

double ratio_to_standard(const PersonCycle& cycle, const StandardTime& standard) {
  return cycle.work / standard.variants[static_cast<std::size_t>(cycle.variant)].time;
}

/// Rated ratios of one operator, by session in order.
using RatedSessions = std::map<std::int32_t, std::vector<double>>;

std::vector<double> all_of(const RatedSessions& sessions) {
  std::vector<double> values;
  for (const auto& [session, ratios] : sessions) values.insert(values.end(), ratios.begin(), ratios.end());
  return values;
}

/// se(ln T3): from operators; from sessions if one operator; from cycles with effective n if one session.
UncertaintyPart random_part(const std::map<std::int32_t, RatedSessions>& by_operator, double s) {
  const auto m = static_cast<double>(by_operator.size());
  if (by_operator.size() >= 2) return {s / std::sqrt(m), m - 1};
  const RatedSessions& sessions = by_operator.begin()->second;
  if (sessions.size() >= 2) {
    std::vector<double> means;
    for (const auto& [session, ratios] : sessions) means.push_back(std::log(summarise(ratios).mean));
    const auto k = static_cast<double>(means.size());
    return {summarise(means).sd / std::sqrt(k), k - 1};
  }
  std::vector<double> logs;
  for (const double ratio : sessions.begin()->second) logs.push_back(std::log(ratio));
  if (logs.size() < 2) return {0, std::numeric_limits<double>::infinity()};
  const double sd = summarise(logs).sd;
  if (!(sd > 0)) return {0, std::numeric_limits<double>::infinity()};
  const std::vector<std::vector<double>> one_stretch{logs};
  const double rho = logs.size() >= 3 ? lag1_autocorrelation(one_stretch).corrected : 0;
  const double n = effective_count(static_cast<double>(logs.size()), rho);
  return {sd / std::sqrt(n), std::max(1.0, n - 1)};
}

std::vector<SeenElement> see_elements(const Case& input, bool with_differing, const Evidence& evidence) {
  // A marked or touched cycle says nothing of its elements either.
  std::map<std::pair<std::int32_t, std::int64_t>, bool> set_apart;
  for (const ExcludedRow& row : evidence.excluded) {
    if (row.origin.table != TableName::readings) continue;
    if (row.why == Exclusion::elements_missing || (row.why == Exclusion::condition && with_differing)) continue;
    set_apart[{row.origin.source, row.origin.row}] = true;
  }
  // A cycle's rows of one element add up to all its occurrences in that cycle.
  std::map<std::tuple<std::int32_t, std::int32_t, std::int64_t>, double> in_cycle;
  for (const Reading& reading : input.readings) {
    if (reading.element < 0) continue;
    const Session& session = input.sessions[static_cast<std::size_t>(reading.session)];
    const std::optional<double> rating = reading.rating ? reading.rating : session.rating;
    if (!rating || !trained(input, session.op) || !reading.marks.plain()) continue;
    if (set_apart.contains({reading.origin.source, reading.origin.row})) continue;
    const double times = input.standard[static_cast<std::size_t>(reading.element)].times_per_unit;
    in_cycle[{reading.element, reading.session, reading.cycle}] +=
        reading.time.count() * *rating / std::max(1.0, times);
  }
  std::map<std::int32_t, std::vector<double>> seen;
  for (const auto& [key, seconds] : in_cycle) seen[std::get<0>(key)].push_back(seconds);
  std::vector<SeenElement> elements;
  for (const auto& [element, times] : seen) {
    const Summary summary = summarise(times);
    SeenElement line;
    line.element = element;
    line.n = summary.n;
    line.seen.time = Seconds{summary.mean};
    if (summary.n >= 2) {
      const double reach = student_t_quantile(0.5 + input.settings.confidence / 2, static_cast<double>(summary.n - 1)) *
                           summary.sd / std::sqrt(static_cast<double>(summary.n));
      line.seen.low = Seconds{summary.mean - reach};
      line.seen.high = Seconds{summary.mean + reach};
    }
    elements.push_back(line);
  }
  return elements;
}

std::string why_nothing(const Case& input, const Evidence& evidence) {
  if (input.readings.empty()) return "no_readings";
  if (evidence.restudy.empty()) return "no_whole_cycles";
  const auto any = [&](auto&& condition) {
    return std::any_of(evidence.restudy.begin(), evidence.restudy.end(), condition);
  };
  if (!any([](const PersonCycle& c) { return c.marks.plain(); })) return "all_marked";
  if (!any([](const PersonCycle& c) { return c.marks.plain() && c.condition < 0; })) return "all_out_by_condition";
  if (!any([&](const PersonCycle& c) { return trained(input, c.op); })) return "nobody_trained";
  return "no_rated_readings";
}

/// The cycles of the restudy that count, in order: plain, rated, of trained operators.
std::vector<PersonCycle> cycles_that_count(const Case& input, const std::vector<PersonCycle>& sheets,
                                           bool with_differing) {
  std::vector<PersonCycle> cycles;
  for (const PersonCycle& cycle : sheets) {
    if (!cycle.marks.plain() || (cycle.condition >= 0 && !with_differing)) continue;
    if (trained(input, cycle.op) && cycle.rating) cycles.push_back(cycle);
  }
  return cycles;
}

std::vector<RestudiedOperator> operators_of(const std::map<std::int32_t, RatedSessions>& by_operator,
                                            const std::map<std::int32_t, std::vector<double>>& unrated,
                                            const Case& input, const StandardTime& standard) {
  std::vector<RestudiedOperator> operators;
  for (const auto& [op, sessions] : by_operator) {
    const std::vector<double> rated = all_of(sessions);
    operators.push_back({op, static_cast<std::int64_t>(rated.size()), static_cast<std::int64_t>(sessions.size()),
                         summarise(unrated.at(op)).mean * standard.mean, summarise(rated).mean * standard.mean});
  }
  std::sort(operators.begin(), operators.end(), [&](const RestudiedOperator& a, const RestudiedOperator& b) {
    return code_before(input.operators[static_cast<std::size_t>(a.op)].code,
                       input.operators[static_cast<std::size_t>(b.op)].code);
  });
  return operators;
}

/// Of the unrated times, each operator against that operator's own level; a mean weighs as much as it has readings.
std::optional<VariantRatios> ratios_of_variants(const std::vector<PersonCycle>& cycles, const StandardTime& standard) {
  std::map<std::pair<std::int32_t, std::int32_t>, std::vector<double>> by_cell;
  std::vector<std::int64_t> readings(standard.variants.size());
  for (const PersonCycle& cycle : cycles) {
    by_cell[{cycle.op, cycle.variant}].push_back(ratio_to_standard(cycle, standard));
    ++readings[static_cast<std::size_t>(cycle.variant)];
  }
  std::vector<double> content;
  for (std::size_t v = 0; v < readings.size(); ++v) {
    if (standard.variants[v].share >= rules::common_variant_share && readings[v] < rules::own_variant_cycles)
      return std::nullopt;
    content.push_back(standard.variants[v].share * standard.variants[v].time.count());
  }
  std::vector<VariantCell> cells;
  for (const auto& [who, ratios] : by_cell)
    cells.push_back({static_cast<std::size_t>(who.first), static_cast<std::size_t>(who.second),
                     std::log(summarise(ratios).mean), static_cast<double>(ratios.size())});
  return find_variant_ratios(cells, content);
}

/// Sessions whose times, as read, are all the same.
std::string sessions_with_times_alike(const std::vector<PersonCycle>& cycles, const Case& input) {
  std::map<std::int32_t, std::vector<Seconds>> by_session;
  for (const PersonCycle& cycle : cycles) by_session[cycle.session].push_back(cycle.work);
  std::string names;
  for (const auto& [session, times] : by_session) {
    const bool differ = std::adjacent_find(times.begin(), times.end(), std::not_equal_to<>()) != times.end();
    if (times.size() < rules::least_alike || differ) continue;
    names += (names.empty() ? "" : ", ") + input.sessions[static_cast<std::size_t>(session)].session;
  }
  return names;
}

/// The line from these cycles, not yet compared with the limit; absent without any.
std::optional<Restudy> line_of(const std::vector<PersonCycle>& cycles, const Case& input, const StandardTime& standard,
                               const TimeAvailable& time) {
  if (cycles.empty()) return std::nullopt;
  std::map<std::int32_t, RatedSessions> by_operator;
  std::map<std::int32_t, std::vector<double>> unrated;
  std::vector<double> rated;
  std::set<std::int32_t> method_not_known; ///< sessions
  for (const PersonCycle& cycle : cycles) {
    const double ratio = ratio_to_standard(cycle, standard);
    by_operator[cycle.op][cycle.session].push_back(ratio * *cycle.rating);
    unrated[cycle.op].push_back(ratio);
    rated.push_back(ratio * *cycle.rating);
    if (input.sessions[static_cast<std::size_t>(cycle.session)].method_as_standard != YesNo::yes)
      method_not_known.insert(cycle.session);
  }

  std::vector<double> means, ln_means;
  double observed = 0;
  Restudy line;
  for (const auto& [op, sessions] : by_operator) {
    line.operators.push_back(op);
    means.push_back(summarise(all_of(sessions)).mean);
    ln_means.push_back(std::log(means.back()));
    observed += summarise(unrated[op]).mean;
  }
  line.per_operator = operators_of(by_operator, unrated, input, standard);
  line.variant_ratios = ratios_of_variants(cycles, standard);
  const double m = static_cast<double>(means.size());
  line.cycles = static_cast<std::int64_t>(rated.size());
  line.normal = summarise(means).mean * standard.mean;
  line.observed = observed / m * standard.mean;
  line.s = means.size() >= 2 ? summarise(ln_means).sd : 0;
  if (rated.size() >= 2)
    line.needed_cycles = needed_readings(rated, needed_precision, normal_quantile(0.5 + input.settings.confidence / 2));

  const UncertaintyPart random = random_part(by_operator, line.s);
  const double people = means.size() <= 2 ? input.settings.between_people / std::sqrt(m) : 0;
  LineLevel& level = line.level;
  level.time = time.measured_factor * line.normal;
  level.se = random.u;
  level.df = random.u > 0 ? random.df : std::numeric_limits<double>::infinity();
  level.u = std::sqrt(random.u * random.u + people * people +
                      input.settings.rating_uncertainty * input.settings.rating_uncertainty);
  level.u_as_agreed = level.u;
  level.identical_values = random.u < rules::identical_within;
  std::string sessions;
  for (const std::int32_t session : method_not_known)
    sessions += (sessions.empty() ? "" : ", ") + input.sessions[static_cast<std::size_t>(session)].session;
  if (!sessions.empty()) level.leans.push_back({"method_not_known", sessions});
  if (const std::string alike = sessions_with_times_alike(cycles, input); !alike.empty())
    level.leans.push_back({"times_all_alike", alike});
  return line;
}

Restudy compared(Restudy line, const Case& input, const TimeAvailable& time) {
  line.level.against = compare_with_limit(line.level, time.limit, input.settings.confidence);
  return line;
}

std::vector<RestudyWithoutOne> leave_one_out(const std::vector<PersonCycle>& cycles, const Restudy& line,
                                             const Case& input, const StandardTime& standard,
                                             const TimeAvailable& time) {
  std::vector<RestudyWithoutOne> out;
  if (line.per_operator.size() < 2) return out;
  for (const RestudiedOperator& person : line.per_operator) {
    std::vector<PersonCycle> others;
    std::copy_if(cycles.begin(), cycles.end(), std::back_inserter(others),
                 [&](const PersonCycle& cycle) { return cycle.op != person.op; });
    out.push_back({person.op, compared(*line_of(others, input, standard, time), input, time)});
  }
  return out;
}

/// Cycle numbers in the session, by row of the input.
using CycleNumbers = std::map<std::pair<std::int32_t, std::int64_t>, std::int64_t>;

std::optional<std::int64_t> number_of(const PersonCycle& cycle, const CycleNumbers& numbers) {
  const auto found = numbers.find({cycle.origin.source, cycle.origin.row});
  return found == numbers.end() ? std::nullopt : std::optional(found->second);
}

/// The same cycle on the sheet of the session that the second observer's session names; null: not there.
PersonCycle* on_first_sheet(std::vector<PersonCycle>& sheets, const PersonCycle& second, const Case& input,
                            const CycleNumbers& numbers) {
  const Session& session = input.sessions[static_cast<std::size_t>(second.session)];
  const std::optional<std::int64_t> number = number_of(second, numbers);
  if (!number) return nullptr;
  for (PersonCycle& first : sheets) {
    if (first.op != second.op || first.session == second.session) continue;
    if (input.sessions[static_cast<std::size_t>(first.session)].session != session.same_as) continue;
    if (number_of(first, numbers) == number) return &first;
  }
  return nullptr;
}

/// The line with the second observers' sheets; absent where nothing was timed twice, nothing of it could be counted, or
/// the readings are not in the case (what_flips.h evaluates without them).
std::optional<RestudyRow> row_of_second_sheets(const Case& input, const Evidence& evidence,
                                               const StandardTime& standard, const TimeAvailable& time,
                                               bool with_differing) {
  if (evidence.second_sheets.empty()) return std::nullopt;
  CycleNumbers numbers;
  for (const Reading& reading : input.readings) numbers[{reading.origin.source, reading.origin.row}] = reading.cycle;
  RestudyRow row;
  row.code = "second_sheets";
  std::vector<PersonCycle> sheets = evidence.restudy;
  std::set<std::int32_t> taken;
  for (const PersonCycle& second : evidence.second_sheets) {
    PersonCycle* first = on_first_sheet(sheets, second, input, numbers);
    if (!first) continue;
    // What was timed stays one spell of one person: only what the observer wrote is another's.
    first->work = second.work;
    first->rating = second.rating;
    first->marks = second.marks;
    first->variant = second.variant;
    if (first->condition < 0) first->condition = second.condition;
    taken.insert(second.session);
    ++row.changed;
  }
  const std::optional<Restudy> line = line_of(cycles_that_count(input, sheets, with_differing), input, standard, time);
  if (row.changed == 0 || !line) return std::nullopt;
  for (const std::int32_t session : taken)
    row.sessions += (row.sessions.empty() ? "" : ", ") + input.sessions[static_cast<std::size_t>(session)].session;
  row.line = compared(*line, input, time);
  return row;
}

} // namespace

RestudyResult find_restudy(const Case& input, const Evidence& evidence, const StandardTime& standard,
                           const TimeAvailable& time, bool with_differing) {
  RestudyResult result;
  result.elements = see_elements(input, with_differing, evidence);
  const std::vector<PersonCycle> cycles = cycles_that_count(input, evidence.restudy, with_differing);
  result.line = line_of(cycles, input, standard, time);
  if (!result.line) {
    result.none_why = why_nothing(input, evidence);
    return result;
  }
  result.left_out_one = leave_one_out(cycles, *result.line, input, standard, time);
  if (auto row = row_of_second_sheets(input, evidence, standard, time, with_differing))
    result.rows.push_back(std::move(*row));
  return result;
}

} // namespace docket
