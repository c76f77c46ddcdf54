#include "core/statistics/fitting/linear_least_squares.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace docket {
namespace {

using Vector = Eigen::VectorXd;
using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

constexpr int most_refinements = 10;

/// The part of X that is used: columns scaled, those left out not there.
struct Scaled {
  Rows x;
  Vector scale;
};

/// What is missing in  r + X b = y  and  X' r = 0, which together say that b is the least-squares solution.
void find_missing(const Scaled& scaled, std::span<const double> y, const Vector& b, const Vector& r, Vector& missing_y,
                  Vector& missing_0) {
  std::vector<long double> across(static_cast<std::size_t>(b.size()), 0);
  for (Eigen::Index i = 0; i < scaled.x.rows(); ++i) {
    long double sum = static_cast<long double>(y[static_cast<std::size_t>(i)]) - r[i];
    for (Eigen::Index j = 0; j < b.size(); ++j) {
      const long double x = scaled.x(i, j);
      sum -= x * b[j];
      across[static_cast<std::size_t>(j)] -= x * r[i];
    }
    missing_y[i] = static_cast<double>(sum);
  }
  for (Eigen::Index j = 0; j < b.size(); ++j) missing_0[j] = static_cast<double>(across[static_cast<std::size_t>(j)]);
}

} // namespace

LinearFit fit_linear_least_squares(std::span<const double> design, std::size_t columns, std::span<const double> y) {
  assert(design.size() == columns * y.size());
  assert(y.size() >= columns);
  const auto n = static_cast<Eigen::Index>(y.size()), p = static_cast<Eigen::Index>(columns);
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  const Eigen::Map<const Rows> all(design.data(), n, p);

  LinearFit fit;
  fit.parameters.assign(columns, 0);
  fit.standard_errors.assign(columns, none);
  fit.covariance.assign(columns * columns, none);

  // Powers of two, so that scaling loses no digit.
  Vector scale(p);
  for (Eigen::Index j = 0; j < p; ++j) {
    const double length = all.col(j).stableNorm();
    scale[j] = length > 0 ? std::exp2(-std::round(std::log2(length))) : 1;
  }
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> first(all * scale.asDiagonal());
  fit.rank = static_cast<std::size_t>(first.rank());
  const auto rank = static_cast<Eigen::Index>(fit.rank);
  std::vector<Eigen::Index> used(first.colsPermutation().indices().data(),
                                 first.colsPermutation().indices().data() + rank);
  std::sort(used.begin(), used.end());
  for (Eigen::Index j = 0; j < p; ++j) {
    if (!std::binary_search(used.begin(), used.end(), j)) fit.left_out.push_back(static_cast<std::size_t>(j));
  }

  Scaled scaled{Rows(n, rank), Vector(rank)};
  for (Eigen::Index j = 0; j < rank; ++j) {
    scaled.scale[j] = scale[used[static_cast<std::size_t>(j)]];
    scaled.x.col(j) = all.col(used[static_cast<std::size_t>(j)]) * scaled.scale[j];
  }
  Vector b = Vector::Zero(rank), r = Vector::Zero(n), missing_y(n), missing_0(rank);
  Eigen::MatrixXd inverse(rank, rank);
  if (rank > 0) {
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(scaled.x);
    const auto triangle = qr.matrixQR().topRows(rank).triangularView<Eigen::Upper>();
    inverse = triangle.solve(Eigen::MatrixXd::Identity(rank, rank));
    double last = std::numeric_limits<double>::infinity();
    for (int i = 0; i < most_refinements; ++i) {
      find_missing(scaled, y, b, r, missing_y, missing_0);
      const Vector h = triangle.transpose().solve(missing_0);
      Vector turned = qr.householderQ().adjoint() * missing_y;
      const Vector step = triangle.solve(turned.head(rank) - h);
      turned.head(rank) = h;
      const Vector change = qr.householderQ() * turned;
      // Once rounding is all that is left, corrections no longer shrink.
      const double size = step.cwiseAbs().maxCoeff();
      if (!(size < last / 2)) break;
      b += step;
      r += change;
      last = size;
    }
  } else {
    r = Eigen::Map<const Vector>(y.data(), n);
  }

  fit.residuals.assign(r.data(), r.data() + n);
  fit.rss = r.squaredNorm();
  fit.df = static_cast<double>(n - rank);
  fit.residual_sd = fit.df > 0 ? std::sqrt(fit.rss / fit.df) : none;
  for (Eigen::Index j = 0; j < rank; ++j) {
    const auto at = static_cast<std::size_t>(used[static_cast<std::size_t>(j)]);
    fit.parameters[at] = b[j] * scaled.scale[j];
    fit.standard_errors[at] = fit.residual_sd * inverse.row(j).norm() * scaled.scale[j];
    for (Eigen::Index k = 0; k < rank; ++k) {
      const auto other = static_cast<std::size_t>(used[static_cast<std::size_t>(k)]);
      fit.covariance[at * columns + other] =
          fit.residual_sd * fit.residual_sd * inverse.row(j).dot(inverse.row(k)) * scaled.scale[j] * scaled.scale[k];
    }
  }
  return fit;
}

} // namespace docket
