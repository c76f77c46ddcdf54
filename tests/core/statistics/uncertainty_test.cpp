#include "core/statistics/distributions.h"
#include "core/statistics/uncertainty.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

namespace docket {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// JCGM 100:2008, H.1, end gauge: u_c = 32 nm, nu_eff = 16 (truncated), k_99 = 2.92, U_99 = 93 nm.
TEST(Uncertainty, jcgm_100_end_gauge) {
  const std::vector<UncertaintyPart> parts{
      {.u = 25, .df = 18}, {.u = 9.7, .df = 25.6}, {.u = 2.9, .df = 50}, {.u = 16.6, .df = 2}};
  const double combined = combined_uncertainty(parts);
  EXPECT_EQ(std::round(combined), 32);
  const double df = effective_degrees_of_freedom(parts);
  EXPECT_NEAR(df, 16.7, 0.1); // H.1.6 prints 16.7 (from memory).
  EXPECT_EQ(std::floor(df), 16);
  const double k = student_t_quantile(0.995, std::floor(df));
  EXPECT_NEAR(k, 2.92, 0.005);
  EXPECT_EQ(std::round(k * std::round(combined)), 93);
}

// Closed form: k equal parts of nu degrees each have k nu; one part keeps its own; parts as known don't count.
TEST(Uncertainty, closed_forms) {
  const std::vector<UncertaintyPart> equal(5, {.u = 0.3, .df = 4});
  EXPECT_NEAR(combined_uncertainty(equal), 0.3 * std::sqrt(5), 1e-15);
  EXPECT_NEAR(effective_degrees_of_freedom(equal), 20, 1e-12);
  const std::vector<UncertaintyPart> mixed{{.u = 3, .df = 2}, {.u = 4, .df = infinity}, {.u = 0, .df = 1}};
  EXPECT_DOUBLE_EQ(combined_uncertainty(mixed), 5);
  EXPECT_NEAR(effective_degrees_of_freedom(mixed), 2 * 625.0 / 81, 1e-12);
  const std::vector<UncertaintyPart> tiny{{.u = 1e-100, .df = 7}};
  EXPECT_NEAR(effective_degrees_of_freedom(tiny), 7, 1e-12);
}

TEST(Uncertainty, infinitely_many_degrees) {
  EXPECT_EQ(effective_degrees_of_freedom(std::vector<UncertaintyPart>{{.u = 1, .df = infinity}}), infinity);
  EXPECT_EQ(effective_degrees_of_freedom(std::vector<UncertaintyPart>{{.u = 0, .df = 3}}), infinity);
  EXPECT_EQ(effective_degrees_of_freedom({}), infinity);
  EXPECT_EQ(combined_uncertainty({}), 0);
}

} // namespace
} // namespace docket
