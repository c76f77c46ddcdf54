#include "core/content/motions/standard_motions.h"

#include <algorithm>

namespace docket {

std::optional<Seconds> MotionAnalysis::time() const {
  return result.tmu ? std::optional(Seconds{*result.tmu * seconds_per_tmu}) : std::nullopt;
}

Seconds MotionAnalysis::one_after_another() const { return Seconds{result.tmu_one_after_another * seconds_per_tmu}; }

std::optional<Seconds> ElementMotions::uncertainty() const {
  if (!second()) return std::nullopt;
  const auto one = first().time(), other = second()->time();
  if (!one || !other || *one == *other) return std::nullopt;
  return Seconds{element_uncertainty_from_second_analysis(one->count(), other->count())};
}

std::vector<ElementMotions> analyse_motions(const Case& input) {
  std::vector<ElementMotions> by_element(input.standard.size());
  for (std::size_t row = 0; row < input.motions.size(); ++row) {
    const MotionStep& motion = input.motions[row];
    auto& analyses = by_element[static_cast<std::size_t>(motion.element)].analyses;
    auto own = std::find_if(analyses.begin(), analyses.end(),
                            [&](const MotionAnalysis& analysis) { return analysis.analyst == motion.analyst; });
    if (own == analyses.end()) own = analyses.insert(own, MotionAnalysis{motion.analyst, {}, {}});
    own->rows.push_back(row);
  }
  PlantMotionTable plant;
  for (const PlantMotion& motion : input.motion_table) add_motion(plant, motion.code, motion.tmu, motion.origin);
  std::vector<ElementMotions> found;
  for (std::size_t e = 0; e < by_element.size(); ++e) {
    if (by_element[e].analyses.empty()) continue;
    by_element[e].element = static_cast<std::int32_t>(e);
    for (MotionAnalysis& analysis : by_element[e].analyses) {
      std::vector<MotionStep> rows;
      for (const std::size_t row : analysis.rows) rows.push_back(input.motions[row]);
      analysis.result =
          analyse_element(rows, input.shipped_motion_times, input.motion_table.empty() ? nullptr : &plant);
    }
    found.push_back(std::move(by_element[e]));
  }
  return found;
}

} // namespace docket
