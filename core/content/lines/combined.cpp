#include "core/content/lines/combined.h"

#include "core/rules.h"
#include "core/statistics/combined_lines.h"
#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace docket {

namespace {

double shared_between(Line a, Line b, const SharedParts& shared) {
  const auto pair = [&](Line x, Line y) { return (a == x && b == y) || (a == y && b == x); };
  if (pair(Line::standard, Line::restudy)) return shared.standard_restudy;
  if (pair(Line::settled, Line::restudy)) return shared.settled_restudy;
  if (pair(Line::standard, Line::settled)) return shared.standard_settled;
  return 0;
}

std::vector<std::vector<double>> covariance_of(std::span<const LineInput> lines, const SharedParts& shared,
                                               bool as_agreed) {
  std::vector<std::vector<double>> v(lines.size(), std::vector<double>(lines.size()));
  for (std::size_t i = 0; i < lines.size(); ++i)
    for (std::size_t j = 0; j < lines.size(); ++j) {
      const double u = as_agreed ? lines[i].level.u_as_agreed : lines[i].level.u;
      v[i][j] = i == j ? u * u : shared_between(lines[i].line, lines[j].line, shared);
    }
  return v;
}

/// Degrees of freedom of the combined line; the systematic parts count as known (JCGM 100:2008, G.4).
double degrees_of_freedom(std::span<const LineInput> lines, const std::vector<double>& weights, double u) {
  double denominator = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const LineLevel& level = lines[i].level;
    if (level.se > 0 && std::isfinite(level.df)) denominator += std::pow(weights[i] * level.se, 4) / level.df;
  }
  if (denominator <= 0) return std::numeric_limits<double>::infinity();
  return std::max(1.0, std::pow(u, 4) / denominator);
}

} // namespace

CombinedLine combine_against_limit(std::span<const LineInput> lines, const SharedParts& shared, Seconds limit,
                                   double confidence) {
  assert(!lines.empty());
  std::vector<double> z;
  for (const LineInput& line : lines) z.push_back(std::log(line.level.time / limit));

  const CombinedLines solved = combine_lines(z, covariance_of(lines, shared, false));
  CombinedLine out;
  out.shared = shared;
  out.ln_ratio = solved.mean;
  out.u = solved.u;
  out.df = degrees_of_freedom(lines, solved.weights, solved.u);
  for (std::size_t i = 0; i < lines.size(); ++i)
    out.weights[static_cast<std::size_t>(lines[i].line)] = solved.weights[i];
  out.p_fits = probability_within(0, out.ln_ratio, out.u, out.df);
  out.time = limit * std::exp(out.ln_ratio);
  const double reach = student_t_quantile(0.5 + confidence / 2, out.df) * out.u;
  out.margin = limit - out.time;
  out.margin_low = limit - out.time * std::exp(reach);
  out.margin_high = limit - out.time * std::exp(-reach);

  // With the level and the pace agreed, the standard and the restudy no longer share the standard's level.
  const SharedParts shared_as_agreed{.settled_restudy = shared.settled_restudy};
  const CombinedLines agreed = combine_lines(z, covariance_of(lines, shared_as_agreed, true));
  out.p_as_agreed = probability_within(0, agreed.mean, agreed.u, degrees_of_freedom(lines, agreed.weights, agreed.u));
  return out;
}

std::vector<Clash> find_clashes(std::span<const LineInput> lines, const SharedParts& shared, Seconds limit) {
  const double factor = lines.size() == 2 ? rules::clash_factor_two : rules::clash_factor_three;
  std::vector<Clash> clashes;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (std::size_t j = i + 1; j < lines.size(); ++j) {
      const LineLevel& a = lines[i].level;
      const LineLevel& b = lines[j].level;
      const double u2 = a.u * a.u + b.u * b.u - 2 * shared_between(lines[i].line, lines[j].line, shared);
      const double u = std::sqrt(std::max(0.0, u2));
      if (std::abs(std::log(a.time / b.time)) <= factor * u) continue;
      const Seconds between{std::sqrt(a.time.count() * b.time.count())};
      const bool opposite = (a.time > limit) != (b.time > limit);
      clashes.push_back({lines[i].line, lines[j].line, a.time - b.time, u * between, opposite});
    }
  }
  return clashes;
}

} // namespace docket
