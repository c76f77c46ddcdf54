#include "tests/bench/curve_coverage/curve_tally.h"

#include "tests/bench/bench_run.h"
#include "tests/bench/curve_coverage/learner.h"

#include <cmath>
#include <vector>

namespace docket::bench {

namespace {

constexpr double same = 1e-9; // a point placed at a boundary is at it

void add_level(Covering& covering, const TimeEstimate& estimate, double truth) {
  covering.add(estimate.low && truth < estimate.low->count(), estimate.high && truth > estimate.high->count());
  covering.error.add(std::log(estimate.time.count() / truth));
  if (estimate.low && estimate.high) covering.width.add(std::log(*estimate.high / *estimate.low));
}

void add_estimates(CurveTally& tally, const AdaptationEstimates& e) {
  const LearnerTruth& truth = tally.truth;
  tally.other_horizon += static_cast<double>(e.horizon_cycles) == true_horizon(tally.shape) ? 0 : 1;
  add_level(tally.settled, e.settled, truth.settled);
  add_level(tally.today, e.today, truth.today);
  tally.left.add(truth.left<e.improvement_low - same, truth.left> e.improvement_high + same);
  tally.left.error.add(e.improvement - truth.left);
  tally.left.width.add(e.improvement_high - e.improvement_low);
  tally.to_limit.add(lies_below(truth.cycles_to_limit, e.to_limit), lies_above(truth.cycles_to_limit, e.to_limit));
}

void add_word(CurveTally& tally, AdaptationWord word) {
  const double delta = Settings{}.improvement_left;
  const bool improving = tally.truth.left >= delta - same, improved = tally.truth.left <= delta + same;
  const bool above = tally.truth.settled > limit_of_learners.count();
  switch (word) {
  case AdaptationWord::at_level:
    ++tally.at_level;
    tally.wrong_at_level += improving ? 1 : 0;
    tally.wrong_side += above ? 1 : 0;
    break;
  case AdaptationWord::settled_above:
    ++tally.settled_above;
    tally.wrong_settled_above += improving ? 1 : 0;
    tally.wrong_side += above ? 0 : 1;
    break;
  case AdaptationWord::still_learning:
    ++tally.still_learning;
    tally.wrong_learning += improved ? 1 : 0;
    break;
  case AdaptationWord::learning_interrupted:
    ++tally.interrupted;
    break;
  case AdaptationWord::not_shown:
    ++tally.not_shown;
    break;
  case AdaptationWord::not_assessable_now:
    ++tally.not_assessable;
    break;
  }
}

Adaptation assess_learner(const Case& input) {
  AdaptationBasis basis;
  basis.limit = limit_of_learners;
  basis.relative_content = {1};
  return assess_adaptation(input, gather_evidence(input, limit_of_learners), basis, 0, AdaptationDetail::headline);
}

} // namespace

void Covering::add(bool below, bool above) {
  ++n;
  truth_below += below ? 1 : 0;
  truth_above += above ? 1 : 0;
  covered += below || above ? 0 : 1;
}

bool lies_below(const std::optional<double>& cycles, const CyclesToGo& interval) {
  return cycles && (!interval.low || *cycles < *interval.low);
}

bool lies_above(const std::optional<double>& cycles, const CyclesToGo& interval) {
  return interval.high && (!cycles || *cycles > *interval.high);
}

void add(CurveTally& tally, const Adaptation& said) {
  ++tally.runs;
  add_word(tally, said.word);
  if (said.word == AdaptationWord::not_shown && said.decision_row)
    ++tally.not_shown_by_row.at(static_cast<std::size_t>(*said.decision_row));
  if (said.estimates) add_estimates(tally, *said.estimates);
}

std::string misses_of(const CurveTally& tally) {
  std::string misses;
  const double allowed = allowed_share(wrong_word, tally.runs) * static_cast<double>(tally.runs);
  const auto miss_if = [&](bool missed, const char* what) {
    if (missed) add_word(misses, what);
  };
  const auto too_often = [&](std::int64_t count) { return static_cast<double>(count) > allowed; };
  miss_if(too_often(tally.wrong_settled_above), "SETTLED_ABOVE");
  miss_if(too_often(tally.wrong_at_level), "AT_LEVEL");
  miss_if(too_often(tally.wrong_learning), "STILL_LEARNING");
  miss_if(too_often(tally.wrong_side), "SIDE");
  miss_if(too_often(tally.interrupted), "INTERRUPTED");
  miss_if(!covers_enough(tally.settled.covered, tally.settled.n), "cover:settled");
  miss_if(!covers_enough(tally.today.covered, tally.today.n), "cover:today");
  miss_if(!covers_enough(tally.left.covered, tally.left.n), "cover:left");
  miss_if(!covers_enough(tally.to_limit.covered, tally.to_limit.n), "cover:to-limit");
  miss_if(tally.other_horizon > 0, "horizon");
  return misses;
}

CurveTally run_point(const LearnerPoint& point, std::int64_t runs, std::uint64_t seed, unsigned threads) {
  const TrueCurve curve = make_true_curve(point.shape);
  CurveTally tally;
  tally.shape = point.shape;
  tally.truth = find_truth(curve, point.shape);
  const std::uint64_t stream = stream_of(point.name);
  std::vector<Adaptation> said(static_cast<std::size_t>(runs));
  for_each_run(said.size(), threads, [&](std::size_t i) {
    said[i] = assess_learner(simulate_learner(point.shape, curve, seed, stream, i));
    said[i].series = {}; // thousands of cycles that nobody counts
    if (said[i].estimates) said[i].estimates->models.clear();
  });
  for (const Adaptation& adaptation : said) add(tally, adaptation);
  return tally;
}

} // namespace docket::bench
