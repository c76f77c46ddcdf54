#include "core/content/checks/rating_checks.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "core/statistics/fitting/straight_line.h"
#include "core/statistics/studies/agreement.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace docket {
namespace {

constexpr double rounding = 1e-9; // a difference of ratings that is 5 % as written is not above it

StudyCheck flat_rating(const Case& input, const std::string& observer, const std::vector<TimedCycle>& cycles) {
  constexpr const char* code = "flat_rating";
  std::map<std::int32_t, std::vector<std::pair<double, double>>> by_operator; // raw, rated
  bool any_rating = false;
  double n = 0;
  for (const TimedCycle& cycle : cycles) {
    if (cycle.observer != observer || !cycle.marks.plain() || !cycle.rating) continue;
    any_rating = true;
    if (!cycle.rated_itself) continue;
    by_operator[cycle.op].emplace_back(cycle.ln_ratio, cycle.ln_ratio + std::log(*cycle.rating));
    ++n;
  }
  const auto lacking = [&](const char* what) {
    StudyCheck check = check_that_lacks(code, what);
    check.names = observer;
    check.numbers = {{"n", n}, {"needs", rules::least_ratings}};
    return check;
  };
  if (!any_rating) return lacking("ratings");
  if (n == 0) return lacking("ratings_by_cycle");
  const double df = n - static_cast<double>(by_operator.size()) - 1;
  if (n < rules::least_ratings || df < 1) return lacking("enough_ratings");
  std::vector<double> raw, rated;
  double squares = 0;
  for (const auto& [op, pairs] : by_operator) {
    double raw_mean = 0, rated_mean = 0;
    for (const auto& [x, y] : pairs) {
      raw_mean += x / static_cast<double>(pairs.size());
      rated_mean += y / static_cast<double>(pairs.size());
    }
    for (const auto& [x, y] : pairs) {
      raw.push_back(x - raw_mean);
      rated.push_back(y - rated_mean);
      squares += raw.back() * raw.back();
    }
  }
  if (std::sqrt(squares / n) < rules::least_raw_spread) return lacking("spread_of_raw_times");
  const StraightLine line = fit_straight_line(raw, rated);
  const double reach = student_t_quantile(0.5 + input.settings.confidence / 2, df) * line.slope_se *
                       std::sqrt(std::max(1.0, line.df) / df); // the operators' means are estimated too
  const double low = line.slope - reach, high = line.slope + reach;
  StudyCheck check =
      check_that_ran(code, low > rules::flat_rating_slope || high < -rules::flat_rating_slope, Bias::either);
  check.names = observer;
  check.numbers = {{"slope", line.slope}, {"slope_low", low}, {"slope_high", high}, {"n", n}};
  return check;
}

StudyCheck ratings_bunched(const std::string& observer, const std::vector<TimedCycle>& cycles) {
  constexpr const char* code = "ratings_bunched";
  // A rating given for a whole session is one rating, however many cycles it holds.
  std::map<std::int64_t, double> count; // by rating, in 0.001
  std::set<std::int32_t> sessions;
  double n = 0;
  for (const TimedCycle& cycle : cycles) {
    if (cycle.observer != observer || !cycle.rating) continue;
    if (!cycle.rated_itself && !sessions.insert(cycle.session).second) continue;
    ++count[std::llround(*cycle.rating * 1000)];
    ++n;
  }
  const auto lacking = [&](const char* what) {
    StudyCheck check = check_that_lacks(code, what);
    check.names = observer;
    check.numbers = {{"n", n}, {"needs", rules::least_ratings}};
    return check;
  };
  if (n == 0) return lacking("ratings");
  if (n < rules::least_ratings) return lacking("enough_ratings");
  const auto most = std::max_element(count.begin(), count.end(), [](auto& a, auto& b) { return a.second < b.second; });
  StudyCheck check = check_that_ran(code, most->second / n > rules::bunched_share, Bias::either);
  check.names = observer;
  check.numbers = {{"share", most->second / n},
                   {"rating_share", static_cast<double>(most->first) / 1000},
                   {"n", n},
                   {"different", static_cast<double>(count.size())}};
  return check;
}

const TimedCycle* find_cycle(const std::vector<TimedCycle>& cycles, std::int32_t session, std::int64_t number) {
  for (const TimedCycle& cycle : cycles)
    if (cycle.session == session && cycle.number == number) return &cycle;
  return nullptr;
}

struct Pairs {
  std::vector<double> differences;
  std::vector<std::vector<double>> rows;
  void add(double first, double second) {
    differences.push_back(first - second);
    rows.push_back({first, second});
  }
};

/// Both sheets of the same cycles, the earlier-named session first.
StudyCheck observers_apart(const Case& input, std::int32_t first, std::int32_t second,
                           const std::vector<TimedCycle>& cycles) {
  constexpr const char* code = "observers_apart";
  const std::string names = input.sessions[static_cast<std::size_t>(first)].session + " and " +
                            input.sessions[static_cast<std::size_t>(second)].session;
  Pairs times, ratings;
  bool every_cycle_rated = true;
  double sum = 0;
  for (const TimedCycle& cycle : cycles) {
    if (cycle.session != first || cycle.marks.has(Mark::instrument)) continue;
    const TimedCycle* other = find_cycle(cycles, second, cycle.number);
    if (!other || other->marks.has(Mark::instrument)) continue;
    times.add(cycle.work.count(), other->work.count());
    sum += cycle.work.count() + other->work.count();
    if (cycle.rating && other->rating) ratings.add(*cycle.rating, *other->rating);
    every_cycle_rated = every_cycle_rated && cycle.rated_itself && other->rated_itself;
  }
  const auto n = static_cast<double>(times.differences.size());
  if (n < rules::least_pairs) {
    StudyCheck check = check_that_lacks(code, "enough_pairs");
    check.names = names;
    check.numbers = {{"n", n}, {"needs", rules::least_pairs}};
    return check;
  }
  const double mean = sum / (2 * n);
  constexpr double width = 1.96; // Bland & Altman: 95 % of the differences
  const LimitsOfAgreement limits = limits_of_agreement(summarise(times.differences), width, input.settings.confidence);
  bool found = std::abs(limits.bias) > rules::observers_bias_share * mean ||
               limits.upper.value - limits.lower.value > rules::observers_limits_share * mean;
  std::map<std::string, double> numbers{{"n", n},
                                        {"mean_s", mean},
                                        {"difference_s", limits.bias},
                                        {"lower_s", limits.lower.value},
                                        {"upper_s", limits.upper.value}};
  const RaterAgreement agreement = rater_agreement(times.rows, input.settings.confidence);
  if (agreement.possible && std::isfinite(agreement.random.value)) numbers["icc"] = agreement.random.value;
  if (static_cast<double>(ratings.differences.size()) >= rules::least_pairs) {
    const double difference = summarise(ratings.differences).mean;
    found = found || std::abs(difference) > rules::observers_rating_difference + rounding;
    numbers["rating_difference_share"] = difference;
    const RaterAgreement of_ratings = rater_agreement(ratings.rows, input.settings.confidence);
    if (every_cycle_rated && of_ratings.possible && std::isfinite(of_ratings.random.value))
      numbers["rating_icc"] = of_ratings.random.value;
  }
  StudyCheck check = check_that_ran(code, found, Bias::either);
  check.names = names;
  check.numbers = std::move(numbers);
  return check;
}

} // namespace

std::vector<StudyCheck> check_ratings(const Case& input, const std::vector<TimedCycle>& cycles) {
  std::set<std::string> observers;
  for (const TimedCycle& cycle : cycles) observers.insert(cycle.observer);
  if (observers.empty())
    return {check_that_lacks("flat_rating", "readings"), check_that_lacks("ratings_bunched", "readings")};
  std::vector<StudyCheck> checks;
  for (const std::string& observer : observers) checks.push_back(flat_rating(input, observer, cycles));
  for (const std::string& observer : observers) checks.push_back(ratings_bunched(observer, cycles));
  return checks;
}

std::vector<StudyCheck> check_pairs_of_observers(const Case& input, const std::vector<TimedCycle>& cycles) {
  std::vector<StudyCheck> checks;
  for (std::size_t second = 0; second < input.sessions.size(); ++second) {
    const Session& session = input.sessions[second];
    if (session.same_as.empty()) continue;
    for (std::size_t first = 0; first < input.sessions.size(); ++first) {
      if (input.sessions[first].session != session.same_as) continue;
      // Two sessions that name each other are one pair.
      if (input.sessions[first].same_as == session.session && first > second) continue;
      checks.push_back(
          observers_apart(input, static_cast<std::int32_t>(first), static_cast<std::int32_t>(second), cycles));
    }
  }
  if (checks.empty()) checks.push_back(check_that_lacks("observers_apart", "second_observer"));
  return checks;
}

} // namespace docket
