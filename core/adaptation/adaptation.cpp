#include "core/adaptation/adaptation.h"

#include "core/adaptation/cycles_to_tell.h"
#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace docket {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// Enough to fit: the rule's own least count, and times that are not all the same.
bool can_be_fitted(const std::vector<PracticePoint>& points) {
  if (static_cast<std::int64_t>(points.size()) < rules::least_practice_cycles) return false;
  return std::any_of(points.begin(), points.end(), [&](const PracticePoint& point) {
    return std::abs(point.seconds / points.front().seconds - 1) > rules::identical_within;
  });
}

double cycles_observed(const PracticeSeries& series) {
  return static_cast<double>(series.last_cycle - series.first_cycle + 1);
}

std::vector<ModelAnswer> answers_of(const PracticeMixture& mixture, const MixtureLevel& settled, double settled_cycle,
                                    double confidence) {
  std::vector<ModelAnswer> answers;
  for (std::size_t i = 0; i < mixture.fits.size(); ++i) {
    ModelAnswer answer;
    answer.fit = mixture.fits[i];
    answer.aicc = mixture.aicc[i];
    answer.weight = mixture.weights[i];
    answer.settled = estimate_level(settled.profiles[i], answer.fit.level(settled_cycle), confidence);
    if (answer.fit.model != CurveModel::power) answer.asymptote = estimate_level(mixture, i, infinite, confidence);
    answers.push_back(std::move(answer));
  }
  return answers;
}

/// The averaged level at a few own cycles, closer together where the curve is steepest; the last is today's.
std::vector<LevelAtCycle> course_of(const PracticeMixture& mixture, double first, double confidence) {
  constexpr int steps = 7;
  std::vector<LevelAtCycle> course;
  for (int i = 0; i <= steps; ++i) {
    const double share = static_cast<double>(i) / steps, cycle = first + (mixture.last - first) * share * share;
    course.push_back({cycle, estimate_level(find_level(mixture, cycle), confidence)});
  }
  return course;
}

double p_improving(const PracticeMixture& mixture, std::int64_t horizon, double improvement_left) {
  return 1 - probability_improvement_within(mixture, mixture.last + static_cast<double>(horizon), improvement_left);
}

AdaptationFacts facts_of(const Case& input, const PracticeSeries& series) {
  AdaptationFacts facts;
  const double cycles = std::max<double>(1, static_cast<double>(series.cycles));
  facts.matter_open = safety_matter_is_open(input);
  facts.share_under_condition = static_cast<double>(series.under_condition) / cycles;
  facts.plain_cycles = static_cast<std::int64_t>(series.plain.size());
  facts.days = series.days;
  facts.share_lower_bounds = static_cast<double>(series.lower_bounds) / cycles;
  facts.confidence = input.settings.confidence;
  return facts;
}

/// The averaged curves of one series: the plain cycles, and the second row where any cycle was helped or cut short.
struct SeriesCurves {
  PracticeMixture plain;
  std::optional<PracticeMixture> with_helped;
};

SeriesCurves fit_series(const PracticeSeries& series) {
  SeriesCurves curves{fit_mixture(series.plain), {}};
  if (series.lower_bounds > 0) curves.with_helped = fit_mixture(series.with_helped);
  return curves;
}

/// Fills in what the curves say of one series, for the table.
void add_curve_facts(AdaptationFacts& facts, const PracticeSeries& series, const SeriesCurves& curves,
                     std::int64_t horizon, const Case& input, Seconds limit) {
  const double delta = input.settings.improvement_left;
  facts.lag1 = curves.plain.lag1;
  facts.p_improving = p_improving(curves.plain, horizon, delta);
  facts.p_improving_with_helped =
      curves.with_helped ? p_improving(*curves.with_helped, horizon, delta) : facts.p_improving;
  if (facts.share_lower_bounds > rules::most_lower_bounds) {
    const PracticeMixture bounds = fit_mixture(series.with_bounds);
    facts.p_above_with_bounds =
        1 - probability_level_within(bounds, bounds.last + static_cast<double>(horizon), limit.count());
  }
}

/// The word had the count before the first cycle seen been another.
AdaptationWord word_with_before(const Case& input, const PracticeSeries& series, std::int64_t before,
                                std::int64_t cycles_per_shift, Seconds limit) {
  const PracticeSeries other = with_count_before(series, before);
  AdaptationFacts facts = facts_of(input, other);
  add_curve_facts(facts, other, fit_series(other), settled_horizon(cycles_observed(other), cycles_per_shift), input,
                  limit);
  return decide_adaptation(facts).word;
}

AdaptationEstimates estimates_of(const PracticeSeries& series, const SeriesCurves& curves, std::int64_t horizon,
                                 const AdaptationFacts& facts, Seconds limit) {
  const PracticeMixture& mixture = curves.plain;
  const double settled_cycle = mixture.last + static_cast<double>(horizon), confidence = facts.confidence;
  AdaptationEstimates e;
  e.horizon_cycles = horizon;
  const double reach = rules::horizon_times_observed * cycles_observed(series);
  e.reach_cycles = std::llround(reach);
  const MixtureLevel settled = find_level(mixture, settled_cycle);
  e.models = answers_of(mixture, settled, settled_cycle, confidence);
  e.settled = estimate_level(settled, confidence);
  e.course = course_of(mixture, series.plain.front().n, confidence);
  e.today = e.course.back().level;
  const ImprovementEstimate improvement = estimate_improvement(mixture, settled_cycle, confidence);
  e.improvement = improvement.median;
  e.improvement_low = improvement.low;
  e.improvement_high = improvement.high;
  e.p_improving = facts.p_improving;
  e.p_improving_with_helped = facts.p_improving_with_helped;
  e.p_within = probability_level_within(mixture, settled_cycle, limit.count());
  e.to_limit = estimate_cycles_to(mixture, limit.count(), reach, confidence);
  e.lag1 = mixture.lag1;
  e.phi = mixture.phi;
  double sum = 0;
  for (const PracticePoint& point : series.plain) sum += point.seconds;
  e.mean_seen = Seconds{sum / static_cast<double>(series.plain.size())};
  e.settled_with_helped = e.settled.time;
  if (curves.with_helped) {
    const double cycle = curves.with_helped->last + static_cast<double>(horizon);
    e.settled_with_helped = estimate_level(find_level(*curves.with_helped, cycle), confidence).time;
  }
  return e;
}

/// What would decide an open word, or change one that is said.
std::vector<Reason> what_would_decide(const AdaptationDecision& decision, const AdaptationFacts& facts,
                                      const PracticeMixture* mixture, const TellBasis& basis) {
  std::vector<Reason> out;
  const std::string& why = decision.why;
  if (why == "no_cycle_without_help" || why == "helped_too_often") out.push_back({"cycles_without_help", {}});
  if (why == "helped_too_often" || why == "differs_with_help") out.push_back({"seconds_of_help", {}});
  if (decision.row == 2 && why != "no_cycle_without_help") {
    const std::int64_t cycles = rules::least_practice_cycles - facts.plain_cycles;
    const int days = rules::least_practice_days - facts.days;
    if (cycles > 0) out.push_back({"more_cycles", std::to_string(cycles)});
    if (days > 0) out.push_back({"more_days", std::to_string(days)});
    if (why == "cycles_hang_together") out.push_back({"what_ties_cycles", {}});
  }
  if (why == "improving") out.push_back({"cycles_after_these", {}});
  if (why == "full_set_of_curves") out.push_back({"full_set_of_curves", {}});
  if (why == "identical_times") out.push_back({"times_as_measured", {}});
  if (why == "can_not_tell") {
    const std::optional<std::int64_t> cycles = find_cycles_to_tell(*mixture, basis);
    const double reach = rules::horizon_times_observed * static_cast<double>(basis.plain_cycles);
    out.push_back(cycles ? Reason{"cycles_to_tell", std::to_string(*cycles)}
                         : Reason{"no_cycles_within_reach", std::to_string(std::llround(reach))});
  }
  return out;
}

/// An estimated count is tried at half and double; one that is not known at all, also with as many cycles before as were
/// seen. A word that changes is not shown.
void hold_with_other_counts(Adaptation& adaptation, const Case& input, const Evidence& evidence, Seconds limit) {
  const PracticeSeries& series = adaptation.series;
  const bool known = series.before > 0;
  if (known)
    adaptation.before_tried = {series.before / 2, series.before * 2};
  else
    adaptation.before_tried = {std::llround(cycles_observed(series))};
  for (const std::int64_t before : adaptation.before_tried) {
    if (word_with_before(input, series, before, evidence.cycles_per_shift, limit) == adaptation.word) continue;
    adaptation.word = AdaptationWord::not_shown;
    adaptation.decision_row = 10;
    adaptation.reasons = {{known ? "count_estimated" : "count_not_known", std::to_string(series.before)}};
    adaptation.would_decide = {{"count_before", {}}};
    return;
  }
}

std::string with_two_decimals(double value) {
  const auto hundredths = std::to_string(std::llround(std::abs(value) * 100));
  return (value < 0 ? "-0." : "0.") + std::string(hundredths.size() < 2 ? 2 - hundredths.size() : 0, '0') + hundredths;
}

} // namespace

Adaptation assess_adaptation(const Case& input, const Evidence& evidence, const AdaptationBasis& basis,
                             std::int32_t op) {
  Adaptation out;
  out.op = op;
  out.series = build_practice_series(input, evidence, op, basis.relative_content, basis.measured_factor);
  const PracticeSeries& series = out.series;
  AdaptationFacts facts = facts_of(input, series);
  if (decide_adaptation(facts).word == AdaptationWord::not_assessable_now) {
    close_adaptation(out);
    return out;
  }

  std::optional<SeriesCurves> curves;
  const std::int64_t horizon = settled_horizon(cycles_observed(series), evidence.cycles_per_shift);
  if (can_be_fitted(series.plain)) {
    curves = fit_series(series);
    add_curve_facts(facts, series, *curves, horizon, input, basis.limit);
  }

  AdaptationDecision decision = decide_adaptation(facts);
  // Times that are all the same: nothing to fit, and nothing that could tell.
  if (!curves && decision.row > 2) decision = {AdaptationWord::not_shown, 10, "identical_times"};
  out.word = decision.word;
  out.decision_row = decision.row;
  out.reasons = {{decision.why, decision.why == "cycles_hang_together" ? with_two_decimals(facts.lag1) : ""}};
  const TellBasis tell{facts.plain_cycles, cycles_observed(series), evidence.cycles_per_shift,
                       input.settings.improvement_left, facts.confidence};
  out.would_decide = what_would_decide(decision, facts, curves ? &curves->plain : nullptr, tell);
  // A record too short to tell says nothing of a level to come either.
  if (curves && decision.row > 2) out.estimates = estimates_of(series, *curves, horizon, facts, basis.limit);
  if (out.word == AdaptationWord::still_learning && series.first_cycle_estimated)
    hold_with_other_counts(out, input, evidence, basis.limit);
  return out;
}

void close_adaptation(Adaptation& adaptation) {
  adaptation.word = AdaptationWord::not_assessable_now;
  adaptation.decision_row.reset();
  adaptation.reasons = {{"not_assessable_now", {}}};
  adaptation.would_decide.clear();
  adaptation.before_tried.clear();
  adaptation.estimates.reset();
  const std::int32_t op = adaptation.op;
  adaptation.series = {};
  adaptation.series.op = op;
}

} // namespace docket
