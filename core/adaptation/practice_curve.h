// Practice curves of one person: time against own cumulative cycle, on logarithms.
//
// Model     ln y = ln m(n) + e;  m(n) = c + a g(n), a >= 0, c >= 0:
//             constant c;  power a n^-b;  power_plateau c + a n^-b;  exponential_plateau c + a exp(-n/tau);
//             hyperbolic_plateau c + a/(1 + n/h);  two_phase c + a1 exp(-n/tau1) + a2 exp(-n/tau2), tau2 >= 5 tau1
// Source    power: Newell & Rosenbloom 1981, in Cognitive Skills and their Acquisition, 1-55; plateau: de Jong 1957,
//           Ergonomics 1, 51-60; exponential: Heathcote, Brown & Mewhort 2000, Psychonomic Bulletin & Review 7, 185-207;
//           hyperbolic: Mazur & Hastie 1978, Psychological Bulletin 85, 1256-1274
// Method    the linear part solved exactly for each shape (linear_part.h), shapes searched by rule (shape_search.h); lower
//           bounds by censored likelihood; cycles grouped in blocks no wider than 2 % of n and 1.25 % of the cycles seen
// Spread    curve_profile.h
// Assumes   multiplicative errors of equal size; dependence is met by phi
// Checked   tests/core/adaptation/practice_curve_test.cpp
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace docket {

enum class CurveModel : std::uint8_t {
  constant,
  power,
  power_plateau,
  exponential_plateau,
  hyperbolic_plateau,
  two_phase
};
/// Those averaged, in the order printed.
inline constexpr std::array<CurveModel, 6> curve_models{CurveModel::constant,           CurveModel::power,
                                                        CurveModel::power_plateau,      CurveModel::exponential_plateau,
                                                        CurveModel::hyperbolic_plateau, CurveModel::two_phase};

std::string_view name_of(CurveModel model);

/// Cycles grouped in blocks, in which ln m(n) is as good as straight.
struct CurveData {
  std::vector<double> n, ln_y, weight;                   ///< mean own cycle, mean of ln y, cycles in the block
  double within_ss = 0;                                  ///< squared deviations of ln y within blocks
  double count = 0;                                      ///< cycles in the blocks
  std::vector<double> bound_n, bound_ln_y, bound_weight; ///< cycles that took at least so long: helped or cut short
};

/// `n` rising, 1 or more; `seconds` above 0.
CurveData group_cycles(std::span<const double> n, std::span<const double> seconds);

/// Adds cycles that took `seconds` or more; those near one another in n and within 5 % in time are taken together.
void add_lower_bounds(CurveData& data, std::span<const double> n, std::span<const double> seconds);

struct CurveFit {
  CurveModel model = CurveModel::constant;
  int parameters = 0;             ///< of curve and spread together
  double c = 0;                   ///< [s], what practice leaves; 0 for power
  double excess = 0;              ///< [s], a g(first cycle): what practice still had to remove there; 0 for constant
  double first = 1;               ///< own cycle of the first block
  double shape = 0;               ///< b [1], tau or h [cycles]; 0 for constant
  double excess2 = 0, shape2 = 0; ///< the slow part of two phases
  double sigma = 0;               ///< SD of ln y around the curve
  double rss = 0;                 ///< residual sum of squares of ln y in the blocks and within them
  double cost = 0;                ///< -2 log likelihood, less N (ln 2 pi + 1)
  double log_likelihood = 0;
  double at(double cycle) const;    ///< m(n) [s]
  double level(double cycle) const; ///< m(n) e^(sigma^2/2) [s], what the person averages there
};

/// `data` has a count of 3 or more.
CurveFit fit_curve(const CurveData& data, CurveModel model);

/// AICc with deviance/phi and n/phi (Burnham & Anderson 2002, Model Selection and Multimodel Inference, 2.4 and 2.5).
double corrected_aic(const CurveFit& fit, double count, double phi);

/// Akaike weights, exp(-delta/2) over their sum (Burnham & Anderson 2002, 2.9); equal where every value is infinite.
std::vector<double> akaike_weights(std::span<const double> aicc);

} // namespace docket
