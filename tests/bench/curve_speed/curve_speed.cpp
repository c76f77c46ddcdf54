// How long the curves of question B take: one part of a comparison that run.py makes in one run, side by side.
//
//     curve_speed PLAIN.csv  writes the simulated times that all programs fit, and prints
//     "mixture MS" (2,000 cycles: six curves, profiles, averaging: settled level, today's level, improvement left, each with
//     interval) and "fit MS" (5,000 points: one power curve with a floor, grouping counted in), each the median of several.

#include "core/adaptation/practice_mixture.h"
#include "core/statistics/random.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fstream>
#include <iostream>
#include <vector>

namespace {

using namespace docket;

template <class Work>
double median_ms(int times, Work work) {
  std::vector<double> ms;
  for (int i = 0; i < times; ++i) {
    const auto start = std::chrono::steady_clock::now();
    work();
    ms.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  std::nth_element(ms.begin(), ms.begin() + times / 2, ms.end());
  return ms[static_cast<std::size_t>(times / 2)];
}

std::vector<double> simulated(int cycles) {
  const Draws draws(11);
  std::vector<double> times;
  for (int n = 1; n <= cycles; ++n)
    times.push_back((48 + 40 * std::pow(n, -0.4)) * std::exp(0.08 * draws.normal(1, 0, static_cast<std::uint64_t>(n))));
  return times;
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "curve_speed: give the file to write the simulated times to.\n";
    return 2;
  }
  const std::vector<double> times = simulated(5000);
  std::ofstream file(argv[1]);
  file.precision(17);
  file << "n,y\n";
  for (std::size_t i = 0; i < times.size(); ++i) file << i + 1 << ',' << times[i] << '\n';

  std::vector<PracticePoint> points;
  for (std::size_t i = 0; i < 2000; ++i)
    points.push_back(
        {static_cast<double>(i + 1), times[i], Date{std::chrono::days{20000 + static_cast<int>(i / 100)}}});
  double kept = 0; // so that nothing is left out
  std::cout << "mixture " << median_ms(9, [&] {
    const PracticeMixture mixture = fit_mixture(points);
    kept += estimate_level(mixture, 4000, 0.95).time.count() + estimate_level(mixture, 2000, 0.95).time.count() +
            estimate_improvement(mixture, 4000, 0.95).median;
  }) << "\n";

  std::vector<double> n;
  for (std::size_t i = 0; i < times.size(); ++i) n.push_back(static_cast<double>(i + 1));
  CurveFit fit;
  std::cout << "fit " << median_ms(9, [&] { fit = fit_curve(group_cycles(n, times), CurveModel::power_plateau); })
            << "\n";
  std::cout << "found " << fit.c << ' ' << fit.excess << ' ' << fit.shape << "\n";
  return kept > 0 ? 0 : 1;
}
