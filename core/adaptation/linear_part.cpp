#include "core/adaptation/linear_part.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace docket {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr int most_rounds = 60;
constexpr double condition_within = 1e-9;                    ///< [1] of the sum of its terms
constexpr double settled_step = 1e-5, settled_spread = 1e-5; ///< [1] where the rounds end; each is a tenth or less
constexpr double far_out = 30;                               ///< [SD] beyond it the tail by its first term

/// Solves a small system, at most 4 x 4, right side in column n, by elimination with pivoting; the solution is in column 4.
bool solve_small(std::array<std::array<double, 5>, 4>& a, std::size_t n) {
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k + 1; i < n; ++i)
      if (std::abs(a[i][k]) > std::abs(a[pivot][k])) pivot = i;
    std::swap(a[k], a[pivot]);
    if (!(std::abs(a[k][k]) > 1e-300)) return false;
    for (std::size_t i = 0; i < n; ++i) {
      if (i == k) continue;
      const double factor = a[i][k] / a[k][k];
      for (std::size_t j = k; j <= n; ++j) a[i][j] -= factor * a[k][j];
    }
  }
  for (std::size_t k = 0; k < n; ++k) a[k][4] = a[k][n] / a[k][k];
  return true;
}

/// Normal equations of one Gauss-Newton step; lower bounds with the weight Newton's method gives them.
struct Normal {
  std::array<CurveVector, 3> a{};
  CurveVector b{};
  double objective = 0;             ///< squared residuals, less 2 sigma^2 ln P of the bounds
  double squares = 0, z_hazard = 0; ///< squared residuals of the blocks; sum of z h over the bounds
  double ln_beyond = 0;             ///< ln P of the bounds
  bool positive = true;             ///< the curve is above 0 everywhere
};

class LinearPart {
public:
  LinearPart(const CurveData& data, CurveModel model, const std::array<double, 2>& ln_shape,
             const std::optional<CurveCondition>& held)
      : data_(data), held_(held) {
    const std::array<double, 2> shape{std::exp(ln_shape[0]), std::exp(ln_shape[1])};
    const double first = data.n.front();
    plain_.reserve(data.n.size());
    for (const double n : data.n) plain_.push_back(column_at(model, shape, n, first));
    bounds_.reserve(data.bound_n.size());
    for (const double n : data.bound_n) bounds_.push_back(column_at(model, shape, n, first));
  }

  /// Best over the faces on which some of `allowed` (bits: c, a_1, a_2) are above 0.
  LinearSolution best(unsigned allowed) const {
    LinearSolution found = on_face(allowed);
    if (found.cost < none) return found;
    for (unsigned face = allowed - 1; face > 0; --face) {
      if ((face & ~allowed) != 0) continue;
      const LinearSolution one = on_face(face);
      if (one.cost < found.cost) found = one;
      // Nothing pulls at what is 0: there is no better face.
      if (one.cost < none && !pulled(one, allowed & ~face)) return one;
    }
    return found;
  }

  /// On the face expected, if it can be and nothing pulls away from it; else as `best`.
  LinearSolution near(const LinearStart& start, unsigned allowed) const {
    const LinearSolution found = on_face(start.face, &start);
    if (found.cost < none && !pulled(found, allowed & ~start.face)) return found;
    return best(allowed);
  }

private:
  /// Whether a part that is 0 would lower the cost above 0. With a condition, by the multiplier that the parts above 0 have
  /// (Karush-Kuhn-Tucker); where none of them is in the condition, nothing is known of it.
  bool pulled(const LinearSolution& solution, unsigned parts) const {
    double multiplier = 0;
    if (held_) {
      std::size_t largest = 0;
      double size = 0;
      for (std::size_t i = 0; i < 3; ++i)
        if ((solution.face >> i & 1U) != 0 && std::abs(held_->v[i]) > size) size = std::abs(held_->v[largest = i]);
      if (size == 0) return parts != 0;
      multiplier = solution.pull[largest] / held_->v[largest];
    }
    for (std::size_t i = 0; i < 3; ++i)
      if ((parts >> i & 1U) != 0 && solution.pull[i] > (held_ ? multiplier * held_->v[i] : 0)) return true;
    return false;
  }

  static double value(const CurveVector& beta, const CurveVector& g) {
    return beta[0] * g[0] + beta[1] * g[1] + beta[2] * g[2];
  }

  static void add(Normal& normal, const CurveVector& g, double m, double residual, double weight) {
    const double inverse = 1 / m;
    const CurveVector j{g[0] * inverse, g[1] * inverse, g[2] * inverse};
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t c = 0; c <= r; ++c) normal.a[r][c] += weight * j[r] * j[c];
      normal.b[r] += weight * j[r] * residual;
    }
  }

  /// The part that does not hang on the spread.
  Normal plain_at(const CurveVector& beta) const {
    Normal normal;
    for (std::size_t i = 0; i < plain_.size(); ++i) {
      const double m = value(beta, plain_[i]);
      if (!(m > 0)) return not_positive();
      const double residual = data_.ln_y[i] - std::log(m);
      add(normal, plain_[i], m, residual, data_.weight[i]);
      normal.squares += data_.weight[i] * residual * residual;
    }
    normal.squares += data_.within_ss;
    normal.objective = normal.squares;
    return normal;
  }

  Normal with_bounds(Normal normal, const CurveVector& beta, double sigma) const {
    if (!normal.positive) return normal;
    for (std::size_t i = 0; i < bounds_.size(); ++i) {
      const double m = value(beta, bounds_[i]);
      if (!(m > 0)) return not_positive();
      // d ln P / d ln m = h / sigma, its slope -h (h - z) / sigma^2.
      const double z = (data_.bound_ln_y[i] - std::log(m)) / sigma;
      const auto [ln_p, h] = beyond(z);
      const double weight = data_.bound_weight[i];
      add(normal, bounds_[i], m, sigma / (h - z), weight * h * (h - z));
      normal.objective -= 2 * sigma * sigma * weight * ln_p;
      normal.ln_beyond += weight * ln_p;
      normal.z_hazard += weight * z * h;
    }
    return normal;
  }

  static Normal not_positive() {
    Normal normal;
    normal.positive = false;
    return normal;
  }

  /// The spread at which the likelihood is stationary: n sigma^2 = squares + sigma^2 sum of z h; where too much is bounds,
  /// one step of expectation and maximisation (Dempster, Laird & Rubin 1977) instead.
  double spread(const Normal& normal, double sigma) const {
    const double n = data_.count, left = n - normal.z_hazard;
    if (bounds_.empty()) return std::sqrt(normal.squares / n);
    if (left > 0.5 * n) return std::sqrt(normal.squares / left);
    double k = 0;
    for (const double weight : data_.bound_weight) k += weight;
    return std::sqrt((normal.squares + sigma * sigma * (k + normal.z_hazard)) / (n + k));
  }

  double cost_of(const Normal& normal, double sigma) const {
    if (bounds_.empty()) return data_.count * std::log(normal.squares / data_.count);
    return data_.count * (2 * std::log(sigma) - 1) + normal.squares / (sigma * sigma) - 2 * normal.ln_beyond;
  }

  /// The step (or, from nothing, the value) of the coefficients of `face` that the normal equations give.
  bool step(const Normal& normal, unsigned face, double missing, CurveVector& out) const {
    std::array<std::array<double, 5>, 4> system{};
    std::array<std::size_t, 3> index{};
    std::size_t k = 0;
    for (std::size_t i = 0; i < 3; ++i)
      if ((face >> i & 1U) != 0) index[k++] = i;
    const std::size_t n = k + (held_ ? 1 : 0);
    for (std::size_t r = 0; r < k; ++r) {
      const std::size_t i = index[r];
      for (std::size_t c = 0; c < k; ++c) system[r][c] = normal.a[std::max(i, index[c])][std::min(i, index[c])];
      system[r][n] = normal.b[i];
      if (held_) system[r][k] = system[k][r] = held_->v[i];
    }
    if (held_) system[k][n] = missing;
    if (!solve_small(system, n)) return false;
    out = {};
    for (std::size_t r = 0; r < k; ++r) out[index[r]] = system[r][4];
    return std::isfinite(out[0]) && std::isfinite(out[1]) && std::isfinite(out[2]);
  }

  /// Linear least squares on the times themselves, each weighed by its size: the start.
  bool start(unsigned face, CurveVector& beta) const {
    Normal normal;
    for (std::size_t i = 0; i < plain_.size(); ++i) add(normal, plain_[i], std::exp(data_.ln_y[i]), 1, data_.weight[i]);
    for (std::size_t i = 0; i < bounds_.size(); ++i)
      add(normal, bounds_[i], std::exp(data_.bound_ln_y[i]), 1, data_.bound_weight[i]);
    return step(normal, face, held_ ? held_->t : 0, beta);
  }

  double missing(const CurveVector& beta) const { return held_ ? held_->t - value(beta, held_->v) : 0; }

  bool meets_condition(const CurveVector& beta) const {
    if (!held_) return true;
    double size = std::abs(held_->t);
    for (std::size_t i = 0; i < 3; ++i) size += std::abs(held_->v[i] * beta[i]);
    return std::abs(missing(beta)) <= condition_within * size;
  }

  LinearSolution on_face(unsigned face, const LinearStart* near = nullptr) const {
    LinearSolution out;
    out.cost = none;
    out.face = face;
    CurveVector beta{};
    double sigma = 0.1;
    Normal plain = not_positive();
    if (near != nullptr && near->sigma > 0) {
      beta = near->beta;
      sigma = near->sigma;
      plain = plain_at(beta);
    }
    if (!plain.positive) {
      if (!start(face, beta)) return out;
      plain = plain_at(beta);
      if (!plain.positive) return out;
      sigma = std::sqrt(plain.squares / data_.count);
    }
    Normal normal = with_bounds(plain, beta, sigma);
    if (!normal.positive) return out;
    double last_change = 0; // of ln sigma
    for (int round = 0; round < most_rounds; ++round) {
      if (round > 0 && !bounds_.empty()) normal = with_bounds(plain, beta, sigma);
      CurveVector move{};
      // Where the condition is not yet met the step goes there, whatever it costs.
      const double open = missing(beta);
      const bool must_move = !meets_condition(beta);
      if (!step(normal, face, open, move)) break;
      double size = 0, scale = 0;
      for (std::size_t i = 0; i < 3; ++i) {
        size = std::max(size, std::abs(move[i]));
        scale += std::abs(beta[i] + move[i]);
      }
      // At the end rounding alone decides whether a step seems to make it better.
      const bool at_end = size < settled_step * scale;
      Normal after, plain_after;
      CurveVector next = beta;
      for (int half = 0; half < 12; ++half) {
        for (std::size_t i = 0; i < 3; ++i) next[i] = beta[i] + move[i];
        plain_after = plain_at(next);
        after = with_bounds(plain_after, next, sigma);
        if (after.positive && (must_move || at_end || after.objective <= normal.objective * (1 + 1e-13))) break;
        after.positive = false;
        for (double& one : move) one /= 2;
      }
      if (!after.positive) break;
      beta = next;
      normal = after;
      plain = plain_after;
      const double before = sigma;
      sigma = spread(normal, sigma);
      if (at_end && std::abs(sigma - before) < settled_spread * sigma) break;
      if (bounds_.empty()) continue;
      // The spread comes nearer by about the same part each round: go on to where that leads (Aitken's process).
      const double change = std::log(sigma / before), part = last_change != 0 ? change / last_change : 0;
      last_change = change;
      if (part > 0.05 && part < 0.9) {
        sigma *= std::exp(change * part / (1 - part));
        last_change = 0;
      }
    }
    if (!meets_condition(beta)) return near != nullptr ? on_face(face) : out;
    for (std::size_t i = 0; i < 3; ++i)
      if ((face >> i & 1U) != 0 && beta[i] < 0) return out;
    out.beta = beta;
    out.sigma = sigma;
    if (!bounds_.empty()) normal = with_bounds(plain, beta, sigma);
    out.cost = cost_of(normal, sigma);
    out.curvature = normal.a;
    for (std::size_t r = 0; r < 3; ++r)
      for (std::size_t c = r + 1; c < 3; ++c) out.curvature[r][c] = out.curvature[c][r];
    out.pull = normal.b;
    return out;
  }

  const CurveData& data_;
  const std::optional<CurveCondition>& held_;
  std::vector<CurveVector> plain_, bounds_;
};

} // namespace

Beyond beyond(double z) {
  constexpr double root_2_pi = 2.50662827463100050242; // sqrt(2 pi)
  if (z > far_out) return {-z * z / 2 - std::log(z * root_2_pi), z + 1 / z};
  const double p = normal_cdf(-z);
  return {std::log(p), std::exp(-z * z / 2) / root_2_pi / p};
}

CurveParts parts_of(CurveModel model) {
  switch (model) {
  case CurveModel::constant:
    return {0, true};
  case CurveModel::power:
    return {1, false};
  case CurveModel::two_phase:
    return {2, true};
  default:
    return {1, true};
  }
}

double falling_part(CurveModel model, double shape, double n, double first) {
  if (std::isinf(n)) return 0;
  switch (model) {
  case CurveModel::exponential_plateau:
  case CurveModel::two_phase:
    return std::exp(-(n - first) / shape);
  case CurveModel::hyperbolic_plateau:
    return (shape + first) / (shape + n);
  default:
    return std::pow(n / first, -shape);
  }
}

double falling_part_slope(CurveModel model, double shape, double n, double first) {
  if (std::isinf(n)) return 0;
  switch (model) {
  case CurveModel::exponential_plateau:
  case CurveModel::two_phase: {
    const double u = (n - first) / shape;
    return u * std::exp(-u);
  }
  case CurveModel::hyperbolic_plateau:
    return shape * (n - first) / ((shape + n) * (shape + n));
  default: {
    const double u = shape * std::log(n / first);
    return -u * std::exp(-u);
  }
  }
}

CurveVector column_slope_of(CurveModel model, const std::array<double, 2>& ln_shape, double n, double first) {
  const CurveParts parts = parts_of(model);
  return {0, parts.falling > 0 ? falling_part_slope(model, std::exp(ln_shape[0]), n, first) : 0,
          parts.falling > 1 ? falling_part_slope(model, std::exp(ln_shape[1]), n, first) : 0};
}

CurveVector column_at(CurveModel model, const std::array<double, 2>& shape, double n, double first) {
  const CurveParts parts = parts_of(model);
  return {parts.floor ? 1.0 : 0.0, parts.falling > 0 ? falling_part(model, shape[0], n, first) : 0,
          parts.falling > 1 ? falling_part(model, shape[1], n, first) : 0};
}

CurveVector column_of(CurveModel model, const std::array<double, 2>& ln_shape, double n, double first) {
  return column_at(model, {std::exp(ln_shape[0]), std::exp(ln_shape[1])}, n, first);
}

LinearSolution solve_linear_part(const CurveData& data, CurveModel model, const std::array<double, 2>& ln_shape,
                                 const std::optional<CurveCondition>& held, const LinearStart& near) {
  const LinearPart part(data, model, ln_shape, held);
  const unsigned allowed = parts_of(model).faces();
  return near.face == 0 ? part.best(allowed) : part.near(near, allowed);
}

} // namespace docket
