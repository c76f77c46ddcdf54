#include "core/statistics/fitting/trend.h"

#include "core/statistics/summary.h"

#include <cassert>
#include <cstddef>
#include <utility>
#include <vector>

namespace docket {

double theil_sen_slope(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  std::vector<double> slopes;
  slopes.reserve(x.size() * (x.size() + 1) / 2);
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) {
      if (x[i] != x[j]) slopes.push_back((y[j] - y[i]) / (x[j] - x[i]));
    }
  }
  return median(std::move(slopes));
}

} // namespace docket
