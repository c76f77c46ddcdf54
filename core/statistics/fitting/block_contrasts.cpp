#include "core/statistics/fitting/block_contrasts.h"

#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {
namespace {

constexpr double singular_below = 1e-9; ///< [1] of the largest eigenvalue

} // namespace

BlockContrasts fit_block_contrasts(std::span<const BlockedValue> values, std::span<const double> weights) {
  const auto k = static_cast<Eigen::Index>(weights.size());
  std::size_t block_count = 0;
  for (const BlockedValue& value : values) block_count = std::max(block_count, value.block + 1);
  const auto blocks = static_cast<Eigen::Index>(block_count);
  Eigen::MatrixXd count = Eigen::MatrixXd::Zero(blocks, k);
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(blocks), b = Eigen::VectorXd::Zero(k);
  for (const BlockedValue& value : values) {
    assert(value.treatment < weights.size());
    count(static_cast<Eigen::Index>(value.block), static_cast<Eigen::Index>(value.treatment)) += 1;
    sum(static_cast<Eigen::Index>(value.block)) += value.y;
  }
  BlockContrasts contrasts;
  const Eigen::VectorXd size = count.rowwise().sum();
  const Eigen::VectorXd mean =
      (size.array() > 0).select(sum.array() / size.array().max(1), Eigen::ArrayXd::Zero(blocks)).matrix();
  contrasts.df =
      static_cast<double>(values.size()) - static_cast<double>((size.array() > 0).count()) - static_cast<double>(k) + 1;
  if (k < 2 || contrasts.df < 1) return contrasts;

  for (const BlockedValue& value : values)
    b(static_cast<Eigen::Index>(value.treatment)) += value.y - mean(static_cast<Eigen::Index>(value.block));
  Eigen::MatrixXd n = count.colwise().sum().asDiagonal();
  for (Eigen::Index i = 0; i < blocks; ++i)
    if (size(i) > 0) n -= count.row(i).transpose() * count.row(i) / size(i);
  // The weights only choose which of the effects that fit is taken: scaled so that they count as much as the values do.
  const Eigen::VectorXd w = Eigen::Map<const Eigen::VectorXd>(weights.data(), k) * std::sqrt(n.trace());
  const Eigen::MatrixXd whole = n + w * w.transpose();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> spectrum(whole, Eigen::EigenvaluesOnly);
  if (!(spectrum.eigenvalues().minCoeff() > singular_below * spectrum.eigenvalues().maxCoeff())) return contrasts;
  const Eigen::MatrixXd inverse = whole.inverse();
  const Eigen::VectorXd effect = inverse * b;

  // Of each block the mean of what the effects leave.
  Eigen::VectorXd level = Eigen::VectorXd::Zero(blocks);
  for (Eigen::Index i = 0; i < blocks; ++i)
    if (size(i) > 0) level(i) = mean(i) - count.row(i).dot(effect) / size(i);
  double ss = 0;
  for (const BlockedValue& value : values) {
    const double left =
        value.y - level(static_cast<Eigen::Index>(value.block)) - effect(static_cast<Eigen::Index>(value.treatment));
    contrasts.residuals.push_back(left);
    ss += left * left;
  }
  contrasts.sd = std::sqrt(ss / contrasts.df);
  const Eigen::MatrixXd covariance = inverse * n * inverse;
  for (Eigen::Index t = 0; t < k; ++t) {
    contrasts.effect.push_back(effect(t));
    contrasts.se.push_back(contrasts.sd * std::sqrt(std::max(0.0, covariance(t, t))));
  }
  contrasts.possible = true;
  return contrasts;
}

} // namespace docket
