// The 27 sets of NIST StRD, nonlinear regression: data, starts, certified values, models with their derivatives.
//
// Source    tests/reference/nist_nonlinear, each file with its model in words; derivatives by hand
// Checked   nonlinear_least_squares_test.cpp: derivatives against central differences, at both starts and the solution
#pragma once

#include "core/statistics/fitting/nonlinear_least_squares.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <numbers>
#include <span>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace docket::testing {

/// Value of a model at parameters b and predictors x; fills its derivatives in b.
using NistModel = double (*)(std::span<const double> b, std::span<const double> x, std::span<double> db);

struct NistSet {
  std::string name;
  NistModel model = nullptr;
  std::array<std::vector<double>, 2> starts;
  std::vector<double> certified, certified_sd;
  double rss = 0, residual_sd = 0;
  std::vector<double> y;
  std::vector<std::vector<double>> x; ///< a row an observation
};

inline double saturating_exponential(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  db[0] = -std::expm1(-b[1] * x[0]);
  db[1] = b[0] * x[0] * std::exp(-b[1] * x[0]);
  return b[0] * db[0];
}

/// b1 (1 - u^-k), u = 1 + b2 x / k
inline double saturating_power(std::span<const double> b, double x, double k, std::span<double> db) {
  const double log_u = std::log1p(b[1] * x / k);
  db[0] = -std::expm1(-k * log_u);
  db[1] = b[0] * x * std::exp(-(k + 1) * log_u);
  return b[0] * db[0];
}

inline double misra1b(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  return saturating_power(b, x[0], 2, db);
}

inline double misra1c(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  return saturating_power(b, x[0], 0.5, db);
}

inline double misra1d(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double u = 1 + b[1] * x[0];
  db[0] = b[1] * x[0] / u;
  db[1] = b[0] * x[0] / (u * u);
  return b[0] * db[0];
}

inline double chwirut(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double below = b[1] + b[2] * x[0];
  const double value = std::exp(-b[0] * x[0]) / below;
  db[0] = -x[0] * value;
  db[1] = -value / below;
  db[2] = -x[0] * value / below;
  return value;
}

/// Sum of b_i exp(-b_(i+1) x), i = 0, 2, 4
inline double lanczos(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  double value = 0;
  for (std::size_t i = 0; i < 6; i += 2) {
    db[i] = std::exp(-b[i + 1] * x[0]);
    db[i + 1] = -x[0] * b[i] * db[i];
    value += b[i] * db[i];
  }
  return value;
}

inline double gauss(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  db[0] = std::exp(-b[1] * x[0]);
  db[1] = -x[0] * b[0] * db[0];
  double value = b[0] * db[0];
  for (std::size_t i = 2; i < 8; i += 3) {
    const double z = (x[0] - b[i + 1]) / b[i + 2];
    db[i] = std::exp(-z * z);
    db[i + 1] = b[i] * db[i] * 2 * z / b[i + 2];
    db[i + 2] = b[i] * db[i] * 2 * z * z / b[i + 2];
    value += b[i] * db[i];
  }
  return value;
}

inline double dan_wood(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  db[0] = std::pow(x[0], b[1]);
  db[1] = b[0] * db[0] * std::log(x[0]);
  return b[0] * db[0];
}

/// (b_0 + b_1 x + .. ) / (1 + b_above x + .. ): `above` parameters above the line, the rest below.
inline double rational(std::span<const double> b, double x, std::size_t above, std::span<double> db) {
  double over = 0, under = 1, power = 1;
  for (std::size_t i = 0; i < above; ++i, power *= x) over += b[i] * (db[i] = power);
  power = x;
  for (std::size_t i = above; i < b.size(); ++i, power *= x) under += b[i] * (db[i] = power);
  const double value = over / under;
  for (std::size_t i = 0; i < b.size(); ++i) db[i] *= (i < above ? 1 : -value) / under;
  return value;
}

inline double kirby2(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  return rational(b, x[0], 3, db);
}

inline double cubic_over_cubic(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  return rational(b, x[0], 4, db);
}

/// Of log y.
inline double nelson(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double e = std::exp(-b[2] * x[1]);
  db[0] = 1;
  db[1] = -x[0] * e;
  db[2] = b[1] * x[0] * x[1] * e;
  return b[0] - b[1] * x[0] * e;
}

inline double mgh17(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  db[0] = 1;
  db[1] = std::exp(-x[0] * b[3]);
  db[2] = std::exp(-x[0] * b[4]);
  db[3] = -x[0] * b[1] * db[1];
  db[4] = -x[0] * b[2] * db[2];
  return b[0] + b[1] * db[1] + b[2] * db[2];
}

inline double roszman1(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double far = x[0] - b[3], square = far * far + b[2] * b[2];
  db[0] = 1;
  db[1] = -x[0];
  db[2] = -far / square / std::numbers::pi;
  db[3] = -b[2] / square / std::numbers::pi;
  return b[0] - b[1] * x[0] - std::atan(b[2] / far) / std::numbers::pi;
}

inline double enso(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  constexpr double turn = 2 * std::numbers::pi;
  db[0] = 1;
  db[1] = std::cos(turn * x[0] / 12);
  db[2] = std::sin(turn * x[0] / 12);
  double value = b[0] + b[1] * db[1] + b[2] * db[2];
  for (std::size_t i = 3; i < 9; i += 3) {
    const double angle = turn * x[0] / b[i];
    db[i + 1] = std::cos(angle);
    db[i + 2] = std::sin(angle);
    db[i] = (b[i + 1] * db[i + 2] - b[i + 2] * db[i + 1]) * angle / b[i];
    value += b[i + 1] * db[i + 1] + b[i + 2] * db[i + 2];
  }
  return value;
}

inline double mgh09(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double over = x[0] * x[0] + x[0] * b[1], under = x[0] * x[0] + x[0] * b[2] + b[3];
  const double value = b[0] * over / under;
  db[0] = over / under;
  db[1] = b[0] * x[0] / under;
  db[2] = -value * x[0] / under;
  db[3] = -value / under;
  return value;
}

inline double mgh10(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double far = x[0] + b[2];
  db[0] = std::exp(b[1] / far);
  db[1] = b[0] * db[0] / far;
  db[2] = -b[1] * db[1] / far;
  return b[0] * db[0];
}

inline double rat42(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double e = std::exp(b[1] - b[2] * x[0]);
  db[0] = 1 / (1 + e);
  db[1] = -b[0] * e * db[0] * db[0];
  db[2] = -x[0] * db[1];
  return b[0] * db[0];
}

inline double rat43(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double e = std::exp(b[1] - b[2] * x[0]), log_u = std::log1p(e);
  db[0] = std::exp(-log_u / b[3]);
  const double value = b[0] * db[0];
  db[1] = -value / b[3] * e / (1 + e);
  db[2] = -x[0] * db[1];
  db[3] = value * log_u / (b[3] * b[3]);
  return value;
}

inline double bennett5(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double log_u = std::log(b[1] + x[0]);
  db[0] = std::exp(-log_u / b[2]);
  const double value = b[0] * db[0];
  db[1] = -value / (b[2] * (b[1] + x[0]));
  db[2] = value * log_u / (b[2] * b[2]);
  return value;
}

inline double eckerle4(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  const double z = (x[0] - b[2]) / b[1];
  const double value = b[0] / b[1] * std::exp(-0.5 * z * z);
  db[0] = std::exp(-0.5 * z * z) / b[1];
  db[1] = value * (z * z - 1) / b[1];
  db[2] = value * z / b[1];
  return value;
}

inline constexpr std::array<std::pair<std::string_view, NistModel>, 27> nist_models{{
    {"Misra1a", saturating_exponential},
    {"Chwirut2", chwirut},
    {"Chwirut1", chwirut},
    {"Lanczos3", lanczos},
    {"Gauss1", gauss},
    {"Gauss2", gauss},
    {"DanWood", dan_wood},
    {"Misra1b", misra1b},
    {"Kirby2", kirby2},
    {"Hahn1", cubic_over_cubic},
    {"Nelson", nelson},
    {"MGH17", mgh17},
    {"Lanczos1", lanczos},
    {"Lanczos2", lanczos},
    {"Gauss3", gauss},
    {"Misra1c", misra1c},
    {"Misra1d", misra1d},
    {"Roszman1", roszman1},
    {"ENSO", enso},
    {"MGH09", mgh09},
    {"Thurber", cubic_over_cubic},
    {"BoxBOD", saturating_exponential},
    {"Rat42", rat42},
    {"MGH10", mgh10},
    {"Eckerle4", eckerle4},
    {"Rat43", rat43},
    {"Bennett5", bennett5},
}};

/// Without observations where the file is not there.
inline NistSet read_nist_nonlinear(std::string_view name) {
  NistSet set;
  set.name = name;
  for (const auto& [known, model] : nist_models) {
    if (known == name) set.model = model;
  }
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/nist_nonlinear/" + set.name + ".dat");
  int number = 0;
  for (std::string line; std::getline(file, line);) {
    std::istringstream words(line);
    if (++number > 60) {
      std::vector<double> row;
      for (double value = 0; words >> value;) row.push_back(value);
      if (row.size() < 2) continue;
      set.y.push_back(set.name == "Nelson" ? std::log(row.front()) : row.front());
      set.x.emplace_back(row.begin() + 1, row.end());
    } else if (number > 40) {
      std::string parameter, equals;
      double first = 0, second = 0, certified = 0, sd = 0;
      if (line.starts_with("Residual Sum of Squares:")) set.rss = std::stod(line.substr(24));
      if (line.starts_with("Residual Standard Deviation:")) set.residual_sd = std::stod(line.substr(28));
      if (!(words >> parameter >> equals >> first >> second >> certified >> sd) || equals != "=") continue;
      set.starts[0].push_back(first);
      set.starts[1].push_back(second);
      set.certified.push_back(certified);
      set.certified_sd.push_back(sd);
    }
  }
  return set;
}

/// `set` outlives the problem.
inline LeastSquaresProblem problem_of(const NistSet& set) {
  LeastSquaresProblem problem;
  problem.residual_count = set.y.size();
  problem.parameter_count = set.certified.size();
  problem.residuals = [&set](std::span<const double> b, std::span<double> r) {
    std::vector<double> db(b.size());
    for (std::size_t i = 0; i < set.y.size(); ++i) r[i] = set.y[i] - set.model(b, set.x[i], db);
  };
  problem.jacobian = [&set](std::span<const double> b, std::span<double> jacobian) {
    for (std::size_t i = 0; i < set.y.size(); ++i) {
      const std::span<double> row = jacobian.subspan(i * b.size(), b.size());
      set.model(b, set.x[i], row);
      for (double& value : row) value = -value;
    }
  };
  return problem;
}

/// Digits in which two numbers agree, at most 11, what the certificates of nonlinear regression have.
inline double digits(double value, double certified) {
  if (value == certified) return 11;
  const double error = certified == 0 ? std::abs(value) : std::abs(value / certified - 1);
  return std::isnan(error) ? 0 : std::clamp(-std::log10(error), 0.0, 11.0);
}

inline double least_digits(std::span<const double> values, std::span<const double> certified) {
  double least = 11;
  for (std::size_t i = 0; i < certified.size(); ++i) least = std::min(least, digits(values[i], certified[i]));
  return least;
}

} // namespace docket::testing
