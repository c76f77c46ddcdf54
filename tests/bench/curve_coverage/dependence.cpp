// Two ways to widen an interval for cycles that resemble the one before, side by side: how often each covers.
//
// Model     ln y = level + fall e^(-n/tau) + w, tau known, w a first-order autoregression that starts afresh every day;
//           the level at the last cycle and three times the record further on
// Method    effective number: least squares, variance times (1 + r)/(1 - r), never below 1, r of core/statistics;
//           likelihood: generalised least squares at the r at which the Gaussian likelihood of the autoregression is
//           largest. Normal quantiles for both. The same draws for both
// Source    Box & Jenkins 1970, Time Series Analysis, ch. 3; Bayley & Hammersley 1946, as in core/statistics/autocorrelation.h
// Assumes   the shape is known, so that only the dependence is tried
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/random.h"
#include "tests/bench/cycles.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

namespace docket::bench {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

constexpr int a_day = 100; // cycles
constexpr double within = 0.10, fall = 0.25;

struct Record {
  Matrix x;
  Vector y;
};

Record simulate(int cycles, double lag1, const Draws& draws, std::uint64_t run) {
  Record record{Matrix(cycles, 2), Vector(cycles)};
  Spread spread{within, lag1, 0};
  for (int i = 0; i < cycles; ++i) {
    record.x(i, 0) = 1;
    record.x(i, 1) = std::exp(-3.0 * (i + 1) / cycles);
    const double normal = draws.normal(1, run, static_cast<std::uint64_t>(i));
    record.y[i] = fall * record.x(i, 1) + spread.next(normal, i % a_day == 0);
  }
  return record;
}

struct Level {
  double value = 0, se = 0;
};

Level level_of(const Matrix& x, const Vector& y, const Vector& at, double factor) {
  const Matrix information = x.transpose() * x;
  const auto solver = information.llt();
  const Vector beta = solver.solve(x.transpose() * y);
  const double variance = (y - x * beta).squaredNorm() / static_cast<double>(y.size() - x.cols());
  return {at.dot(beta), std::sqrt(variance * factor * at.dot(solver.solve(at)))};
}

Level by_effective_number(const Record& record, const Vector& at) {
  const Vector beta = (record.x.transpose() * record.x).llt().solve(record.x.transpose() * record.y);
  const Vector residuals = record.y - record.x * beta;
  std::vector<std::vector<double>> days;
  for (Eigen::Index i = 0; i < residuals.size(); ++i) {
    if (i % a_day == 0) days.emplace_back();
    days.back().push_back(residuals[i]);
  }
  const double r = lag1_autocorrelation(days).corrected;
  return level_of(record.x, record.y, at, std::max(1.0, (1 + r) / (1 - r)));
}

/// Rows whose errors are independent and alike if the autoregression is r.
Record without_dependence(const Record& record, double r) {
  Record free = record;
  for (Eigen::Index i = 0; i < record.y.size(); ++i) {
    const bool first = i % a_day == 0;
    const double root = std::sqrt(1 - r * r);
    free.x.row(i) = first ? Matrix(root * record.x.row(i)) : Matrix(record.x.row(i) - r * record.x.row(i - 1));
    free.y[i] = first ? root * record.y[i] : record.y[i] - r * record.y[i - 1];
  }
  return free;
}

double minus_log_likelihood(const Record& record, double r) {
  const Record free = without_dependence(record, r);
  const Vector beta = (free.x.transpose() * free.x).llt().solve(free.x.transpose() * free.y);
  const auto n = static_cast<double>(free.y.size());
  const double days = std::ceil(n / a_day);
  return n / 2 * std::log((free.y - free.x * beta).squaredNorm()) - days / 2 * std::log(1 - r * r);
}

Level by_likelihood(const Record& record, const Vector& at) {
  double low = -0.95, high = 0.95; // golden section
  const double cut = (std::sqrt(5.0) - 1) / 2;
  double a = high - cut * (high - low), b = low + cut * (high - low);
  double at_a = minus_log_likelihood(record, a), at_b = minus_log_likelihood(record, b);
  while (high - low > 1e-4) {
    if (at_a < at_b) {
      high = b;
      b = a;
      at_b = at_a;
      a = high - cut * (high - low);
      at_a = minus_log_likelihood(record, a);
    } else {
      low = a;
      a = b;
      at_a = at_b;
      b = low + cut * (high - low);
      at_b = minus_log_likelihood(record, b);
    }
  }
  const Record free = without_dependence(record, (low + high) / 2);
  return level_of(free.x, free.y, at, 1);
}

struct Count {
  int covered = 0;
  double width = 0;
  void add(const Level& level, double truth, double z) {
    covered += std::abs(level.value - truth) <= z * level.se ? 1 : 0;
    width += level.se;
  }
};

void run_point(int cycles, double lag1, int runs) {
  const double z = normal_quantile(0.975);
  Vector today(2), horizon(2);
  today << 1, std::exp(-3.0);
  horizon << 1, std::exp(-12.0);
  Count effective[2], likelihood[2];
  const Draws draws{1};
  for (int run = 0; run < runs; ++run) {
    const Record record = simulate(cycles, lag1, draws, static_cast<std::uint64_t>(run));
    int which = 0;
    for (const Vector& at : {today, horizon}) {
      const double truth = fall * at[1];
      effective[which].add(by_effective_number(record, at), truth, z);
      likelihood[which].add(by_likelihood(record, at), truth, z);
      ++which;
    }
  }
  const auto percent = [runs](const Count& count) { return 100.0 * count.covered / runs; };
  std::printf("%6d  %4.1f   %5.1f  %5.1f   %5.1f  %5.1f   %5.2f\n", cycles, lag1, percent(effective[0]),
              percent(likelihood[0]), percent(effective[1]), percent(likelihood[1]),
              likelihood[1].width / effective[1].width);
}

} // namespace
} // namespace docket::bench

int main(int count, char** words) {
  const int runs = count > 1 ? std::atoi(words[1]) : 4000;
  if (runs <= 0) {
    std::puts("usage: curve_dependence [RUNS]");
    return 2;
  }
  std::puts("              level today    level to come\n"
            "cycles  lag1   n_eff   AR(1)   n_eff   AR(1)   width AR(1) / n_eff");
  for (const int cycles : {60, 100, 300, 1000})
    for (const double lag1 : {0.0, 0.3, 0.6}) docket::bench::run_point(cycles, lag1, runs);
  return 0;
}
