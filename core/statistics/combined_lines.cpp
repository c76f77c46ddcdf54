#include "core/statistics/combined_lines.h"

#include "core/rules.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>

namespace docket {
namespace {

bool is_ill_conditioned(const Eigen::MatrixXd& covariance) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(covariance, Eigen::EigenvaluesOnly);
  const double smallest = solver.eigenvalues().minCoeff();
  const double largest = solver.eigenvalues().maxCoeff();
  return !(smallest > 0 && largest <= rules::covariance_condition * smallest);
}

} // namespace

CombinedLines combine_lines(std::span<const double> z, const std::vector<std::vector<double>>& covariance) {
  assert(covariance.size() == z.size());
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  CombinedLines combined{.weights = std::vector<double>(z.size(), 0.0),
                         .mean = none,
                         .u = none,
                         .left_out = std::vector<bool>(z.size(), false)};
  if (z.empty()) return combined;

  std::vector<std::size_t> used(z.size());
  for (std::size_t i = 0; i < z.size(); ++i) {
    assert(covariance[i].size() == z.size());
    assert(covariance[i][i] >= 0);
    used[i] = i;
  }

  Eigen::VectorXd weights = Eigen::VectorXd::Ones(1);
  while (used.size() > 1) {
    const auto count = static_cast<Eigen::Index>(used.size());
    Eigen::MatrixXd v(count, count);
    for (Eigen::Index i = 0; i < count; ++i) {
      for (Eigen::Index j = 0; j < count; ++j) {
        v(i, j) = covariance[used[static_cast<std::size_t>(i)]][used[static_cast<std::size_t>(j)]];
      }
    }
    Eigen::Index leaves = -1;
    if (is_ill_conditioned(v)) {
      leaves = 0;
      for (Eigen::Index i = 1; i < count; ++i) {
        if (v(i, i) >= v(leaves, leaves)) leaves = i;
      }
    } else {
      weights = v.ldlt().solve(Eigen::VectorXd::Ones(count));
      weights /= weights.sum();
      if (weights.minCoeff(&leaves) >= 0) break;
    }
    combined.left_out[used[static_cast<std::size_t>(leaves)]] = true;
    used.erase(used.begin() + leaves);
    weights = Eigen::VectorXd::Ones(1);
  }

  double variance = 0;
  combined.mean = 0;
  for (std::size_t i = 0; i < used.size(); ++i) {
    const double weight = weights(static_cast<Eigen::Index>(i));
    combined.weights[used[i]] = weight;
    combined.mean += weight * z[used[i]];
  }
  for (const std::size_t i : used) {
    for (const std::size_t j : used) variance += combined.weights[i] * covariance[i][j] * combined.weights[j];
  }
  combined.u = std::sqrt(std::max(0.0, variance));
  return combined;
}

} // namespace docket
