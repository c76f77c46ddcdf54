// A case and its findings filled by hand, for the tests of the documents. The numbers are made up and agree only as far
// as a reader of the document would notice.
#pragma once

#include "core/case.h"
#include "core/findings.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace docket {

inline SourceRow row_of(TableName table, std::int64_t row) { return {0, table, row}; }

inline Case made_case() {
  using namespace std::chrono;
  Case made;
  CaseFacts& facts = made.facts;
  facts.case_ref = "HP-7";
  facts.title = "Pump station";
  facts.station = "P-3";
  facts.line = "Outdoor units";
  facts.working_min_per_day = 912;
  facts.units_per_day = 800;
  facts.takt = Seconds{68.4};
  facts.oee = 0.804;
  facts.line_cycle = Seconds{55.0};
  facts.early_start = Seconds{3.0};
  facts.late_finish = Seconds{9.0};
  facts.complaint_text = "Nobody can keep up.";
  facts.complainants = {"N-8"};
  facts.origins = {{"line_cycle_s", row_of(TableName::case_facts, 6)},
                   {"late_finish_s", row_of(TableName::case_facts, 9)}};
  made.sources = {{"station.xlsx", std::string(64, 'a'), 100}};
  made.variants = {{"light", 0.6, {}, {}, {}, row_of(TableName::variants, 2)},
                   {"heavy", 0.4, {"tank"}, {}, {}, row_of(TableName::variants, 3)}};
  StandardElement element;
  element.element = "E1";
  element.description = "Set pump";
  element.time = Seconds{30.0};
  element.origin = row_of(TableName::standard, 7);
  made.standard = {element};
  for (const char* code : {"A-1", "B-2"}) {
    Operator op;
    op.code = code;
    op.trained = YesNo::yes;
    op.origin = row_of(TableName::operators, static_cast<std::int64_t>(made.operators.size()) + 2);
    made.operators.push_back(op);
  }
  Condition condition;
  condition.check = "Torque driver";
  condition.state = ConditionState::differs;
  condition.origin = row_of(TableName::conditions, 4);
  made.conditions = {condition};
  for (std::int64_t i = 0; i < 6; ++i) {
    made.build_sequence.push_back({i + 1, i % 2 == 0 ? 0 : 1, "day 1", row_of(TableName::build_sequence, i + 2)});
  }
  made.counts = {{TableName::case_facts, 12, 12, 0, true}, {TableName::lifts, 2, 2, 0, false}};
  made.settings.given = {{"able_percent", "85", "agreed on 2 March", true, row_of(TableName::settings, 3)},
                         {"seed", "1", "", false, {}}};
  return made;
}

inline Findings made_findings(ContentWord word) {
  Findings made;
  made.time.line_cycle = made.time.limit = Seconds{55.0};
  made.time.takt = Seconds{68.4};
  made.time.oee = 0.804;
  ContentFindings& content = made.content;
  content.word = word;
  content.standard.mean = Seconds{53.0};
  content.standard.level.time = Seconds{53.0};
  content.standard.level.u = 0.05;
  content.standard.level.df = 1e9;
  content.standard.elements = {{0, Seconds{30.0}, 1, 1, Seconds{1.0}}};
  content.standard.variants = {{0, 0.6, Seconds{51.0}, {Seconds{40}, Seconds{8}, Seconds{3}}},
                               {1, 0.4, Seconds{56.0}, {Seconds{44}, Seconds{8}, Seconds{4}}}};
  content.standard.by_class = {Seconds{42}, Seconds{8}, Seconds{3}};
  SettledOperators line;
  line.level.time = Seconds{57.0};
  line.level.u = 0.05;
  line.level.se = 0.02;
  line.level.df = 5;
  line.level.leans = {{"fewer_than_three_operators", ""}};
  line.operators = 2;
  line.cycles = 12345;
  content.settled.line = line;
  content.settled.per_operator = {{0,
                                   OperatorStatus::settled,
                                   6000,
                                   12,
                                   0.01,
                                   0.02,
                                   4000,
                                   0.2,
                                   1.0,
                                   {Seconds{58.0}, Seconds{57.0}, Seconds{59.0}},
                                   false},
                                  {1,
                                   OperatorStatus::too_short,
                                   90,
                                   2,
                                   {},
                                   {},
                                   80,
                                   0.1,
                                   1.1,
                                   {Seconds{54.0}, Seconds{52.0}, Seconds{56.0}},
                                   false}};
  content.restudy.none_why = "no_rated_readings";
  CombinedLine combined;
  combined.time = Seconds{55.5};
  combined.margin = Seconds{-0.5};
  combined.margin_low = Seconds{-4.0};
  combined.margin_high = Seconds{2.5};
  combined.p_fits = 0.42;
  combined.p_as_agreed = 0.3;
  combined.weights = {0.5, 0.5, 0};
  content.combined = combined;
  content.clashes = {{Line::standard, Line::settled, Seconds{-4.0}, Seconds{1.5}, true}};
  content.sequence.zone_given = content.sequence.spread_known = true;
  GivenSequence given;
  given.units = 6;
  given.overloads = 1;
  given.overloads_per_1000 = 166.7;
  given.steps = {{Seconds{0}, Seconds{0}, false},  {Seconds{-3}, Seconds{0}, false}, {Seconds{-2}, Seconds{0}, false},
                 {Seconds{-3}, Seconds{0}, false}, {Seconds{-2}, Seconds{0}, false}, {Seconds{9}, Seconds{1}, true}};
  content.sequence.given = given;
  content.heaviest = {1, Seconds{58.6}, Seconds{5.4}, Seconds{3.4}, Seconds{7.4}, 1, 2};
  content.reasons = {{"clash", "standard, settled"}};
  content.would_decide = {{"clear_the_clash", ""}};
  content.with_differing = WithDiffering{ContentWord::not_shown, 0.2};
  made.conditions = {{0, 40}};
  for (std::int64_t row = 14; row <= 37; ++row) {
    ExcludedRow excluded;
    excluded.origin = row_of(TableName::cycle_log, row);
    excluded.marks.set(Mark::helped);
    made.evidence.excluded.push_back(excluded);
  }
  return made;
}

/// The reason and the row that go with a word.
inline std::pair<std::string, int> reason_and_row(AdaptationWord word) {
  switch (word) {
  case AdaptationWord::at_level:
    return {"at_level", 7};
  case AdaptationWord::still_learning:
    return {"improving", 5};
  case AdaptationWord::settled_above:
    return {"settled_above", 8};
  case AdaptationWord::learning_interrupted:
    return {"interrupted", 4};
  default:
    return {"can_not_tell", 10};
  }
}

/// Two breaks of the record below: one that cost cycles, and one with too few cycles after it.
inline std::vector<Interruption> made_interruptions() {
  Interruption gap;
  gap.at = {BreakKind::gap, 140, Date{std::chrono::days{20001}}, Date{std::chrono::days{20022}}, ""};
  gap.level_before = TimeEstimate{Seconds{61.55}, Seconds{60.45}, Seconds{62.75}};
  gap.loss = Loss{0.084, 0.033, 0.137};
  gap.cycles_lost = 32.4;
  gap.least_lost = 13.6;
  gap.loss_shown = true;
  gap.since = 40;
  Interruption training;
  training.at = {BreakKind::training, 170, Date{std::chrono::days{20023}}, Date{std::chrono::days{20023}},
                 "new driver"};
  training.none_why = "too_few_after";
  training.since = 10;
  return {gap, training};
}

/// What the residuals of the record below might show.
inline ResidualChecks made_checks() {
  ResidualChecks checks;
  checks.dependence = {0.137, 73, 0.24};
  checks.warm_up = WarmUp{5, 1.045, 1.015, 1.075, true};
  checks.extremes_looked_for = true;
  checks.extremes = {{133, Seconds{94.65}, Date{std::chrono::days{20001}}, 4.4}};
  checks.robust = RobustRefit{{Seconds{53.26}, Seconds{50.16}, Seconds{58.46}}, 6, 0.04, 4, true};
  return checks;
}

/// Operator B-2 asked about B: 80 cycles, three of them helped, one gap of 21 days; six curves, two of them with weight.
inline Adaptation made_adaptation(AdaptationWord word) {
  Adaptation made;
  made.op = 1;
  made.word = word;
  const auto [reason, decision_row] = reason_and_row(word);
  made.decision_row = decision_row;
  made.reasons = {{reason, ""}};
  if (reason == "can_not_tell") made.would_decide = {{"cycles_to_tell", "140"}};
  if (reason == "improving" || reason == "interrupted") made.would_decide = {{"cycles_after_these", ""}};
  made.interruptions = made_interruptions();
  PracticeSeries& series = made.series;
  series.op = 1;
  for (int i = 0; i < 80; ++i) {
    const PracticePoint point{101.0 + i, 66.0 - 0.1 * i, Date{std::chrono::days{20000 + i / 20 + (i < 40 ? 0 : 20)}}};
    series.with_bounds.push_back(point);
    series.with_helped.push_back(point);
    if (i % 30 != 7) series.plain.push_back(point);
  }
  series.cycles = 83;
  series.lower_bounds = 3;
  series.first_cycle = 101;
  series.last_cycle = 180;
  series.before = 100;
  series.days = 4;
  series.by_variant = {51, 32};
  for (const Interruption& found : made.interruptions) series.breaks.push_back(found.at);
  AdaptationEstimates own;
  ModelAnswer flat, falling;
  flat.fit.c = 62.25;
  flat.weight = 0.25;
  flat.settled = {Seconds{62.25}, Seconds{61.75}, Seconds{62.85}};
  flat.asymptote = flat.settled;
  falling.fit.model = CurveModel::power;
  falling.fit.excess = 66.65;
  falling.fit.first = 101;
  falling.fit.shape = 0.2;
  falling.weight = 0.73;
  falling.settled = {Seconds{52.35}, Seconds{50.15}, Seconds{54.45}};
  own.models = {flat, falling};
  for (const CurveModel model : {CurveModel::power_plateau, CurveModel::exponential_plateau,
                                 CurveModel::hyperbolic_plateau, CurveModel::two_phase}) {
    ModelAnswer answer = falling;
    answer.fit.model = model;
    answer.fit.c = 40;
    answer.fit.excess = 26.65;
    answer.fit.shape = model == CurveModel::power_plateau ? 0.4 : 310;
    if (model == CurveModel::two_phase) {
      answer.fit.excess2 = 4.5;
      answer.fit.shape2 = 2250;
    }
    answer.weight = 0.005;
    answer.asymptote = TimeEstimate{Seconds{40.06}, Seconds{31.36}, Seconds{47.16}};
    own.models.push_back(answer);
  }
  own.horizon_cycles = 240;
  own.reach_cycles = 240;
  own.course = {{101, 101, {Seconds{65.05}, Seconds{63.25}, Seconds{66.85}}},
                {140, 140, {Seconds{61.55}, Seconds{60.45}, Seconds{62.75}}},
                {141, 108.6, {Seconds{64.15}, Seconds{63.05}, Seconds{65.35}}},
                {180, 147.6, {Seconds{59.15}, Seconds{58.05}, Seconds{60.35}}}};
  own.settled = {Seconds{53.65}, Seconds{50.45}, Seconds{58.85}};
  own.today = {Seconds{59.15}, Seconds{58.05}, Seconds{60.35}};
  own.improvement = 0.0935;
  own.improvement_low = 0.0415;
  own.improvement_high = 0.1365;
  own.p_improving = 0.992;
  own.p_improving_with_helped = 0.983;
  own.p_within = 0.715;
  own.p_within_with_helped = 0.695;
  if (word == AdaptationWord::at_level || word == AdaptationWord::settled_above)
    own.late_slope = LateSlope{0.0175, 0.043, false};
  own.outlook = {200, Seconds{8.4}, Seconds{6.15}};
  own.checks = made_checks();
  own.to_limit = {145.0, 67.0, std::nullopt, 0.285};
  own.lag1 = 0.137;
  own.phi = 1.317;
  own.mean_seen = Seconds{61.95};
  own.settled_with_helped = Seconds{53.95};
  made.estimates = own;
  return made;
}

inline TimeBridge made_bridge() {
  TimeBridge bridge;
  bridge.op = 1;
  bridge.terms = {BridgeTerm{bridge_terms[0], Seconds{-2.05}, Seconds{-7.15}, Seconds{3.25}},
                  BridgeTerm{bridge_terms[1], Seconds{1.15}, Seconds{-4.35}, Seconds{6.55}},
                  BridgeTerm{bridge_terms[2], Seconds{-0.45}, Seconds{-6.75}, Seconds{5.95}},
                  BridgeTerm{bridge_terms[3], Seconds{5.5}, Seconds{2.45}, Seconds{8.05}},
                  BridgeTerm{bridge_terms[4], Seconds{2.8}, Seconds{1.65}, Seconds{3.85}}};
  bridge.sum = Seconds{6.95};
  return bridge;
}

inline BorrowedEstimate made_borrowed() {
  BorrowedEstimate borrowed;
  borrowed.learners = 7;
  borrowed.own_cycles = 77;
  borrowed.own_share = 0.435;
  borrowed.settled = {Seconds{54.25}, Seconds{51.75}, Seconds{56.85}};
  borrowed.today = {Seconds{59.45}, Seconds{58.35}, Seconds{60.55}};
  borrowed.reach = 900;
  borrowed.to_limit = 260;
  borrowed.to_limit_low = 95;
  borrowed.p_never = 0.385;
  return borrowed;
}

/// A FITS, B as `word`, for one operator.
inline Findings made_findings_with_b(AdaptationWord word) {
  Findings made = made_findings(ContentWord::fits);
  made.adaptation = {made_adaptation(word)};
  made.bridges = {made_bridge()};
  made.adaptation_band = AdaptationBand{6, Seconds{51.35}, Seconds{54.75}};
  made.beside_adaptation = {{1, std::nullopt, made_borrowed()}};
  if (word == AdaptationWord::settled_above) made.beside_adaptation[0].others_above = OthersAbove{2, 5};
  made.earlier_learners = EarlierLearnersBand{7,
                                              {{50, {Seconds{70.25}, Seconds{63.15}, Seconds{78.05}}},
                                               {100, {Seconds{66.45}, Seconds{60.25}, Seconds{73.35}}},
                                               {200, {Seconds{60.95}, Seconds{55.65}, Seconds{66.75}}}},
                                              {Seconds{53.85}, Seconds{49.95}, Seconds{58.15}}};
  made.earlier_learners_none_why.clear();
  return made;
}

/// The same after the gate has closed it.
inline Findings made_findings_with_b_closed() {
  Findings made = made_findings_with_b(AdaptationWord::settled_above);
  close_adaptation(made.adaptation.front());
  TimeBridge closed;
  closed.op = 1;
  closed.absent_why = "not_assessable_now";
  made.bridges = {closed};
  made.adaptation_band.reset();
  made.beside_adaptation = {{1, std::nullopt, std::nullopt}};
  made.earlier_learners.reset();
  made.earlier_learners_none_why = "not_assessable_now";
  return made;
}

} // namespace docket
