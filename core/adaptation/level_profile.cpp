#include "core/adaptation/level_profile.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {

namespace {

constexpr double far_enough = 3.6;  ///< [1] |r|: normal tail 0.0002
constexpr double aimed_step = 0.8;  ///< [1] in r
constexpr double most_growth = 2.5; ///< [1] of a step, from one level to the next
constexpr double lowest = 0.02;     ///< [1] of the level at the first cycle; as for the curves themselves
constexpr double highest = 20;      ///< [1] of the same
constexpr int most_levels = 40;     ///< on one side

/// Levels outward from `start` on one side, in the order met.
template <class Root>
void walk(double start, double root_there, double first_step, double end, Root root, std::vector<double>& x,
          std::vector<double>& r) {
  const double way = end < start ? -1 : 1;
  double at = start, here = root_there, step = first_step;
  for (int i = 0; i < most_levels && std::abs(here) < far_enough && at != end; ++i) {
    const double next = way * (at + way * step) < way * end ? at + way * step : end;
    // Searched, so good to a small part of a step only: it must not turn back.
    const double there = way < 0 ? std::min(here, root(next)) : std::max(here, root(next));
    x.push_back(next);
    r.push_back(there);
    const double moved = std::max(std::abs(there - here), 1e-3);
    step = std::abs(next - at) * std::clamp(aimed_step / moved, 1 / most_growth, most_growth);
    at = next;
    here = there;
  }
}

/// Fritsch & Carlson 1980, the harmonic mean of the neighbouring slopes: rising between rising values.
std::vector<double> rising_slopes(const std::vector<double>& x, const std::vector<double>& y) {
  std::vector<double> slope(x.size(), 0);
  const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / (x[i + 1] - x[i]); };
  if (x.size() < 2) return slope;
  slope.front() = secant(0);
  slope.back() = secant(x.size() - 2);
  for (std::size_t i = 1; i + 1 < x.size(); ++i) {
    const double before = secant(i - 1), after = secant(i);
    if (before > 0 && after > 0) {
      const double w1 = 2 * (x[i + 1] - x[i]) + (x[i] - x[i - 1]), w2 = (x[i + 1] - x[i]) + 2 * (x[i] - x[i - 1]);
      slope[i] = (w1 + w2) / (w1 / before + w2 / after);
    }
  }
  return slope;
}

} // namespace

double LevelProfile::probability_within(double seconds) const {
  const double x = std::log(seconds);
  if (x <= ln_level.front() || x >= ln_level.back()) {
    const bool below = x <= ln_level.front();
    const double r = below ? root.front() : root.back();
    // Past the far end nothing is left; where the profile stopped short, it says no more than at its end.
    if (std::abs(r) < far_enough) return normal_cdf(r);
    const double edge = below ? ln_level.front() : ln_level.back();
    return normal_cdf(r + (x - edge) * (below ? slope.front() : slope.back()));
  }
  const auto above = std::upper_bound(ln_level.begin(), ln_level.end(), x);
  const auto i = static_cast<std::size_t>(above - ln_level.begin()) - 1;
  const double width = ln_level[i + 1] - ln_level[i], t = (x - ln_level[i]) / width;
  const double t2 = t * t, t3 = t2 * t;
  return normal_cdf(root[i] * (2 * t3 - 3 * t2 + 1) + width * slope[i] * (t3 - 2 * t2 + t) +
                    root[i + 1] * (3 * t2 - 2 * t3) + width * slope[i + 1] * (t3 - t2));
}

LevelProfile profile_level(const CurveData& data, const CurveFit& fit, double cycle, double phi) {
  const double reference = std::log(fit.level(fit.first));
  const double low_end = reference + std::log(lowest), high_end = reference + std::log(highest);
  const auto root = [&](double x) { return level_root(data, fit, cycle, std::exp(x), phi); };
  const double level = fit.level(cycle);
  const double start = level > 0 ? std::max(std::log(level), low_end) : low_end;
  const double root_at_start = start > low_end ? 0 : std::max(0.0, root(start));
  const double first_step = std::max(aimed_step * fit.sigma * std::sqrt(phi / data.count), 1e-9);

  std::vector<double> x_low, r_low, x_high, r_high;
  walk(start, root_at_start, first_step, low_end, root, x_low, r_low);
  walk(start, root_at_start, first_step, high_end, root, x_high, r_high);
  LevelProfile profile;
  profile.ln_level.assign(x_low.rbegin(), x_low.rend());
  profile.root.assign(r_low.rbegin(), r_low.rend());
  profile.ln_level.push_back(start);
  profile.root.push_back(root_at_start);
  profile.ln_level.insert(profile.ln_level.end(), x_high.begin(), x_high.end());
  profile.root.insert(profile.root.end(), r_high.begin(), r_high.end());
  profile.slope = rising_slopes(profile.ln_level, profile.root);
  assert(std::is_sorted(profile.root.begin(), profile.root.end()));
  return profile;
}

} // namespace docket
