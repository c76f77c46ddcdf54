// Least squares where some parameters are linear: they are solved exactly for each value of the others, the shapes.
//
// Model     y = X(shape) c + offset(shape) + error; c free, or c >= 0
// Source    variable projection: G. H. Golub, V. Pereyra, SIAM Journal on Numerical Analysis 10 (1973), 413-432; the
//           shorter Jacobian, same slope of the sum of squares: L. Kaufman, BIT 15 (1975), 49-57 (page numbers from
//           memory)
// Method    the shapes alone by nonlinear_least_squares.h, from the best corners of a grid; then all parameters together
//           from there, which gives their covariance. c >= 0 by trying every choice of the c that are 0
// Spread    as nonlinear_least_squares.h
// Assumes   as nonlinear_least_squares.h
// Checked   tests/core/statistics/fitting/separable_least_squares_test.cpp: NIST StRD, the separable sets, with no start but the
//           grid; closed forms with c >= 0
#pragma once

#include "core/statistics/fitting/nonlinear_least_squares.h"

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// Finite low < high. The grid has `grid_points` values from low to high, equal steps or equal ratios.
struct Shape {
  double low = 0;
  double high = 1;
  int grid_points = 9;
  bool equal_ratios = false; ///< low > 0
};

struct SeparableProblem {
  std::vector<double> y;
  std::size_t linear_count = 1;
  bool has_offset = false; ///< the basis has one more column, whose coefficient is 1
  std::vector<Shape> shapes;
  /// Fills X(shape) row by row, linear_count columns and the offset.
  std::function<void(std::span<const double> shape, std::span<double> basis)> basis;
  /// Fills the derivative of the same columns by shape `which`.
  std::function<void(std::span<const double> shape, std::size_t which, std::span<double> derivative)> basis_derivative;
  bool non_negative = false;      ///< c >= 0; at most 3 linear parameters
  std::vector<std::string> names; ///< linear parameters, then shapes; empty: parameter 1, parameter 2 ..
  std::function<std::string(std::span<const double> p)> outside_model; ///< as LeastSquaresProblem
  double observations = 0;                                             ///< as LeastSquaresProblem
  double within_ss = 0;
};

/// All parameters together: linear ones first, then the shapes, with their bounds. A copy; outlives `problem`.
LeastSquaresProblem whole_problem(const SeparableProblem& problem);

/// The linear parameters that fit best at one shape, and the residual sum of squares there (infinite: no model).
struct LinearPart {
  std::vector<double> coefficients;
  double rss = 0;
};
LinearPart fit_linear_part(const SeparableProblem& problem, std::span<const double> shape);

/// Shapes of the grid with no better neighbour in any direction of the grid, best first, at most `most`.
std::vector<std::vector<double>> best_of_grid(const SeparableProblem& problem, std::size_t most = 5);

/// Parameters: linear ones first, then shapes. `start` of the result counts in the order of best_of_grid.
LeastSquaresFit fit_separable(const SeparableProblem& problem, const FitOptions& options = {});

/// From starts of the shapes alone, one or more.
LeastSquaresFit fit_separable(const SeparableProblem& problem, std::span<const std::vector<double>> shape_starts,
                              const FitOptions& options = {});

} // namespace docket
