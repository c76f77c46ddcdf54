#include "core/adaptation/shape_search.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace docket {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr double least_power = 1e-3, most_power = 3;
constexpr double most_time_like = 30; ///< times the last cycle
constexpr double least_apart = 5;     ///< the second phase is at least so many times as slow
constexpr int grid_of_one = 18, grid_of_quick = 10, grid_of_apart = 5;
constexpr std::size_t starts = 3; ///< lowest places of the grid that are followed downhill
constexpr int most_steps = 40;
constexpr double longest_step = 1; ///< [1] of ln shape
constexpr double enough_for_fit = 1e-10;
constexpr std::size_t most_unknowns = 6; ///< three linear ones, two shapes, one multiplier

/// Gauss-Newton step of shapes and linear part together, with the condition held to first order; only its shapes are used.
class JointStep {
public:
  JointStep(const CurveData& data, CurveModel model, const LnShape& at, const LinearSolution& linear,
            const std::optional<HeldQuantity>& held)
      : data_(data), model_(model), ln_shape_(ln_shape_of(at)), linear_(linear), first_(data.n.front()) {
    for (std::size_t i = 0; i < 3; ++i)
      if ((linear.face >> i & 1U) != 0) part_[parts_++] = i;
    shapes_ = static_cast<std::size_t>(parts_of(model).falling);
    for (std::size_t i = 0; i < data.n.size(); ++i) {
      const Row row = row_at(data.n[i]);
      add(row, data.ln_y[i] - std::log(row.m), data.weight[i]);
    }
    for (std::size_t i = 0; i < data.bound_n.size(); ++i) {
      const Row row = row_at(data.bound_n[i]);
      const double z = (data.bound_ln_y[i] - std::log(row.m)) / linear.sigma, h = beyond(z).hazard;
      add(row, linear.sigma / (h - z), data.bound_weight[i] * h * (h - z));
    }
    if (held) add_condition(*held);
  }

  /// In the coordinates of the box; 0 for a shape that nothing hangs on.
  LnShape solve() {
    const std::size_t unknowns = parts_ + shapes_;
    for (std::size_t k = parts_; k < unknowns; ++k) {
      auto& diagonal = system_[k][k];
      diagonal = diagonal > 1e-14 ? diagonal * (1 + 1e-9) : 1; // a shape without a part stays where it is
    }
    const std::size_t n = unknowns + (conditioned_ ? 1 : 0);
    for (std::size_t k = 0; k < n; ++k) {
      std::size_t pivot = k;
      for (std::size_t i = k + 1; i < n; ++i)
        if (std::abs(system_[i][k]) > std::abs(system_[pivot][k])) pivot = i;
      std::swap(system_[k], system_[pivot]);
      if (!(std::abs(system_[k][k]) > 1e-300)) return {};
      for (std::size_t i = 0; i < n; ++i) {
        if (i == k) continue;
        const double factor = system_[i][k] / system_[k][k];
        for (std::size_t j = k; j <= n; ++j)
          system_[i][j == n ? most_unknowns : j] -= factor * system_[k][j == n ? most_unknowns : j];
      }
    }
    LnShape step{};
    for (std::size_t k = 0; k < shapes_; ++k)
      step[k] = system_[parts_ + k][most_unknowns] / system_[parts_ + k][parts_ + k];
    return std::isfinite(step[0]) && std::isfinite(step[1]) ? step : LnShape{};
  }

private:
  struct Row {
    std::array<double, most_unknowns> d{}; ///< d m by each unknown
    double m = 0;
  };

  /// d of sum beta_j g_j by the box's coordinates: the first moves both shapes.
  LnShape by_shape(const CurveVector& slope) const {
    const double quick = linear_.beta[1] * slope[1], slow = linear_.beta[2] * slope[2];
    return {quick + slow, slow};
  }

  Row row_at(double n) const {
    const CurveVector g = column_of(model_, ln_shape_, n, first_);
    const LnShape by = by_shape(column_slope_of(model_, ln_shape_, n, first_));
    Row row;
    row.m = linear_.beta[0] * g[0] + linear_.beta[1] * g[1] + linear_.beta[2] * g[2];
    for (std::size_t i = 0; i < parts_; ++i) row.d[i] = g[part_[i]];
    for (std::size_t k = 0; k < shapes_; ++k) row.d[parts_ + k] = by[k];
    return row;
  }

  void add(const Row& row, double residual, double weight) {
    const std::size_t unknowns = parts_ + shapes_;
    const double inverse = 1 / row.m;
    for (std::size_t r = 0; r < unknowns; ++r) {
      const double d = weight * row.d[r] * inverse;
      for (std::size_t c = 0; c < unknowns; ++c) system_[r][c] += d * row.d[c] * inverse;
      system_[r][most_unknowns] += d * residual;
    }
  }

  void add_condition(const HeldQuantity& held) {
    conditioned_ = true;
    const CurveVector to = column_of(model_, ln_shape_, held.to, first_);
    const CurveVector from = column_of(model_, ln_shape_, held.from, first_);
    const LnShape by_to = by_shape(column_slope_of(model_, ln_shape_, held.to, first_));
    const LnShape by_from = by_shape(column_slope_of(model_, ln_shape_, held.from, first_));
    const std::size_t row = parts_ + shapes_;
    for (std::size_t i = 0; i < parts_; ++i)
      system_[row][i] = system_[i][row] = to[part_[i]] - held.ratio * from[part_[i]];
    for (std::size_t k = 0; k < shapes_; ++k)
      system_[row][parts_ + k] = system_[parts_ + k][row] = by_to[k] - held.ratio * by_from[k];
    // The linear part meets the condition already.
  }

  const CurveData& data_;
  CurveModel model_;
  std::array<double, 2> ln_shape_;
  const LinearSolution& linear_;
  double first_;
  std::array<std::size_t, 3> part_{};
  std::size_t parts_ = 0, shapes_ = 0;
  bool conditioned_ = false;
  std::array<std::array<double, most_unknowns + 1>, most_unknowns> system_{};
};

} // namespace

LnShape ShapeRange::clamp(LnShape at) const {
  at[0] = std::clamp(at[0], low[0], high[0]);
  at[1] = std::clamp(at[1], low[1], std::max(low[1], std::min(high[1], most_sum - at[0])));
  return at;
}

bool ShapeRange::contains(const LnShape& at) const {
  return at[0] >= low[0] && at[0] <= high[0] && at[1] >= low[1] && at[1] <= high[1] && at[0] + at[1] <= most_sum + 1e-9;
}

ShapeRange shape_range(const CurveData& data, CurveModel model) {
  const double first = data.n.front(), last = data.n.back(), span = std::max(1.0, last - first);
  const bool power = model == CurveModel::power || model == CurveModel::power_plateau;
  const double low = power ? std::log(least_power) : std::log(std::max(1.0, span / 200));
  const double high = power ? std::log(most_power) : std::log(most_time_like * last);
  if (model == CurveModel::constant) return {};
  if (model != CurveModel::two_phase) return {{low, 0}, {high, 0}, high};
  const double apart = std::log(least_apart);
  return {{low, apart}, {high - apart, std::max(apart, high - low)}, high};
}

CurveCondition condition_at(const HeldQuantity& held, CurveModel model, const LnShape& at, double first) {
  const CurveVector to = column_of(model, ln_shape_of(at), held.to, first);
  const CurveVector from = column_of(model, ln_shape_of(at), held.from, first);
  return {{to[0] - held.ratio * from[0], to[1] - held.ratio * from[1], to[2] - held.ratio * from[2]}, held.seconds};
}

BestShape refine_shape(const CurveData& data, CurveModel model, const LnShape& at, const LinearStart& near,
                       const std::optional<HeldQuantity>& held, double enough) {
  const ShapeRange range = shape_range(data, model);
  const auto solve = [&](const LnShape& there, const LinearStart& start) {
    const auto condition = held ? std::optional(condition_at(*held, model, there, data.n.front())) : std::nullopt;
    return solve_linear_part(data, model, ln_shape_of(there), condition, start);
  };
  BestShape best{at, solve(at, near)};
  if (parts_of(model).falling == 0) return best;
  for (int i = 0; i < most_steps && std::isfinite(best.linear.cost); ++i) {
    LnShape step = JointStep(data, model, best.at, best.linear, held).solve();
    const double length = std::max(std::abs(step[0]), std::abs(step[1]));
    if (length > longest_step)
      for (double& one : step) one *= longest_step / length;
    const LinearStart start{best.linear.face, best.linear.beta, best.linear.sigma};
    double gained = 0;
    for (int half = 0; half < 6 && gained <= 0; ++half) {
      const LnShape there = range.clamp({best.at[0] + step[0], best.at[1] + step[1]});
      if (there == best.at) break;
      const LinearSolution linear = solve(there, start);
      gained = best.linear.cost - linear.cost;
      if (gained > 0) best = {there, linear};
      if (std::abs(gained) <= enough) break; // as low as this gets, whichever way it moved
      for (double& one : step) one /= 3;
    }
    if (!(gained > enough)) break;
  }
  return best;
}

BestShape find_best_shape(const CurveData& data, CurveModel model) {
  const ShapeRange range = shape_range(data, model);
  const int falling = parts_of(model).falling;
  std::vector<BestShape> looked;
  LinearStart near;
  const auto look = [&](const LnShape& at) {
    if (!range.contains(at)) return;
    looked.push_back({at, solve_linear_part(data, model, ln_shape_of(at), {}, near)});
    const LinearSolution& linear = looked.back().linear;
    if (std::isfinite(linear.cost)) near = {linear.face, linear.beta, linear.sigma};
  };
  if (falling == 0) look({});
  if (falling == 1)
    for (int i = 0; i <= grid_of_one; ++i) look({range.low[0] + (range.high[0] - range.low[0]) * i / grid_of_one, 0});
  if (falling == 2)
    for (int i = 0; i <= grid_of_quick; ++i)
      for (int j = 0; j <= grid_of_apart; ++j)
        look({range.low[0] + (range.high[0] - range.low[0]) * i / grid_of_quick,
              range.low[1] + (range.high[1] - range.low[1]) * j / (grid_of_apart + 2)});
  std::stable_sort(looked.begin(), looked.end(),
                   [](const BestShape& a, const BestShape& b) { return a.linear.cost < b.linear.cost; });
  BestShape best;
  best.linear.cost = none;
  for (std::size_t i = 0; i < std::min(looked.size(), falling == 2 ? starts : 1); ++i) {
    const LinearSolution& linear = looked[i].linear;
    BestShape found =
        refine_shape(data, model, looked[i].at, {linear.face, linear.beta, linear.sigma}, {}, enough_for_fit);
    if (found.linear.cost < best.linear.cost) best = std::move(found);
  }
  return best;
}

} // namespace docket
