// A case and its findings filled by hand, for the tests of the documents. The numbers are made up and agree only as far
// as a reader of the document would notice.
#pragma once

#include "core/case.h"
#include "core/findings.h"

#include <string>

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

} // namespace docket
