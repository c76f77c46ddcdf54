#include "core/content/content.h"

#include "core/content/word/evaluation.h"
#include "core/content/word/what_decides.h"
#include "core/rules.h"

#include <algorithm>

namespace docket {

namespace {

/// What no study settles stands before what a study would: a mix to agree on, times that rise now.
void add_what_comes_first(ContentFindings& found) {
  std::vector<Reason> first;
  for (const StudyCheck& check : found.checks)
    if (check.code == "settled_times_rise" && check.outcome == CheckOutcome::found)
      first.push_back({"ask_what_changed", {}});
  for (const Flip& flip : found.flips)
    if (flip.code == "built_mix" && flip.word != found.word) first.push_back({"agree_on_the_mix", {}});
  found.would_decide.insert(found.would_decide.begin(), first.begin(), first.end());
}

} // namespace

ContentFindings answer_content(const Case& input, const Evidence& evidence, const TimeAvailable& time) {
  ContentFindings found;
  found.standard = build_standard_time(input, time.line_cycle);
  found.standard.level.against = compare_with_limit(found.standard.level, time.limit, input.settings.confidence);
  found.held = safety_matter_is_open(input);

  const std::vector<std::int32_t> standing = standing_conditions(input, evidence);
  Evaluation pass = evaluate(input, evidence, found.standard, time, standing, false);
  const Weighing& weighing = pass.weighing;
  found.word = weighing.decision.word;
  found.decision_row = weighing.decision.row;
  found.average_person_only = found.word == ContentWord::fits && !weighing.facts.all.p_zone;
  if (weighing.combined.p_fits > rules::leans_fits) found.leans = Leaning::fits;
  if (weighing.combined.p_fits < rules::leans_over) found.leans = Leaning::over;
  std::string differing;
  for (const std::int32_t i : standing)
    differing += (differing.empty() ? "" : "; ") + input.conditions[static_cast<std::size_t>(i)].check;
  found.reasons = reasons_for(pass, differing);
  found.would_decide = what_would_decide(pass, input, differing);
  if (found.word == ContentWord::fits_only_if) found.only_if = standing;

  std::optional<Evaluation> all;
  const auto touched = [](const PersonCycle& cycle) { return cycle.condition >= 0; };
  if (std::any_of(evidence.cycles.begin(), evidence.cycles.end(), touched) ||
      std::any_of(evidence.restudy.begin(), evidence.restudy.end(), touched)) {
    all = evaluate(input, evidence, found.standard, time, standing, true);
    found.with_differing = WithDiffering{all->weighing.decision.word, all->weighing.combined.p_fits};
  }
  found.flips = find_flips(input, evidence, found.standard, time, standing, pass, all ? &*all : nullptr);
  found.left_out = find_left_out(input, time, pass);

  found.heaviest = find_heaviest(input, found.standard, time, pass.sequence_basis);
  found.alternatives = find_alternatives(input, evidence, found.standard, time, pass.sequence_basis, pass.sequence);
  found.pace_price = find_pace_price(found.standard, time);
  found.shifts = compare_shifts(input, evidence, found.standard, time, pass.settled);
  found.checks = check_study(input, evidence, found.standard, time, pass.settled, pass.restudy);
  add_what_comes_first(found);
  found.again = recompute(input, evidence, found.standard, time, pass.settled, pass.basis, pass.weighing);
  found.combined = weighing.combined;
  found.clashes = weighing.clashes;
  found.share_able = weighing.share_able;
  found.settled = std::move(pass.settled);
  found.restudy = std::move(pass.restudy);
  found.sequence = std::move(pass.sequence);
  return found;
}

} // namespace docket
