#include "core/statistics/fitting/nonlinear_least_squares.h"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace docket {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
using Indices = std::vector<Eigen::Index>;

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr double epsilon = std::numeric_limits<double>::epsilon();
constexpr double least_ratio = 1e-4;    ///< [1] of the fall foreseen, to take a step: More 1978
constexpr double smallest_step = 1e-15; ///< [1] of the scaled parameters: no digit of them changes
constexpr double flat_below = 1e-11;    ///< [1] smallest over largest pivot, columns scaled to length 1
constexpr double near_step = 1e-7;      ///< [1] of the scaled parameters: more digits than anyone reads
constexpr double near_offset = 1e-5;    ///< [1] tangent part of the residual; Bates & Watts 1981 ask for 1e-3
constexpr double same_sum = 1e-9;       ///< [1] two starts came to the same place
constexpr double slowest_last = 0.95;   ///< [1] of the last step: slower than that only rounding shrinks
constexpr int most_last_steps = 300;

struct Place {
  Vector p, r;
  double ss = std::numeric_limits<double>::infinity(); ///< infinite: no model there
  Rows jacobian;
};

ParameterBounds bounds_of(const LeastSquaresProblem& problem, Eigen::Index j) {
  return problem.bounds.empty() ? ParameterBounds{} : problem.bounds[static_cast<std::size_t>(j)];
}

std::string name_of_parameter(const LeastSquaresProblem& problem, std::size_t j) {
  return problem.names.empty() ? "parameter " + std::to_string(j + 1) : problem.names[j];
}

std::span<const double> as_span(const Vector& v) { return {v.data(), static_cast<std::size_t>(v.size())}; }

Place residuals_at(const LeastSquaresProblem& problem, const Vector& p) {
  Place place{.p = p, .r = Vector(static_cast<Eigen::Index>(problem.residual_count)), .jacobian = {}};
  problem.residuals(as_span(p), {place.r.data(), problem.residual_count});
  const double ss = place.r.squaredNorm();
  if (std::isfinite(ss)) place.ss = ss;
  return place;
}

/// False where it is not finite.
bool add_jacobian(const LeastSquaresProblem& problem, Place& place) {
  place.jacobian.resize(place.r.size(), place.p.size());
  problem.jacobian(as_span(place.p), {place.jacobian.data(), static_cast<std::size_t>(place.jacobian.size())});
  return place.jacobian.allFinite();
}

Vector into_box(const LeastSquaresProblem& problem, Vector p) {
  for (Eigen::Index j = 0; j < p.size(); ++j) {
    const ParameterBounds box = bounds_of(problem, j);
    p[j] = std::clamp(p[j], box.low, box.high);
  }
  return p;
}

/// Parameters that may move: not those at an edge that the sum of squares pushes outward.
Indices free_parameters(const LeastSquaresProblem& problem, const Place& place) {
  const Vector slope = place.jacobian.transpose() * place.r;
  Indices free;
  for (Eigen::Index j = 0; j < place.p.size(); ++j) {
    const ParameterBounds box = bounds_of(problem, j);
    const bool held = (place.p[j] <= box.low && slope[j] >= 0) || (place.p[j] >= box.high && slope[j] <= 0);
    if (!held && box.low < box.high) free.push_back(j);
  }
  return free;
}

/// The step in scaled parameters that leaves the smallest sum within `radius`, from the singular values of the scaled
/// Jacobian; `damping` says how much it was held back.
struct Decomposed {
  Vector sizes, turned; ///< singular values; residual turned into their directions
  Matrix directions;

  Vector step(double damping) const {
    Vector along(sizes.size());
    for (Eigen::Index i = 0; i < sizes.size(); ++i) {
      const bool nothing = damping == 0 && sizes[i] <= epsilon * sizes[0] * static_cast<double>(sizes.size());
      along[i] = nothing ? 0 : -sizes[i] * turned[i] / (sizes[i] * sizes[i] + damping);
    }
    return directions * along;
  }

  double damping_for(double radius) const {
    constexpr double near_enough = 0.1; // More 1978
    if (step(0).norm() <= (1 + near_enough) * radius) return 0;
    double low = 0, high = turned.cwiseProduct(sizes).norm() / radius;
    double damping = std::max(1e-3 * high, std::numeric_limits<double>::min());
    for (int i = 0; i < 50; ++i) {
      const double length = step(damping).norm();
      if (std::abs(length - radius) <= near_enough * radius) break;
      (length > radius ? low : high) = damping;
      double change = 0; // of half the squared length
      for (Eigen::Index k = 0; k < sizes.size(); ++k) {
        const double below = sizes[k] * sizes[k] + damping;
        change -= std::pow(sizes[k] * turned[k], 2) / (below * below * below);
      }
      const double next = damping - (length / radius) * (length - radius) * length / change;
      damping = next > low && next < high ? next : std::max(1e-3 * high, std::sqrt(low * high));
    }
    return damping;
  }
};

Decomposed decompose(const Place& place, const Vector& residual, const Vector& scale, const Indices& free) {
  Matrix scaled(place.r.size(), static_cast<Eigen::Index>(free.size()));
  for (std::size_t k = 0; k < free.size(); ++k) {
    scaled.col(static_cast<Eigen::Index>(k)) = place.jacobian.col(free[k]) / scale[free[k]];
  }
  if (scaled.rows() < scaled.cols()) scaled.conservativeResizeLike(Matrix::Zero(scaled.cols(), scaled.cols()));
  Vector long_residual = Vector::Zero(scaled.rows());
  long_residual.head(residual.size()) = residual;
  const Eigen::HouseholderQR<Matrix> qr(scaled);
  const Eigen::Index p = scaled.cols();
  const Matrix triangle = qr.matrixQR().topRows(p).triangularView<Eigen::Upper>();
  const Eigen::JacobiSVD<Matrix> svd(triangle, Eigen::ComputeFullU | Eigen::ComputeFullV);
  const Vector turned = (qr.householderQ().adjoint() * long_residual).head(p);
  return {svd.singularValues(), svd.matrixU().transpose() * turned, svd.matrixV()};
}

/// A step within the radius and the box. A parameter that would leave goes to the edge; the rest is solved again.
Vector step_within(const LeastSquaresProblem& problem, const Place& place, const Vector& scale, double radius,
                   Indices free) {
  Vector step = Vector::Zero(place.p.size());
  Vector residual = place.r;
  double damping = -1;
  while (!free.empty()) {
    const Decomposed parts = decompose(place, residual, scale, free);
    if (damping < 0) damping = parts.damping_for(radius);
    const Vector scaled = parts.step(damping);
    Indices inside;
    for (std::size_t k = 0; k < free.size(); ++k) {
      const Eigen::Index j = free[k];
      const ParameterBounds box = bounds_of(problem, j);
      step[j] = scaled[static_cast<Eigen::Index>(k)] / scale[j];
      const double to = place.p[j] + step[j];
      if (to >= box.low && to <= box.high) {
        inside.push_back(j);
      } else {
        step[j] = (to < box.low ? box.low : box.high) - place.p[j];
        residual += place.jacobian.col(j) * step[j];
      }
    }
    if (inside.size() == free.size()) break;
    free = std::move(inside);
  }
  return step;
}

Vector column_lengths(const Place& place) { return place.jacobian.colwise().norm(); }

/// The way that is left by the linear model at a place, and how well the place determines the parameters.
struct Remaining {
  Vector step;         ///< without damping
  double relative = 0; ///< [1] its scaled length over that of the parameters
  double offset = 0;   ///< [1] length of the residual's tangent part over its length
  bool flat = false;   ///< the free columns depend on one another
  Matrix inverse;      ///< of J'J, free parameters; empty where flat
  Indices free;
};

Remaining remaining_at(const LeastSquaresProblem& problem, const Place& place) {
  Remaining left;
  left.step = Vector::Zero(place.p.size());
  left.free = free_parameters(problem, place);
  const auto p = static_cast<Eigen::Index>(left.free.size());
  if (p == 0) return left;
  const Vector lengths = column_lengths(place);
  Matrix scaled(place.r.size(), p);
  Vector scale(p);
  for (Eigen::Index k = 0; k < p; ++k) {
    const Eigen::Index j = left.free[static_cast<std::size_t>(k)];
    scale[k] = lengths[j] > 0 ? lengths[j] : 1;
    scaled.col(k) = place.jacobian.col(j) / scale[k];
  }
  Eigen::ColPivHouseholderQR<Matrix> qr;
  qr.setThreshold(flat_below);
  qr.compute(scaled);
  left.flat = qr.rank() < p;
  const Vector step = qr.solve(-place.r);
  double size = 0;
  for (Eigen::Index k = 0; k < p; ++k) {
    const Eigen::Index j = left.free[static_cast<std::size_t>(k)];
    left.step[j] = step[k] / scale[k];
    size += std::pow(place.p[j] * scale[k], 2);
  }
  left.relative = size > 0 ? step.norm() / std::sqrt(size) : step.norm();
  const Vector turned = qr.householderQ().adjoint() * place.r;
  left.offset = place.ss > 0 ? turned.head(qr.rank()).norm() / std::sqrt(place.ss) : 0;
  if (left.flat) return left;
  const Matrix triangle_inverse = qr.matrixQR().topRows(p).triangularView<Eigen::Upper>().solve(Matrix::Identity(p, p));
  const Matrix by_rows = scale.cwiseInverse().asDiagonal() * (qr.colsPermutation() * triangle_inverse);
  left.inverse = by_rows * by_rows.transpose();
  return left;
}

/// Steps without damping, taken while the next one is less than half as long: the sum of squares can't tell any more.
Remaining finish(const LeastSquaresProblem& problem, Place& place) {
  Remaining left = remaining_at(problem, place);
  for (int i = 0; i < most_last_steps && left.relative > 0 && !left.flat; ++i) {
    const Vector to = place.p + left.step;
    if (into_box(problem, to) != to) break;
    Place next = residuals_at(problem, to);
    if (!std::isfinite(next.ss) || !add_jacobian(problem, next)) break;
    Remaining then = remaining_at(problem, next);
    if (then.free != left.free || !(then.relative < slowest_last * left.relative)) break;
    place = std::move(next);
    left = std::move(then);
  }
  return left;
}

struct Ended {
  Place place;
  Remaining left;
  int iterations = 0;
  bool possible = false; ///< the start has a finite model
};

Ended search_from(const LeastSquaresProblem& problem, const std::vector<double>& start, const FitOptions& options) {
  assert(start.size() == problem.parameter_count);
  const Eigen::Map<const Vector> given(start.data(), static_cast<Eigen::Index>(start.size()));
  Ended ended{.place = residuals_at(problem, into_box(problem, given)), .left = {}};
  Place& here = ended.place;
  if (!std::isfinite(here.ss) || !add_jacobian(problem, here)) return ended;
  ended.possible = true;
  Vector scale = column_lengths(here);
  for (Eigen::Index j = 0; j < scale.size(); ++j) {
    if (!(scale[j] > 0)) scale[j] = 1;
  }
  const double length = here.p.cwiseProduct(scale).norm();
  double radius = options.first_radius * (length > 0 ? length : 1);

  bool moving = true;
  while (moving && here.ss > 0 && ended.iterations < options.most_iterations) {
    ++ended.iterations;
    const Indices free = free_parameters(problem, here);
    if (free.empty()) break;
    for (bool taken = false; !taken && moving;) {
      const Vector to = into_box(problem, here.p + step_within(problem, here, scale, radius, free));
      const Vector step = to - here.p;
      const double scaled_length = step.cwiseProduct(scale).norm();
      if (scaled_length <= smallest_step * here.p.cwiseProduct(scale).norm()) {
        moving = false;
        break;
      }
      const double foreseen = here.ss - (here.r + here.jacobian * step).squaredNorm();
      Place next = residuals_at(problem, to);
      const double fall = here.ss - next.ss;
      const double ratio = foreseen > 0 ? fall / foreseen : -1;
      if (std::abs(fall) <= epsilon * here.ss && foreseen <= epsilon * here.ss) {
        moving = false;
        break;
      }
      if (ratio < 0.25) {
        radius = 0.25 * std::min(radius, scaled_length);
      } else if (ratio > 0.75) {
        radius = std::max(radius, 2 * scaled_length);
      }
      if (ratio > least_ratio && add_jacobian(problem, next)) {
        here = std::move(next);
        scale = scale.cwiseMax(column_lengths(here));
        taken = true;
      } else if (ratio > least_ratio) {
        radius = 0.25 * std::min(radius, scaled_length);
      }
      moving = radius > 0;
    }
  }
  ended.left = finish(problem, here);
  return ended;
}

FitOutcome outcome_of(const Ended& ended, const LeastSquaresFit& fit) {
  const bool near = ended.left.relative <= near_step || ended.left.offset <= near_offset;
  if (!near) return FitOutcome::no_progress;
  if (ended.left.flat) return FitOutcome::flat_direction;
  const bool edge = std::any_of(fit.bound_met.begin(), fit.bound_met.end(),
                                [](BoundMet met) { return met == BoundMet::low || met == BoundMet::high; });
  return edge ? FitOutcome::at_bound : FitOutcome::converged;
}

std::string reason_of(const LeastSquaresProblem& problem, const LeastSquaresFit& fit, const FitOptions& options) {
  switch (fit.outcome) {
  case FitOutcome::converged:
    return "The fit settled: no step makes it better.";
  case FitOutcome::at_bound: {
    std::string names;
    for (std::size_t j = 0; j < fit.bound_met.size(); ++j) {
      if (fit.bound_met[j] != BoundMet::low && fit.bound_met[j] != BoundMet::high) continue;
      if (!names.empty()) names += ", ";
      names += name_of_parameter(problem, j) + (fit.bound_met[j] == BoundMet::low ? " (lowest)" : " (highest)");
    }
    return "The fit settled at the edge of what is allowed: " + names + ".";
  }
  case FitOutcome::flat_direction:
    return "The data do not determine all parameters: some can change together and the fit stays the same.";
  case FitOutcome::no_progress:
    return fit.iterations >= options.most_iterations ? "The fit still improved when its steps were used up."
                                                     : "The fit stopped before it settled: no step made it better.";
  case FitOutcome::not_finite:
    return "The model has no finite value at any start.";
  case FitOutcome::outside_model:
    break;
  }
  return "The fit settled where the model says nothing.";
}

LeastSquaresFit result_of(const LeastSquaresProblem& problem, const Ended& ended, const FitOptions& options) {
  const std::size_t p = problem.parameter_count;
  const Place& place = ended.place;
  LeastSquaresFit fit;
  fit.parameters.assign(place.p.data(), place.p.data() + place.p.size());
  fit.standard_errors.assign(p, none);
  fit.covariance.assign(p * p, none);
  fit.bound_met.assign(p, BoundMet::none);
  fit.iterations = ended.iterations;
  fit.rss = place.ss + problem.within_ss;
  fit.df = problem.observations > 0 ? problem.observations : static_cast<double>(problem.residual_count);
  for (std::size_t j = 0; j < p; ++j) {
    const ParameterBounds box = bounds_of(problem, static_cast<Eigen::Index>(j));
    const double at = fit.parameters[j];
    if (box.low == box.high) {
      fit.bound_met[j] = BoundMet::fixed;
    } else if (at <= box.low || at >= box.high) {
      fit.bound_met[j] = at <= box.low ? BoundMet::low : BoundMet::high;
    }
    if (box.low < box.high) fit.df -= 1;
  }
  fit.residual_sd = fit.df > 0 ? std::sqrt(fit.rss / fit.df) : none;
  if (!ended.possible) {
    fit.rss = fit.residual_sd = none;
  } else {
    fit.outcome = outcome_of(ended, fit);
    for (Eigen::Index k = 0; k < ended.left.inverse.rows(); ++k) {
      const auto j = static_cast<std::size_t>(ended.left.free[static_cast<std::size_t>(k)]);
      for (Eigen::Index m = 0; m < ended.left.inverse.rows(); ++m) {
        const auto i = static_cast<std::size_t>(ended.left.free[static_cast<std::size_t>(m)]);
        if (fit.bound_met[j] != BoundMet::none || fit.bound_met[i] != BoundMet::none) continue;
        fit.covariance[j * p + i] = fit.residual_sd * fit.residual_sd * ended.left.inverse(k, m);
      }
      fit.standard_errors[j] = std::sqrt(fit.covariance[j * p + j]);
    }
  }
  fit.reason = reason_of(problem, fit, options);
  if (fit.usable() && problem.outside_model) {
    if (std::string why = problem.outside_model(fit.parameters); !why.empty()) {
      fit.outcome = FitOutcome::outside_model;
      fit.reason = std::move(why);
    }
  }
  return fit;
}

bool better(const LeastSquaresFit& one, const LeastSquaresFit& other) {
  if (other.outcome == FitOutcome::not_finite) return one.outcome != FitOutcome::not_finite;
  if (one.outcome == FitOutcome::not_finite) return false;
  if (one.rss < other.rss * (1 - same_sum)) return true;
  // At the same sum, a fit that settled before one that only came close.
  return one.rss <= other.rss * (1 + same_sum) && one.usable() && !other.usable();
}

} // namespace

std::string_view name_of(FitOutcome outcome) {
  constexpr std::array<std::string_view, 6> names{"converged",   "at_bound",   "flat_direction",
                                                  "no_progress", "not_finite", "outside_model"};
  return names[static_cast<std::size_t>(outcome)];
}

LeastSquaresFit fit_least_squares(const LeastSquaresProblem& problem, std::span<const std::vector<double>> starts,
                                  const FitOptions& options) {
  assert(!starts.empty());
  assert(problem.parameter_count > 0 && problem.residual_count > 0);
  assert(problem.bounds.empty() || problem.bounds.size() == problem.parameter_count);
  LeastSquaresFit best;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    LeastSquaresFit fit = result_of(problem, search_from(problem, starts[i], options), options);
    fit.start = i;
    if (i == 0 || better(fit, best)) best = std::move(fit);
  }
  return best;
}

std::vector<std::vector<double>> starts_in_box(std::span<const ParameterBounds> box, std::size_t count) {
  constexpr std::array<std::size_t, 16> primes{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53};
  assert(box.size() <= primes.size());
  std::vector<std::vector<double>> starts(count, std::vector<double>(box.size()));
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = 0; j < box.size(); ++j) {
      double share = 0, digit = 1;
      for (std::size_t rest = i + 1; rest > 0; rest /= primes[j]) {
        digit /= static_cast<double>(primes[j]);
        share += digit * static_cast<double>(rest % primes[j]);
      }
      starts[i][j] = box[j].low + share * (box[j].high - box[j].low);
    }
  }
  return starts;
}

double jacobian_error(const LeastSquaresProblem& problem, std::span<const double> p) {
  const Eigen::Map<const Vector> at(p.data(), static_cast<Eigen::Index>(p.size()));
  Place place = residuals_at(problem, at);
  add_jacobian(problem, place);
  double largest = 0;
  for (Eigen::Index j = 0; j < at.size(); ++j) {
    // Cube root of the rounding: where the error of the formula and that of the differences are alike.
    const double step = std::cbrt(epsilon) * (at[j] != 0 ? std::abs(at[j]) : 1);
    Vector above = at, below = at;
    above[j] += step;
    below[j] -= step;
    const Vector slope = (residuals_at(problem, above).r - residuals_at(problem, below).r) / (above[j] - below[j]);
    const double size = place.jacobian.col(j).cwiseAbs().maxCoeff();
    const double error = (slope - place.jacobian.col(j)).cwiseAbs().maxCoeff();
    largest = std::max(largest, size > 0 ? error / size : error);
  }
  return largest;
}

} // namespace docket
