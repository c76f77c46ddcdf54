#include "core/adaptation/earlier_learners.h"

#include "core/adaptation/practice_curve.h"
#include "core/adaptation/practice_mixture.h"
#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace docket {
namespace {

constexpr std::size_t ln_settled = 0, ln_excess = 1, ln_tau = 2;
constexpr double reach_times_observed = 3; ///< as for a person's own curve
constexpr double step_of_search = 1.01;    ///< [1] of the own cycle

double ln_curve(std::span<const double> p, double n, std::span<double> gradient) {
  const double ratio = n * std::exp(-p[ln_tau]), part = std::exp(p[ln_excess] - ratio);
  gradient[ln_settled] = 1;
  gradient[ln_excess] = part / (1 + part);
  gradient[ln_tau] = gradient[ln_excess] * ratio;
  return p[ln_settled] + std::log1p(part);
}

MixedModel model_of(bool course_differs) {
  MixedModel model;
  model.parameter_count = 3;
  model.value = ln_curve;
  if (course_differs)
    model.random = {ln_settled, ln_excess, ln_tau};
  else
    model.random = {ln_settled};
  model.names = {"settled level", "excess", "pace"};
  return model;
}

/// Dependent cycles count for fewer: everything over phi.
MixedGroup group_of(const CurveData& data, double phi) {
  MixedGroup group{data.n, data.ln_y, data.weight, data.count / phi, data.within_ss / phi};
  for (double& weight : group.weight) weight /= phi;
  return group;
}

double median_of(std::vector<double> values) {
  std::ranges::sort(values);
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

/// Nothing was said of what came before: the first cycle seen need not be the first.
bool count_unknown(const PracticeSeries& series) { return series.first_cycle_estimated && series.before == 0; }

/// Medians of the learners' own curves; empty where nobody's falls.
std::vector<double> start_of(const std::vector<CurveData>& learners) {
  std::vector<double> settled, excess, tau;
  for (const CurveData& data : learners) {
    const CurveFit fit = fit_curve(data, CurveModel::exponential_plateau);
    if (!(fit.c > 0 && fit.excess > 0 && fit.shape > 0)) continue;
    settled.push_back(std::log(fit.c));
    excess.push_back(std::log(fit.excess / fit.c) + fit.first / fit.shape);
    tau.push_back(std::log(fit.shape));
  }
  if (settled.empty()) return {};
  return {median_of(settled), median_of(excess), median_of(tau)};
}

/// Pooled over the worked days of all learners, from each one's own curve.
double lag1_of(const std::vector<const PracticeSeries*>& learners, const MixedFit& fit) {
  std::vector<std::vector<double>> stretches;
  std::array<double, 3> gradient{};
  for (std::size_t i = 0; i < learners.size(); ++i) {
    const std::vector<PracticePoint>& points = learners[i]->plain;
    for (std::size_t k = 0; k < points.size(); ++k) {
      if (k == 0 || points[k].day != points[k - 1].day) stretches.emplace_back();
      stretches.back().push_back(std::log(points[k].seconds) -
                                 ln_curve(fit.groups[i].parameters, points[k].n, gradient));
    }
  }
  return lag1_autocorrelation(stretches).corrected;
}

/// The learners told apart, or not.
bool spread_seen(const MixedFit& fit) { return fit.usable() && fit.random_sd[0] > 0; }

MixedFit fit_learners(const std::vector<CurveData>& data, double phi, bool course_differs,
                      std::span<const double> start) {
  std::vector<MixedGroup> groups;
  for (const CurveData& one : data) groups.push_back(group_of(one, phi));
  std::vector<std::vector<double>> starts;
  for (const double factor : {1.0, 2.0}) {
    starts.emplace_back(start.begin(), start.end());
    starts.back()[ln_tau] += std::log(factor);
  }
  return fit_nonlinear_mixed(model_of(course_differs), groups, starts, {.restricted = true});
}

/// ln of what a person with these parameters averages at own cycle n, and the variance of its error by `covariance`.
struct LnLevel {
  double mean = 0, variance = 0;
};

LnLevel ln_level(std::span<const double> p, std::span<const double> covariance, double sigma, double n) {
  std::array<double, 3> g{};
  LnLevel level;
  level.mean = ln_curve(p, n, g) + sigma * sigma / 2;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) level.variance += g[i] * g[j] * covariance[3 * i + j];
  return level;
}

/// The floor: an own cycle at which nothing of the excess is left.
LnLevel ln_floor(std::span<const double> p, std::span<const double> covariance, double sigma) {
  return {p[ln_settled] + sigma * sigma / 2, covariance[0]};
}

TimeEstimate estimate_of(const LnLevel& level, double t) {
  const double half = t * std::sqrt(level.variance);
  return {Seconds{std::exp(level.mean)}, Seconds{std::exp(level.mean - half)}, Seconds{std::exp(level.mean + half)}};
}

/// Variances between learners of all three parameters; 0 where taken as the same for all.
std::array<double, 3> variance_between(const EarlierLearners& earlier) {
  std::array<double, 3> variance{};
  const std::vector<std::size_t> random = model_of(earlier.course_differs).random;
  for (std::size_t k = 0; k < random.size(); ++k)
    variance[random[k]] = earlier.population.random_sd[k] * earlier.population.random_sd[k];
  return variance;
}

/// Spread between learners and the error of their middle together: of one more learner.
std::vector<double> covariance_of_one_more(const EarlierLearners& earlier) {
  std::vector<double> covariance = earlier.population.fixed_covariance;
  const std::array<double, 3> between = variance_between(earlier);
  for (std::size_t k = 0; k < 3; ++k) covariance[4 * k] += between[k];
  return covariance;
}

/// The population as prior knowledge of one more learner: nobody is taken to start or to learn just as the others did.
MixedFit prior_of(const EarlierLearners& earlier) {
  MixedFit prior = earlier.population;
  const std::array<double, 3> between = variance_between(earlier);
  prior.random_covariance.assign(9, 0);
  for (std::size_t k = 0; k < 3; ++k)
    prior.random_covariance[4 * k] =
        k == ln_settled ? between[k]
                        : std::max(between[k], rules::least_spread_borrowed * rules::least_spread_borrowed);
  return prior;
}

double t_of(const EarlierLearners& earlier, double confidence) {
  return student_t_quantile((1 + confidence) / 2, earlier.learners - 1);
}

/// First own cycle from `from` to `to` at which `value` is 0 or less; absent: none.
std::optional<double> first_within(double from, double to, const std::function<double(double)>& value) {
  if (value(from) <= 0) return from;
  double before = from;
  while (before < to) {
    double after = std::min(to, std::max(before + 1, before * step_of_search));
    if (value(after) > 0) {
      before = after;
      continue;
    }
    for (int i = 0; i < 50; ++i) {
      const double middle = (before + after) / 2;
      (value(middle) > 0 ? before : after) = middle;
    }
    return after;
  }
  return std::nullopt;
}

} // namespace

std::string_view name_of(EarlierLearnersOutcome outcome) {
  constexpr std::array<std::string_view, 4> names{"fitted", "too_few", "no_practice", "spread_not_seen"};
  return names[static_cast<std::size_t>(outcome)];
}

EarlierLearners fit_earlier_learners(std::span<const PracticeSeries> series) {
  EarlierLearners earlier;
  std::vector<const PracticeSeries*> learners;
  std::vector<CurveData> data;
  std::vector<double> last;
  for (const PracticeSeries& one : series) {
    if (count_unknown(one))
      ++earlier.count_unknown;
    else if (one.first_cycle >= rules::learners_begin_below)
      ++earlier.begins_late;
    else if (one.plain.size() < rules::least_learner_cycles)
      ++earlier.too_short;
    else {
      learners.push_back(&one);
      data.push_back(group_points(one.plain));
      last.push_back(one.plain.back().n);
    }
  }
  earlier.learners = static_cast<int>(learners.size());
  if (earlier.learners < rules::least_learners) {
    earlier.reason = "There are fewer than three earlier learners.";
    return earlier;
  }
  std::ranges::sort(last, std::greater<>{});
  earlier.seen_to = last[rules::least_learners - 1];

  const std::vector<double> start = start_of(data);
  earlier.outcome = EarlierLearnersOutcome::no_practice;
  earlier.reason = "No fall with practice is to be seen that the earlier learners share.";
  if (start.empty()) return earlier;
  MixedFit fit;
  for (const bool course_differs : {true, false}) {
    if (course_differs && earlier.learners < rules::least_learners_for_course) continue;
    earlier.course_differs = course_differs;
    fit = fit_learners(data, 1, course_differs, start);
    if (!fit.usable()) continue;
    earlier.lag1 = lag1_of(learners, fit);
    earlier.phi = std::max(1.0, (1 + earlier.lag1) / (1 - earlier.lag1));
    if (earlier.phi > 1) fit = fit_learners(data, earlier.phi, course_differs, fit.fixed);
    if (spread_seen(fit)) break;
  }
  if (!fit.usable() || fit.fixed_se[ln_excess] * rules::least_excess_in_errors > 1) return earlier;
  if (!spread_seen(fit)) {
    earlier.outcome = EarlierLearnersOutcome::spread_not_seen;
    earlier.reason = "The settled levels of the earlier learners can't be told apart, so their spread is not known.";
    return earlier;
  }
  earlier.outcome = EarlierLearnersOutcome::fitted;
  earlier.reason = "The earlier learners share one curve, each with a settled level of their own.";
  earlier.population = std::move(fit);
  earlier.population.groups.clear();
  return earlier;
}

std::optional<EarlierLearnersBand> find_band(const EarlierLearners& earlier, std::span<const double> cycles,
                                             double confidence) {
  if (earlier.outcome != EarlierLearnersOutcome::fitted || earlier.learners < rules::least_learners_for_band)
    return std::nullopt;
  const MixedFit& fit = earlier.population;
  const std::vector<double> covariance = covariance_of_one_more(earlier);
  const double t = t_of(earlier, confidence);
  EarlierLearnersBand band;
  band.learners = earlier.learners;
  for (const double cycle : cycles) {
    if (cycle > earlier.seen_to) continue;
    band.levels.push_back({cycle, estimate_of(ln_level(fit.fixed, covariance, fit.residual_sd, cycle), t)});
  }
  band.settled = estimate_of(ln_floor(fit.fixed, covariance, fit.residual_sd), t);
  return band;
}

std::vector<double> cycles_for_band(const EarlierLearners& earlier) {
  std::vector<double> cycles;
  for (double cycle = 25; cycle <= earlier.seen_to; cycle *= 2) cycles.push_back(cycle);
  return cycles;
}

std::optional<BorrowedEstimate> borrow_estimate(const EarlierLearners& earlier, const PracticeSeries& own,
                                                Seconds limit, double confidence) {
  if (earlier.outcome != EarlierLearnersOutcome::fitted || count_unknown(own) ||
      own.plain.size() < rules::least_borrowing_cycles)
    return std::nullopt;
  const MixedFit& fit = earlier.population;
  const double sigma = fit.residual_sd;
  const GroupEstimate person =
      estimate_new_group(model_of(true), prior_of(earlier), group_of(group_points(own.plain), earlier.phi));
  if (!person.found) return std::nullopt;
  const double t = t_of(earlier, confidence), last = static_cast<double>(own.last_cycle);
  const auto at = [&](double n) { return ln_level(person.parameters, person.covariance, sigma, n); };

  BorrowedEstimate borrowed;
  borrowed.learners = earlier.learners;
  borrowed.own_cycles = static_cast<std::int64_t>(own.plain.size());
  borrowed.own_share = 1 - person.covariance[0] / covariance_of_one_more(earlier)[0];
  borrowed.settled = estimate_of(ln_floor(person.parameters, person.covariance, sigma), t);
  borrowed.today = estimate_of(at(last), t);
  const double observed = last - static_cast<double>(own.first_cycle) + 1;
  borrowed.reach = std::max(earlier.seen_to, last + reach_times_observed * observed);
  // The level's middle and its two ends meet the limit one after the other: those are the cycles and their interval.
  const double ln_limit = std::log(limit.count());
  const auto cycles_until = [&](double times_error) -> std::optional<double> {
    const auto found = first_within(last, borrowed.reach, [&](double n) {
      const LnLevel level = at(n);
      return level.mean + times_error * std::sqrt(level.variance) - ln_limit;
    });
    return found ? std::optional(*found - last) : std::nullopt;
  };
  borrowed.to_limit = cycles_until(0);
  borrowed.to_limit_low = cycles_until(-t);
  borrowed.to_limit_high = cycles_until(t);
  const LnLevel end = at(borrowed.reach);
  borrowed.p_never = student_t_cdf((end.mean - ln_limit) / std::sqrt(end.variance), earlier.learners - 1);
  return borrowed;
}

} // namespace docket
