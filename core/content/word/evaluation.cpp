#include "core/content/word/evaluation.h"

#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace docket {

namespace {

/// Set with the stopwatch, or nobody said how, or by whoever observed the restudy: then the standard and the restudy
/// share an error of level.
bool standard_shares_rating(const Case& input) {
  std::set<std::string> observers;
  for (const Session& session : input.sessions)
    if (!session.observer.empty()) observers.insert(session.observer);
  return std::any_of(input.standard.begin(), input.standard.end(), [&](const StandardElement& element) {
    return element.time_source == TimeSource::stopwatch || element.time_source == TimeSource::not_said ||
           observers.contains(element.analyst);
  });
}

/// Rows that FITS needs too.
bool must_agree(const SettledRow& row) { return row.code == "with_help" || row.code == "with_leavers"; }

WeighingBasis basis_of(const Case& input, const Evaluation& found, const StandardTime& standard,
                       const TimeAvailable& time, const std::vector<std::int32_t>& standing) {
  WeighingBasis basis;
  basis.standard = standard.level;
  basis.settled = found.settled.line;
  for (const SettledRow& row : found.settled.rows)
    if (must_agree(row)) {
      basis.must_agree.push_back(row.line);
      if (row.code == "with_help")
        basis.help_of_unknown_length =
            static_cast<double>(row.unseen) > rules::most_help_of_unknown_length * static_cast<double>(row.line.cycles);
    }
  if (found.restudy.line) {
    const std::vector<std::int32_t>& timed = found.restudy.line->operators;
    basis.restudy = found.restudy.line->level;
    basis.restudied = static_cast<std::int64_t>(timed.size());
    for (const OperatorLevel& level : found.settled.per_operator)
      if (level.status == OperatorStatus::settled && std::find(timed.begin(), timed.end(), level.op) != timed.end())
        ++basis.settled_and_restudied;
    if (standard_shares_rating(input))
      basis.shared_level = input.settings.standard_uncertainty * input.settings.rating_uncertainty;
  }
  basis.condition_differs_now = !standing.empty();
  basis.restored_state_has_evidence =
      found.settled.line || found.restudy.line || std::all_of(standing.begin(), standing.end(), [&](std::int32_t i) {
        return !input.conditions[static_cast<std::size_t>(i)].elements.empty();
      });
  basis.limit = time.limit;
  basis.confidence = input.settings.confidence;
  basis.able = input.settings.able;
  return basis;
}

/// The ratios between variants are those of people where they were seen: settled operators first, then the restudy.
SequenceBasis sequence_basis_of(const Case& input, const SettledResult& settled, const RestudyResult& restudy,
                                const CombinedLine& combined) {
  SequenceBasis basis{combined.time, combined.u, combined.df, {}, 0, false, {}};
  if (settled.line && settled.line->sd_within > 0) {
    basis.spread = {settled.line->sd_within, settled.line->lag1};
    basis.sd_between = settled.line->sd_between;
    basis.spread_known = true;
    basis.variant_factors = settled.line->variant_ratios.factor;
  } else if (input.settings.cycle_spread) {
    basis.spread = {*input.settings.cycle_spread, rules::stated_spread_lag1};
    basis.spread_known = true;
  }
  if (basis.variant_factors.empty() && restudy.line && restudy.line->variant_ratios)
    basis.variant_factors = restudy.line->variant_ratios->factor;
  return basis;
}

} // namespace

std::vector<std::int32_t> standing_conditions(const Case& input, const Evidence& evidence) {
  std::optional<Date> last = evidence.facts.last_day ? evidence.facts.last_day : input.facts.opened_on;
  std::vector<std::int32_t> standing;
  for (std::size_t i = 0; i < input.conditions.size(); ++i) {
    const Condition& condition = input.conditions[i];
    if (condition.state != ConditionState::differs) continue;
    const bool ended = condition.to && last && *condition.to < Instant{*last};
    const bool not_begun = condition.from && last && *condition.from >= Instant{*last + std::chrono::days{1}};
    if (!ended && !not_begun) standing.push_back(static_cast<std::int32_t>(i));
  }
  return standing;
}

Evaluation evaluate(const Case& input, const Evidence& evidence, const StandardTime& standard,
                    const TimeAvailable& time, const std::vector<std::int32_t>& standing, bool with_differing) {
  Evaluation found;
  found.settled = find_settled_operators(input, evidence, standard, time, with_differing);
  found.restudy = find_restudy(input, evidence, standard, time, with_differing);
  if (found.restudy.line) {
    LineLevel& level = found.restudy.line->level;
    level.against = compare_with_limit(level, time.limit, input.settings.confidence);
  }
  found.basis = basis_of(input, found, standard, time, standing);
  // The sequence is drawn at the combined level, and what it leaves of room goes back into the weighing.
  const CombinedLine combined = weigh(found.basis).combined;
  found.sequence_basis = sequence_basis_of(input, found.settled, found.restudy, combined);
  found.sequence = find_sequence(input, evidence, standard, time, found.sequence_basis);
  found.basis.zone_given = found.sequence.zone_given;
  found.basis.spread_known = found.sequence_basis.spread_known;
  if (found.sequence.k_star)
    found.basis.sequence = SequenceRoomAtLevel{std::log(found.sequence.k_star->factor), combined.ln_ratio};
  found.weighing = weigh(found.basis);
  return found;
}

} // namespace docket
