#include "core/findings.h"

#include "core/rules.h"

#include <algorithm>
#include <cassert>
#include <set>

namespace docket {

namespace {

void add(std::vector<DataFault>& faults, bool holds, std::string check, std::string detail = {}) {
  if (holds) faults.push_back({std::move(check), std::move(detail)});
}

/// People whose cycles go on after the day they are said to have left.
std::string codes_after_leaving(const Case& input, const Evidence& evidence) {
  std::set<std::string> codes;
  for (const PersonCycle& cycle : evidence.cycles) {
    const Operator& person = input.operators[static_cast<std::size_t>(cycle.op)];
    if (person.left_station && cycle.day > *person.left_station) codes.insert(person.code);
  }
  std::string list;
  for (const std::string& code : codes) list += (list.empty() ? "" : ", ") + code;
  return list;
}

std::string count_text(std::int64_t n) { return n > 0 ? std::to_string(n) : std::string{}; }

void add_evidence_faults(std::vector<DataFault>& faults, const Case& input, const Evidence& evidence) {
  const EvidenceFacts& facts = evidence.facts;
  add(faults, facts.log_is_line_time, "log_is_line_time");
  add(faults, facts.line_time_rows > 0 && !facts.log_is_line_time, "line_time_rows", count_text(facts.line_time_rows));
  add(faults, facts.log_without_marks, "log_without_marks");
  add(faults, facts.other_station_rows > 0, "other_station_rows", count_text(facts.other_station_rows));
  add(faults, facts.no_operator_rows > 0, "no_operator_rows", count_text(facts.no_operator_rows));
  add(faults, facts.no_variant_rows > 0, "no_variant_rows", count_text(facts.no_variant_rows));
  const auto beside_log = std::count_if(evidence.cycles.begin(), evidence.cycles.end(),
                                        [](const PersonCycle& cycle) { return cycle.session >= 0; });
  add(faults, !input.cycle_log.empty() && beside_log > 0, "readings_beside_the_log", count_text(beside_log));
  add(faults, facts.readings_in_the_log > 0, "readings_in_the_log", count_text(facts.readings_in_the_log));
  const auto incomplete = std::count_if(evidence.excluded.begin(), evidence.excluded.end(),
                                        [](const ExcludedRow& row) { return row.why == Exclusion::elements_missing; });
  add(faults, incomplete > 0, "elements_incomplete", count_text(incomplete));

  const std::string after_leaving = codes_after_leaving(input, evidence);
  add(faults, !after_leaving.empty(), "cycles_after_leaving", after_leaving);

  std::set<std::int32_t> people;
  std::int64_t cycles = 0, plain = 0;
  for (const auto* list : {&evidence.cycles, &evidence.restudy})
    for (const PersonCycle& cycle : *list) {
      people.insert(cycle.op);
      ++cycles;
      plain += cycle.marks.plain() ? 1 : 0;
    }
  add(faults, people.size() == 1, "one_operator_only",
      people.empty() ? "" : input.operators[static_cast<std::size_t>(*people.begin())].code);
  // A reading that is also a person's cycle stands in both lists.
  add(faults, static_cast<std::int64_t>(evidence.cycles.size()) + facts.readings_in_the_log == 1, "one_cycle_only");
  add(faults, cycles > 0 && plain == 0, "every_cycle_marked");
}

AdaptationBasis basis_of(const Findings& findings) {
  AdaptationBasis basis;
  basis.limit = findings.time.limit;
  basis.measured_factor = findings.time.measured_factor;
  const StandardTime& standard = findings.content.standard;
  for (const VariantTime& variant : standard.variants) basis.relative_content.push_back(variant.time / standard.mean);
  return basis;
}

/// Levels of the settled operators of A other than `op`.
std::vector<Seconds> other_levels(const ContentFindings& content, std::int32_t op) {
  std::vector<Seconds> levels;
  for (const OperatorLevel& one : content.settled.per_operator)
    if (one.status == OperatorStatus::settled && one.op != op) levels.push_back(one.level.time);
  return levels;
}

std::optional<OthersAbove> count_others_above(const Findings& findings, const Adaptation& adaptation) {
  if (adaptation.word != AdaptationWord::settled_above) return std::nullopt;
  const std::vector<Seconds> levels = other_levels(findings.content, adaptation.op);
  OthersAbove counted{0, static_cast<std::int64_t>(levels.size())};
  if (counted.of < rules::least_others_counted) return std::nullopt;
  counted.above =
      std::count_if(levels.begin(), levels.end(), [&](Seconds level) { return level > findings.time.limit; });
  return counted;
}

bool is_closed(const Adaptation& adaptation) { return adaptation.word == AdaptationWord::not_assessable_now; }

/// What is not the person's own: after every word and every gate, so that nothing of a closed answer gets in.
void add_what_stands_beside(Findings& findings, const Case& input, const AdaptationBasis& basis,
                            const std::set<std::int32_t>& asked) {
  for (const Adaptation& one : findings.adaptation)
    findings.beside_adaptation.push_back({one.op, count_others_above(findings, one), std::nullopt});
  if (findings.adaptation.empty()) return;
  if (std::all_of(findings.adaptation.begin(), findings.adaptation.end(), is_closed)) {
    findings.earlier_learners_none_why = "not_assessable_now";
    return;
  }
  std::vector<PracticeSeries> others;
  for (std::int32_t op = 0; op < static_cast<std::int32_t>(input.operators.size()); ++op)
    if (!asked.contains(op))
      others.push_back(
          build_practice_series(input, findings.evidence, op, basis.relative_content, basis.measured_factor));
  const EarlierLearners earlier = fit_earlier_learners(others);
  const double confidence = input.settings.confidence;
  findings.earlier_learners = find_band(earlier, cycles_for_band(earlier), confidence);
  findings.earlier_learners_none_why = findings.earlier_learners ? std::string()
                                       : earlier.outcome == EarlierLearnersOutcome::fitted
                                           ? std::string("too_few_for_band")
                                           : std::string(name_of(earlier.outcome));
  for (std::size_t i = 0; i < findings.adaptation.size(); ++i) {
    const Adaptation& one = findings.adaptation[i];
    if (is_closed(one) || one.series.plain.size() >= rules::few_own_cycles) continue;
    findings.beside_adaptation[i].borrowed = borrow_estimate(earlier, one.series, basis.limit, confidence);
  }
}

void answer_adaptation(Findings& findings, const Case& input) {
  const AdaptationBasis basis = basis_of(findings);
  std::set<std::int32_t> asked;
  for (const std::string& code : asked_about(input.facts)) {
    const auto found = std::find_if(input.operators.begin(), input.operators.end(),
                                    [&](const Operator& op) { return op.code == code; });
    if (found == input.operators.end()) {
      findings.asked_not_in_data.push_back(code);
      continue;
    }
    const auto op = static_cast<std::int32_t>(found - input.operators.begin());
    if (!asked.insert(op).second) continue;
    Adaptation adaptation = assess_adaptation(input, findings.evidence, basis, op);
    if (gate_adaptation(adaptation.word, findings.content.word, adaptation.series.under_condition > 0) !=
        adaptation.word)
      close_adaptation(adaptation);
    if (is_closed(adaptation)) withhold_level(findings.content, input, op);
    findings.bridges.push_back(
        build_time_bridge(input, findings.evidence, findings.content, findings.time, adaptation));
    findings.excesses.push_back(find_excess(input, findings.evidence, findings.content, adaptation));
    add(findings.data_faults, contradicts(findings.content, adaptation), "settled_and_still_learning", code);
    findings.adaptation.push_back(std::move(adaptation));
  }
  add_what_stands_beside(findings, input, basis, asked);
  // A band beside an answer that is not given would be read as one.
  if (std::none_of(findings.adaptation.begin(), findings.adaptation.end(),
                   [](const Adaptation& a) { return a.estimates.has_value(); }))
    return;
  AdaptationBand band;
  for (const OperatorLevel& one : findings.content.settled.per_operator) {
    if (one.status != OperatorStatus::settled || asked.contains(one.op)) continue;
    band.low = band.n == 0 ? one.level.time : std::min(band.low, one.level.time);
    band.high = band.n == 0 ? one.level.time : std::max(band.high, one.level.time);
    ++band.n;
  }
  if (band.n >= rules::least_others_in_band) findings.adaptation_band = band;
}

} // namespace

AdaptationWord gate_adaptation(AdaptationWord word, ContentWord content, bool under_differing_condition) {
  const bool may_be_said = content == ContentWord::fits && !under_differing_condition;
  return word == AdaptationWord::settled_above && !may_be_said ? AdaptationWord::not_assessable_now : word;
}

namespace {

/// Takes one entry, a code with its count behind it, out of the names of a check.
void withhold_name(StudyCheck& check, const std::string& code) {
  std::string kept;
  for (std::size_t at = 0; at < check.names.size();) {
    std::size_t end = check.names.find(", ", at);
    if (end == std::string::npos) end = check.names.size();
    const std::string entry = check.names.substr(at, end - at);
    add_name(kept, entry.starts_with(code + " (") ? "one person" : entry);
    at = end + 2;
  }
  check.names = kept;
}

} // namespace

void withhold_level(ContentFindings& content, const Case& input, std::int32_t op) {
  std::vector<OperatorLevel>& people = content.settled.per_operator;
  const auto found =
      std::find_if(people.begin(), people.end(), [op](const OperatorLevel& one) { return one.op == op; });
  if (found == people.end() || found->status == OperatorStatus::settled) return;
  *found = OperatorLevel{};
  found->op = op;
  found->status = OperatorStatus::not_said;
  const std::string& code = input.operators[static_cast<std::size_t>(op)].code;
  for (StudyCheck& check : content.checks)
    if (check.code == "timed_while_learning") withhold_name(check, code);
  std::erase_if(content.again.bridged, [op](const BridgedVariant& one) { return one.op == op; });
  // A row that counts the person in shows the level by what it adds to the line.
  std::erase_if(content.settled.rows, [&](const SettledRow& row) {
    return (", " + row.who + ", ").find(", " + code + ", ") != std::string::npos;
  });
}

std::optional<OthersAbove> others_above(const Findings& findings, std::int32_t op) {
  for (const BesideAdaptation& beside : findings.beside_adaptation)
    if (beside.op == op) return beside.others_above;
  return std::nullopt;
}

Findings find_all(const Case& input) {
  const TimeAvailableResult available = find_time_available(input.facts);
  assert(available.time);
  Findings findings;
  findings.time = *available.time;
  findings.evidence = gather_evidence(input, findings.time.line_cycle);
  findings.content = answer_content(input, findings.evidence, findings.time);
  answer_adaptation(findings, input);
  findings.referrals_open =
      std::any_of(input.referrals.begin(), input.referrals.end(), [](const Referral& r) { return r.open; });
  const auto cycles_per_shift = static_cast<double>(findings.evidence.cycles_per_shift);
  findings.ergonomics =
      screen_ergonomics(input, findings.time.line_cycle,
                        findings.evidence.cycles_per_shift_assumed ? std::nullopt : std::optional(cycles_per_shift));

  for (std::size_t i = 0; i < input.conditions.size(); ++i) {
    ConditionEffect effect{static_cast<std::int32_t>(i), 0};
    const auto touched = [&](const PersonCycle& c) { return c.condition == effect.condition; };
    // The restudy's cycles stand among these too, as themselves or as the log has them.
    effect.cycles_out = std::count_if(findings.evidence.cycles.begin(), findings.evidence.cycles.end(), touched);
    findings.conditions.push_back(effect);
  }

  std::vector<DataFault>& faults = findings.data_faults;
  add_evidence_faults(faults, input, findings.evidence);
  const ContentFindings& content = findings.content;
  add(faults,
      (content.settled.line && content.settled.line->level.identical_values) ||
          (content.restudy.line && content.restudy.line->level.identical_values),
      "identical_values");
  add(faults, content.sequence.drawn && findings.evidence.cycles_per_shift_assumed, "cycles_per_shift_assumed",
      std::to_string(findings.evidence.cycles_per_shift));
  add(faults, input.build_sequence.empty(), "build_sequence_absent");
  for (const Condition& condition : input.conditions)
    add(faults, condition.state == ConditionState::not_checked, "condition_not_checked", condition.check);
  const bool people_known = !input.operators.empty();
  add(faults,
      people_known && std::none_of(input.operators.begin(), input.operators.end(),
                                   [](const Operator& op) { return op.trained == YesNo::yes; }),
      "no_trained_given");
  for (const TableCounts& table : input.counts)
    add(faults, !table.used_now, "not_used_yet", std::string(name_of(table.table)));
  return findings;
}

} // namespace docket
