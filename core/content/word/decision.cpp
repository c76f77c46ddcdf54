#include "core/content/word/decision.h"

#include "core/rules.h"

#include <algorithm>

namespace docket {

namespace {

/// The row holds with all lines and without each that leans. With no line left, nothing holds.
template <class Row>
bool holds_everywhere(const DecisionFacts& facts, double half_alpha, Row row) {
  return row(facts.all, half_alpha) &&
         std::all_of(facts.without_leaning.begin(), facts.without_leaning.end(),
                     [&](const std::optional<DecisionView>& view) { return view && row(*view, half_alpha); });
}

} // namespace

bool surely_over(const DecisionView& view, double half_alpha) {
  if (view.p <= half_alpha) return true;
  if (view.p_seq && *view.p_seq <= half_alpha) return true;
  return view.p_able && *view.p_able <= half_alpha;
}

bool surely_within(const DecisionView& view, double half_alpha) {
  return view.p >= 1 - half_alpha && view.p_seq && *view.p_seq >= 1 - half_alpha &&
         (!view.p_zone || *view.p_zone >= rules::zone_able);
}

bool others_object_to_fits(const DecisionFacts& facts) {
  return facts.others && (facts.others->p < rules::not_object || facts.others->p_seq.value_or(1) < rules::not_object);
}

bool others_object_to_does_not_fit(const DecisionFacts& facts) {
  return facts.others && facts.others->p > rules::not_object && facts.others->p_seq.value_or(1) > rules::not_object;
}

Decision decide_content(const DecisionFacts& facts) {
  const double half_alpha = (1 - facts.confidence) / 2;
  if (!facts.usable_line || facts.clash) return {ContentWord::not_shown, 1};
  if (holds_everywhere(facts, half_alpha, surely_over) && !others_object_to_does_not_fit(facts))
    return {ContentWord::does_not_fit, 2};
  if (!facts.zone_given || !facts.spread_known || facts.identical_values) return {ContentWord::not_shown, 3};
  const bool rows_agree = !facts.help_of_unknown_length &&
                          std::all_of(facts.must_agree.begin(), facts.must_agree.end(),
                                      [&](const DecisionView& view) { return surely_within(view, half_alpha); });
  if (holds_everywhere(facts, half_alpha, surely_within) && rows_agree && !others_object_to_fits(facts)) {
    if (!facts.condition_differs_now) return {ContentWord::fits, 4};
    if (facts.restored_state_has_evidence) return {ContentWord::fits_only_if, 5};
  }
  return {ContentWord::not_shown, 6};
}

} // namespace docket
