#include "core/adaptation/curve_profile.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace docket {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr int nodes_of_one = 24, nodes_of_quick = 12, nodes_of_apart = 6; ///< less one
constexpr double matters = 20;       ///< [1] deviance over phi beyond which a shape can't matter: a root of 4.5
constexpr double far_out = 13;       ///< [1] the same: a root of 3.6, where reading is good enough
constexpr double may_lead_lower = 3; ///< [1] the same, above what was found
constexpr double enough = 0.002;     ///< [1] the same: the last step downhill

/// Inverse of the rows and columns `parts` of a symmetric matrix; false where it is singular.
bool invert(const std::array<CurveVector, 3>& a, unsigned parts, std::array<CurveVector, 3>& inverse) {
  std::array<std::size_t, 3> index{};
  std::size_t k = 0;
  for (std::size_t i = 0; i < 3; ++i)
    if ((parts >> i & 1U) != 0) index[k++] = i;
  std::array<std::array<double, 6>, 3> m{};
  for (std::size_t r = 0; r < k; ++r) {
    for (std::size_t c = 0; c < k; ++c) m[r][c] = a[index[r]][index[c]];
    m[r][3 + r] = 1;
  }
  for (std::size_t p = 0; p < k; ++p) {
    if (!(m[p][p] > 1e-13 * a[index[p]][index[p]])) return false;
    const double pivot = m[p][p];
    for (double& x : m[p]) x /= pivot;
    for (std::size_t r = 0; r < k; ++r) {
      if (r == p) continue;
      const double factor = m[r][p];
      for (std::size_t c = 0; c < 6; ++c) m[r][c] -= factor * m[p][c];
    }
  }
  inverse = {};
  for (std::size_t r = 0; r < k; ++r)
    for (std::size_t c = 0; c < k; ++c) inverse[index[r]][index[c]] = m[r][3 + c];
  return true;
}

double product(const CurveVector& a, const CurveVector& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

CurveVector times(const std::array<CurveVector, 3>& m, const CurveVector& v) {
  return {product(m[0], v), product(m[1], v), product(m[2], v)};
}

} // namespace

CurveProfile::Node CurveProfile::node_at(const CurveData& data, const LnShape& at, LinearStart& near) const {
  Node node;
  node.at = at;
  const LinearSolution solved = solve_linear_part(data, fit_.model, ln_shape_of(at), {}, near);
  if (std::isfinite(solved.cost)) near = {solved.face, solved.beta, solved.sigma};
  node.cost = solved.cost;
  node.sigma = solved.sigma;
  if (!std::isfinite(solved.cost)) return node;
  const unsigned allowed = parts_of(fit_.model).faces();
  for (unsigned parts = allowed; parts > 0; --parts) {
    if ((parts & ~allowed) != 0) continue;
    Face face;
    face.parts = parts;
    if (!invert(solved.curvature, parts, face.inverse)) continue;
    // Parts outside are moved to 0; the rest follows.
    CurveVector moved{};
    for (std::size_t i = 0; i < 3; ++i)
      if ((parts >> i & 1U) == 0) moved[i] = -solved.beta[i];
    const CurveVector bent = times(solved.curvature, moved);
    const CurveVector pull{solved.pull[0] - bent[0], solved.pull[1] - bent[1], solved.pull[2] - bent[2]};
    const CurveVector answer = times(face.inverse, pull);
    for (std::size_t i = 0; i < 3; ++i) {
      moved[i] += answer[i];
      face.best[i] = (parts >> i & 1U) != 0 ? solved.beta[i] + moved[i] : 0;
    }
    face.above = product(moved, times(solved.curvature, moved)) - 2 * product(solved.pull, moved);
    node.faces.push_back(face);
  }
  return node;
}

CurveProfile::CurveProfile(const CurveData& data, const CurveFit& fit, double phi)
    : fit_(fit), phi_(phi), count_(data.count) {
  const ShapeRange range = shape_range(data, fit.model);
  const int falling = parts_of(fit.model).falling;
  own_ = {std::log(std::max(fit.shape, 1e-300)), falling > 1 ? std::log(fit.shape2 / fit.shape) : 0};
  LinearStart near;
  nodes_.push_back(node_at(data, own_, near));
  const int across = falling == 0 ? -1 : falling == 1 ? nodes_of_one : nodes_of_quick;
  for (int i = 0; i <= across; ++i)
    for (int j = 0; j <= (falling == 2 ? nodes_of_apart : 0); ++j) {
      const LnShape at{range.low[0] + (range.high[0] - range.low[0]) * i / across,
                       range.low[1] + (range.high[1] - range.low[1]) * j / nodes_of_apart};
      if (!range.contains(at)) continue;
      Node node = node_at(data, at, near);
      if (node.cost < fit.cost + matters * phi) nodes_.push_back(std::move(node));
    }
}

CurveProfile::Held CurveProfile::cost_with(const Node& node, const CurveCondition& held) const {
  double least = none;
  LinearStart near{0, {}, node.sigma};
  for (const Face& face : node.faces) {
    const CurveVector reach = times(face.inverse, held.v);
    const double variance = product(held.v, reach), missing = held.t - product(held.v, face.best);
    double above = face.above;
    if (variance > 0) {
      above += missing * missing / variance;
    } else if (std::abs(missing) > 1e-12 * std::abs(held.t)) {
      continue;
    }
    if (above >= least) continue;
    CurveVector beta{};
    bool allowed = true;
    for (std::size_t i = 0; i < 3; ++i) {
      beta[i] = face.best[i] + (variance > 0 ? reach[i] * missing / variance : 0);
      allowed = allowed && beta[i] >= 0;
    }
    if (!allowed) continue;
    least = above;
    near.face = face.parts;
    near.beta = beta;
  }
  if (near.face == 0) return {none, near};
  return {node.cost + count_ * std::log1p(std::max(0.0, least) / (count_ * node.sigma * node.sigma)), near};
}

double CurveProfile::least_cost(const CurveData& data, const HeldQuantity& held, How how) const {
  struct Place {
    const Node* node = nullptr;
    Held read{none, {}};
  };
  Place best, second;
  for (const Node& node : nodes_) {
    const Held read = cost_with(node, condition_at(held, fit_.model, node.at, fit_.first));
    if (read.cost < best.read.cost) {
      second = std::exchange(best, {&node, read});
    } else if (read.cost < second.read.cost) {
      second = {&node, read};
    }
  }
  if (best.node == nullptr) return none;
  if (how == How::read) return best.read.cost;
  const auto from = [&](const LnShape& at, const LinearStart& near) {
    return refine_shape(data, fit_.model, at, near, held, enough * phi_).linear.cost;
  };
  double least = from(best.node->at, best.read.near);
  // Shapes apart can lead to places apart.
  if (second.read.cost < least + may_lead_lower * phi_)
    least = std::min(least, from(second.node->at, second.read.near));
  if (best.node != &nodes_.front() && least < fit_.cost + far_out * phi_) least = std::min(least, from(own_, {}));
  return least;
}

double CurveProfile::root_of(double cost, bool above) const {
  return (above ? 1 : -1) * std::sqrt(std::max(0.0, cost - fit_.cost) / phi_);
}

double CurveProfile::level_root(const CurveData& data, double cycle, double seconds, How how) const {
  const double m = seconds * std::exp(-fit_.sigma * fit_.sigma / 2);
  return root_of(least_cost(data, {cycle, cycle, 0, m}, how), seconds >= fit_.level(cycle));
}

double CurveProfile::probability_level_within(const CurveData& data, double cycle, double seconds, How how) const {
  return normal_cdf(level_root(data, cycle, seconds, how));
}

double CurveProfile::probability_improvement_within(const CurveData& data, double from, double to, double improvement,
                                                    How how) const {
  if (improvement < 0) return 0;
  if (fit_.model == CurveModel::constant) return 1;
  const double ratio = 1 - std::max(improvement, 1e-9);
  const bool above = improvement >= 1 - fit_.at(to) / fit_.at(from);
  if (fit_.model == CurveModel::power) {
    // The ratio fixes the exponent: (to / from)^-b.
    const double b = std::max(1e-12, -std::log(ratio) / std::log(to / from));
    return normal_cdf(root_of(solve_linear_part(data, fit_.model, {std::log(b), 0}).cost, above));
  }
  const double cost = least_cost(data, {to, from, ratio, 0}, how);
  return normal_cdf(root_of(cost, above));
}

} // namespace docket
