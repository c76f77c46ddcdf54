#include "core/statistics/fitting/nonlinear_mixed.h"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace docket {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using Index = Eigen::Index;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double first_precision = 0.375; ///< [1] of the root mean square column: Pinheiro & Bates 2000, start of L
constexpr double vanished = 1e-3;         ///< in that scale: 0.3 % of what one group alone could tell
constexpr double kept_off_zero = 0.1;     ///< where a search starts: zero is a stationary point of every likelihood
constexpr double nothing_left = 1e-7;     ///< [1] of a column: what is left of it beside the others
constexpr int most_steps = 60, most_halvings = 40;
constexpr int most_stuck = 5; ///< rounds in a row whose curve did not come to rest

struct Sizes {
  Index p = 0, q = 0;
  double observations = 0, within_ss = 0, sum_ln_weight = 0;
};

/// A group near one point: the rows of [derivatives | working values], turned into p + 1 rows.
struct Linearised {
  Matrix x;
  Vector w;
};

/// The linear mixed model at one L.
struct Solved {
  double rss = infinity, minus_two_log_likelihood = infinity;
  Vector beta;
  Matrix r00;                   ///< triangular; cov beta = sigma^2 (r00' r00)^-1
  std::vector<Matrix> r11, r10; ///< a group each
  std::vector<Vector> u;        ///< b = L u
};

/// Where the search stands.
struct State {
  Vector beta;
  std::vector<Vector> b;
};

class MixedSearch {
public:
  MixedSearch(const MixedModel& model, std::span<const MixedGroup> groups, const MixedOptions& options,
              std::vector<std::size_t> random)
      : model_(model), groups_(groups), options_(options), random_(std::move(random)) {
    size_.p = static_cast<Index>(model.parameter_count);
    size_.q = static_cast<Index>(random_.size());
    for (const MixedGroup& group : groups) {
      size_.observations += group.observations > 0 ? group.observations : static_cast<double>(group.y.size());
      size_.within_ss += group.within_ss;
      // Of observations behind the means, the ln weight of mean and of deviations cancel.
      if (group.observations <= 0)
        for (const double weight : group.weight) size_.sum_ln_weight += std::log(weight);
    }
  }

  std::size_t theta_count() const {
    const auto q = random_.size();
    return model_.correlated ? q * (q + 1) / 2 : q;
  }

  /// L from its free entries, row by row.
  Matrix factor(const Vector& theta) const {
    Matrix l = Matrix::Zero(size_.q, size_.q);
    Index k = 0;
    for (Index i = 0; i < size_.q; ++i)
      for (Index j = model_.correlated ? 0 : i; j <= i; ++j) l(i, j) = scale_[i] * theta[k++];
    return l;
  }

  Vector parameters_of(const State& state, std::size_t group) const {
    Vector phi = state.beta;
    for (Index k = 0; k < size_.q; ++k) phi[random_index(k)] += state.b[group][k];
    return phi;
  }

  /// Sum of weighted squares of one group; infinite where there is no model.
  double sum_of_squares(std::size_t group, const Vector& phi) const {
    const MixedGroup& g = groups_[group];
    std::vector<double> gradient(model_.parameter_count);
    double sum = 0;
    for (std::size_t j = 0; j < g.x.size(); ++j) {
      const double r = g.y[j] - model_.value({phi.data(), model_.parameter_count}, g.x[j], gradient);
      sum += (g.weight.empty() ? 1 : g.weight[j]) * r * r;
    }
    return std::isfinite(sum) ? sum : infinity;
  }

  std::optional<Linearised> linearise(std::size_t group, const Vector& phi) const {
    const MixedGroup& g = groups_[group];
    const auto n = static_cast<Index>(g.x.size());
    Matrix rows = Matrix::Zero(std::max(n, size_.p + 1), size_.p + 1);
    std::vector<double> gradient(model_.parameter_count);
    for (Index j = 0; j < n; ++j) {
      const auto at = static_cast<std::size_t>(j);
      const double root = std::sqrt(g.weight.empty() ? 1 : g.weight[at]);
      double working = g.y[at] - model_.value({phi.data(), model_.parameter_count}, g.x[at], gradient);
      for (Index k = 0; k < size_.p; ++k) {
        const double derivative = gradient[static_cast<std::size_t>(k)];
        rows(j, k) = root * derivative;
        working += derivative * phi[k];
      }
      rows(j, size_.p) = root * working;
    }
    if (!rows.allFinite()) return std::nullopt;
    const Eigen::HouseholderQR<Matrix> qr(rows);
    const Matrix r = qr.matrixQR().topRows(size_.p + 1).triangularView<Eigen::Upper>();
    return Linearised{r.leftCols(size_.p), r.col(size_.p)};
  }

  std::optional<std::vector<Linearised>> linearise(const State& state) const {
    std::vector<Linearised> all;
    for (std::size_t i = 0; i < groups_.size(); ++i) {
      const auto one = linearise(i, parameters_of(state, i));
      if (!one) return std::nullopt;
      all.push_back(*one);
    }
    return all;
  }

  /// Pinheiro & Bates 2000, 2.2.3: each group's random effects turned out, what is left solved for beta.
  Solved solve(const std::vector<Linearised>& groups, const Matrix& l) const {
    const Index p = size_.p, q = size_.q, left = p + 1;
    Solved s;
    Matrix stack(left * static_cast<Index>(groups.size()), left);
    double ln_r11 = 0;
    for (std::size_t i = 0; i < groups.size(); ++i) {
      Matrix rows = Matrix::Zero(left + q, q + left);
      for (Index k = 0; k < q; ++k) {
        for (Index m = 0; m < q; ++m) rows.col(k).head(left) += groups[i].x.col(random_index(m)) * l(m, k);
        rows(left + k, k) = 1;
      }
      rows.block(0, q, left, p) = groups[i].x;
      rows.col(q + p).head(left) = groups[i].w;
      const Eigen::HouseholderQR<Matrix> qr(rows);
      const Matrix r = qr.matrixQR().triangularView<Eigen::Upper>();
      for (Index k = 0; k < q; ++k) ln_r11 += std::log(std::abs(r(k, k)));
      s.r11.push_back(r.topLeftCorner(q, q));
      s.r10.push_back(r.block(0, q, q, p));
      s.u.push_back(r.col(q + p).head(q));
      stack.middleRows(left * static_cast<Index>(i), left) = r.block(q, q, left, left);
    }
    const Eigen::HouseholderQR<Matrix> qr(stack);
    const Matrix r = qr.matrixQR().topRows(left).triangularView<Eigen::Upper>();
    s.r00 = r.topLeftCorner(p, p);
    s.rss = r(p, p) * r(p, p) + size_.within_ss;
    if (s.r00.diagonal().cwiseAbs().minCoeff() <= 0 || !(s.rss > 0)) return s;
    s.beta = s.r00.triangularView<Eigen::Upper>().solve(r.col(p).head(p));
    for (std::size_t i = 0; i < groups.size(); ++i) {
      s.u[i] = s.r11[i].triangularView<Eigen::Upper>().solve(s.u[i] - s.r10[i] * s.beta);
    }
    const double df = degrees();
    s.minus_two_log_likelihood =
        df * (1 + std::log(2 * std::numbers::pi * s.rss / df)) + 2 * ln_r11 - size_.sum_ln_weight;
    if (options_.restricted) s.minus_two_log_likelihood += 2 * s.r00.diagonal().array().abs().log().sum();
    return s;
  }

  double degrees() const { return size_.observations - (options_.restricted ? static_cast<double>(size_.p) : 0); }
  double variance(const Solved& s) const { return s.rss / degrees(); }

  /// The scale of L: what makes a start, and tells small from large.
  void set_scale(const std::vector<Linearised>& groups) {
    scale_ = Vector::Ones(size_.q);
    for (Index k = 0; k < size_.q; ++k) {
      double sum = 0;
      for (const Linearised& group : groups) sum += group.x.col(random_index(k)).squaredNorm();
      if (sum > 0) scale_[k] = 1 / (first_precision * std::sqrt(sum / static_cast<double>(groups.size())));
    }
  }

  Vector first_theta() const {
    Vector theta = Vector::Zero(static_cast<Index>(theta_count()));
    for (Index i = 0; i < size_.q; ++i) theta[diagonal_index(i)] = 1;
    return theta;
  }

  Index diagonal_index(Index i) const { return model_.correlated ? i * (i + 3) / 2 : i; }
  Index random_index(Index k) const { return static_cast<Index>(random_[static_cast<std::size_t>(k)]); }

  /// The likelihood does not know the sign of a column of L: the diagonal is taken as 0 or more.
  Vector with_positive_columns(Vector theta) const {
    for (Index j = 0; j < size_.q; ++j) {
      if (theta[diagonal_index(j)] >= 0) continue;
      for (Index i = j; i < size_.q; ++i) {
        if (i == j || model_.correlated) theta[i == j ? diagonal_index(j) : i * (i + 1) / 2 + j] *= -1;
      }
    }
    return theta;
  }

  /// BFGS over the free entries of L (Nocedal & Wright 2006, algorithm 6.1), slopes by central differences.
  Vector find_theta(const std::vector<Linearised>& groups, Vector theta) const {
    for (Index i = 0; i < size_.q; ++i) {
      double& entry = theta[diagonal_index(i)];
      entry = std::max(entry, kept_off_zero);
    }
    const auto value = [&](const Vector& at) { return solve(groups, factor(at)).minus_two_log_likelihood; };
    const auto slope = [&](const Vector& at) {
      Vector g(at.size());
      for (Index k = 0; k < at.size(); ++k) {
        const double h = 1e-5 * std::max(1.0, std::abs(at[k]));
        Vector up = at, down = at;
        up[k] += h;
        down[k] -= h;
        g[k] = (value(up) - value(down)) / (2 * h);
      }
      return g;
    };
    Matrix inverse = Matrix::Identity(theta.size(), theta.size()) * (0.1 / static_cast<double>(groups.size()));
    double now = value(theta);
    Vector g = slope(theta);
    bool scaled = false;
    for (int i = 0; i < most_steps && g.cwiseAbs().maxCoeff() > 1e-7; ++i) {
      Vector step = -inverse * g;
      if (step.dot(g) >= 0) step = -g * (0.1 / static_cast<double>(groups.size()));
      const double longest = 1 + theta.cwiseAbs().maxCoeff();
      if (step.norm() > longest) step *= longest / step.norm();
      double next = value(theta + step);
      int halvings = 0;
      for (; halvings < most_halvings && !(next <= now + 1e-4 * step.dot(g)); ++halvings) {
        step /= 2;
        next = value(theta + step);
      }
      if (halvings == most_halvings) break;
      const Vector changed_slope = slope(theta + step);
      const Vector y = changed_slope - g;
      theta += step;
      g = changed_slope;
      const bool at_rest = step.cwiseAbs().maxCoeff() < 1e-10;
      now = next;
      if (at_rest) break;
      const double sy = step.dot(y);
      if (sy <= 1e-12 * step.norm() * y.norm()) continue;
      if (!scaled) inverse = Matrix::Identity(theta.size(), theta.size()) * (sy / y.squaredNorm());
      scaled = true;
      const Matrix turn = Matrix::Identity(theta.size(), theta.size()) - step * y.transpose() / sy;
      inverse = turn * inverse * turn.transpose() + step * step.transpose() / sy;
    }
    return with_positive_columns(theta);
  }

  /// Penalised least squares at one L, from `state`, whose b are L u. False: flat, or no step improves it at all.
  enum class Pnls : std::uint8_t { found, flat, stuck };
  Pnls improve(State& state, std::vector<Vector>& u, std::vector<Linearised>& groups, const Matrix& l) const {
    double now = penalised(state, u);
    for (int step = 0; step < most_steps; ++step) {
      const Solved target = solve(groups, l);
      if (is_flat(groups, target)) return Pnls::flat;
      const double expected = now - (target.rss - size_.within_ss);
      double share = 1;
      State next;
      std::vector<Vector> next_u;
      double then = infinity;
      for (int halving = 0; halving < most_halvings; ++halving, share /= 2) {
        next = state;
        next_u = u;
        next.beta += share * (target.beta - state.beta);
        for (std::size_t i = 0; i < u.size(); ++i) {
          next_u[i] += share * (target.u[i] - u[i]);
          next.b[i] = l * next_u[i];
        }
        then = penalised(next, next_u);
        if (then <= now) break;
      }
      // Where rounding is all that is left of the step, the step may seem to make it worse.
      const bool near_end = expected <= 1e-12 * (now + size_.within_ss);
      if (!(then <= now)) return near_end ? Pnls::found : Pnls::stuck;
      const auto linearised = linearise(next);
      if (!linearised) return Pnls::stuck;
      state = next;
      u = next_u;
      groups = *linearised;
      now = then;
      if (near_end) return Pnls::found;
    }
    return Pnls::stuck;
  }

  double penalised(const State& state, const std::vector<Vector>& u) const {
    double sum = 0;
    for (std::size_t i = 0; i < u.size(); ++i) sum += sum_of_squares(i, parameters_of(state, i)) + u[i].squaredNorm();
    return sum;
  }

  /// A column of which nearly nothing is left beside the others.
  bool is_flat(const std::vector<Linearised>& groups, const Solved& s) const {
    if (s.beta.size() == 0) return true;
    Matrix inverse = s.r00.triangularView<Eigen::Upper>().solve(Matrix::Identity(size_.p, size_.p));
    for (Index k = 0; k < size_.p; ++k) {
      double sum = 0;
      for (const Linearised& group : groups) sum += group.x.col(k).squaredNorm();
      if (!(sum > 0) || !(inverse.row(k).norm() * std::sqrt(sum) < 1 / nothing_left)) return true;
    }
    return false;
  }

  /// u with b = L u; a vanished effect takes its b with it.
  std::vector<Vector> relative(State& state, const Matrix& l) const {
    std::vector<Vector> u;
    for (Vector& b : state.b) {
      Vector one = Vector::Zero(size_.q);
      for (Index i = 0; i < size_.q; ++i) {
        const double rest = b[i] - l.row(i).head(i).dot(one.head(i));
        one[i] = std::abs(l(i, i)) > 0 ? rest / l(i, i) : 0;
      }
      b = l * one;
      u.push_back(one);
    }
    return u;
  }

  Index q() const { return size_.q; }
  Index p() const { return size_.p; }
  const std::vector<std::size_t>& random() const { return random_; }
  const Vector& scale() const { return scale_; }

private:
  const MixedModel& model_;
  std::span<const MixedGroup> groups_;
  const MixedOptions& options_;
  std::vector<std::size_t> random_;
  Sizes size_;
  Vector scale_;
};

std::string name_of_parameter(const MixedModel& model, std::size_t k) {
  return k < model.names.size() ? model.names[k] : "parameter " + std::to_string(k + 1);
}

std::vector<double> as_rows(const Matrix& m) {
  std::vector<double> rows;
  for (Index i = 0; i < m.rows(); ++i)
    for (Index j = 0; j < m.cols(); ++j) rows.push_back(m(i, j));
  return rows;
}

std::vector<double> as_values(const Vector& v) { return {v.data(), v.data() + v.size()}; }

void set_covariance(GroupEstimate& group, const Matrix& covariance) {
  group.covariance = as_rows(covariance);
  group.standard_errors = as_values(covariance.diagonal().cwiseMax(0).cwiseSqrt());
}

/// Everything the result says, from where the alternation came to rest.
void fill(MixedFit& fit, const MixedModel& model, const MixedSearch& search, const State& state, const Solved& s,
          const Matrix& l) {
  const double variance = search.variance(s);
  const Index p = search.p(), q = search.q();
  fit.residual_sd = std::sqrt(variance);
  fit.log_likelihood = -s.minus_two_log_likelihood / 2;
  fit.fixed = as_values(state.beta);
  const Matrix r00_inverse = s.r00.triangularView<Eigen::Upper>().solve(Matrix::Identity(p, p));
  const Matrix beta_relative = r00_inverse * r00_inverse.transpose();
  fit.fixed_covariance = as_rows(variance * beta_relative);
  fit.fixed_se = as_values((variance * beta_relative.diagonal()).cwiseSqrt());

  // Psi over all the effects asked for, with zeros where one was set to zero.
  const auto asked = static_cast<Index>(model.random.size());
  Matrix psi = Matrix::Zero(asked, asked), correlation = Matrix::Identity(asked, asked);
  std::vector<Index> place;
  for (const std::size_t k : search.random())
    place.push_back(std::ranges::find(model.random, k) - model.random.begin());
  const Matrix own = variance * l * l.transpose();
  for (Index i = 0; i < q; ++i)
    for (Index j = 0; j < q; ++j)
      psi(place[static_cast<std::size_t>(i)], place[static_cast<std::size_t>(j)]) = own(i, j);
  for (Index i = 0; i < asked; ++i) {
    fit.random_sd.push_back(std::sqrt(psi(i, i)));
    for (Index j = 0; j < asked; ++j)
      if (i != j) correlation(i, j) = psi(i, i) * psi(j, j) > 0 ? psi(i, j) / std::sqrt(psi(i, i) * psi(j, j)) : 0;
  }
  fit.random_covariance = as_rows(psi);
  fit.random_correlation = as_rows(correlation);

  Matrix spread = Matrix::Zero(p, q); // E L
  for (Index k = 0; k < q; ++k) spread.row(search.random_index(k)) = l.row(k);
  for (std::size_t i = 0; i < state.b.size(); ++i) {
    GroupEstimate group;
    group.found = true;
    group.parameters = as_values(search.parameters_of(state, i));
    // u = R11^-1 (c - R10 beta + noise): Henderson's covariance by the triangles.
    const Matrix r11_inverse = s.r11[i].triangularView<Eigen::Upper>().solve(Matrix::Identity(q, q));
    const Matrix own_part = spread * r11_inverse;
    const Matrix by_beta = Matrix::Identity(p, p) - own_part * s.r10[i];
    set_covariance(group, variance * (by_beta * beta_relative * by_beta.transpose() + own_part * own_part.transpose()));
    fit.groups.push_back(group);
  }
}

/// One search with a given set of random effects.
struct Rest {
  MixedOutcome outcome = MixedOutcome::not_converged;
  State state;
  Vector theta;
  std::vector<Linearised> groups;
  int rounds = 0;
};

/// Largest change in standard errors.
double change_of(const Vector& from, const Vector& to, const MixedSearch& search, const Solved& s) {
  const Matrix inverse = s.r00.triangularView<Eigen::Upper>().solve(Matrix::Identity(search.p(), search.p()));
  const double sigma = std::sqrt(search.variance(s));
  double most = 0;
  for (Index k = 0; k < from.size(); ++k)
    most = std::max(most, std::abs(to[k] - from[k]) / (sigma * inverse.row(k).norm()));
  return most;
}

Rest alternate(MixedSearch& search, State state, const MixedOptions& options) {
  Rest rest;
  auto linearised = search.linearise(state);
  if (!linearised) {
    rest.outcome = MixedOutcome::not_finite;
    return rest;
  }
  rest.groups = *linearised;
  search.set_scale(rest.groups);
  rest.theta = search.first_theta();
  int stuck = 0;
  for (rest.rounds = 1; rest.rounds <= options.most_rounds; ++rest.rounds) {
    const Vector before = rest.theta;
    // First the curve, at the first scale of L; then L and curve in turn.
    if (rest.rounds > 1 && search.q() > 0) rest.theta = search.find_theta(rest.groups, rest.theta);
    const Matrix l = search.factor(rest.theta);
    std::vector<Vector> u = search.relative(state, l);
    const auto again = search.linearise(state);
    if (!again) break;
    rest.groups = *again;
    const Vector beta_before = state.beta;
    const MixedSearch::Pnls found = search.improve(state, u, rest.groups, l);
    rest.state = state;
    if (found == MixedSearch::Pnls::flat) {
      rest.outcome = MixedOutcome::flat_direction;
      return rest;
    }
    stuck = found == MixedSearch::Pnls::stuck ? stuck + 1 : 0;
    if (stuck == most_stuck) return rest;
    if (stuck > 0) continue;
    const Solved s = search.solve(rest.groups, l);
    double moved = change_of(beta_before, state.beta, search, s);
    for (Index k = 0; k < before.size(); ++k)
      moved = std::max(moved, std::abs(rest.theta[k] - before[k]) / std::max(1.0, std::abs(before[k])));
    if (rest.rounds > 2 && moved < options.tolerance) {
      rest.outcome = MixedOutcome::converged;
      return rest;
    }
  }
  return rest;
}

std::string sentence_of(MixedOutcome outcome, int rounds) {
  switch (outcome) {
  case MixedOutcome::converged:
    return "Curve and spread came to rest after " + std::to_string(rounds) + " rounds.";
  case MixedOutcome::flat_direction:
    return "The groups do not determine all parameters.";
  case MixedOutcome::not_converged:
    return "Curve and spread did not come to rest in " + std::to_string(rounds) + " rounds.";
  case MixedOutcome::not_finite:
    return "There is no model at the start.";
  case MixedOutcome::singular:
    break;
  }
  return {};
}

} // namespace

std::string_view name_of(MixedOutcome outcome) {
  constexpr std::array<std::string_view, 5> names{"converged", "singular", "flat_direction", "not_converged",
                                                  "not_finite"};
  return names[static_cast<std::size_t>(outcome)];
}

MixedFit fit_nonlinear_mixed(const MixedModel& model, std::span<const MixedGroup> groups, std::span<const double> start,
                             const MixedOptions& options) {
  assert(groups.size() >= 2 && start.size() == model.parameter_count);
  assert(std::ranges::is_sorted(model.random));
  MixedFit fit;
  std::vector<std::size_t> random = model.random;
  std::string gone;
  State state{Eigen::Map<const Vector>(start.data(), static_cast<Index>(start.size())), {}};
  for (;;) {
    MixedSearch search(model, groups, options, random);
    state.b.assign(groups.size(), Vector::Zero(search.q()));
    const Rest rest = alternate(search, state, options);
    fit.rounds += std::min(rest.rounds, options.most_rounds);
    fit.outcome = rest.outcome;
    fit.reason = sentence_of(rest.outcome, fit.rounds);
    if (rest.outcome != MixedOutcome::converged) return fit;

    const Matrix l = search.factor(rest.theta);
    std::vector<std::size_t> kept;
    for (Index k = 0; k < search.q(); ++k) {
      const std::size_t which = random[static_cast<std::size_t>(k)];
      if (l.row(k).norm() >= vanished * search.scale()[k])
        kept.push_back(which);
      else
        gone += (gone.empty() ? "" : ", ") + name_of_parameter(model, which);
    }
    if (kept.size() < random.size()) {
      random = kept;
      state.beta = rest.state.beta;
      continue;
    }
    bool at_limit = false;
    for (Index k = 0; k < search.q(); ++k) at_limit = at_limit || l(k, k) < vanished * l.row(k).norm();
    fill(fit, model, search, rest.state, search.solve(rest.groups, l), l);
    if (!gone.empty() || at_limit) {
      fit.outcome = MixedOutcome::singular;
      fit.reason = gone.empty() ? "Random effects move together without exception: a correlation is at its limit."
                                : "No spread between groups is seen, and it was set to zero: " + gone + ".";
    }
    return fit;
  }
}

MixedFit fit_nonlinear_mixed(const MixedModel& model, std::span<const MixedGroup> groups,
                             std::span<const std::vector<double>> starts, const MixedOptions& options) {
  assert(!starts.empty());
  MixedFit best = fit_nonlinear_mixed(model, groups, std::span<const double>(starts[0]), options);
  for (const std::vector<double>& start : starts.subspan(1)) {
    MixedFit other = fit_nonlinear_mixed(model, groups, std::span<const double>(start), options);
    if (other.usable() && (!best.usable() || other.log_likelihood > best.log_likelihood + 1e-6))
      best = std::move(other);
  }
  return best;
}

GroupEstimate estimate_new_group(const MixedModel& model, const MixedFit& fit, const MixedGroup& group) {
  assert(fit.usable());
  const auto p = static_cast<Index>(model.parameter_count);
  const auto q = static_cast<Index>(model.random.size());
  Matrix prior = Eigen::Map<const Matrix>(fit.fixed_covariance.data(), p, p);
  const Matrix psi = Eigen::Map<const Matrix>(fit.random_covariance.data(), q, q);
  const auto parameter = [&](Index k) { return static_cast<Index>(model.random[static_cast<std::size_t>(k)]); };
  for (Index i = 0; i < q; ++i)
    for (Index j = 0; j < q; ++j) prior(parameter(i), parameter(j)) += psi(i, j);
  // phi = beta + C z with prior = C C': the same search as for the random effects of one group.
  const Matrix c = prior.llt().matrixL();
  const Vector beta = Eigen::Map<const Vector>(fit.fixed.data(), p);
  const MixedOptions options;
  const MixedSearch search(model, {&group, 1}, options, {});
  const double sigma = fit.residual_sd;
  const auto cost = [&](const Vector& z) {
    return search.sum_of_squares(0, beta + c * z) / (sigma * sigma) + z.squaredNorm();
  };
  GroupEstimate estimate;
  Vector z = Vector::Zero(p);
  Matrix information = Matrix::Identity(p, p);
  double now = cost(z);
  for (int step = 0; step < most_steps && !estimate.found; ++step) {
    const Vector phi = beta + c * z;
    const auto linear = search.linearise(0, phi);
    if (!linear) break;
    const Matrix x = linear->x * c / sigma;
    information = Matrix::Identity(p, p) + x.transpose() * x;
    const Vector target = information.llt().solve(x.transpose() * (linear->w - linear->x * beta) / sigma);
    Vector move = target - z;
    // In standard deviations of the prior, within which everything that is left to know lies.
    estimate.found = move.norm() < 1e-6;
    double then = cost(z + move);
    for (int halving = 0; halving < most_halvings && !(then <= now); ++halving) {
      move /= 2;
      then = cost(z + move);
    }
    if (!(then <= now)) break;
    z += move;
    now = then;
  }
  estimate.parameters = as_values(beta + c * z);
  set_covariance(estimate, c * information.llt().solve(Matrix::Identity(p, p)) * c.transpose());
  return estimate;
}

} // namespace docket
