#include "core/statistics/distributions.h"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

namespace docket {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// A tail beyond what a double holds is infinity or 0 here, not an exception.
namespace policies = boost::math::policies;
using Quiet = policies::policy<policies::overflow_error<policies::ignore_error>,
                               policies::underflow_error<policies::ignore_error>,
                               policies::evaluation_error<policies::ignore_error>>;
using StudentT = boost::math::students_t_distribution<double, Quiet>;
using FisherF = boost::math::fisher_f_distribution<double, Quiet>;
using ChiSquare = boost::math::chi_squared_distribution<double, Quiet>;
using NoncentralT = boost::math::non_central_t_distribution<double, Quiet>;
using Binomial = boost::math::binomial_distribution<double, Quiet>;

using Coefficients = std::array<double, 8>;

// AS 241, routine PPND16, the twenty digits of the publication. A and B: p near 0.5; C and D: p between; E and F: p
// near 0 or 1. Lowest power first.
constexpr Coefficients a{3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3,
                         1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4,
                         3.3430575583588128105e4, 2.5090809287301226727e3};
constexpr Coefficients b{1.0,
                         4.2313330701600911252e1,
                         6.8718700749205790830e2,
                         5.3941960214247511077e3,
                         2.1213794301586595867e4,
                         3.9307895800092710610e4,
                         2.8729085735721942674e4,
                         5.2264952788528545610e3};
constexpr Coefficients c{1.42343711074968357734e0,  4.63033784615654529590e0, 5.76949722146069140550e0,
                         3.64784832476320460504e0,  1.27045825245236838258e0, 2.41780725177450611770e-1,
                         2.27238449892691845833e-2, 7.74545014278341407640e-4};
constexpr Coefficients d{1.0,
                         2.05319162663775882187e0,
                         1.67638483018380384940e0,
                         6.89767334985100004550e-1,
                         1.48103976427480074590e-1,
                         1.51986665636164571966e-2,
                         5.47593808499534494600e-4,
                         1.05075007164441684324e-9};
constexpr Coefficients e{6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,
                         2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
                         2.71155556874348757815e-5, 2.01033439929228813265e-7};
constexpr Coefficients f{1.0,
                         5.99832206555887937690e-1,
                         1.36929880922735805310e-1,
                         1.48753612908506148525e-2,
                         7.86869131145613259100e-4,
                         1.84631831751005468180e-5,
                         1.42151175831644588870e-7,
                         2.04426310338993978564e-15};

double ratio_of_polynomials(const Coefficients& upper, const Coefficients& lower, double r) {
  double numerator = upper[7];
  double denominator = lower[7];
  for (std::size_t i = 7; i-- > 0;) {
    numerator = numerator * r + upper[i];
    denominator = denominator * r + lower[i];
  }
  return numerator / denominator;
}

} // namespace

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_quantile(double p) {
  assert(p >= 0 && p <= 1);
  if (p == 0) return -infinity;
  if (p == 1) return infinity;
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425) return q * ratio_of_polynomials(a, b, 0.180625 - q * q);
  const double r = std::sqrt(-std::log(q < 0 ? p : 1 - p));
  const double size = r <= 5 ? ratio_of_polynomials(c, d, r - 1.6) : ratio_of_polynomials(e, f, r - 5);
  return q < 0 ? -size : size;
}

double student_t_cdf(double t, double df) {
  assert(df > 0);
  if (std::isinf(df)) return normal_cdf(t);
  if (std::isinf(t)) return t < 0 ? 0 : 1;
  return boost::math::cdf(StudentT(df), t);
}

double student_t_quantile(double p, double df) {
  assert(p >= 0 && p <= 1);
  assert(df > 0);
  if (std::isinf(df)) return normal_quantile(p);
  if (p == 0) return -infinity;
  if (p == 1) return infinity;
  return boost::math::quantile(StudentT(df), p);
}

double f_upper_tail(double value, double df1, double df2) {
  assert(df1 > 0 && df2 > 0 && std::isfinite(df1) && std::isfinite(df2));
  if (value <= 0) return 1;
  if (std::isinf(value)) return 0;
  return boost::math::cdf(boost::math::complement(FisherF(df1, df2), value));
}

double f_quantile(double p, double df1, double df2) {
  assert(p >= 0 && p < 1);
  assert(df1 > 0 && df2 > 0 && std::isfinite(df1) && std::isfinite(df2));
  return boost::math::quantile(FisherF(df1, df2), p);
}

double chi_square_upper_tail(double value, double df) {
  assert(df > 0 && std::isfinite(df));
  if (value <= 0) return 1;
  if (std::isinf(value)) return 0;
  return boost::math::cdf(boost::math::complement(ChiSquare(df), value));
}

double noncentral_t_cdf(double t, double df, double shift) {
  assert(df > 0 && std::isfinite(df) && std::isfinite(shift));
  if (std::isinf(t)) return t < 0 ? 0 : 1;
  return boost::math::cdf(NoncentralT(df, shift), t);
}

double noncentral_t_quantile(double p, double df, double shift) {
  assert(p > 0 && p < 1);
  assert(df > 0 && std::isfinite(df) && std::isfinite(shift));
  return boost::math::quantile(NoncentralT(df, shift), p);
}

Bounds clopper_pearson(std::int64_t k, std::int64_t n, double confidence) {
  assert(0 <= k && k <= n);
  assert(confidence > 0 && confidence < 1);
  const double each_side = (1 - confidence) / 2;
  const auto trials = static_cast<double>(n);
  const auto seen = static_cast<double>(k);
  return {.low = k == 0 ? 0 : Binomial::find_lower_bound_on_p(trials, seen, each_side),
          .high = k == n ? 1 : Binomial::find_upper_bound_on_p(trials, seen, each_side)};
}

} // namespace docket
