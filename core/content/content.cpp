#include "core/content/content.h"

#include "core/content/evaluation.h"
#include "core/content/what_decides.h"
#include "core/rules.h"

#include <algorithm>

namespace docket {

ContentFindings answer_content(const Case& input, const Evidence& evidence, const TimeAvailable& time) {
  ContentFindings found;
  found.standard = build_standard_time(input, time.line_cycle);
  found.standard.level.against = compare_with_limit(found.standard.level, time.limit, input.settings.confidence);
  found.held = safety_matter_is_open(input);

  const std::vector<std::int32_t> standing = standing_conditions(input, evidence);
  Evaluation pass = evaluate(input, evidence, found.standard, time, standing, false);
  found.word = pass.decision.word;
  found.decision_row = pass.decision.row;
  found.average_person_only = found.word == ContentWord::fits && !pass.facts.all.p_zone;
  if (pass.combined->p_fits > rules::leans_fits) found.leans = Leaning::fits;
  if (pass.combined->p_fits < rules::leans_over) found.leans = Leaning::over;
  std::string differing;
  for (const std::int32_t i : standing)
    differing += (differing.empty() ? "" : "; ") + input.conditions[static_cast<std::size_t>(i)].check;
  found.reasons = reasons_for(pass, differing);
  found.would_decide = what_would_decide(pass, differing);
  if (found.word == ContentWord::fits_only_if) found.only_if = standing;

  const auto touched = [](const PersonCycle& cycle) { return cycle.condition >= 0; };
  if (std::any_of(evidence.cycles.begin(), evidence.cycles.end(), touched) ||
      std::any_of(evidence.restudy.begin(), evidence.restudy.end(), touched)) {
    const Evaluation all = evaluate(input, evidence, found.standard, time, standing, true);
    found.with_differing = WithDiffering{all.decision.word, all.combined->p_fits};
  }

  found.heaviest = find_heaviest(input, found.standard, time, pass.basis);
  found.alternatives = find_alternatives(input, evidence, found.standard, time, pass.basis, pass.sequence);
  found.shifts = compare_shifts(input, evidence, found.standard, time, pass.settled);
  found.checks = check_study(input, evidence, found.standard, time, pass.settled, pass.restudy);
  found.settled = std::move(pass.settled);
  found.restudy = std::move(pass.restudy);
  found.combined = pass.combined;
  found.clashes = std::move(pass.clashes);
  found.share_able = pass.share_able;
  found.sequence = std::move(pass.sequence);
  return found;
}

} // namespace docket
