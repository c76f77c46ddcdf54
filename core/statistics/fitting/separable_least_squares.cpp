#include "core/statistics/fitting/separable_least_squares.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

namespace docket {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr std::size_t most_non_negative = 3;

std::size_t columns_of(const SeparableProblem& problem) { return problem.linear_count + (problem.has_offset ? 1 : 0); }

Rows basis_at(const SeparableProblem& problem, std::span<const double> shape) {
  Rows basis(static_cast<Eigen::Index>(problem.y.size()), static_cast<Eigen::Index>(columns_of(problem)));
  problem.basis(shape, {basis.data(), static_cast<std::size_t>(basis.size())});
  return basis;
}

/// The best linear parameters at one shape, and the columns that carry them, turned into directions.
struct Projected {
  Vector coefficients, residual;
  Eigen::ColPivHouseholderQR<Matrix> qr; ///< of the columns used
  double rss = infinity;

  /// What of `v` the columns used can't follow.
  Vector outside(const Vector& v) const {
    if (qr.cols() == 0) return v;
    Vector turned = qr.householderQ().adjoint() * v;
    turned.head(qr.rank()).setZero();
    return qr.householderQ() * turned;
  }
};

Projected solve(const Rows& basis, const Vector& wanted, const std::vector<Eigen::Index>& used, Eigen::Index linear) {
  Projected part;
  part.coefficients = Vector::Zero(linear);
  part.residual = wanted;
  if (!used.empty()) {
    Matrix columns(basis.rows(), static_cast<Eigen::Index>(used.size()));
    Vector scale(columns.cols());
    for (Eigen::Index k = 0; k < columns.cols(); ++k) {
      const double length = basis.col(used[static_cast<std::size_t>(k)]).norm();
      scale[k] = length > 0 ? length : 1;
      columns.col(k) = basis.col(used[static_cast<std::size_t>(k)]) / scale[k];
    }
    part.qr.compute(columns);
    const Vector solved = part.qr.solve(wanted).cwiseQuotient(scale);
    for (Eigen::Index k = 0; k < columns.cols(); ++k) part.coefficients[used[static_cast<std::size_t>(k)]] = solved[k];
    part.residual = part.outside(wanted);
  }
  const double rss = part.residual.squaredNorm();
  if (std::isfinite(rss)) part.rss = rss;
  return part;
}

Projected project(const SeparableProblem& problem, std::span<const double> shape) {
  const auto linear = static_cast<Eigen::Index>(problem.linear_count);
  const Rows basis = basis_at(problem, shape);
  Vector wanted = Eigen::Map<const Vector>(problem.y.data(), static_cast<Eigen::Index>(problem.y.size()));
  if (!basis.allFinite()) return {.coefficients = Vector::Zero(linear), .residual = wanted, .qr = {}};
  if (problem.has_offset) wanted -= basis.col(linear);

  std::vector<Eigen::Index> used(problem.linear_count);
  for (std::size_t k = 0; k < used.size(); ++k) used[k] = static_cast<Eigen::Index>(k);
  Projected best = solve(basis, wanted, used, linear);
  if (!problem.non_negative || best.coefficients.minCoeff() >= 0) return best;
  assert(problem.linear_count <= most_non_negative);
  best = solve(basis, wanted, {}, linear);
  for (unsigned choice = 1; choice + 1 < (1U << problem.linear_count); ++choice) {
    used.clear();
    for (std::size_t k = 0; k < problem.linear_count; ++k) {
      if ((choice >> k & 1U) != 0) used.push_back(static_cast<Eigen::Index>(k));
    }
    Projected one = solve(basis, wanted, used, linear);
    if (one.coefficients.minCoeff() >= 0 && one.rss < best.rss) best = std::move(one);
  }
  return best;
}

/// The shapes alone: residuals left by the best linear parameters, and Kaufman's Jacobian.
LeastSquaresProblem shapes_problem(const SeparableProblem& problem) {
  LeastSquaresProblem shapes;
  shapes.residual_count = problem.y.size();
  shapes.parameter_count = problem.shapes.size();
  for (const Shape& shape : problem.shapes) shapes.bounds.push_back({shape.low, shape.high});
  shapes.residuals = [&problem](std::span<const double> shape, std::span<double> r) {
    const Projected part = project(problem, shape);
    const bool there = std::isfinite(part.rss);
    for (std::size_t i = 0; i < r.size(); ++i) r[i] = there ? part.residual[static_cast<Eigen::Index>(i)] : infinity;
  };
  shapes.jacobian = [&problem](std::span<const double> shape, std::span<double> jacobian) {
    const Projected part = project(problem, shape);
    const auto n = static_cast<Eigen::Index>(problem.y.size());
    Eigen::Map<Rows> filled(jacobian.data(), n, static_cast<Eigen::Index>(shape.size()));
    Rows derivative(n, static_cast<Eigen::Index>(columns_of(problem)));
    for (std::size_t j = 0; j < shape.size(); ++j) {
      problem.basis_derivative(shape, j, {derivative.data(), static_cast<std::size_t>(derivative.size())});
      Vector moved = derivative.leftCols(part.coefficients.size()) * part.coefficients;
      if (problem.has_offset) moved += derivative.col(part.coefficients.size());
      filled.col(static_cast<Eigen::Index>(j)) = -part.outside(moved);
    }
  };
  return shapes;
}

double grid_value(const Shape& shape, int i) {
  if (shape.grid_points < 2)
    return shape.equal_ratios ? std::sqrt(shape.low * shape.high) : (shape.low + shape.high) / 2;
  const double share = static_cast<double>(i) / (shape.grid_points - 1);
  return shape.equal_ratios ? shape.low * std::pow(shape.high / shape.low, share)
                            : shape.low + share * (shape.high - shape.low);
}

} // namespace

LeastSquaresProblem whole_problem(const SeparableProblem& problem) {
  LeastSquaresProblem whole;
  const std::size_t linear = problem.linear_count;
  whole.residual_count = problem.y.size();
  whole.parameter_count = linear + problem.shapes.size();
  whole.bounds.resize(whole.parameter_count);
  for (std::size_t k = 0; k < linear && problem.non_negative; ++k) whole.bounds[k].low = 0;
  for (std::size_t j = 0; j < problem.shapes.size(); ++j) {
    whole.bounds[linear + j] = {problem.shapes[j].low, problem.shapes[j].high};
  }
  whole.names = problem.names;
  whole.outside_model = problem.outside_model;
  whole.observations = problem.observations;
  whole.within_ss = problem.within_ss;
  whole.residuals = [problem, linear](std::span<const double> p, std::span<double> r) {
    const Rows basis = basis_at(problem, p.subspan(linear));
    const Eigen::Map<const Vector> c(p.data(), static_cast<Eigen::Index>(linear));
    Eigen::Map<Vector> filled(r.data(), static_cast<Eigen::Index>(r.size()));
    filled = Eigen::Map<const Vector>(problem.y.data(), filled.size()) - basis.leftCols(c.size()) * c;
    if (problem.has_offset) filled -= basis.col(c.size());
  };
  whole.jacobian = [problem, linear](std::span<const double> p, std::span<double> jacobian) {
    const Rows basis = basis_at(problem, p.subspan(linear));
    const Eigen::Map<const Vector> c(p.data(), static_cast<Eigen::Index>(linear));
    Eigen::Map<Rows> filled(jacobian.data(), basis.rows(), static_cast<Eigen::Index>(p.size()));
    filled.leftCols(c.size()) = -basis.leftCols(c.size());
    Rows derivative(basis.rows(), basis.cols());
    for (std::size_t j = 0; linear + j < p.size(); ++j) {
      problem.basis_derivative(p.subspan(linear), j, {derivative.data(), static_cast<std::size_t>(derivative.size())});
      Vector moved = derivative.leftCols(c.size()) * c;
      if (problem.has_offset) moved += derivative.col(c.size());
      filled.col(static_cast<Eigen::Index>(linear + j)) = -moved;
    }
  };
  return whole;
}

LinearPart fit_linear_part(const SeparableProblem& problem, std::span<const double> shape) {
  const Projected part = project(problem, shape);
  return {{part.coefficients.data(), part.coefficients.data() + part.coefficients.size()}, part.rss};
}

std::vector<std::vector<double>> best_of_grid(const SeparableProblem& problem, std::size_t most) {
  assert(!problem.shapes.empty() && most > 0);
  const std::size_t dimensions = problem.shapes.size();
  std::vector<std::size_t> stride(dimensions), points(dimensions);
  std::size_t total = 1;
  for (std::size_t j = 0; j < dimensions; ++j) {
    points[j] = static_cast<std::size_t>(std::max(1, problem.shapes[j].grid_points));
    stride[j] = total;
    total *= points[j];
  }
  const auto shape_at = [&](std::size_t at) {
    std::vector<double> shape(dimensions);
    for (std::size_t j = 0; j < dimensions; ++j) {
      shape[j] = grid_value(problem.shapes[j], static_cast<int>(at / stride[j] % points[j]));
    }
    return shape;
  };
  std::vector<double> rss(total);
  for (std::size_t at = 0; at < total; ++at) rss[at] = fit_linear_part(problem, shape_at(at)).rss;
  std::vector<std::size_t> lowest;
  for (std::size_t at = 0; at < total; ++at) {
    bool low = true;
    for (std::size_t j = 0; j < dimensions && low; ++j) {
      const std::size_t i = at / stride[j] % points[j];
      low = !(i > 0 && rss[at - stride[j]] < rss[at]) && !(i + 1 < points[j] && rss[at + stride[j]] < rss[at]);
    }
    if (low) lowest.push_back(at);
  }
  std::stable_sort(lowest.begin(), lowest.end(),
                   [&](std::size_t one, std::size_t other) { return rss[one] < rss[other]; });
  if (lowest.size() > most) lowest.resize(most);
  std::vector<std::vector<double>> starts;
  for (const std::size_t at : lowest) starts.push_back(shape_at(at));
  return starts;
}

LeastSquaresFit fit_separable(const SeparableProblem& problem, const FitOptions& options) {
  return fit_separable(problem, best_of_grid(problem), options);
}

LeastSquaresFit fit_separable(const SeparableProblem& problem, std::span<const std::vector<double>> shape_starts,
                              const FitOptions& options) {
  const LeastSquaresFit shapes = fit_least_squares(shapes_problem(problem), shape_starts, options);
  std::vector<double> all = fit_linear_part(problem, shapes.parameters).coefficients;
  all.insert(all.end(), shapes.parameters.begin(), shapes.parameters.end());
  LeastSquaresFit fit = fit_least_squares(whole_problem(problem), std::vector<std::vector<double>>{all}, options);
  fit.start = shapes.start;
  fit.iterations += shapes.iterations;
  return fit;
}

} // namespace docket
