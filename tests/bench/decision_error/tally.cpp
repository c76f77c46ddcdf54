#include "tests/bench/decision_error/tally.h"

#include "core/content/word/evaluation.h"
#include "core/rules.h"
#include "core/statistics/distributions.h"
#include "tests/bench/bench_run.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace docket::bench {

namespace {

constexpr double same = 1e-9; // a point placed at a boundary is at it

struct Outcome {
  Decision decision;
  DecisionFacts facts;
  double level_error = 0, u = 0, within = 0, reach_error = 0;
  bool covered = false, spread_known = false;
  std::int64_t settled = 0;
};

Outcome evaluate_station(const Case& input, double ln_ratio, const TrueBoundaries& truth) {
  const TimeAvailable time = *find_time_available(input.facts).time;
  const Evidence evidence = gather_evidence(input, time.line_cycle);
  const StandardTime standard = build_standard_time(input, time.line_cycle);
  const Evaluation found = evaluate(input, evidence, standard, time, standing_conditions(input, evidence), false);
  Outcome out;
  out.decision = found.weighing.decision;
  out.facts = found.weighing.facts;
  const CombinedLine& combined = found.weighing.combined;
  out.level_error = combined.ln_ratio - ln_ratio;
  out.u = combined.u;
  out.covered =
      std::abs(out.level_error) <= student_t_quantile(0.5 + input.settings.confidence / 2, combined.df) * combined.u;
  out.spread_known = found.sequence_basis.spread_known;
  out.within = found.sequence_basis.spread.sigma;
  if (found.weighing.ln_k_star) out.reach_error = *found.weighing.ln_k_star + combined.ln_ratio - truth.rate;
  for (const OperatorLevel& level : found.settled.per_operator)
    out.settled += level.status == OperatorStatus::settled ? 1 : 0;
  return out;
}

void add(Tally& tally, const Outcome& outcome, const StationShape& shape) {
  ++tally.stations;
  const ContentWord word = outcome.decision.word;
  tally.fits += word == ContentWord::fits ? 1 : 0;
  tally.only_if += word == ContentWord::fits_only_if ? 1 : 0;
  tally.does_not_fit += word == ContentWord::does_not_fit ? 1 : 0;
  tally.not_shown += word == ContentWord::not_shown ? 1 : 0;
  ++tally.rows[static_cast<std::size_t>(outcome.decision.row)];
  tally.covered += outcome.covered ? 1 : 0;
  if (shape.settled) tally.people += shape.operators;
  tally.settled += outcome.settled;

  const DecisionView& all = outcome.facts.all;
  const double half_alpha = (1 - outcome.facts.confidence) / 2;
  const auto fits = [&](const DecisionView& view) {
    return view.p >= 1 - half_alpha && view.p_seq.value_or(0) >= 1 - half_alpha &&
           view.p_zone.value_or(1) >= rules::zone_able;
  };
  if (word == ContentWord::does_not_fit) {
    tally.over_by_mean += all.p <= half_alpha ? 1 : 0;
    tally.over_by_rate += all.p_seq.value_or(1) <= half_alpha ? 1 : 0;
    tally.over_by_share += all.p_able.value_or(1) <= half_alpha ? 1 : 0;
  }
  tally.mean_ok += all.p >= 1 - half_alpha ? 1 : 0;
  tally.rate_ok += all.p_seq.value_or(0) >= 1 - half_alpha ? 1 : 0;
  tally.zone_ok += all.p_zone.value_or(1) >= rules::zone_able ? 1 : 0;
  tally.rows_ok += std::all_of(outcome.facts.must_agree.begin(), outcome.facts.must_agree.end(), fits) ? 1 : 0;
  tally.level_error.add(outcome.level_error);
  tally.u.add(outcome.u);
  if (outcome.spread_known) {
    tally.reach_error.add(outcome.reach_error);
    tally.within.add(outcome.within);
  }
}

} // namespace

double true_ln_ratio(const Point& point, const TrueBoundaries& truth) {
  if (point.place == Place::margin) return std::log(1 - point.margin);
  const double fits = std::min(truth.mean, truth.rate);
  return point.place == Place::fits_boundary ? fits : std::min(fits, truth.share);
}

bool Tally::fits_is_false() const { return ln_ratio >= std::min(truth.mean, truth.rate) - same; }

bool Tally::unfit_is_false() const { return ln_ratio <= std::min({truth.mean, truth.rate, truth.share}) + same; }

bool Tally::people_over() const { return ln_ratio > truth.people; }

bool Tally::share_below() const { return ln_ratio >= truth.share - same; }

std::string misses_of(const Tally& tally) {
  const auto n = static_cast<double>(tally.stations);
  std::string misses;
  if (static_cast<double>(tally.false_fits()) > n * allowed_share(wrong_word, tally.stations)) add_word(misses, "FITS");
  if (static_cast<double>(tally.false_unfit()) > n * allowed_share(wrong_word, tally.stations))
    add_word(misses, "UNFIT");
  if (!covers_enough(tally.covered, tally.stations)) add_word(misses, "COVERAGE");
  return misses;
}

Tally run_point(const Point& point, const TrueBoundaries& truth, std::int64_t stations, std::uint64_t seed,
                unsigned threads) {
  Tally tally;
  tally.truth = truth;
  tally.ln_ratio = true_ln_ratio(point, truth);
  const Seconds level = line_cycle * std::exp(tally.ln_ratio);
  const std::uint64_t stream = stream_of(point.name);
  std::vector<Outcome> outcomes(static_cast<std::size_t>(stations));
  for_each_run(outcomes.size(), threads, [&](std::size_t i) {
    outcomes[i] = evaluate_station(simulate_station(point.shape, level, seed, stream, i), tally.ln_ratio, truth);
  });
  for (const Outcome& outcome : outcomes) add(tally, outcome, point.shape);
  return tally;
}

} // namespace docket::bench
