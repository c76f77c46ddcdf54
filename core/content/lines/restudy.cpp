#include "core/content/lines/restudy.h"

#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/studies/sample_size.h"
#include "core/statistics/summary.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <cmath>
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

} // namespace

RestudyResult find_restudy(const Case& input, const Evidence& evidence, const StandardTime& standard,
                           const TimeAvailable& time, bool with_differing) {
  RestudyResult result;
  result.elements = see_elements(input, with_differing, evidence);

  std::map<std::int32_t, RatedSessions> by_operator;
  std::map<std::int32_t, std::vector<double>> unrated;
  std::vector<double> rated;
  std::set<std::int32_t> method_not_known; ///< sessions
  for (const PersonCycle& cycle : evidence.restudy) {
    if (!cycle.marks.plain() || (cycle.condition >= 0 && !with_differing)) continue;
    if (!trained(input, cycle.op) || !cycle.rating) continue;
    const double ratio = ratio_to_standard(cycle, standard);
    by_operator[cycle.op][cycle.session].push_back(ratio * *cycle.rating);
    unrated[cycle.op].push_back(ratio);
    rated.push_back(ratio * *cycle.rating);
    if (input.sessions[static_cast<std::size_t>(cycle.session)].method_as_standard != YesNo::yes)
      method_not_known.insert(cycle.session);
  }
  if (by_operator.empty()) {
    result.none_why = why_nothing(input, evidence);
    return result;
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
  result.line = line;
  return result;
}

} // namespace docket
