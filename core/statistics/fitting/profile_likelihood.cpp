#include "core/statistics/fitting/profile_likelihood.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

namespace docket {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double first_weight = 30; ///< [1] residual SD a standard error off: the gap falls by about 1000 a round
constexpr double gap_wanted = 1e-10, gap_allowed = 1e-6; ///< [1] of a standard error
constexpr int most_rounds = 40;
constexpr double same_sum = 1e-8;  ///< [1] less better than that is rounding
constexpr double most_growth = 10; ///< [1] of the way out, from one step to the next
constexpr int most_steps_out = 20; ///< 10^20 standard errors
constexpr int most_halvings = 30;
constexpr double root_wanted = 1e-9; ///< [1]
constexpr int most_refinements = 80;

double value_of(const ProfiledQuantity& quantity, std::span<const double> p) {
  return quantity.parameter ? p[*quantity.parameter] : quantity.value(p);
}

std::vector<double> gradient_of(const ProfiledQuantity& quantity, std::span<const double> p) {
  std::vector<double> gradient(p.size(), 0);
  if (quantity.parameter) {
    gradient[*quantity.parameter] = 1;
  } else {
    quantity.gradient(p, gradient);
  }
  return gradient;
}

/// The standard error of the quantity where there is one, else some small length: it sets steps, never a result.
double unit_of(const LeastSquaresFit& fit, const ProfiledQuantity& quantity) {
  const std::size_t p = fit.parameters.size();
  const std::vector<double> gradient = gradient_of(quantity, fit.parameters);
  double variance = 0;
  for (std::size_t i = 0; i < p; ++i) {
    for (std::size_t j = 0; j < p; ++j) {
      const double both = gradient[i] * gradient[j];
      if (both != 0) variance += both * fit.covariance[i * p + j];
    }
  }
  if (std::isfinite(variance) && variance > 0) return std::sqrt(variance);
  const double value = std::abs(value_of(quantity, fit.parameters));
  return value > 0 ? 0.01 * value : 0.01;
}

ParameterBounds range_of(const LeastSquaresProblem& problem, const ProfiledQuantity& quantity) {
  ParameterBounds range = quantity.range;
  if (quantity.parameter && !problem.bounds.empty()) {
    range.low = std::max(range.low, problem.bounds[*quantity.parameter].low);
    range.high = std::min(range.high, problem.bounds[*quantity.parameter].high);
  }
  return range;
}

LeastSquaresFit refit_with_parameter(const LeastSquaresProblem& problem, std::size_t j, double value,
                                     std::vector<std::vector<double>> starts) {
  LeastSquaresProblem held = problem;
  held.outside_model = {};
  if (held.bounds.empty()) held.bounds.resize(problem.parameter_count);
  held.bounds[j] = {value, value};
  for (std::vector<double>& start : starts) start[j] = value;
  return fit_least_squares(held, starts);
}

/// Sum of squares of the problem itself.
double rss_of(const LeastSquaresProblem& problem, std::span<const double> p) {
  std::vector<double> r(problem.residual_count);
  problem.residuals(p, r);
  double sum = problem.within_ss;
  for (const double value : r) sum += value * value;
  return sum;
}

struct Refit {
  std::vector<double> parameters;
  double rss = infinity;
  bool reached = false;
};

Refit refit_with_quantity(const LeastSquaresProblem& problem, const LeastSquaresFit& fit,
                          const ProfiledQuantity& quantity, double value,
                          const std::vector<std::vector<double>>& starts) {
  const double unit = unit_of(fit, quantity);
  double weight = first_weight * fit.residual_sd, pull = 0;
  const std::size_t n = problem.residual_count, p = problem.parameter_count;
  LeastSquaresProblem held = problem;
  held.outside_model = {};
  held.residual_count = n + 1;
  held.residuals = [&](std::span<const double> at, std::span<double> r) {
    problem.residuals(at, r.first(n));
    r[n] = weight * ((quantity.value(at) - value) / unit + pull);
  };
  held.jacobian = [&](std::span<const double> at, std::span<double> jacobian) {
    problem.jacobian(at, jacobian.first(n * p));
    quantity.gradient(at, jacobian.subspan(n * p));
    for (double& slope : jacobian.subspan(n * p)) slope *= weight / unit;
  };
  Refit best;
  for (const std::vector<double>& start : starts) {
    weight = first_weight * fit.residual_sd;
    pull = 0;
    std::vector<double> at = start;
    double gap = infinity;
    for (int round = 0; round < most_rounds; ++round) {
      const LeastSquaresFit one = fit_least_squares(held, std::vector<std::vector<double>>{at});
      if (one.outcome == FitOutcome::not_finite) break;
      at = one.parameters;
      const double here = (quantity.value(at) - value) / unit;
      if (!std::isfinite(here)) break;
      pull += here;
      if (std::abs(here) > std::abs(gap) / 4) {
        // The force is weight^2 times the pull: ten times the weight needs a hundredth of it.
        weight *= 10;
        pull /= 100;
      }
      gap = here;
      if (std::abs(gap) <= gap_wanted) break;
    }
    const double rss = std::abs(gap) <= gap_allowed ? rss_of(problem, at) : infinity;
    if (rss < best.rss) best = {at, rss, true};
  }
  return best;
}

double observations_of(const LeastSquaresProblem& problem) {
  return problem.observations > 0 ? problem.observations : static_cast<double>(problem.residual_count);
}

/// One side of an interval.
struct Side {
  std::optional<double> end;
  std::string why;
};

Side find_end(const LeastSquaresProblem& problem, const LeastSquaresFit& fit, const ProfiledQuantity& quantity,
              double root, const ProfileOptions& options, double way, std::optional<std::vector<double>>& better_at) {
  const ParameterBounds range = range_of(problem, quantity);
  const double limit = way < 0 ? range.low : range.high;
  const double start = value_of(quantity, fit.parameters);
  if (way * start >= way * limit) return {{}, "The fitted value is already at the edge of what is allowed."};

  std::vector<double> near = fit.parameters;
  const auto profile = [&](double value) {
    ProfilePoint point = profile_at(problem, fit, quantity, value, options, near);
    if (point.better_than_fit && !better_at) better_at = point.parameters;
    if (point.reached) near = point.parameters;
    return point;
  };
  double inside = start, root_inside = 0, outside = start, root_outside = -1;
  double step = root * unit_of(fit, quantity);
  for (int i = 0; i < most_steps_out && root_outside < 0; ++i) {
    const bool last = way * (start + way * step) >= way * limit;
    double value = last ? limit : start + way * step;
    ProfilePoint point = profile(value);
    // No model so far out: come back half the way until there is one.
    double beyond = value;
    bool none_beyond = false;
    for (int k = 0; k < most_halvings && !point.reached; ++k) {
      none_beyond = true;
      beyond = value;
      value = inside + (value - inside) / 2;
      point = profile(value);
    }
    if (!point.reached) return {{}, "The model has no value beyond the fitted one."};
    const double here = std::abs(point.root);
    if (here >= root) {
      outside = value;
      root_outside = here;
      break;
    }
    inside = value;
    root_inside = here;
    if (none_beyond) {
      for (int k = 0; k < most_halvings && root_outside < 0; ++k) {
        const double middle = (inside + beyond) / 2;
        const ProfilePoint between = profile(middle);
        if (!between.reached) {
          beyond = middle;
        } else if (std::abs(between.root) >= root) {
          outside = middle;
          root_outside = std::abs(between.root);
        } else {
          inside = middle;
          root_inside = std::abs(between.root);
        }
      }
      if (root_outside < 0) return {{}, "The values that the model can take end before the fit is bad enough."};
      break;
    }
    if (last) return {{}, "The edge of what is allowed comes before the fit is bad enough."};
    step = std::abs(inside - start) * std::clamp(1.2 * root / std::max(here, 1e-12), 1.5, most_growth);
  }
  if (root_outside < 0) return {{}, "However far the value goes, the fit does not get bad enough."};

  // Regula falsi that halves the weight of an end kept twice (Illinois).
  double low = root_inside - root, high = root_outside - root;
  int kept = 0;
  double end = outside;
  for (int i = 0; i < most_refinements && std::abs(high) > root_wanted; ++i) {
    end = inside + (outside - inside) * (-low / (high - low));
    if (end == inside || end == outside) break;
    const ProfilePoint point = profile(end);
    const double here = point.reached ? std::abs(point.root) - root : root;
    if (std::abs(here) <= root_wanted) break;
    if (here < 0) {
      inside = end;
      low = here;
      if (kept == 1) high /= 2;
      kept = 1;
    } else {
      outside = end;
      high = here;
      if (kept == -1) low /= 2;
      kept = -1;
    }
  }
  return {end, {}};
}

} // namespace

ProfiledQuantity profile_of_parameter(std::size_t j) {
  ProfiledQuantity quantity;
  quantity.parameter = j;
  return quantity;
}

ProfilePoint profile_at(const LeastSquaresProblem& problem, const LeastSquaresFit& fit,
                        const ProfiledQuantity& quantity, double value, const ProfileOptions& options,
                        std::span<const double> near) {
  assert(fit.rss > 0 && fit.df > 0 && options.phi > 0);
  const double fitted = value_of(quantity, fit.parameters);
  ProfilePoint point{.value = value, .rss = infinity, .root = value < fitted ? -infinity : infinity, .parameters = {}};
  std::vector<std::vector<double>> starts;
  if (!near.empty()) starts.emplace_back(near.begin(), near.end());
  starts.push_back(fit.parameters);
  if (quantity.parameter) {
    LeastSquaresFit refit = refit_with_parameter(problem, *quantity.parameter, value, std::move(starts));
    if (refit.outcome == FitOutcome::not_finite) return point;
    point.parameters = std::move(refit.parameters);
    point.rss = refit.rss;
  } else {
    Refit refit = refit_with_quantity(problem, fit, quantity, value, starts);
    if (!refit.reached) return point;
    point.parameters = std::move(refit.parameters);
    point.rss = refit.rss;
  }
  point.reached = true;
  point.better_than_fit = point.rss < fit.rss * (1 - same_sum);
  const double more = std::max(0.0, point.rss - fit.rss);
  const double deviance = options.measure == ProfileMeasure::deviance
                              ? observations_of(problem) * std::log1p(more / fit.rss)
                              : more / (fit.rss / fit.df);
  point.root = (value < fitted ? -1 : 1) * std::sqrt(deviance / options.phi);
  return point;
}

ProfileInterval profile_interval(const LeastSquaresProblem& problem, const LeastSquaresFit& fit,
                                 const ProfiledQuantity& quantity, double root, const ProfileOptions& options) {
  assert(root > 0);
  ProfileInterval interval;
  interval.fitted = value_of(quantity, fit.parameters);
  Side low = find_end(problem, fit, quantity, root, options, -1, interval.better_at);
  Side high = find_end(problem, fit, quantity, root, options, 1, interval.better_at);
  interval.low = low.end;
  interval.high = high.end;
  interval.low_why = std::move(low.why);
  interval.high_why = std::move(high.why);
  return interval;
}

} // namespace docket
