#include "core/adaptation/shape_search.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace docket {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr double least_power = 1e-3, most_power = 3;
constexpr double most_time_like = 30; ///< times the last cycle
constexpr double least_apart = 5;     ///< the second phase is at least so many times as slow
constexpr int grid_of_one = 18;
constexpr int grid_of_quick = 10, grid_of_apart = 5, simplex_steps = 70;

} // namespace

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

BestShape find_best_shape(const CurveData& data, CurveModel model) {
  const ShapeRange range = shape_range(data, model);
  const auto solve = [&](const LnShape& at) { return solve_linear_part(data, model, ln_shape_of(at)); };
  const auto cost = [&](const LnShape& at) {
    for (std::size_t k = 0; k < 2; ++k)
      if (at[k] < range.low[k] || at[k] > range.high[k]) return none;
    if (model == CurveModel::two_phase && at[0] + at[1] > range.most_sum) return none;
    return solve(at).cost;
  };
  LnShape best = range.low;
  double least = none;
  const auto look = [&](const LnShape& at) {
    const double value = cost(at);
    if (value < least) {
      least = value;
      best = at;
    }
  };
  const int falling = parts_of(model).falling;
  if (falling == 1) {
    const double step = (range.high[0] - range.low[0]) / grid_of_one;
    for (int i = 0; i <= grid_of_one; ++i) look({range.low[0] + step * i, 0});
    look({golden_section(std::max(range.low[0], best[0] - step), std::min(range.high[0], best[0] + step),
                         [&](double x) {
                           return cost({x, 0});
                         }),
          0});
  } else if (falling == 2) {
    for (int i = 0; i <= grid_of_quick; ++i)
      for (int j = 0; j <= grid_of_apart; ++j)
        look({range.low[0] + (range.high[0] - range.low[0]) * i / grid_of_quick,
              range.low[1] + (range.high[1] - range.low[1]) * j / (grid_of_apart + 2)});
    look(descend_shapes(best, cost, simplex_steps));
  }
  return {best, solve(best)};
}

} // namespace docket
