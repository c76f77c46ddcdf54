#include "core/content/checks/reading_checks.h"

#include "core/content/checks/rating_checks.h"
#include "core/content/checks/timed_cycles.h"
#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "core/statistics/fitting/straight_line.h"
#include "core/statistics/studies/digit_preference.h"
#include "core/statistics/studies/outliers.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <tuple>

namespace docket {
namespace {

const std::string& session_name(const Case& input, std::int32_t session) {
  return input.sessions[static_cast<std::size_t>(session)].session;
}

StudyCheck drift_in_sessions(const Case& input, const std::vector<TimedCycle>& cycles) {
  constexpr const char* code = "drift_in_sessions";
  std::map<std::int32_t, std::pair<std::vector<double>, std::vector<double>>> by_session; // number, ln ratio
  for (const TimedCycle& cycle : cycles) {
    if (!cycle.marks.plain()) continue;
    by_session[cycle.session].first.push_back(static_cast<double>(cycle.number));
    by_session[cycle.session].second.push_back(cycle.ln_ratio);
  }
  double tried = 0, falling = 0, rising = 0, least_p = 2, change = 0, reach = 0;
  std::string names;
  for (const auto& [session, points] : by_session) {
    const auto& [numbers, logs] = points;
    if (static_cast<double>(numbers.size()) < rules::least_session_cycles) continue;
    const StraightLine line = fit_straight_line(numbers, logs);
    if (!line.possible) continue;
    ++tried;
    const auto [first, last] = std::minmax_element(numbers.begin(), numbers.end());
    const double span = *last - *first;
    const double half = student_t_quantile(0.5 + input.settings.confidence / 2, line.df) * line.slope_se;
    for (const double slope : {line.slope - half, line.slope + half})
      reach = std::max(reach, std::abs(std::expm1(slope * span)));
    if (!(line.p < rules::drift_p)) continue;
    ++(line.slope < 0 ? falling : rising);
    add_name(names, session_name(input, session));
    if (line.p >= least_p) continue;
    least_p = line.p;
    change = std::expm1(line.slope * span);
  }
  if (tried == 0) {
    StudyCheck check = check_that_lacks(code, by_session.empty() ? "readings" : "long_sessions");
    check.numbers["needs"] = rules::least_session_cycles;
    return check;
  }
  StudyCheck check = check_that_ran(code, falling + rising > 0, reach <= rules::drift_share, Bias::either);
  check.names = names;
  check.numbers = {{"sessions", tried}, {"falling", falling}, {"rising", rising}, {"reach_share", reach}};
  if (falling + rising > 0) check.numbers["change_share"] = change;
  return check;
}

/// The coarsest of 1, 0.1 and 0.01 s of which every value is a whole number.
std::optional<double> resolution_of(const std::vector<double>& values) {
  constexpr double within = 1e-6; // of a step: what conversion of units leaves
  for (const double resolution : {1.0, 0.1, 0.01}) {
    const bool all = std::all_of(values.begin(), values.end(), [&](double value) {
      const double steps = value / resolution;
      return std::abs(steps - std::round(steps)) < within * std::max(1.0, std::abs(steps));
    });
    if (all) return resolution;
  }
  return std::nullopt;
}

StudyCheck digit_preference(const Case& input, const std::string& observer,
                            const std::map<std::pair<std::int32_t, std::int32_t>, std::vector<double>>& readings) {
  constexpr const char* code = "digit_preference";
  std::vector<double> all;
  for (const auto& [what, values] : readings) all.insert(all.end(), values.begin(), values.end());
  const auto lacking = [&](const char* what, double n) {
    StudyCheck check = check_that_lacks(code, what);
    check.names = observer;
    check.numbers = {{"n", n}, {"needs", rules::least_digits}};
    return check;
  };
  const std::optional<double> resolution = resolution_of(all);
  if (!resolution) return lacking("resolution", static_cast<double>(all.size()));
  std::vector<double> wide;
  for (const auto& [what, values] : readings) {
    if (static_cast<double>(values.size()) < rules::least_for_spread) continue;
    if (last_digit_ripple(summarise(values).sd, *resolution) > rules::digit_ripple) continue;
    wide.insert(wide.end(), values.begin(), values.end());
  }
  const auto n = static_cast<double>(wide.size());
  if (n < rules::least_digits)
    return lacking(static_cast<double>(all.size()) < rules::least_digits ? "enough_digits" : "wide_readings", n);
  const LastDigits digits = test_last_digits(wide, *resolution);
  const Bounds heaped = clopper_pearson(digits.on_0_and_5, digits.n, input.settings.confidence);
  StudyCheck check = check_that_ran(code, digits.p < rules::digit_p, heaped.high <= rules::heaped_share, Bias::either);
  check.names = observer;
  check.numbers = {{"n", n},
                   {"resolution", *resolution},
                   {"chi_square", digits.chi_square},
                   {"p", digits.p},
                   {"on_0_and_5_share", digits.share_on_0_and_5},
                   {"on_0_and_5_high_share", heaped.high}};
  return check;
}

std::vector<StudyCheck> check_digits(const Case& input) {
  std::map<std::string, std::map<std::pair<std::int32_t, std::int32_t>, std::vector<double>>> by_observer;
  for (const Reading& reading : input.readings) {
    if (!reading.seen_element.empty() || reading.marks.has(Mark::instrument)) continue;
    const std::string& observer = input.sessions[static_cast<std::size_t>(reading.session)].observer;
    by_observer[observer][{reading.element, reading.variant}].push_back(reading.time.count());
  }
  if (by_observer.empty()) return {check_that_lacks("digit_preference", "readings")};
  std::vector<StudyCheck> checks;
  for (const auto& [observer, readings] : by_observer) checks.push_back(digit_preference(input, observer, readings));
  return checks;
}

/// Questions to ask; nothing is removed.
StudyCheck extreme_readings(const Case& input, const std::vector<TimedCycle>& cycles) {
  constexpr const char* code = "extreme_readings";
  std::vector<double> logs;
  std::vector<const TimedCycle*> whose;
  for (const TimedCycle& cycle : cycles) {
    if (!cycle.marks.plain()) continue;
    logs.push_back(cycle.ln_ratio);
    whose.push_back(&cycle);
  }
  const auto n = static_cast<double>(logs.size());
  if (n < rules::least_for_extremes) {
    StudyCheck check = check_that_lacks(code, logs.empty() ? "readings" : "enough_readings");
    check.numbers = {{"n", n}, {"needs", rules::least_for_extremes}};
    return check;
  }
  const std::size_t most = std::min(rules::most_extremes, logs.size() / 10);
  const OutlierTest test = find_outliers(logs, most, rules::extremes_alpha);
  std::vector<const TimedCycle*> extreme;
  double shorter = 0, longer = 0;
  const double middle = median(logs);
  for (std::size_t i = 0; i < test.count; ++i) {
    const std::size_t index = test.steps[i].index;
    extreme.push_back(whose[index]);
    ++(logs[index] < middle ? shorter : longer);
  }
  std::sort(extreme.begin(), extreme.end(), [](const TimedCycle* a, const TimedCycle* b) {
    return std::tie(a->session, a->number) < std::tie(b->session, b->number);
  });
  const Bias bias = shorter == 0 ? Bias::too_heavy : longer == 0 ? Bias::too_light : Bias::either;
  StudyCheck check = check_that_ran(code, test.count > 0, bias);
  for (const TimedCycle* cycle : extreme)
    add_name(check.names, session_name(input, cycle->session) + " cycle " + std::to_string(cycle->number));
  check.numbers = {{"n", n}, {"readings", shorter + longer}, {"shorter", shorter}, {"longer", longer}};
  return check;
}

bool whole_minute(Instant at) { return at.time_since_epoch() % std::chrono::minutes{1} == Instant::duration::zero(); }

StudyCheck closure(const Case& input) {
  constexpr const char* code = "closure";
  std::map<std::int32_t, double> summed;
  for (const Reading& reading : input.readings)
    summed[reading.session] += (reading.time + reading.wait + reading.helped).count();
  double sessions = 0, over = 0, most_over = 0, may_be_over = 0, elapsed_in_all = 0, summed_in_all = 0;
  std::string names;
  for (const auto& [index, seconds] : summed) {
    const Session& session = input.sessions[static_cast<std::size_t>(index)];
    if (!session.start || !session.end || *session.end <= *session.start) continue;
    ++sessions;
    const double elapsed = Seconds{*session.end - *session.start}.count();
    elapsed_in_all += elapsed;
    summed_in_all += seconds;
    // Ends written in whole minutes are half a minute off each, at most.
    const double written = whole_minute(*session.start) && whole_minute(*session.end) ? rules::minute_ends_s : 0;
    if (seconds - elapsed <= rules::closure_share * elapsed) continue;
    if (seconds - elapsed <= written) {
      ++may_be_over;
      continue;
    }
    ++over;
    most_over = std::max(most_over, seconds / elapsed - 1);
    add_name(names, session.session);
  }
  if (sessions == 0) return check_that_lacks(code, summed.empty() ? "readings" : "session_times");
  StudyCheck check = check_that_ran(code, over > 0, may_be_over == 0, Bias::too_heavy);
  check.names = names;
  check.numbers = {{"sessions", sessions}, {"over", over}};
  if (may_be_over > 0) check.numbers["may_be_over"] = may_be_over;
  if (over > 0) check.numbers["most_over_share"] = most_over;
  if (summed_in_all < elapsed_in_all) check.numbers["unaccounted_share"] = 1 - summed_in_all / elapsed_in_all;
  return check;
}

} // namespace

std::vector<StudyCheck> check_readings(const Case& input, const Evidence& evidence, const StandardTime& standard) {
  const std::vector<TimedCycle> cycles = timed_cycles(input, evidence, standard);
  std::vector<StudyCheck> checks = check_ratings(input, cycles);
  const auto add = [&](std::vector<StudyCheck> more) { checks.insert(checks.end(), more.begin(), more.end()); };
  checks.push_back(drift_in_sessions(input, cycles));
  add(check_pairs_of_observers(input, cycles));
  add(check_digits(input));
  checks.push_back(extreme_readings(input, cycles));
  checks.push_back(closure(input));
  return checks;
}

} // namespace docket
