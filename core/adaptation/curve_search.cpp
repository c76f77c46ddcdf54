#include "core/adaptation/curve_search.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace docket {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr double least_power = 1e-3, most_power = 3;
constexpr double most_time_like = 30; ///< times the last cycle
constexpr double least_apart = 5;     ///< the second phase is at least so many times as slow
constexpr int fine_grid = 18, coarse_grid = 9;
constexpr int fine_steps = 44, coarse_steps = 18; ///< golden sections: to 1e-9 and to 0.02 % of a grid step
constexpr int most_rounds = 60;                   ///< of Gauss-Newton, with lower bounds of expectation too

using Vector = std::array<double, 3>;

/// Solves a small symmetric system, at most 4 x 4, by elimination with pivoting; false where it is singular.
bool solve_small(std::array<std::array<double, 5>, 4>& a, int n) {
  for (int k = 0; k < n; ++k) {
    int pivot = k;
    for (int i = k + 1; i < n; ++i)
      if (std::abs(a[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)]) >
          std::abs(a[static_cast<std::size_t>(pivot)][static_cast<std::size_t>(k)]))
        pivot = i;
    std::swap(a[static_cast<std::size_t>(k)], a[static_cast<std::size_t>(pivot)]);
    auto& row = a[static_cast<std::size_t>(k)];
    if (!(std::abs(row[static_cast<std::size_t>(k)]) > 1e-300)) return false;
    for (int i = 0; i < n; ++i) {
      if (i == k) continue;
      auto& other = a[static_cast<std::size_t>(i)];
      const double factor = other[static_cast<std::size_t>(k)] / row[static_cast<std::size_t>(k)];
      for (int j = k; j <= n; ++j) other[static_cast<std::size_t>(j)] -= factor * row[static_cast<std::size_t>(j)];
    }
  }
  for (int k = 0; k < n; ++k)
    a[static_cast<std::size_t>(k)][4] = a[static_cast<std::size_t>(k)][static_cast<std::size_t>(n)] /
                                        a[static_cast<std::size_t>(k)][static_cast<std::size_t>(k)];
  return true;
}

/// The columns 1, g_1, g_2 at the blocks and at the lower bounds, for one shape.
struct Columns {
  std::vector<Vector> plain, bounds;
};

/// The linear part at one shape.
class LinearPart {
public:
  LinearPart(const CurveData& data, const Columns& columns, const std::optional<CurveCondition>& held)
      : data_(data), columns_(columns), held_(held) {
    seen_ = data.count;
    all_ = seen_ + static_cast<double>(data.bound_n.size());
  }

  /// Best over the faces on which some of `allowed` (bits: c, a_1, a_2) are above 0.
  CurveSolution best(unsigned allowed) const {
    CurveSolution found = on_face(allowed);
    if (found.cost < none) return found;
    found.cost = none;
    for (unsigned face = allowed - 1; face > 0; --face) {
      if ((face & ~allowed) != 0) continue;
      const CurveSolution one = on_face(face);
      if (one.cost < found.cost) found = one;
    }
    return found;
  }

private:
  struct Normal {
    std::array<Vector, 3> a{};
    Vector b{};
    double ss = 0, variance = 0; ///< squared residuals of blocks and bounds; what is missing of the bounds' own spread
    bool positive = true;
  };

  static double value(const Vector& beta, const Vector& g) { return beta[0] * g[0] + beta[1] * g[1] + beta[2] * g[2]; }

  static void add(Normal& normal, const Vector& g, double m, double residual, double weight) {
    const Vector j{g[0] / m, g[1] / m, g[2] / m};
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t c = 0; c <= r; ++c) normal.a[r][c] += weight * j[r] * j[c];
      normal.b[r] += weight * j[r] * residual;
    }
    normal.ss += weight * residual * residual;
  }

  /// Gauss-Newton at `beta`; a lower bound stands for its expectation given that it is one.
  Normal normal_at(const Vector& beta, double sigma) const {
    Normal normal;
    for (std::size_t i = 0; i < columns_.plain.size(); ++i) {
      const double m = value(beta, columns_.plain[i]);
      if (!(m > 0)) {
        normal.positive = false;
        return normal;
      }
      add(normal, columns_.plain[i], m, data_.ln_y[i] - std::log(m), data_.weight[i]);
    }
    for (std::size_t i = 0; i < columns_.bounds.size(); ++i) {
      const double m = value(beta, columns_.bounds[i]);
      if (!(m > 0)) {
        normal.positive = false;
        return normal;
      }
      const double z = (data_.bound_ln_y[i] - std::log(m)) / sigma, hazard = normal_hazard(z);
      add(normal, columns_.bounds[i], m, sigma * hazard, 1);
      normal.variance += sigma * sigma * (1 + z * hazard - hazard * hazard);
    }
    return normal;
  }

  /// phi(z) / (1 - Phi(z)).
  static double normal_hazard(double z) {
    if (z > 30) return z + 1 / z;
    return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi) / normal_cdf(-z);
  }

  double sigma_of(const Normal& normal) const {
    return std::sqrt((normal.ss + data_.within_ss + normal.variance) / all_);
  }

  double cost_of(const Vector& beta, const Normal& normal, double sigma) const {
    if (columns_.bounds.empty()) return seen_ * std::log((normal.ss + data_.within_ss) / seen_);
    double ss = data_.within_ss, beyond = 0;
    for (std::size_t i = 0; i < columns_.plain.size(); ++i) {
      const double r = data_.ln_y[i] - std::log(value(beta, columns_.plain[i]));
      ss += data_.weight[i] * r * r;
    }
    for (std::size_t i = 0; i < columns_.bounds.size(); ++i) {
      const double z = (data_.bound_ln_y[i] - std::log(value(beta, columns_.bounds[i]))) / sigma;
      beyond += z > 30 ? -z * z / 2 - std::log(z * std::sqrt(2 * std::numbers::pi)) : std::log(normal_cdf(-z));
    }
    return seen_ * (2 * std::log(sigma) - 1) + ss / (sigma * sigma) - 2 * beyond;
  }

  /// The step (or, from nothing, the value) of the coefficients of `face` that the normal equations give.
  bool step(const Normal& normal, unsigned face, double missing, Vector& out) const {
    std::array<std::array<double, 5>, 4> system{};
    std::array<std::size_t, 3> index{};
    int k = 0;
    for (std::size_t i = 0; i < 3; ++i)
      if ((face >> i & 1U) != 0) index[static_cast<std::size_t>(k++)] = i;
    const int n = k + (held_ ? 1 : 0);
    for (int r = 0; r < k; ++r) {
      const std::size_t i = index[static_cast<std::size_t>(r)];
      for (int c = 0; c < k; ++c) {
        const std::size_t j = index[static_cast<std::size_t>(c)];
        system[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)] = normal.a[std::max(i, j)][std::min(i, j)];
      }
      system[static_cast<std::size_t>(r)][static_cast<std::size_t>(n)] = normal.b[i];
      if (held_) {
        system[static_cast<std::size_t>(r)][static_cast<std::size_t>(k)] = held_->v[i];
        system[static_cast<std::size_t>(k)][static_cast<std::size_t>(r)] = held_->v[i];
      }
    }
    if (held_) system[static_cast<std::size_t>(k)][static_cast<std::size_t>(n)] = missing;
    if (!solve_small(system, n)) return false;
    out = {};
    for (int r = 0; r < k; ++r) out[index[static_cast<std::size_t>(r)]] = system[static_cast<std::size_t>(r)][4];
    return std::isfinite(out[0]) && std::isfinite(out[1]) && std::isfinite(out[2]);
  }

  /// Linear least squares on the times themselves, each weighed by its size: the start.
  bool start(unsigned face, Vector& beta) const {
    Normal normal;
    const auto take = [&](const Vector& g, double ln_y, double weight) {
      const double y = std::exp(ln_y);
      add(normal, g, y, 1, weight);
    };
    for (std::size_t i = 0; i < columns_.plain.size(); ++i) take(columns_.plain[i], data_.ln_y[i], data_.weight[i]);
    for (std::size_t i = 0; i < columns_.bounds.size(); ++i) take(columns_.bounds[i], data_.bound_ln_y[i], 1);
    return step(normal, face, held_ ? held_->t : 0, beta);
  }

  CurveSolution on_face(unsigned face) const {
    CurveSolution out;
    out.cost = none;
    Vector beta{};
    if (!start(face, beta)) return out;
    double sigma = 0.1;
    Normal normal = normal_at(beta, sigma);
    if (!normal.positive) return out;
    sigma = sigma_of(normal);
    for (int round = 0; round < most_rounds; ++round) {
      if (!columns_.bounds.empty()) normal = normal_at(beta, sigma); // the expectations move with the spread
      Vector move{};
      if (!step(normal, face, 0, move)) break;
      double size = 0;
      for (std::size_t i = 0; i < 3; ++i) size = std::max(size, std::abs(move[i]));
      const double scale = std::abs(beta[0]) + std::abs(beta[1]) + std::abs(beta[2]);
      Vector next = beta;
      Normal after;
      for (int half = 0; half < 12; ++half) {
        for (std::size_t i = 0; i < 3; ++i) next[i] = beta[i] + move[i];
        after = normal_at(next, sigma);
        if (after.positive && after.ss + after.variance <= (normal.ss + normal.variance) * (1 + 1e-12)) break;
        after.positive = false;
        for (double& one : move) one /= 2;
      }
      if (!after.positive) break;
      beta = next;
      const double before = sigma;
      normal = after;
      sigma = sigma_of(normal);
      if (size < 1e-8 * scale && std::abs(sigma - before) < 1e-8 * sigma) break;
    }
    for (std::size_t i = 0; i < 3; ++i)
      if ((face >> i & 1U) != 0 && beta[i] < 0) return out;
    out.beta = beta;
    out.sigma = sigma;
    out.cost = cost_of(beta, normal, sigma);
    return out;
  }

  const CurveData& data_;
  const Columns& columns_;
  const std::optional<CurveCondition>& held_;
  double seen_ = 0, all_ = 0;
};

/// Smallest value of `f` on [low, high]: a scan of `grid` + 1 points, then golden section around the best.
template <class Function>
double minimise(double low, double high, int grid, int steps, Function f) {
  double best_x = low, best = f(low);
  const double step = (high - low) / grid;
  for (int i = 1; i <= grid; ++i) {
    const double x = low + step * i, value = f(x);
    if (value < best) {
      best = value;
      best_x = x;
    }
  }
  double a = std::max(low, best_x - step), b = std::min(high, best_x + step);
  constexpr double golden = 1 / std::numbers::phi;
  double x1 = b - golden * (b - a), x2 = a + golden * (b - a), f1 = f(x1), f2 = f(x2);
  for (int i = 0; i < steps; ++i) {
    if (f1 < f2) {
      b = x2;
      x2 = x1;
      f2 = f1;
      f1 = f(x1 = b - golden * (b - a));
    } else {
      a = x1;
      x1 = x2;
      f1 = f2;
      f2 = f(x2 = a + golden * (b - a));
    }
  }
  if (f1 < best) best_x = x1, best = f1;
  if (f2 < best) best_x = x2;
  return best_x;
}

using Pair = std::array<double, 2>;

/// Nelder & Mead 1965 in two dimensions, from `start` with sides `side`.
template <class Function>
Pair descend(Pair start, double side, int steps, Function f) {
  std::array<Pair, 3> x{start, Pair{start[0] + side, start[1]}, Pair{start[0], start[1] + side}};
  std::array<double, 3> y{f(x[0]), f(x[1]), f(x[2])};
  for (int i = 0; i < steps; ++i) {
    std::size_t worst = 0, best = 0;
    for (std::size_t k = 1; k < 3; ++k) {
      if (y[k] > y[worst]) worst = k;
      if (y[k] < y[best]) best = k;
    }
    const std::size_t middle = 3 - worst - best == 3 ? 1 : 3 - worst - best;
    const Pair centre{(x[best][0] + x[middle][0]) / 2, (x[best][1] + x[middle][1]) / 2};
    const auto along = [&](double t) {
      return Pair{centre[0] + t * (x[worst][0] - centre[0]), centre[1] + t * (x[worst][1] - centre[1])};
    };
    const Pair reflected = along(-1);
    const double at = f(reflected);
    if (at < y[best]) {
      const Pair expanded = along(-2);
      const double further = f(expanded);
      x[worst] = further < at ? expanded : reflected;
      y[worst] = std::min(further, at);
    } else if (at < y[middle]) {
      x[worst] = reflected;
      y[worst] = at;
    } else {
      const Pair contracted = along(at < y[worst] ? -0.5 : 0.5);
      const double inside = f(contracted);
      if (inside < std::min(at, y[worst])) {
        x[worst] = contracted;
        y[worst] = inside;
      } else {
        for (std::size_t k = 0; k < 3; ++k) {
          if (k == best) continue;
          x[k] = {(x[k][0] + x[best][0]) / 2, (x[k][1] + x[best][1]) / 2};
          y[k] = f(x[k]);
        }
      }
    }
  }
  std::size_t best = 0;
  for (std::size_t k = 1; k < 3; ++k)
    if (y[k] < y[best]) best = k;
  return x[best];
}

} // namespace

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

CurveSearch::CurveSearch(const CurveData& data, CurveModel model)
    : data_(data), model_(model), first_(data.n.front()) {}

template <class Condition>
CurveSolution CurveSearch::solve_at(const std::array<double, 2>& ln_shape, Condition condition) const {
  const CurveParts parts = parts_of(model_);
  const unsigned allowed = (parts.floor ? 1U : 0U) | (parts.falling > 0 ? 2U : 0U) | (parts.falling > 1 ? 4U : 0U);
  const double s1 = std::exp(ln_shape[0]), s2 = std::exp(ln_shape[1]);
  const auto column = [&](double n) {
    return Vector{1, parts.falling > 0 ? falling_part(model_, s1, n, first_) : 0,
                  parts.falling > 1 ? falling_part(model_, s2, n, first_) : 0};
  };
  Columns columns;
  columns.plain.reserve(data_.n.size());
  for (const double n : data_.n) columns.plain.push_back(column(n));
  columns.bounds.reserve(data_.bound_n.size());
  for (const double n : data_.bound_n) columns.bounds.push_back(column(n));
  const std::optional<CurveCondition> held = condition(column);
  CurveSolution solution = LinearPart(data_, columns, held).best(allowed);
  solution.ln_shape = ln_shape;
  return solution;
}

template <class Condition>
CurveSolution CurveSearch::search(Condition condition, const CurveFit* near) const {
  const CurveParts parts = parts_of(model_);
  const double last = data_.n.back(), span = std::max(1.0, last - first_);
  const bool power = model_ == CurveModel::power || model_ == CurveModel::power_plateau;
  const double low = power ? std::log(least_power) : std::log(std::max(1.0, span / 200));
  const double high = power ? std::log(most_power) : std::log(most_time_like * last);

  const auto at = [&](const Pair& ln_shape) { return solve_at(ln_shape, condition); };

  const bool fine = near == nullptr;
  if (parts.falling == 0) return at({0, 0});
  if (parts.falling == 1) {
    CurveSolution best = at({minimise(low, high, fine ? fine_grid : coarse_grid, fine ? fine_steps : coarse_steps,
                                      [&](double x) {
                                        return at({x, 0}).cost;
                                      }),
                             0});
    if (near != nullptr) {
      const CurveSolution there = at({std::log(near->shape), 0});
      if (there.cost < best.cost) best = there;
    }
    return best;
  }
  // Two phases: the quick one, and how many times as slow the other is.
  const double apart_low = std::log(least_apart), most_apart = std::max(apart_low, high - low);
  const auto cost = [&](const Pair& p) {
    if (p[0] < low || p[1] < apart_low || p[0] + p[1] > high) return none;
    return at({p[0], p[0] + p[1]}).cost;
  };
  Pair best_at{low, apart_low};
  double best_cost = none;
  const auto look = [&](const Pair& p) {
    const double value = cost(p);
    if (value < best_cost) {
      best_cost = value;
      best_at = p;
    }
  };
  const int quick_steps = fine ? 10 : 4, apart_steps = fine ? 5 : 3;
  for (int i = 0; i <= quick_steps; ++i)
    for (int j = 0; j <= apart_steps; ++j)
      look({low + (high - apart_low - low) * i / quick_steps,
            apart_low + (most_apart - apart_low) * 0.7 * j / apart_steps});
  if (near != nullptr) look({std::log(near->shape), std::log(near->shape2 / near->shape)});
  const Pair found = descend(best_at, fine ? 0.3 : 0.25, fine ? 90 : 36, cost);
  if (cost(found) < best_cost) best_at = found;
  return at({best_at[0], best_at[0] + best_at[1]});
}

CurveSolution CurveSearch::best() const {
  return search([](const auto&) { return std::optional<CurveCondition>{}; }, nullptr);
}

CurveSolution CurveSearch::best_with_level(double cycle, double level, const CurveFit& near) const {
  return search(
      [&](const auto& column) {
        return std::optional<CurveCondition>(CurveCondition{column(cycle), level});
      },
      &near);
}

CurveSolution CurveSearch::best_with_ratio(double from, double to, double ratio, const CurveFit& near) const {
  if (model_ == CurveModel::power) {
    // The ratio fixes the exponent: (to / from)^-b.
    const double b = std::max(1e-12, -std::log(ratio) / std::log(to / from));
    return solve_at({std::log(b), 0}, [](const auto&) { return std::optional<CurveCondition>{}; });
  }
  return search(
      [&](const auto& column) {
        const Vector a = column(from), b = column(to);
        return std::optional<CurveCondition>(
            CurveCondition{{b[0] - ratio * a[0], b[1] - ratio * a[1], b[2] - ratio * a[2]}, 0});
      },
      &near);
}

} // namespace docket
