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
  const double most = rules::flat_rating_slope;
  StudyCheck check = check_that_ran(code, low > most || high < -most, low >= -most && high <= most, Bias::either);
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
struct BothSheets {
  std::string names;
  Pairs times, ratings;
  bool every_cycle_rated = true; ///< by both, not a rating for the session
  double mean_s = 0;
};

BothSheets both_sheets(const Case& input, std::int32_t first, std::int32_t second,
                       const std::vector<TimedCycle>& cycles) {
  BothSheets both;
  both.names = input.sessions[static_cast<std::size_t>(first)].session + " and " +
               input.sessions[static_cast<std::size_t>(second)].session;
  double sum = 0;
  for (const TimedCycle& cycle : cycles) {
    if (cycle.session != first || cycle.marks.has(Mark::instrument)) continue;
    const TimedCycle* other = find_cycle(cycles, second, cycle.number);
    if (!other || other->marks.has(Mark::instrument)) continue;
    both.times.add(cycle.work.count(), other->work.count());
    sum += cycle.work.count() + other->work.count();
    if (!cycle.rating || !other->rating) continue;
    both.ratings.add(*cycle.rating, *other->rating);
    both.every_cycle_rated = both.every_cycle_rated && cycle.rated_itself && other->rated_itself;
  }
  both.mean_s = sum / (2 * static_cast<double>(std::max<std::size_t>(1, both.times.differences.size())));
  return both;
}

StudyCheck lacks_pairs(std::string_view code, const BothSheets& both, const Pairs& pairs, std::string_view what) {
  StudyCheck check = check_that_lacks(code, what);
  check.names = both.names;
  check.numbers = {{"n", static_cast<double>(pairs.differences.size())}, {"needs", rules::least_pairs}};
  return check;
}

/// The figures decide what is found; the intervals of the mean difference and of the limits, what passes.
StudyCheck observers_apart(const Case& input, const BothSheets& both) {
  constexpr const char* code = "observers_apart";
  const auto n = static_cast<double>(both.times.differences.size());
  if (n < rules::least_pairs) return lacks_pairs(code, both, both.times, "enough_pairs");
  constexpr double width = 1.96; // Bland & Altman: 95 % of the differences
  const LimitsOfAgreement limits =
      limits_of_agreement(summarise(both.times.differences), width, input.settings.confidence);
  const double most_bias = rules::observers_bias_share * both.mean_s;
  const double most_between = rules::observers_limits_share * both.mean_s;
  const double between = limits.upper.value - limits.lower.value;
  const bool told = std::max(std::abs(limits.bias_interval.low), std::abs(limits.bias_interval.high)) <= most_bias &&
                    2 * (limits.upper.interval.high - limits.bias) <= most_between;
  StudyCheck check =
      check_that_ran(code, std::abs(limits.bias) > most_bias || between > most_between, told, Bias::either);
  check.names = both.names;
  check.numbers = {{"n", n},
                   {"mean_s", both.mean_s},
                   {"difference_s", limits.bias},
                   {"lower_s", limits.lower.value},
                   {"upper_s", limits.upper.value}};
  const RaterAgreement agreement = rater_agreement(both.times.rows, input.settings.confidence);
  if (agreement.possible && std::isfinite(agreement.random.value)) check.numbers["icc"] = agreement.random.value;
  return check;
}

/// Ratings of the same cycles that neither lie close in every cycle nor rise and fall together agree at most on an average.
bool agree_by_cycle(const LimitsOfAgreement& limits, const RaterAgreement& agreement, double most) {
  const bool close = limits.lower.value >= -most && limits.upper.value <= most;
  return close || (agreement.possible && agreement.fixed.interval.low > 0);
}

/// A rating given for a whole session is one rating, which has no interval: it can be found, and can't pass.
StudyCheck ratings_apart(const Case& input, const BothSheets& both) {
  constexpr const char* code = "ratings_apart";
  const auto n = static_cast<double>(both.ratings.differences.size());
  if (n == 0) return lacks_pairs(code, both, both.ratings, "ratings_by_both");
  if (n < rules::least_pairs) return lacks_pairs(code, both, both.ratings, "enough_rated_pairs");
  const LimitsOfAgreement limits =
      limits_of_agreement(summarise(both.ratings.differences), 1.96, input.settings.confidence);
  const double most = rules::observers_rating_difference + rounding;
  const RaterAgreement agreement = rater_agreement(both.ratings.rows, input.settings.confidence);
  const bool told = both.every_cycle_rated && limits.bias_interval.low >= -most && limits.bias_interval.high <= most &&
                    agree_by_cycle(limits, agreement, most);
  StudyCheck check = check_that_ran(code, std::abs(limits.bias) > most, told, Bias::either);
  check.names = both.names;
  check.numbers["rating_difference_share"] = limits.bias;
  if (both.every_cycle_rated)
    check.numbers["n"] = n;
  else
    check.numbers["by_session"] = 1;
  if (both.every_cycle_rated && agreement.possible && std::isfinite(agreement.random.value))
    check.numbers["rating_icc"] = agreement.random.value;
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
      const BothSheets both =
          both_sheets(input, static_cast<std::int32_t>(first), static_cast<std::int32_t>(second), cycles);
      checks.push_back(observers_apart(input, both));
      checks.push_back(ratings_apart(input, both));
    }
  }
  if (checks.empty())
    checks = {check_that_lacks("observers_apart", "second_observer"),
              check_that_lacks("ratings_apart", "second_observer")};
  return checks;
}

} // namespace docket
