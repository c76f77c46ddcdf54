#include "core/statistics/distributions.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <ostream>
#include <string>

namespace docket {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// Wichura 1988, the three check values of AS 241; digits beyond the printed ten from memory.
TEST(NormalQuantile, check_values_of_as_241) {
  EXPECT_NEAR(normal_quantile(0.25), -0.6744897501960817, 1e-15);
  EXPECT_NEAR(normal_quantile(0.001), -3.090232306167814, 1e-14);
  EXPECT_NEAR(normal_quantile(1e-20), -9.262340089798408, 1e-13);
}

// Closed form: the quantile undoes the distribution function and is odd. All three branches, and their seams.
TEST(NormalQuantile, undoes_the_distribution_function) {
  for (const double p : {1e-300, 1e-100, 1e-30, 1.38e-11, 1.39e-11, 1e-6, 0.01, 0.0749, 0.0751, 0.3, 0.5}) {
    const double z = normal_quantile(p);
    // A relative error e in z is a relative error of about z^2 e in p.
    EXPECT_NEAR(normal_cdf(z) / p, 1, 1e-15 * (4 + 4 * z * z)) << p;
    if (p > 1e-3) {
      EXPECT_NEAR(normal_quantile(1 - p), -z, 1e-13) << p;
    }
  }
  EXPECT_EQ(normal_quantile(0.5), 0);
  EXPECT_EQ(normal_quantile(0), -infinity);
  EXPECT_EQ(normal_quantile(1), infinity);
}

// The seams of AS 241 at |p - 0.5| = 0.425 and at exp(-25): no step, the function stays increasing.
TEST(NormalQuantile, increases_across_its_seams) {
  for (const double seam : {0.075, 0.925, std::exp(-25.0)}) {
    EXPECT_LT(normal_quantile(seam * (1 - 1e-9)), normal_quantile(seam));
    EXPECT_LT(normal_quantile(seam), normal_quantile(seam * (1 + 1e-9)));
    EXPECT_NEAR(normal_quantile(seam * (1 - 1e-9)), normal_quantile(seam * (1 + 1e-9)), 1e-7);
  }
}

// Printed tables of the normal distribution (e.g. Abramowitz & Stegun 1964, table 26.1); from memory.
TEST(NormalCdf, printed_table) {
  EXPECT_NEAR(normal_cdf(0), 0.5, 1e-16);
  EXPECT_NEAR(normal_cdf(1), 0.841344746068543, 5e-16);
  EXPECT_NEAR(normal_cdf(2), 0.977249868051821, 5e-16);
  EXPECT_NEAR(normal_cdf(-3), 0.001349898031630, 5e-16);
  EXPECT_NEAR(normal_cdf(1.96), 0.975002104851780, 5e-16);
  EXPECT_EQ(normal_cdf(-infinity), 0);
  EXPECT_EQ(normal_cdf(infinity), 1);
}

struct PrintedT {
  double df, two_sided_95, half_unit_95, two_sided_99, half_unit_99;
};

void PrintTo(const PrintedT& row, std::ostream* out) { *out << "df " << row.df; }

class StudentTTable : public ::testing::TestWithParam<PrintedT> {};

TEST_P(StudentTTable, agrees) {
  const PrintedT& row = GetParam();
  EXPECT_NEAR(student_t_quantile(0.975, row.df), row.two_sided_95, row.half_unit_95);
  EXPECT_NEAR(student_t_quantile(0.995, row.df), row.two_sided_99, row.half_unit_99);
  EXPECT_NEAR(student_t_quantile(0.025, row.df), -row.two_sided_95, row.half_unit_95);
}

// JCGM 100:2008, table G.2, columns 95 and 99 %; from memory but for 16 degrees. Tolerance: half a unit in the last
// printed digit.
INSTANTIATE_TEST_SUITE_P(
    JcgmG2, StudentTTable,
    ::testing::Values(PrintedT{1, 12.71, .0051, 63.66, .0051}, PrintedT{2, 4.30, .0051, 9.92, .0051},
                      PrintedT{3, 3.18, .0051, 5.84, .0051}, PrintedT{4, 2.78, .0051, 4.60, .0051},
                      PrintedT{5, 2.57, .0051, 4.03, .0051}, PrintedT{6, 2.45, .0051, 3.71, .0051},
                      PrintedT{7, 2.36, .0051, 3.50, .0051}, PrintedT{8, 2.31, .0051, 3.36, .0051},
                      PrintedT{9, 2.26, .0051, 3.25, .0051}, PrintedT{10, 2.23, .0051, 3.17, .0051},
                      PrintedT{12, 2.18, .0051, 3.05, .0051}, PrintedT{16, 2.12, .0051, 2.92, .0051},
                      PrintedT{20, 2.09, .0051, 2.85, .0051}, PrintedT{25, 2.06, .0051, 2.79, .0051},
                      PrintedT{50, 2.01, .0051, 2.68, .0051}, PrintedT{100, 1.984, .00051, 2.626, .00051},
                      PrintedT{infinity, 1.960, .00051, 2.576, .00051}));

// Closed forms for one and two degrees of freedom, e.g. Johnson, Kotz & Balakrishnan, Continuous Univariate
// Distributions 2 (1995), chapter 28.
TEST(StudentT, closed_forms) {
  for (const double t : {-40.0, -2.5, -0.3, 0.0, 0.7, 3.0, 12.0}) {
    EXPECT_NEAR(student_t_cdf(t, 1), 0.5 + std::atan(t) / std::numbers::pi, 1e-14);
    EXPECT_NEAR(student_t_cdf(t, 2), 0.5 + t / (2 * std::sqrt(2 + t * t)), 1e-14);
  }
  EXPECT_NEAR(student_t_quantile(0.9, 1), std::tan(std::numbers::pi * 0.4), 1e-13);
}

// R, qt(0.975, 12) and qt(0.975, 24); a fractional number of degrees: R 4.2.2, Welch test of the data set sleep.
TEST(StudentT, answers_of_another_program) {
  EXPECT_NEAR(student_t_quantile(0.975, 12), 2.17881282966723, 5e-14);
  EXPECT_NEAR(student_t_quantile(0.975, 24), 2.06390, 5e-6);
  EXPECT_NEAR(2 * student_t_cdf(-1.8608, 17.776), 0.07939, 1e-5);
}

TEST(StudentT, ends) {
  EXPECT_EQ(student_t_quantile(0, 3), -infinity);
  EXPECT_EQ(student_t_quantile(1, 3), infinity);
  EXPECT_EQ(student_t_cdf(-infinity, 3), 0);
  EXPECT_EQ(student_t_cdf(infinity, 3), 1);
  EXPECT_EQ(student_t_cdf(0.8, infinity), normal_cdf(0.8));
  EXPECT_EQ(student_t_quantile(0.8, infinity), normal_quantile(0.8));
  EXPECT_NEAR(student_t_cdf(1.1, 1e12), normal_cdf(1.1), 1e-12);
}

// Closed forms: with df1 = 2 the tail is (1 + 2 f/df2)^(-df2/2); with df1 = 1 it is the two-sided t.
TEST(FUpperTail, closed_forms) {
  for (const double value : {0.01, 0.5, 1.0, 4.2, 30.0}) {
    for (const double df2 : {1.0, 7.0, 12.5, 200.0}) {
      EXPECT_NEAR(f_upper_tail(value, 2, df2), std::pow(1 + 2 * value / df2, -df2 / 2), 1e-13);
      EXPECT_NEAR(f_upper_tail(value, 1, df2), 2 * student_t_cdf(-std::sqrt(value), df2), 1e-13);
    }
  }
  EXPECT_EQ(f_upper_tail(0, 3, 4), 1);
  EXPECT_EQ(f_upper_tail(infinity, 3, 4), 0);
}

// The quantile undoes the tail; R's qf for the rest.
TEST(FQuantile, undoes_the_tail_and_answers_of_another_program) {
  for (const double p : {0.001, 0.2, 0.975}) EXPECT_NEAR(f_upper_tail(f_quantile(p, 3, 7.5), 3, 7.5), 1 - p, 1e-13);
  EXPECT_EQ(f_quantile(0, 3, 7), 0);
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  EXPECT_NEAR(f_quantile(0.975, 5, 18), by_r.at("f_quantile.0.975.5.18"), 1e-12);
  EXPECT_NEAR(f_quantile(0.025, 3, 7.5), by_r.at("f_quantile.0.025.3.7.5"), 1e-14);
}

// Closed forms: exp(-x/2) with two degrees of freedom, a square of a normal value with one; R's pchisq with nine.
TEST(ChiSquareUpperTail, closed_forms_and_answers_of_another_program) {
  for (const double value : {0.01, 1.0, 9.0, 60.0}) {
    EXPECT_NEAR(chi_square_upper_tail(value, 2) / std::exp(-value / 2), 1, 1e-13);
    EXPECT_NEAR(chi_square_upper_tail(value, 1) / (2 * normal_cdf(-std::sqrt(value))), 1, 1e-13);
  }
  EXPECT_EQ(chi_square_upper_tail(0, 9), 1);
  EXPECT_EQ(chi_square_upper_tail(infinity, 9), 0);
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  EXPECT_NEAR(chi_square_upper_tail(0.5, 9), by_r.at("chi_square.0.5.9"), 1e-14);
  EXPECT_NEAR(chi_square_upper_tail(9, 9), by_r.at("chi_square.9.9"), 1e-14);
  EXPECT_NEAR(chi_square_upper_tail(40, 9) / by_r.at("chi_square.40.9"), 1, 1e-12);
}

// Without a shift it is Student's t; at 0 it is the normal tail of the shift, whatever the degrees of freedom; the
// mirror.
TEST(NoncentralT, closed_forms) {
  for (const double df : {1.0, 4.0, 42.5, 400.0}) {
    for (const double shift : {-3.0, 0.2, 8.4, 30.0}) {
      EXPECT_NEAR(noncentral_t_cdf(0, df, shift), normal_cdf(-shift), 1e-13);
      EXPECT_NEAR(noncentral_t_cdf(1.7, df, shift), 1 - noncentral_t_cdf(-1.7, df, -shift), 1e-12);
      const double t = noncentral_t_quantile(0.9, df, shift);
      EXPECT_NEAR(noncentral_t_cdf(t, df, shift), 0.9, 1e-10) << df << " " << shift;
    }
    EXPECT_NEAR(noncentral_t_cdf(1.3, df, 0), student_t_cdf(1.3, df), 1e-13);
    EXPECT_NEAR(noncentral_t_quantile(0.9, df, 0), student_t_quantile(0.9, df), 1e-11);
  }
  EXPECT_EQ(noncentral_t_cdf(-infinity, 3, 1), 0);
  EXPECT_EQ(noncentral_t_cdf(infinity, 3, 1), 1);
}

// R's pt with a shift (AS 243), right to about 1e-12 of 1.
TEST(NoncentralT, answers_of_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  EXPECT_NEAR(noncentral_t_cdf(1.5, 9, 2), by_r.at("noncentral_t.1.5.9.2"), 1e-10);
  EXPECT_NEAR(noncentral_t_cdf(-0.7, 4, 1.3), by_r.at("noncentral_t.-0.7.4.1.3"), 1e-10);
  EXPECT_NEAR(noncentral_t_cdf(12, 42, 8.4), by_r.at("noncentral_t.12.42.8.4"), 1e-10);
  EXPECT_NEAR(noncentral_t_cdf(30, 199, 28), by_r.at("noncentral_t.30.199.28"), 1e-10);
}

struct PrintedShare {
  std::int64_t k, n;
  double low, high;
};

void PrintTo(const PrintedShare& row, std::ostream* out) { *out << row.k << " of " << row.n; }

class NewcombeTable : public ::testing::TestWithParam<PrintedShare> {};

TEST_P(NewcombeTable, agrees) {
  const PrintedShare& row = GetParam();
  const Bounds bounds = clopper_pearson(row.k, row.n, 0.95);
  EXPECT_NEAR(bounds.low, row.low, 5.1e-5);
  EXPECT_NEAR(bounds.high, row.high, 5.1e-5);
}

// R. G. Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17 (1998), 857-872,
// table I, method 5 (Clopper-Pearson); values from memory. Tolerance: half a unit in the last printed digit.
INSTANTIATE_TEST_SUITE_P(Newcombe1998, NewcombeTable,
                         ::testing::Values(PrintedShare{81, 263, .2527, .3676}, PrintedShare{15, 148, .0578, .1617},
                                           PrintedShare{0, 20, .0000, .1684}, PrintedShare{1, 29, .0009, .1776}));

// R, binom.test(3, 50).
TEST(ClopperPearson, answer_of_another_program) {
  const Bounds bounds = clopper_pearson(3, 50, 0.95);
  EXPECT_NEAR(bounds.low, 0.0125485878, 5e-11);
  EXPECT_NEAR(bounds.high, 0.1654819466, 5e-11);
}

// Closed form: with all of n seen the low end is (alpha/2)^(1/n); none seen mirrors it.
TEST(ClopperPearson, closed_form_at_the_ends) {
  EXPECT_NEAR(clopper_pearson(1, 1, 0.95).low, 0.025, 1e-15);
  for (const std::int64_t n : {1, 2, 7, 300}) {
    const double end = std::pow(0.05, 1 / static_cast<double>(n));
    EXPECT_NEAR(clopper_pearson(n, n, 0.90).low, end, 1e-13);
    EXPECT_EQ(clopper_pearson(n, n, 0.90).high, 1);
    EXPECT_EQ(clopper_pearson(0, n, 0.90).low, 0);
    EXPECT_NEAR(clopper_pearson(0, n, 0.90).high, 1 - end, 1e-13);
  }
  EXPECT_EQ(clopper_pearson(0, 0, 0.95).low, 0);
  EXPECT_EQ(clopper_pearson(0, 0, 0.95).high, 1);
}

} // namespace
} // namespace docket
