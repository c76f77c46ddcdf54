#include "core/content/lines/standard_time.h"

#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace docket {

namespace {

/// Elements seen at the station that are not in the standard, and their seconds per cycle observed by element.
void find_unmatched(const Case& input, StandardTime& standard) {
  std::set<std::pair<std::int32_t, std::int64_t>> cycles_by_element;
  std::set<std::string> names;
  Seconds total{};
  for (const Reading& reading : input.readings) {
    if (reading.element < 0 && reading.seen_element.empty()) continue;
    cycles_by_element.insert({reading.session, reading.cycle});
    if (reading.seen_element.empty() || !reading.marks.plain()) continue;
    names.insert(reading.seen_element);
    total += reading.time;
  }
  standard.unmatched.assign(names.begin(), names.end());
  if (!cycles_by_element.empty()) standard.unmatched_per_unit = total / static_cast<double>(cycles_by_element.size());
}

} // namespace

Seconds element_uncertainty(const StandardElement& element) {
  const double t = element.time.value_or(Seconds::zero()).count();
  if (element.uncertainty) return Seconds{*element.uncertainty * t};
  return Seconds{rules::element_uncertainty * std::sqrt(rules::element_uncertainty_at_s * t)};
}

StandardTime build_standard_time(const Case& input, Seconds line_cycle) {
  StandardTime standard;
  for (std::size_t v = 0; v < input.variants.size(); ++v) {
    const Variant& variant = input.variants[v];
    VariantTime line;
    line.variant = static_cast<std::int32_t>(v);
    line.share = variant.share;
    for (const StandardElement& element : input.standard) {
      if (!carries(variant, element)) continue;
      const Seconds time = element.times_per_unit * element.time.value_or(Seconds::zero());
      line.time += time;
      line.by_class[static_cast<std::size_t>(element.element_class)] += time;
    }
    standard.mean += line.share * line.time;
    for (std::size_t c = 0; c < 3; ++c) standard.by_class[c] += line.share * line.by_class[c];
    standard.variants.push_back(line);
  }

  double random_variance = 0; // [s^2]
  for (std::size_t e = 0; e < input.standard.size(); ++e) {
    const StandardElement& element = input.standard[e];
    ElementTime line;
    line.element = static_cast<std::int32_t>(e);
    line.time = element.time.value_or(Seconds::zero());
    line.times_per_unit = element.times_per_unit;
    for (const Variant& variant : input.variants)
      if (carries(variant, element)) line.share_of_units += variant.share;
    line.u = element_uncertainty(element);
    random_variance += std::pow(line.share_of_units * line.times_per_unit * line.u.count(), 2);
    standard.elements.push_back(line);
  }
  standard.u_random = Seconds{std::sqrt(random_variance)};
  standard.u_systematic = input.settings.standard_uncertainty * standard.mean;
  standard.efficiency = standard.mean / line_cycle;
  standard.utilisation = standard.by_class[static_cast<std::size_t>(ElementClass::va)] / line_cycle;
  find_unmatched(input, standard);
  standard.motions = analyse_motions(input);

  // None of the standard's uncertainty is estimated from few values here, so its degrees of freedom are infinite.
  LineLevel& level = standard.level;
  level.time = standard.mean;
  level.u_as_agreed = standard.u_random / standard.mean;
  level.u = std::hypot(level.u_as_agreed, input.settings.standard_uncertainty);
  level.df = std::numeric_limits<double>::infinity();
  std::string missing;
  for (const std::string& name : standard.unmatched) missing += (missing.empty() ? "" : ", ") + name;
  if (!missing.empty()) level.leans.push_back({"elements_missing", missing});
  return standard;
}

} // namespace docket
