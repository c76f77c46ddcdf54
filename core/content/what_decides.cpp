#include "core/content/what_decides.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace docket {

namespace {

std::string_view code_of(Line line) {
  constexpr std::string_view codes[] = {"standard", "settled", "restudy"};
  return codes[static_cast<std::size_t>(line)];
}

void add_for_leaning(std::vector<Reason>& list, const LineLevel& level) {
  for (const Reason& lean : level.leans) {
    if (lean.code == "fewer_than_three_operators" || lean.code == "exactly_two_operators")
      list.push_back({"more_settled_operators", {}});
    if (lean.code == "bridged_levels_differ") list.push_back({"time_the_station", {}});
    if (lean.code == "help_without_seconds") list.push_back({"seconds_of_help", {}});
    if (lean.code == "helped_row_not_computed") list.push_back({"helped_row", lean.detail});
    if (lean.code == "leavers_row_not_computed") list.push_back({"leavers_row", lean.detail});
    if (lean.code == "elements_missing") list.push_back({"complete_the_standard", lean.detail});
    if (lean.code == "method_not_known") list.push_back({"method_as_standard", lean.detail});
  }
}

/// True where the systematic part alone keeps P between alpha/2 and 1 - alpha/2: more cycles can't change that.
bool no_number_will(const Evaluation& pass) {
  double random = 0;
  for (const LineInput& line : pass.lines)
    random += std::pow(pass.combined->weights[static_cast<std::size_t>(line.line)] * line.level.se, 2);
  const double systematic = std::sqrt(std::max(0.0, pass.combined->u * pass.combined->u - random));
  return std::abs(pass.combined->ln_ratio) < normal_quantile(0.5 + pass.facts.confidence / 2) * systematic;
}

} // namespace

std::vector<Reason> reasons_for(const Evaluation& pass, const std::string& differing) {
  const DecisionFacts& facts = pass.facts;
  const double half_alpha = (1 - facts.confidence) / 2;
  std::vector<Reason> reasons;
  const auto leaning_lines = [&] {
    std::string names;
    for (const LineInput& line : pass.lines)
      if (!line.level.leans.empty()) names += (names.empty() ? "" : ", ") + std::string(code_of(line.line));
    return names;
  };
  switch (pass.decision.row) {
  case 1:
    for (const Clash& clash : pass.clashes)
      if (clash.blocks)
        reasons.push_back({"clash", std::string(code_of(clash.a)) + ", " + std::string(code_of(clash.b))});
    if (!facts.usable_line) reasons.push_back({"no_usable_line", {}});
    break;
  case 2:
    if (facts.all.p <= half_alpha) reasons.push_back({"mean_over", {}});
    if (facts.all.p_seq && *facts.all.p_seq <= half_alpha) reasons.push_back({"sequence_over", {}});
    if (facts.all.p_able && *facts.all.p_able <= half_alpha) reasons.push_back({"too_few_able", {}});
    break;
  case 3:
    if (!facts.zone_given) reasons.push_back({"zone_not_given", {}});
    if (!facts.spread_known) {
      reasons.push_back({"spread_not_known", {}});
      if (!pass.settled.line) reasons.push_back({pass.settled.none_why, {}});
    }
    if (facts.identical_values) reasons.push_back({"identical_values", {}});
    break;
  case 4:
  case 5:
    reasons.push_back({"mean_fits", {}});
    reasons.push_back({"sequence_fits", {}});
    reasons.push_back({facts.all.p_zone ? "enough_able" : "average_person_only", {}});
    if (facts.condition_differs_now) reasons.push_back({"condition_differs", differing});
    break;
  default:
    if (facts.all.p < 1 - half_alpha && facts.all.p > half_alpha) reasons.push_back({"mean_not_sure", {}});
    if (facts.all.p_seq && *facts.all.p_seq<1 - half_alpha&& * facts.all.p_seq> half_alpha)
      reasons.push_back({"sequence_not_sure", {}});
    if (facts.all.p_zone && *facts.all.p_zone < rules::zone_able) reasons.push_back({"too_few_within_zone", {}});
    // With all lines together a row would hold; a line that leans stands in the way.
    if (reasons.empty() && !facts.without_leaning.empty()) reasons.push_back({"leaning_line_needed", leaning_lines()});
    if (reasons.empty() && facts.others) reasons.push_back({"others_object", {}});
    if (reasons.empty() && facts.condition_differs_now) reasons.push_back({"no_evidence_of_restored_state", differing});
    break;
  }
  return reasons;
}

std::vector<Reason> what_would_decide(const Evaluation& pass, const std::string& differing) {
  std::vector<Reason> list;
  if (pass.decision.word == ContentWord::fits || pass.decision.word == ContentWord::does_not_fit) return list;
  if (pass.facts.clash) list.push_back({"clear_the_clash", {}});
  if (!differing.empty()) list.push_back({"restore_conditions", differing});
  if (!pass.facts.zone_given) list.push_back({"give_work_zone", {}});
  if (!pass.facts.spread_known) list.push_back({"give_cycle_spread", {}});
  for (const LineInput& line : pass.lines) add_for_leaning(list, line.level);
  if (!pass.settled.line) list.push_back({"time_the_station", {}});
  if (!pass.restudy.line) list.push_back({"rated_restudy", {}});
  if (pass.lines.size() == 1) list.push_back({"second_line", {}});
  if (!pass.facts.clash && no_number_will(pass)) list.push_back({"no_number_will", {}});

  std::vector<Reason> once;
  for (const Reason& reason : list)
    if (std::find(once.begin(), once.end(), reason) == once.end()) once.push_back(reason);
  return once;
}

} // namespace docket
