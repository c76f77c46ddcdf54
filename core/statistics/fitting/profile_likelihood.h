// Profile likelihood: how well the data determine one parameter, or one quantity of the parameters.
//
// Model     S(v) = smallest sum of squares with q(p) = v;  deviance n ln(S(v) / S) over phi, or (S(v) - S) / (s^2 phi)
// Source    D. J. Venzon, S. H. Moolgavkar, Applied Statistics 37 (1988), 87-94; the second measure, profile t: D. M.
//           Bates, D. G. Watts, Nonlinear Regression Analysis and Its Applications (1988), chapter 6; augmented
//           Lagrangian: M. J. D. Powell and M. R. Hestenes, 1969, as in J. Nocedal, S. J. Wright, Numerical Optimization
//           (2006), chapter 17 (page numbers from memory)
// Method    a parameter is fixed by its bounds, which eliminates it exactly. A quantity is held by one more residual
//           (augmented Lagrangian): the refit stays a bounded least-squares problem of nonlinear_least_squares.h, needs
//           no solving of q for a parameter, and may start where q is not yet v. Refits start at the last point and at
//           the fit. Ends by steps outward until the root is passed, then regula falsi (Illinois)
// Spread    an end is absent, with the reason, where the profile never gets there or the range ends before
// Assumes   fit is the smallest sum of squares; where a refit finds a smaller one, that is said
// Checked   tests/core/statistics/fitting/profile_likelihood_test.cpp: closed form for straight lines; R's nls refitted for
//           Puromycin (Bates & Watts 1988) and BoxBOD; ends that are not there
#pragma once

#include "core/statistics/fitting/nonlinear_least_squares.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// One parameter, or a smooth quantity of them all.
struct ProfiledQuantity {
  std::optional<std::size_t> parameter; ///< then nothing else is needed
  std::function<double(std::span<const double> p)> value;
  std::function<void(std::span<const double> p, std::span<double> gradient)> gradient;
  ParameterBounds range; ///< what the quantity can be; for a parameter its bounds hold as well
};

ProfiledQuantity profile_of_parameter(std::size_t j);

enum class ProfileMeasure : std::uint8_t {
  deviance,      ///< against the normal distribution
  variance_ratio ///< against Student's t with the df of the fit
};

struct ProfileOptions {
  ProfileMeasure measure = ProfileMeasure::deviance;
  double phi = 1; ///< [1] what dependence adds to the variance of a mean; above 0
};

struct ProfilePoint {
  double value = 0;
  double rss = 0;                 ///< smallest with q = value; infinite where it can't be reached
  double root = 0;                ///< signed, above 0 where `value` is above the fitted one; infinite as rss
  std::vector<double> parameters; ///< at that smallest
  bool reached = false;           ///< there are parameters with q = value, and a finite model
  bool better_than_fit = false;   ///< its sum of squares is smaller than that of the fit; root is 0 then
};

/// `fit` is a fit of `problem`, with rss and df above 0. `near`: parameters to start from, beside those of the fit.
ProfilePoint profile_at(const LeastSquaresProblem& problem, const LeastSquaresFit& fit,
                        const ProfiledQuantity& quantity, double value, const ProfileOptions& options = {},
                        std::span<const double> near = {});

struct ProfileInterval {
  double fitted = 0;                            ///< the quantity at the fit
  std::optional<double> low, high;              ///< absent: no end on that side
  std::string low_why, high_why;                ///< a sentence, where absent
  std::optional<std::vector<double>> better_at; ///< parameters that fit better than the fit, where a refit met them
};

/// Values whose root is within -root and root; root > 0: a quantile of the normal or of Student's t, by the measure.
ProfileInterval profile_interval(const LeastSquaresProblem& problem, const LeastSquaresFit& fit,
                                 const ProfiledQuantity& quantity, double root, const ProfileOptions& options = {});

} // namespace docket
