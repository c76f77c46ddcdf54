#include "core/adaptation/adaptation.h"

#include "core/adaptation/cycles_to_tell.h"
#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

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

/// The same since a break that lost all that came before.
double observed_of(const PracticeSeries& series, const PracticeSeries& counted) {
  if (counted.plain.empty() || counted.plain.size() == series.plain.size()) return cycles_observed(series);
  return counted.plain.back().n - counted.plain.front().n + 1;
}

std::vector<ModelAnswer> answers_of(const PracticeMixture& mixture, double settled_cycle, double confidence) {
  std::vector<ModelAnswer> answers;
  for (std::size_t i = 0; i < mixture.profiles.size(); ++i) {
    ModelAnswer answer;
    answer.fit = mixture.fit(i);
    answer.aicc = mixture.aicc[i];
    answer.weight = mixture.weights[i];
    answer.settled = estimate_level(mixture, i, settled_cycle, confidence);
    if (answer.fit.model != CurveModel::power) answer.asymptote = estimate_level(mixture, i, infinite, confidence);
    answers.push_back(std::move(answer));
  }
  return answers;
}

/// The averaged level at a few own cycles, closer together where the curve is steepest, and on both sides of a break that
/// set it back; the last is today's.
std::vector<LevelAtCycle> course_of(const PracticeMixture& mixture, const PracticeSeries& as_done,
                                    const PracticeSeries& counted, double confidence) {
  constexpr std::size_t steps = 7;
  // Cycles before a break that lost all are not among those counted.
  const std::size_t from = as_done.plain.size() - counted.plain.size();
  std::set<std::size_t> shown{from, as_done.plain.size() - 1};
  const double first = as_done.plain[from].n, span = as_done.plain.back().n - first;
  std::size_t at = from;
  for (std::size_t i = 1; i < steps; ++i) {
    const double share = static_cast<double>(i) / steps;
    while (as_done.plain[at].n < first + span * share * share) ++at;
    shown.insert(at);
  }
  for (std::size_t i = from + 1; i < as_done.plain.size(); ++i)
    if (counted.plain[i - from].n < counted.plain[i - from - 1].n) shown.insert({i - 1, i});
  std::vector<LevelAtCycle> course;
  for (const std::size_t i : shown) {
    const double n = counted.plain[i - from].n;
    course.push_back({as_done.plain[i].n, n, estimate_level(mixture, n, confidence)});
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

/// The averaged curves of one series: helped and cut short as lower bounds; and the second row where any was.
struct SeriesCurves {
  PracticeMixture curves;
  std::optional<PracticeMixture> with_helped;
  std::int64_t horizon = 0;
  std::optional<LateSlope> late_slope;
};

/// Absent: too little to fit, in all or since a break that lost all.
std::optional<SeriesCurves> fit_series(const PracticeSeries& counted, std::int64_t horizon) {
  if (!can_be_fitted(counted.plain)) return std::nullopt;
  SeriesCurves fitted;
  fitted.curves = fit_mixture(counted.plain, counted.bounds);
  if (counted.with_helped.size() > counted.plain.size())
    fitted.with_helped = fit_mixture(counted.with_helped, counted.with_helped_bounds);
  fitted.horizon = horizon;
  return fitted;
}

/// What one set of averaged curves says; the guard only where there is nothing else to see of an improvement.
CurveFacts curve_facts(const PracticeMixture& mixture, std::int64_t horizon, const Settings& settings, Seconds limit,
                       std::optional<LateSlope>& late_slope) {
  CurveFacts facts;
  facts.p_improving = p_improving(mixture, horizon, settings.improvement_left);
  facts.p_within = probability_level_within(mixture, mixture.last + static_cast<double>(horizon), limit.count());
  if (facts.p_improving <= (1 - settings.confidence) / 2) {
    late_slope = find_late_slope(mixture, static_cast<double>(horizon), settings.improvement_left, settings.confidence);
    facts.late_slope = late_slope->could_fall;
  }
  return facts;
}

/// Fills in what breaks and curves say of one series, for the table.
void add_curve_facts(AdaptationFacts& facts, const Interruptions& found, std::optional<SeriesCurves>& fitted,
                     const Settings& settings, Seconds limit) {
  std::optional<TimeEstimate> today;
  if (fitted) {
    facts.lag1 = fitted->curves.lag1;
    facts.curves = curve_facts(fitted->curves, fitted->horizon, settings, limit, fitted->late_slope);
    std::optional<LateSlope> unused;
    if (fitted->with_helped)
      facts.with_helped = curve_facts(*fitted->with_helped, fitted->horizon, settings, limit, unused);
    if (facts.share_lower_bounds > rules::most_lower_bounds) {
      const PracticeMixture bounds = fit_mixture(found.series.with_bounds);
      facts.p_above_with_bounds =
          1 - probability_level_within(bounds, bounds.last + static_cast<double>(fitted->horizon), limit.count());
    }
    if (!found.breaks.empty()) today = estimate_level(fitted->curves, fitted->curves.last, settings.confidence);
  }
  facts.interrupted = learning_is_interrupted(found, today);
}

/// The word had the own counts been those of `other`.
AdaptationWord word_of(const Case& input, const PracticeSeries& other, std::int64_t cycles_per_shift, Seconds limit) {
  AdaptationFacts facts = facts_of(input, other);
  const Interruptions found = find_interruptions(other, input.settings.confidence);
  std::optional<SeriesCurves> fitted =
      fit_series(found.series, settled_horizon(observed_of(other, found.series), cycles_per_shift));
  add_curve_facts(facts, found, fitted, input.settings, limit);
  return decide_adaptation(facts).word;
}

/// The lower of two lower ends, or the upper of two upper ones; an end that one lacks, both lack.
template <class Value>
std::optional<Value> lower_end(const std::optional<Value>& a, const std::optional<Value>& b) {
  return a && b ? std::optional(std::min(*a, *b)) : std::nullopt;
}
template <class Value>
std::optional<Value> upper_end(const std::optional<Value>& a, const std::optional<Value>& b) {
  return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
}

TimeEstimate hold_both(const TimeEstimate& a, const TimeEstimate& b) {
  return {(a.time + b.time) / 2, lower_end(a.low, b.low), upper_end(a.high, b.high)};
}

/// The estimates of the first way, widened to hold those of the other.
void add_other_way(AdaptationEstimates& e, const AdaptationEstimates& other) {
  e.both_ways = true;
  e.settled = hold_both(e.settled, other.settled);
  e.today = hold_both(e.today, other.today);
  e.improvement = (e.improvement + other.improvement) / 2;
  e.improvement_low = std::min(e.improvement_low, other.improvement_low);
  e.improvement_high = std::max(e.improvement_high, other.improvement_high);
  const auto median = e.to_limit.median && other.to_limit.median
                          ? std::optional((*e.to_limit.median + *other.to_limit.median) / 2)
                          : std::nullopt;
  e.to_limit = {median, lower_end(e.to_limit.low, other.to_limit.low), upper_end(e.to_limit.high, other.to_limit.high),
                std::max(e.to_limit.p_never, other.to_limit.p_never)};
  e.p_improving = (e.p_improving + other.p_improving) / 2;
  e.p_within = (e.p_within + other.p_within) / 2;
  e.p_improving_with_helped = (e.p_improving_with_helped + other.p_improving_with_helped) / 2;
  e.p_within_with_helped = (e.p_within_with_helped + other.p_within_with_helped) / 2;
  e.settled_with_helped = (e.settled_with_helped + other.settled_with_helped) / 2;
}

Outlook outlook_of(const PracticeMixture& mixture, const TellBasis& tell, const TimeEstimate& settled) {
  Outlook outlook;
  outlook.cycles = rules::outlook_cycles;
  const TimeEstimate then = expected_settled_level(mixture, tell, static_cast<double>(outlook.cycles));
  if (settled.low && settled.high) outlook.width = *settled.high - *settled.low;
  if (then.low && then.high) outlook.width_then = *then.high - *then.low;
  return outlook;
}

ResidualChecks checks_of(const PracticeMixture& mixture, const PracticeSeries& as_done, const PracticeSeries& counted,
                         double settled_cycle, double confidence) {
  ResidualChecks checks = check_residuals(counted.plain, mixture, settled_cycle, confidence);
  for (ExtremeCycle& extreme : checks.extremes) {
    const auto same = [&](const PracticePoint& point) {
      return point.n == extreme.n && point.day == extreme.day && point.seconds == extreme.time.count();
    };
    const auto found = std::find_if(counted.plain.begin(), counted.plain.end(), same);
    extreme.n = as_done.plain[as_done.plain.size() - static_cast<std::size_t>(counted.plain.end() - found)].n;
  }
  return checks;
}

AdaptationEstimates estimates_of(const PracticeSeries& series, const PracticeSeries& counted,
                                 const SeriesCurves& fitted, const AdaptationFacts& facts, const TellBasis& tell,
                                 Seconds limit, AdaptationDetail detail) {
  const PracticeMixture& mixture = fitted.curves;
  const double settled_cycle = mixture.last + static_cast<double>(fitted.horizon), confidence = facts.confidence;
  AdaptationEstimates e;
  e.horizon_cycles = fitted.horizon;
  const double reach = rules::horizon_times_observed * tell.observed;
  e.reach_cycles = std::llround(reach);
  e.settled = estimate_level(mixture, settled_cycle, confidence);
  if (detail == AdaptationDetail::full) {
    e.models = answers_of(mixture, settled_cycle, confidence);
    e.course = course_of(mixture, series, counted, confidence);
    e.outlook = outlook_of(mixture, tell, e.settled);
    e.checks = checks_of(mixture, series, counted, settled_cycle, confidence);
    e.today = e.course.back().level;
  } else {
    e.today = estimate_level(mixture, mixture.last, confidence);
  }
  const ImprovementEstimate improvement = estimate_improvement(mixture, settled_cycle, confidence);
  e.improvement = improvement.median;
  e.improvement_low = improvement.low;
  e.improvement_high = improvement.high;
  e.late_slope = fitted.late_slope;
  e.p_improving = facts.curves.p_improving;
  e.p_within = facts.curves.p_within;
  e.p_improving_with_helped = facts.with_helped.value_or(facts.curves).p_improving;
  e.p_within_with_helped = facts.with_helped.value_or(facts.curves).p_within;
  e.to_limit = estimate_cycles_to(mixture, limit.count(), reach, confidence);
  e.lag1 = mixture.lag1;
  e.phi = mixture.phi;
  double sum = 0;
  for (const PracticePoint& point : series.plain) sum += point.seconds;
  e.mean_seen = Seconds{sum / static_cast<double>(series.plain.size())};
  e.settled_with_helped = e.settled.time;
  if (fitted.with_helped) {
    const double cycle = fitted.with_helped->last + static_cast<double>(fitted.horizon);
    e.settled_with_helped = estimate_level(*fitted.with_helped, cycle, confidence).time;
  }
  return e;
}

/// What would decide an open word, or change one that is said.
std::vector<Reason> what_would_decide(const AdaptationDecision& decision, const AdaptationFacts& facts,
                                      const PracticeMixture* mixture, const TellBasis& basis, AdaptationDetail detail) {
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
  if (why == "improving" || why == "interrupted") out.push_back({"cycles_after_these", {}});
  if (why == "identical_times") out.push_back({"times_as_measured", {}});
  if (why == "straddles_limit") out.push_back({"level_near_limit", {}});
  if (detail == AdaptationDetail::full && (why == "can_not_tell" || why == "late_slope")) {
    const std::optional<std::int64_t> cycles = find_cycles_to_tell(*mixture, basis);
    const double reach = rules::horizon_times_observed * static_cast<double>(basis.plain_cycles);
    out.push_back(cycles ? Reason{"cycles_to_tell", std::to_string(*cycles)}
                         : Reason{"no_cycles_within_reach", std::to_string(std::llround(reach))});
  }
  return out;
}

/// A word that does not hold where something else is taken for so.
void set_not_shown(Adaptation& adaptation, Reason why, Reason would_decide) {
  adaptation.word = AdaptationWord::not_shown;
  adaptation.decision_row = 10;
  adaptation.reasons = {std::move(why)};
  adaptation.would_decide = {std::move(would_decide)};
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
    const PracticeSeries other = with_count_before(series, before);
    if (word_of(input, other, evidence.cycles_per_shift, limit) == adaptation.word) continue;
    set_not_shown(adaptation, {known ? "count_estimated" : "count_not_known", std::to_string(series.before)},
                  {"count_before", {}});
    return;
  }
}

/// A gap in which nobody is seen may be a hole in the record, in which the person worked on. A word that would change is
/// not shown; but times that are longer after the gap than before it are not what working on makes.
void hold_with_holes_worked(Adaptation& adaptation, const Case& input, const Evidence& evidence, Seconds limit) {
  if (adaptation.word == AdaptationWord::learning_interrupted) return;
  const std::vector<PracticeBreak>& breaks = adaptation.series.breaks;
  if (std::none_of(breaks.begin(), breaks.end(), [](const PracticeBreak& found) { return found.nobody_seen; })) return;
  if (word_of(input, with_holes_worked(adaptation.series), evidence.cycles_per_shift, limit) == adaptation.word) return;
  set_not_shown(adaptation, {"hole_in_record", {}}, {"what_came_in_the_hole", {}});
}

/// After a loss that came back: was it learning again, or did it come back quicker? A word that is not the same both ways
/// is not shown, and the ranges hold both.
void hold_with_what_came_back(Adaptation& adaptation, const Case& input, const Interruptions& found,
                              std::int64_t cycles_per_shift, Seconds limit) {
  Interruptions other{found.breaks, *found.came_back, {}};
  AdaptationFacts facts = facts_of(input, adaptation.series);
  const double observed = cycles_observed(adaptation.series);
  std::optional<SeriesCurves> fitted = fit_series(other.series, settled_horizon(observed, cycles_per_shift));
  if (!fitted) return;
  add_curve_facts(facts, other, fitted, input.settings, limit);
  if (adaptation.estimates) {
    const TellBasis tell{static_cast<std::int64_t>(other.series.plain.size()), observed, cycles_per_shift,
                         input.settings.improvement_left, facts.confidence};
    add_other_way(*adaptation.estimates, estimates_of(adaptation.series, other.series, *fitted, facts, tell, limit,
                                                      AdaptationDetail::headline));
  }
  if (adaptation.word == AdaptationWord::not_shown || decide_adaptation(facts).word == adaptation.word) return;
  set_not_shown(adaptation, {"learned_or_came_back", {}}, {"cycles_after_these", {}});
}

std::string with_two_decimals(double value) {
  const auto hundredths = std::to_string(std::llround(std::abs(value) * 100));
  return (value < 0 ? "-0." : "0.") + std::string(hundredths.size() < 2 ? 2 - hundredths.size() : 0, '0') + hundredths;
}

} // namespace

Adaptation assess_adaptation(const Case& input, const Evidence& evidence, const AdaptationBasis& basis, std::int32_t op,
                             AdaptationDetail detail) {
  Adaptation out;
  out.op = op;
  out.series = build_practice_series(input, evidence, op, basis.relative_content, basis.measured_factor);
  const PracticeSeries& series = out.series;
  AdaptationFacts facts = facts_of(input, series);
  if (decide_adaptation(facts).word == AdaptationWord::not_assessable_now) {
    close_adaptation(out);
    return out;
  }

  const Interruptions found = find_interruptions(series, facts.confidence);
  const PracticeSeries& counted = found.series;
  const double observed = observed_of(series, counted);
  std::optional<SeriesCurves> fitted = fit_series(counted, settled_horizon(observed, evidence.cycles_per_shift));
  add_curve_facts(facts, found, fitted, input.settings, basis.limit);
  out.interruptions = found.breaks;

  AdaptationDecision decision = decide_adaptation(facts);
  if (!fitted && decision.row > 4) {
    const bool too_few = static_cast<std::int64_t>(counted.plain.size()) < rules::least_practice_cycles;
    // Times that are all the same: nothing to fit, and nothing that could tell.
    decision = too_few ? AdaptationDecision{AdaptationWord::not_shown, 2, "too_few_cycles"}
                       : AdaptationDecision{AdaptationWord::not_shown, 10, "identical_times"};
  }
  out.word = decision.word;
  out.decision_row = decision.row;
  out.reasons = {{decision.why, decision.why == "cycles_hang_together" ? with_two_decimals(facts.lag1) : ""}};
  const TellBasis tell{static_cast<std::int64_t>(counted.plain.size()), observed, evidence.cycles_per_shift,
                       input.settings.improvement_left, facts.confidence};
  out.would_decide = what_would_decide(decision, facts, fitted ? &fitted->curves : nullptr, tell, detail);
  // A record too short to tell says nothing of a level to come either.
  if (fitted && decision.row > 2)
    out.estimates = estimates_of(series, counted, *fitted, facts, tell, basis.limit, detail);
  if (found.came_back) hold_with_what_came_back(out, input, found, evidence.cycles_per_shift, basis.limit);
  if (out.word != AdaptationWord::not_shown && series.first_cycle_estimated)
    hold_with_other_counts(out, input, evidence, basis.limit);
  if (out.word != AdaptationWord::not_shown) hold_with_holes_worked(out, input, evidence, basis.limit);
  return out;
}

void close_adaptation(Adaptation& adaptation) {
  adaptation.word = AdaptationWord::not_assessable_now;
  adaptation.decision_row.reset();
  adaptation.reasons = {{"not_assessable_now", {}}};
  adaptation.would_decide.clear();
  adaptation.before_tried.clear();
  adaptation.interruptions.clear();
  adaptation.estimates.reset();
  const std::int32_t op = adaptation.op;
  adaptation.series = {};
  adaptation.series.op = op;
}

} // namespace docket
