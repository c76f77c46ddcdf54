#include "core/content/checks/log_checks.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "core/statistics/studies/outliers.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace docket {
namespace {

struct Timed {
  std::int32_t op = -1;
  Instant at{};
  Date day{};
  Seconds cycle{};
  double ln_ratio = 0;
  bool plain = false;
};

std::set<std::int32_t> settled_operators(const SettledResult& settled) {
  std::set<std::int32_t> operators;
  for (const OperatorLevel& level : settled.per_operator)
    if (level.status == OperatorStatus::settled) operators.insert(level.op);
  return operators;
}

/// The logged cycles of these operators, by operator and time, each with its worked day.
std::vector<Timed> timed_log(const Case& input, const Evidence& evidence, const StandardTime& standard,
                             const std::set<std::int32_t>& operators) {
  std::map<std::pair<std::int32_t, std::int64_t>, const LoggedCycle*> by_row;
  for (const LoggedCycle& row : input.cycle_log)
    if (operators.contains(row.op)) by_row[{row.origin.source, row.origin.row}] = &row;
  std::vector<Timed> cycles;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.session >= 0 || cycle.variant < 0 || !operators.contains(cycle.op)) continue;
    const auto row = by_row.find({cycle.origin.source, cycle.origin.row});
    const Seconds base = standard.variants[static_cast<std::size_t>(cycle.variant)].time;
    if (row == by_row.end() || base <= Seconds::zero()) continue;
    Timed timed{cycle.op, row->second->started_at, cycle.day, row->second->cycle, 0, false};
    if (cycle.work > Seconds::zero()) {
      timed.ln_ratio = std::log(cycle.work / base);
      timed.plain = cycle.marks.plain() && cycle.condition < 0;
    }
    cycles.push_back(timed);
  }
  std::stable_sort(cycles.begin(), cycles.end(),
                   [](const Timed& a, const Timed& b) { return std::tie(a.op, a.at) < std::tie(b.op, b.at); });
  return cycles;
}

/// First cycles less the rest, one value an operator and day on which both were seen often enough.
std::vector<double> first_less_rest(const std::vector<Timed>& cycles) {
  struct Sums {
    double first = 0, rest = 0;
    double n_first = 0, n_rest = 0;
  };
  std::map<std::pair<std::int32_t, Date>, Sums> by_day;
  int since_pause = 0;
  for (std::size_t i = 0; i < cycles.size(); ++i) {
    const Timed& cycle = cycles[i];
    const bool starts = i == 0 || cycles[i - 1].op != cycle.op || cycles[i - 1].day != cycle.day ||
                        Seconds{cycle.at - cycles[i - 1].at} - cycles[i - 1].cycle > Seconds{rules::pause_s};
    since_pause = starts ? 1 : since_pause + 1;
    if (!cycle.plain) continue;
    Sums& sums = by_day[{cycle.op, cycle.day}];
    const bool first = since_pause <= rules::first_cycles;
    (first ? sums.first : sums.rest) += cycle.ln_ratio;
    ++(first ? sums.n_first : sums.n_rest);
  }
  std::vector<double> differences;
  for (const auto& [day, sums] : by_day) {
    if (sums.n_first < rules::least_first_cycles || sums.n_rest < rules::least_rest_cycles) continue;
    differences.push_back(sums.first / sums.n_first - sums.rest / sums.n_rest);
  }
  return differences;
}

StudyCheck warm_up(const Case& input, const Evidence& evidence, const StandardTime& standard,
                   const SettledResult& settled) {
  constexpr const char* code = "warm_up";
  if (input.cycle_log.empty()) return check_that_lacks(code, "log");
  const std::set<std::int32_t> operators = settled_operators(settled);
  if (operators.empty()) return check_that_lacks(code, "settled_operators");
  const std::vector<double> differences = first_less_rest(timed_log(input, evidence, standard, operators));
  const auto n = static_cast<double>(differences.size());
  if (n < rules::least_warm_up_days) {
    StudyCheck check = check_that_lacks(code, "enough_days");
    check.numbers = {{"n", n}, {"needs", rules::least_warm_up_days}};
    return check;
  }
  const Summary summary = summarise(differences);
  const double reach = student_t_quantile(0.5 + input.settings.confidence / 2, n - 1) * summary.sd / std::sqrt(n);
  const double low = std::exp(summary.mean - reach), high = std::exp(summary.mean + reach);
  const bool longer = low > 1 + rules::warm_up_share, shorter = high < 1 - rules::warm_up_share;
  const bool told = low >= 1 - rules::warm_up_share && high <= 1 + rules::warm_up_share;
  StudyCheck check = check_that_ran(code, longer || shorter, told, Bias::either);
  check.numbers = {{"n", n},
                   {"first_cycles", rules::first_cycles},
                   {"ratio", std::exp(summary.mean)},
                   {"ratio_low", low},
                   {"ratio_high", high}};
  return check;
}

/// Settled means no improvement left; it does not ask whether times rise. Nobody is named: what makes times rise at a
/// station is asked of the station first.
StudyCheck times_rise(const Case& input, const SettledResult& settled) {
  constexpr const char* code = "settled_times_rise";
  const double share = input.settings.improvement_left;
  double people = 0, rising = 0, level = 0;
  for (const OperatorLevel& one : settled.per_operator) {
    if (one.status != OperatorStatus::settled || !one.fall || !one.fall_bound) continue;
    ++people;
    if (*one.fall_bound < -share) ++rising;
    if (2 * *one.fall - *one.fall_bound > -share) ++level; // the other end of the same interval
  }
  if (people == 0) return check_that_lacks(code, "settled_operators");
  StudyCheck check = check_that_ran(code, rising > 0, level == people, Bias::too_light);
  check.numbers = {{"operators", people}, {"rising", rising}, {"level", level}, {"by_share", share}};
  return check;
}

/// One person far from all the others moves the mean and the spread between people, and both make the word. Nobody is
/// named: with the others' levels beside, the row without each person shows what hangs on it.
StudyCheck far_from_the_rest(const Case& input, const SettledResult& settled) {
  constexpr const char* code = "one_far_from_the_rest";
  std::vector<double> ln_levels;
  for (const OperatorLevel& one : settled.per_operator)
    if (one.status == OperatorStatus::settled) ln_levels.push_back(std::log(one.ratio));
  const auto people = static_cast<std::int64_t>(ln_levels.size());
  if (people == 0) return check_that_lacks(code, "settled_operators");
  if (people < rules::least_people_compared) {
    StudyCheck check = check_that_lacks(code, "enough_settled_operators");
    check.numbers = {{"n", static_cast<double>(people)}, {"needs", static_cast<double>(rules::least_people_compared)}};
    return check;
  }
  const OutlierTest test = find_outliers(ln_levels, 1, rules::extremes_alpha);
  double off = 0; // of the furthest, from the mean of the others
  if (!test.steps.empty()) {
    const double one = ln_levels[test.steps[0].index];
    off = std::expm1(one -
                     (summarise(ln_levels).mean * static_cast<double>(people) - one) / static_cast<double>(people - 1));
  }
  const bool close = std::abs(off) <= input.settings.equivalence;
  StudyCheck check = check_that_ran(code, test.count > 0 && !close, close, Bias::either);
  check.numbers = {
      {"operators", static_cast<double>(people)}, {"off_share", off}, {"close_share", input.settings.equivalence}};
  return check;
}

/// Levels of people who work the station all day and of people who relieve it now and then are not of one kind.
StudyCheck unlike_days(const SettledResult& settled) {
  constexpr const char* code = "unlike_days";
  double least = 0, most = 0, people = 0;
  for (const OperatorLevel& one : settled.per_operator) {
    if (one.status != OperatorStatus::settled || one.days == 0) continue;
    const double a_day = static_cast<double>(one.n) / one.days;
    least = people == 0 ? a_day : std::min(least, a_day);
    most = std::max(most, a_day);
    ++people;
  }
  if (people < 2) return check_that_lacks(code, "two_settled_operators");
  StudyCheck check = check_that_ran(code, most > rules::unlike_days_factor * least, Bias::either);
  check.numbers = {{"operators", people}, {"least", least}, {"most", most}, {"factor", rules::unlike_days_factor}};
  return check;
}

/// A set value, a typed-over column or a clock read to whole minutes: no measurement of a person.
StudyCheck times_alike(const SettledResult& settled, const RestudyResult& restudy) {
  constexpr const char* code = "times_all_alike";
  std::string names;
  const auto names_in = [&](const LineLevel& level) {
    for (const Reason& lean : level.leans)
      if (lean.code == code) add_name(names, lean.detail);
  };
  if (!settled.line && !restudy.line) return check_that_lacks(code, "trained_operators");
  if (settled.line) names_in(settled.line->level);
  if (restudy.line) names_in(restudy.line->level);
  StudyCheck check = check_that_ran(code, !names.empty(), Bias::either);
  check.names = names;
  return check;
}

/// Those whose cycles carry a line of evidence as a trained person's.
std::set<std::int32_t> counted_as_trained(const SettledResult& settled, const RestudyResult& restudy) {
  std::set<std::int32_t> operators = settled_operators(settled);
  if (restudy.line) operators.insert(restudy.line->operators.begin(), restudy.line->operators.end());
  return operators;
}

StudyCheck training_records(const Case& input, const SettledResult& settled, const RestudyResult& restudy) {
  constexpr const char* code = "training_records";
  const std::set<std::int32_t> operators = counted_as_trained(settled, restudy);
  if (operators.empty()) return check_that_lacks(code, "trained_operators");
  if (input.training.empty()) return check_that_lacks(code, "training");
  std::vector<std::string> missing;
  for (const std::int32_t op : operators) {
    const bool recorded =
        std::any_of(input.training.begin(), input.training.end(), [&](const Training& row) { return row.op == op; });
    if (!recorded) missing.push_back(input.operators[static_cast<std::size_t>(op)].code);
  }
  std::sort(missing.begin(), missing.end());
  StudyCheck check = check_that_ran(code, !missing.empty(), Bias::either);
  for (const std::string& operator_code : missing) add_name(check.names, operator_code);
  check.numbers = {{"operators", static_cast<double>(operators.size())},
                   {"without", static_cast<double>(missing.size())}};
  return check;
}

StudyCheck leavers_named(const Case& input) {
  constexpr const char* code = "leavers_named";
  if (input.operators.empty()) return check_that_lacks(code, "operators");
  const auto left = static_cast<double>(std::count_if(input.operators.begin(), input.operators.end(),
                                                      [](const Operator& op) { return op.left_station.has_value(); }));
  StudyCheck check = check_that_ran(code, left == 0 && !input.facts.leavers_listed, Bias::too_light);
  check.numbers = {{"operators", static_cast<double>(input.operators.size())}, {"left", left}};
  return check;
}

} // namespace

std::vector<StudyCheck> check_log(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                  const SettledResult& settled, const RestudyResult& restudy) {
  return {warm_up(input, evidence, standard, settled),
          times_rise(input, settled),
          far_from_the_rest(input, settled),
          unlike_days(settled),
          times_alike(settled, restudy),
          training_records(input, settled, restudy),
          leavers_named(input)};
}

} // namespace docket
