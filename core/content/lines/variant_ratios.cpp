#include "core/content/lines/variant_ratios.h"

#include "core/statistics/fitting/linear_least_squares.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace docket {

namespace {

/// Sets of persons and variants that hang together over the cells, by number of the set of each variant.
std::vector<std::size_t> sets_of_variants(const std::vector<VariantCell>& cells, std::size_t variants) {
  std::vector<std::size_t> set(variants);
  for (std::size_t v = 0; v < variants; ++v) set[v] = v;
  std::map<std::size_t, std::size_t> first_of_person;
  for (const VariantCell& cell : cells) {
    const auto [seen, is_new] = first_of_person.try_emplace(cell.person, cell.variant);
    if (is_new) continue;
    const std::size_t from = set[cell.variant], to = set[seen->second];
    for (std::size_t& s : set)
      if (s == from) s = to;
  }
  return set;
}

/// The cells of the set with the most of them; of equal ones, that of the earliest variant.
std::vector<VariantCell> largest_set(const std::vector<VariantCell>& cells, std::size_t variants) {
  const std::vector<std::size_t> set = sets_of_variants(cells, variants);
  std::vector<std::size_t> count(variants);
  for (const VariantCell& cell : cells) ++count[set[cell.variant]];
  std::size_t most = 0;
  for (std::size_t v = 0; v < variants; ++v)
    if (count[set[v]] > count[set[most]]) most = v;
  std::vector<VariantCell> out;
  for (const VariantCell& cell : cells)
    if (set[cell.variant] == set[most]) out.push_back(cell);
  return out;
}

} // namespace

double VariantRatios::variance_of(std::span<const double> weights) const {
  if (covariance.empty()) return 0;
  double sum = 0;
  for (std::size_t a = 0; a < weights.size(); ++a)
    for (std::size_t b = 0; b < weights.size(); ++b)
      sum += weights[a] * weights[b] * covariance[a * weights.size() + b];
  return std::max(0.0, sum);
}

VariantRatios find_variant_ratios(const std::vector<VariantCell>& cells, std::span<const double> content) {
  const std::size_t variants = content.size();
  VariantRatios ratios{std::vector<double>(variants, 1.0), std::vector<int>(variants), {}, 0};
  if (cells.empty()) return ratios;
  const std::vector<VariantCell> used = largest_set(cells, variants);
  std::map<std::size_t, std::size_t> person_column;
  for (const VariantCell& cell : used) {
    ++ratios.persons[cell.variant];
    person_column.try_emplace(cell.person, person_column.size());
  }
  // One column a person, one a measured variant but the first, which is the reference.
  std::vector<std::size_t> measured;
  for (std::size_t v = 0; v < variants; ++v)
    if (ratios.persons[v] > 0) measured.push_back(v);
  std::vector<std::size_t> variant_column(variants);
  for (std::size_t i = 1; i < measured.size(); ++i) variant_column[measured[i]] = person_column.size() + i - 1;
  const std::size_t columns = person_column.size() + measured.size() - 1;

  std::vector<double> design(used.size() * columns), y;
  for (std::size_t i = 0; i < used.size(); ++i) {
    const double root = std::sqrt(used[i].weight);
    design[i * columns + person_column.at(used[i].person)] = root;
    if (used[i].variant != measured.front()) design[i * columns + variant_column[used[i].variant]] = root;
    y.push_back(root * used[i].ln_ratio);
  }
  const LinearFit fit = fit_linear_least_squares(design, columns, y);
  double standard_sum = 0, factor_sum = 0;
  for (const std::size_t v : measured) {
    ratios.factor[v] = v == measured.front() ? 1 : std::exp(fit.parameters[variant_column[v]]);
    standard_sum += content[v];
    factor_sum += content[v] * ratios.factor[v];
  }
  for (const std::size_t v : measured) ratios.factor[v] *= standard_sum / factor_sum;

  ratios.df = fit.df;
  if (fit.df < 1) return ratios;
  // On the scale that keeps the sum: ln factor_a less the mean of all, weighted by what each makes of the sum.
  const auto contrast = [&](std::size_t a, std::size_t of) {
    return (a == of ? 1.0 : 0.0) - content[of] * ratios.factor[of] / standard_sum;
  };
  ratios.covariance.resize(variants * variants);
  for (const std::size_t a : measured)
    for (const std::size_t b : measured)
      for (std::size_t i = 1; i < measured.size(); ++i)
        for (std::size_t j = 1; j < measured.size(); ++j)
          ratios.covariance[a * variants + b] +=
              contrast(a, measured[i]) * contrast(b, measured[j]) *
              fit.covariance[variant_column[measured[i]] * columns + variant_column[measured[j]]];
  return ratios;
}

} // namespace docket
