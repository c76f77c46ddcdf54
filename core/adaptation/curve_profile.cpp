#include "core/adaptation/curve_profile.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace docket {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr std::size_t nodes_of_one = 41, columns_across = 9, coarse_quick = 13, coarse_apart = 7;
constexpr int most_rows = 24;  ///< on one side
constexpr double matters = 20; ///< [1] deviance over phi beyond which a shape can't matter: a root of 4.5
constexpr double far_out = 13; ///< [1] deviance over phi: a root of 3.6, where reading is good enough
constexpr int most_zooms = 3, golden_steps = 14;
constexpr double as_read = 0.1,
                 as_read_share = 0.15; ///< [1] deviance over phi by which reading and computing may differ
constexpr double near_the_best = 1;    ///< [1] deviance over phi: here the fitted shape itself is looked at too

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

/// Where a parabola through three values at -1, 0 and 1 is least, and its value; 0 where the middle is not the least.
struct Vertex {
  double at = 0, value = 0;
};

Vertex vertex_of(double before, double here, double after) {
  if (!std::isfinite(before) || !std::isfinite(after) || before < here || after < here) return {0, here};
  const double bend = after - 2 * here + before;
  if (!(bend > 0)) return {0, here};
  const double at = (before - after) / (2 * bend);
  return {at, here - (before - after) * (before - after) / (8 * bend)};
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

void CurveProfile::fill_line(const CurveData& data) {
  const ShapeRange range = shape_range(data, fit_.model);
  double low = range.low[0], high = range.high[0];
  for (int zoom = 0;; ++zoom) {
    const double step = (high - low) / static_cast<double>(nodes_of_one - 1);
    nodes_.clear();
    LinearStart near;
    for (std::size_t i = 0; i < nodes_of_one; ++i)
      nodes_.push_back(node_at(data, {low + step * static_cast<double>(i), 0}, near));
    if (zoom == most_zooms) return;
    double from = std::log(fit_.shape), to = from;
    for (const Node& one : nodes_) {
      if (!(one.cost < fit_.cost + matters * phi_)) continue;
      from = std::min(from, one.at[0]);
      to = std::max(to, one.at[0]);
    }
    from = std::max(low, from - step);
    to = std::min(high, to + step);
    if (to - from > 0.6 * (high - low)) return;
    low = from;
    high = to;
  }
}

void CurveProfile::fill_valley(const CurveData& data) {
  const ShapeRange range = shape_range(data, fit_.model);
  const LnShape width{range.high[0] - range.low[0], range.high[1] - range.low[1]};
  const auto inside = [&](const LnShape& at) {
    return at[0] >= range.low[0] && at[0] <= range.high[0] && at[1] >= range.low[1] && at[1] <= range.high[1] &&
           at[0] + at[1] <= range.most_sum + 1e-9;
  };
  LinearStart near;
  const auto at_or_none = [&](const LnShape& at) {
    return inside(at) ? node_at(data, at, near) : Node{at, none, 0, {}};
  };
  for (std::size_t i = 0; i < coarse_quick; ++i)
    for (std::size_t j = 0; j < coarse_apart; ++j) {
      Node one = at_or_none({range.low[0] + width[0] * static_cast<double>(i) / (coarse_quick - 1.0),
                             range.low[1] + width[1] * static_cast<double>(j) / (coarse_apart - 1.0)});
      if (one.cost < fit_.cost + matters * phi_) elsewhere_.push_back(std::move(one));
    }

  // The directions of the valley, from how the cost bends at the fitted shape.
  const LnShape own{std::log(fit_.shape), std::log(fit_.shape2 / fit_.shape)};
  constexpr double h = 0.04;
  const auto cost = [&](double dx, double dy) {
    return solve_linear_part(data, fit_.model, ln_shape_of({own[0] + dx, own[1] + dy})).cost;
  };
  const double here = cost(0, 0), xx = (cost(h, 0) + cost(-h, 0) - 2 * here) / (h * h);
  const double yy = (cost(0, h) + cost(0, -h) - 2 * here) / (h * h);
  const double xy = (cost(h, h) + cost(-h, -h) - cost(h, -h) - cost(-h, h)) / (4 * h * h);
  const double half_turn = 0.5 * std::atan2(2 * xy, xx - yy); // direction of the largest bend
  const LnShape steep{std::cos(half_turn), std::sin(half_turn)}, flat{-steep[1], steep[0]};
  const auto bend = [&](const LnShape& d) { return xx * d[0] * d[0] + 2 * xy * d[0] * d[1] + yy * d[1] * d[1]; };
  // So far the deviance over phi goes up by one; no further than a part of the box.
  const auto unit = [&](const LnShape& d, double parts) {
    const double most = std::min(width[0], width[1]) / parts, b = bend(d);
    return b > 0 ? std::min(most, std::sqrt(2 * phi_ / b)) : most;
  };
  const double across = unit(steep, 8), along = std::max(0.7 * unit(flat, 10), across);
  columns_ = columns_across;

  const auto row_at = [&](const LnShape& centre) {
    std::vector<Node> row;
    for (std::size_t j = 0; j < columns_; ++j) {
      const double away = across * (static_cast<double>(j) - (static_cast<double>(columns_) - 1) / 2);
      row.push_back(at_or_none({centre[0] + steep[0] * away, centre[1] + steep[1] * away}));
    }
    return row;
  };
  const auto lowest = [](const std::vector<Node>& row) {
    return static_cast<std::size_t>(
        std::min_element(row.begin(), row.end(), [](const Node& a, const Node& b) { return a.cost < b.cost; }) -
        row.begin());
  };
  const auto follow = [&](double way) {
    std::vector<std::vector<Node>> rows;
    LnShape centre = own, drift{};
    for (int i = 0; i < most_rows; ++i) {
      centre = {centre[0] + way * along * flat[0] + drift[0], centre[1] + way * along * flat[1] + drift[1]};
      std::vector<Node> row = row_at(centre);
      const std::size_t j = lowest(row);
      if (!(row[j].cost < fit_.cost + matters * phi_)) break;
      // The floor of the valley bends: the next row starts from where this one is lowest.
      double off = static_cast<double>(j) - (static_cast<double>(columns_) - 1) / 2;
      if (j > 0 && j + 1 < columns_) off += vertex_of(row[j - 1].cost, row[j].cost, row[j + 1].cost).at;
      drift = {steep[0] * across * off, steep[1] * across * off};
      rows.push_back(std::move(row));
    }
    return rows;
  };
  std::vector<std::vector<Node>> before = follow(-1), after = follow(1);
  std::reverse(before.begin(), before.end());
  before.push_back(row_at(own));
  before.insert(before.end(), std::make_move_iterator(after.begin()), std::make_move_iterator(after.end()));
  for (std::vector<Node>& row : before)
    nodes_.insert(nodes_.end(), std::make_move_iterator(row.begin()), std::make_move_iterator(row.end()));
}

CurveProfile::CurveProfile(const CurveData& data, const CurveFit& fit, double phi)
    : fit_(fit), phi_(phi), count_(data.count) {
  const int falling = parts_of(fit.model).falling;
  LinearStart near;
  if (falling == 0) nodes_.push_back(node_at(data, {}, near));
  if (falling == 1) fill_line(data);
  if (falling == 2) fill_valley(data);
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

template <class Exact>
double CurveProfile::searched(const LnShape& near, Exact exact) const {
  if (columns_ > 1) return exact(descend_shapes(near, exact));
  const double low = nodes_.front().at[0], high = nodes_.back().at[0], reach = 2 * (nodes_[1].at[0] - low);
  const double at = golden_section(
      std::max(low, near[0] - reach), std::min(high, near[0] + reach),
      [&](double x) {
        return exact({x, 0});
      },
      golden_steps);
  return exact({at, 0});
}

template <class Condition>
double CurveProfile::least_cost(const CurveData& data, Condition condition) const {
  LinearStart near; // where the best of the grid lies
  const auto exact = [&](const LnShape& at) {
    return solve_linear_part(data, fit_.model, ln_shape_of(at), condition(ln_shape_of(at)), near).cost;
  };
  const LnShape own{std::log(std::max(fit_.shape, 1e-300)), columns_ > 1 ? std::log(fit_.shape2 / fit_.shape) : 0};
  if (nodes_.size() == 1) return exact(own);
  const auto read_at = [&](const Node& one) {
    return one.faces.empty() ? Held{none, {}} : cost_with(one, condition(ln_shape_of(one.at)));
  };
  std::vector<double> costs(nodes_.size(), none);
  double least_read = none;
  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const Held held = read_at(nodes_[i]);
    costs[i] = held.cost;
    if (held.cost < least_read) {
      least_read = held.cost;
      near = held.near;
    }
  }
  // Across each row first, then along the rows.
  struct Place {
    LnShape at{};
    double cost = none;
  };
  const std::size_t rows = nodes_.size() / columns_;
  std::vector<Place> lowest(rows);
  for (std::size_t i = 0; i < rows; ++i) {
    const double* row = &costs[i * columns_];
    const auto j = static_cast<std::size_t>(std::min_element(row, row + columns_) - row);
    lowest[i] = {node(i, j).at, row[j]};
    if (j == 0 || j + 1 == columns_) continue;
    const Vertex vertex = vertex_of(row[j - 1], row[j], row[j + 1]);
    const LnShape &from = node(i, j).at, &to = node(i, j + 1).at;
    lowest[i] = {{from[0] + vertex.at * (to[0] - from[0]), from[1] + vertex.at * (to[1] - from[1])}, vertex.value};
  }
  const auto i = static_cast<std::size_t>(
      std::min_element(lowest.begin(), lowest.end(), [](const Place& a, const Place& b) { return a.cost < b.cost; }) -
      lowest.begin());
  Place best = lowest[i];
  if (i > 0 && i + 1 < rows) {
    const Vertex vertex = vertex_of(lowest[i - 1].cost, lowest[i].cost, lowest[i + 1].cost);
    const LnShape& to = lowest[vertex.at > 0 ? i + 1 : i - 1].at;
    const double way = std::abs(vertex.at);
    best = {{best.at[0] + way * (to[0] - best.at[0]), best.at[1] + way * (to[1] - best.at[1])}, vertex.value};
  }
  bool other_valley = false;
  for (const Node& one : elsewhere_) {
    const Held held = read_at(one);
    if (!(held.cost < std::min(best.cost, least_read) - as_read * phi_)) continue;
    other_valley = true;
    best = {one.at, held.cost};
    near = held.near;
  }
  if (!std::isfinite(best.cost)) return none;
  const bool far = best.cost > fit_.cost + far_out * phi_;
  if (far && columns_ > 1) return best.cost;
  double least = exact(best.at);
  if (far) return least;
  // Where the curve is bent too much for a quadratic, it is searched instead.
  const bool as_it_was_read = std::abs(least - best.cost) < as_read * phi_ + as_read_share * (best.cost - fit_.cost);
  if (other_valley || !as_it_was_read) {
    near = {};
    least = std::min(least, searched(best.at, exact));
  }
  if (least < fit_.cost + near_the_best * phi_) least = std::min(least, exact(own));
  return least;
}

double CurveProfile::root_of(double cost, bool above) const {
  return (above ? 1 : -1) * std::sqrt(std::max(0.0, cost - fit_.cost) / phi_);
}

double CurveProfile::level_root(const CurveData& data, double cycle, double seconds) const {
  const double m = seconds * std::exp(-fit_.sigma * fit_.sigma / 2);
  const double cost = least_cost(data, [&](const LnShape& ln_shape) {
    return CurveCondition{column_of(fit_.model, ln_shape, cycle, fit_.first), m};
  });
  return root_of(cost, seconds >= fit_.level(cycle));
}

double CurveProfile::probability_level_within(const CurveData& data, double cycle, double seconds) const {
  return normal_cdf(level_root(data, cycle, seconds));
}

double CurveProfile::probability_improvement_within(const CurveData& data, double from, double to,
                                                    double improvement) const {
  if (improvement < 0) return 0;
  if (fit_.model == CurveModel::constant) return 1;
  const double ratio = 1 - std::max(improvement, 1e-9);
  const bool above = improvement >= 1 - fit_.at(to) / fit_.at(from);
  if (fit_.model == CurveModel::power) {
    // The ratio fixes the exponent: (to / from)^-b.
    const double b = std::max(1e-12, -std::log(ratio) / std::log(to / from));
    return normal_cdf(root_of(solve_linear_part(data, fit_.model, {std::log(b), 0}).cost, above));
  }
  const double cost = least_cost(data, [&](const LnShape& ln_shape) {
    const CurveVector a = column_of(fit_.model, ln_shape, from, fit_.first);
    const CurveVector b = column_of(fit_.model, ln_shape, to, fit_.first);
    return CurveCondition{{b[0] - ratio * a[0], b[1] - ratio * a[1], b[2] - ratio * a[2]}, 0};
  });
  return normal_cdf(root_of(cost, above));
}

} // namespace docket
