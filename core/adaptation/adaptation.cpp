#include "core/adaptation/adaptation.h"

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

/// H: as many cycles as were observed, or five shifts if that is more, but no further than three times the observed.
std::int64_t horizon_of(const PracticeSeries& series, std::int64_t cycles_per_shift) {
  const double observed = cycles_observed(series);
  const double shifts = rules::horizon_shifts * static_cast<double>(cycles_per_shift);
  return std::llround(std::min(std::max(observed, shifts), rules::horizon_times_observed * observed));
}

TimeEstimate as_times(const MixtureEstimate& estimate) {
  return {Seconds{estimate.median}, Seconds{estimate.low}, Seconds{estimate.high}};
}

std::vector<ModelAnswer> answers_of(const PracticeMixture& mixture, double settled_cycle, double confidence) {
  std::vector<ModelAnswer> answers;
  for (std::size_t i = 0; i < mixture.fits.size(); ++i) {
    ModelAnswer answer;
    answer.fit = mixture.fits[i];
    answer.aicc = mixture.aicc[i];
    answer.weight = mixture.weights[i];
    answer.settled = as_times(estimate_level(mixture, i, settled_cycle, confidence));
    if (answer.fit.model != CurveModel::power)
      answer.asymptote = as_times(estimate_level(mixture, i, infinite, confidence));
    answers.push_back(std::move(answer));
  }
  return answers;
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
  add_curve_facts(facts, other, fit_series(other), horizon_of(other, cycles_per_shift), input, limit);
  return decide_adaptation(facts).word;
}

AdaptationEstimates estimates_of(const PracticeSeries& series, const SeriesCurves& curves, std::int64_t horizon,
                                 const AdaptationFacts& facts, Seconds limit) {
  const PracticeMixture& mixture = curves.plain;
  const double settled_cycle = mixture.last + static_cast<double>(horizon), confidence = facts.confidence;
  AdaptationEstimates e;
  e.horizon_cycles = horizon;
  e.models = answers_of(mixture, settled_cycle, confidence);
  e.settled = as_times(estimate_level(mixture, settled_cycle, confidence));
  e.today = as_times(estimate_level(mixture, mixture.last, confidence));
  const MixtureEstimate improvement = estimate_improvement(mixture, settled_cycle, confidence);
  e.improvement = improvement.median;
  e.improvement_low = improvement.low;
  e.improvement_high = improvement.high;
  e.p_improving = facts.p_improving;
  e.p_improving_with_helped = facts.p_improving_with_helped;
  e.p_within = probability_level_within(mixture, settled_cycle, limit.count());
  e.to_limit =
      estimate_cycles_to(mixture, limit.count(), rules::horizon_times_observed * cycles_observed(series), confidence);
  e.lag1 = mixture.lag1;
  e.phi = mixture.phi;
  double sum = 0;
  for (const PracticePoint& point : series.plain) sum += point.seconds;
  e.mean_seen = Seconds{sum / static_cast<double>(series.plain.size())};
  e.settled_with_helped = e.settled.time;
  if (curves.with_helped) {
    const double cycle = curves.with_helped->last + static_cast<double>(horizon);
    e.settled_with_helped = Seconds{estimate_level(*curves.with_helped, cycle, confidence).median};
  }
  return e;
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

  if (can_be_fitted(series.plain)) {
    const SeriesCurves curves = fit_series(series);
    const std::int64_t horizon = horizon_of(series, evidence.cycles_per_shift);
    add_curve_facts(facts, series, curves, horizon, input, basis.limit);
    out.estimates = estimates_of(series, curves, horizon, facts, basis.limit);
  }

  const AdaptationDecision decision = decide_adaptation(facts);
  out.word = decision.word;
  out.decision_row = decision.row;
  out.reasons.push_back({decision.why, {}});
  if (out.word == AdaptationWord::still_learning && series.first_cycle_estimated && series.before > 0) {
    for (const std::int64_t before : {series.before / 2, series.before * 2}) {
      if (word_with_before(input, series, before, evidence.cycles_per_shift, basis.limit) == out.word) continue;
      out.word = AdaptationWord::not_shown;
      out.decision_row = 10;
      out.reasons = {{"count_estimated", std::to_string(series.before)}};
      break;
    }
  }
  return out;
}

void close_adaptation(Adaptation& adaptation) {
  adaptation.word = AdaptationWord::not_assessable_now;
  adaptation.decision_row.reset();
  adaptation.reasons = {{"not_assessable_now", {}}};
  adaptation.estimates.reset();
  const std::int32_t op = adaptation.op;
  adaptation.series = {};
  adaptation.series.op = op;
}

std::optional<Seconds> settled_level_of(const Case& input, const Evidence& evidence, const AdaptationBasis& basis,
                                        std::int32_t op) {
  const PracticeSeries series =
      build_practice_series(input, evidence, op, basis.relative_content, basis.measured_factor);
  if (!can_be_fitted(series.plain)) return std::nullopt;
  const PracticeMixture mixture = fit_mixture(series.plain);
  const double cycle = mixture.last + static_cast<double>(horizon_of(series, evidence.cycles_per_shift));
  double level = 0;
  for (std::size_t i = 0; i < mixture.fits.size(); ++i) level += mixture.weights[i] * mixture.fits[i].level(cycle);
  return Seconds{level};
}

} // namespace docket
