// Nonlinear least squares with bounds on the parameters, from one start or several.
//
// Model     S(p) = sum of r_i(p)^2, smallest over the box low <= p <= high
// Source    trust region with scaled parameters: K. Levenberg, Quarterly of Applied Mathematics 2 (1944), 164-168;
//           D. W. Marquardt, Journal of SIAM 11 (1963), 431-441; J. J. More, Lecture Notes in Mathematics 630 (1978),
//           105-116; bounds by projection: C. Kanzow, N. Yamashita, M. Fukushima, Journal of Computational and Applied
//           Mathematics 172 (2004), 375-397; how near the end is: D. M. Bates, D. G. Watts, Technometrics 23 (1981),
//           179-183 (page numbers from memory)
// Method    step from the singular values of the scaled Jacobian, radius as in More 1978; a parameter that would leave
//           its box stays on the edge and the others are solved again. Steps without damping at the end, as long as
//           they shrink: the sum of squares is flat there to half the digits, its slope is not.
//           Of several starts the smallest sum wins; equal to 1e-9, the earlier start. No chance in it
// Spread    covariance s^2 (J'J)^-1 of the parameters inside their box, s^2 = S / (n - parameters not fixed)
// Assumes   r smooth; errors independent, normal, of one variance; a symmetric spread where the profile is nearly a
//           parabola (profile_likelihood.h says whether it is)
// Checked   tests/core/statistics/fitting/nonlinear_least_squares_test.cpp: NIST StRD, all 27 sets from both starts; closed
//           forms with bounds
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// low <= high; equal: the parameter is fixed there.
struct ParameterBounds {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
};

struct LeastSquaresProblem {
  std::size_t residual_count = 0;
  std::size_t parameter_count = 0;
  /// Fills r(p). A value that is not finite: there is no model at p, and the search turns elsewhere.
  std::function<void(std::span<const double> p, std::span<double> r)> residuals;
  /// Fills dr/dp row by row: dr_i/dp_j at [i * parameter_count + j].
  std::function<void(std::span<const double> p, std::span<double> jacobian)> jacobian;
  std::vector<ParameterBounds> bounds; ///< one a parameter; empty: no bounds
  std::vector<std::string> names;      ///< as the reasons call the parameters; empty: parameter 1, parameter 2 ..
  /// Why parameters that fit say nothing, in a sentence; empty where they do. May be left out.
  std::function<std::string(std::span<const double> p)> outside_model;
  /// Where one residual stands for several observations (root of their number times the residual of their mean): how
  /// many there are in all, 0 for one each, and the squared deviations from those means.
  double observations = 0;
  double within_ss = 0;
};

enum class FitOutcome : std::uint8_t {
  converged,
  at_bound,       ///< converged, with a parameter at the edge of its box
  flat_direction, ///< parameters can change together without changing the fit
  no_progress,    ///< stopped before the end was reached
  not_finite,     ///< no start has a finite model
  outside_model   ///< converged, where the model says nothing
};

std::string_view name_of(FitOutcome outcome);

enum class BoundMet : std::uint8_t { none, low, high, fixed };

struct LeastSquaresFit {
  FitOutcome outcome = FitOutcome::not_finite;
  std::string reason;                  ///< a sentence, for every outcome
  std::vector<double> parameters;      ///< the start where not_finite
  std::vector<double> standard_errors; ///< NaN at a bound, in a flat direction, without degrees of freedom
  std::vector<double> covariance;      ///< row by row; NaN as above
  std::vector<BoundMet> bound_met;     ///< one a parameter
  double rss = 0;                      ///< with what lies within the observations of one residual
  double df = 0;                       ///< observations less parameters not fixed
  double residual_sd = 0;              ///< NaN where df is not above 0
  int iterations = 0;                  ///< of the start that won
  std::size_t start = 0;               ///< which one won, from 0

  /// The parameters may be used.
  bool usable() const { return outcome == FitOutcome::converged || outcome == FitOutcome::at_bound; }
};

struct FitOptions {
  int most_iterations = 3000;
  /// [1] of the scaled length of the start: no first step is longer than the start itself. Chosen after trying 0.1, 1, 10
  /// and 100 on the NIST sets: 1 and 10 reach all from both starts, 100 fails BoxBOD and MGH10 from start 1, and 0.1
  /// gives MGH17 from start 1 with its two exponentials exchanged.
  double first_radius = 1;
};

/// `starts` has one or more; one outside the box is moved to its edge.
LeastSquaresFit fit_least_squares(const LeastSquaresProblem& problem, std::span<const std::vector<double>> starts,
                                  const FitOptions& options = {});

/// Starts by rule, evenly over a finite box: the points of Halton's sequence (J. H. Halton, Numerische Mathematik 2
/// (1960), 84-90). At most 16 parameters.
std::vector<std::vector<double>> starts_in_box(std::span<const ParameterBounds> box, std::size_t count);

/// Largest difference between the Jacobian at p and central differences, in units of the largest number in its column.
double jacobian_error(const LeastSquaresProblem& problem, std::span<const double> p);

} // namespace docket
