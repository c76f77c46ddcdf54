#include "core/content/evaluation.h"

#include "core/rules.h"
#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <array>
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

SharedParts find_shared(const Case& input, const SettledResult& settled, const RestudyResult& restudy) {
  SharedParts shared;
  if (!restudy.line) return shared;
  if (standard_shares_rating(input))
    shared.standard_restudy = input.settings.standard_uncertainty * input.settings.rating_uncertainty;
  if (settled.line) {
    double both = 0;
    for (const OperatorLevel& level : settled.per_operator) {
      const auto& timed = restudy.line->operators;
      if (level.status == OperatorStatus::settled && std::find(timed.begin(), timed.end(), level.op) != timed.end())
        ++both;
    }
    const double s = settled.line->s;
    shared.settled_restudy =
        both * s * s /
        (static_cast<double>(settled.line->operators) * static_cast<double>(restudy.line->operators.size()));
  }
  return shared;
}

/// P that a share `able` of trained people has an own mean within `reach` (as a logarithm of a ratio to the level).
double p_share(double reach, const CombinedLine& combined, const SettledOperators& settled, double able) {
  const double z = normal_quantile(able);
  const auto m = static_cast<double>(settled.operators);
  const std::array<UncertaintyPart, 2> parts{
      {{combined.u, combined.df}, {std::abs(z) * settled.s / std::sqrt(2 * (m - 1)), m - 1}}};
  return probability_within(reach - z * settled.s, 0, combined_uncertainty(parts), effective_degrees_of_freedom(parts));
}

ShareAble find_share_able(const Case& input, const CombinedLine& combined, const SettledResult& settled,
                          std::optional<double> ln_k_star) {
  ShareAble share;
  share.required = input.settings.able;
  if (!settled.line || settled.line->operators < 2) return share;
  const double reach = -combined.ln_ratio;
  if (settled.line->s <= 0) {
    share.estimate = reach >= 0 ? 1 : 0;
    share.p_zone = ln_k_star.value_or(reach) >= 0 ? 1 : 0;
    return share;
  }
  share.estimate = normal_cdf(reach / settled.line->s);
  share.p_able = p_share(reach, combined, *settled.line, share.required);
  share.p_zone = p_share(ln_k_star.value_or(reach), combined, *settled.line, share.required);
  return share;
}

std::optional<double> ln_k_star(const SequenceFindings& sequence) {
  return sequence.k_star ? std::optional(std::log(sequence.k_star->factor)) : std::nullopt;
}

} // namespace

std::optional<DecisionView> view_of(const std::vector<LineInput>& lines, const Evaluation& pass, const Case& input,
                                    const TimeAvailable& time) {
  if (lines.empty()) return std::nullopt;
  const CombinedLine combined = combine_against_limit(lines, pass.shared, time.limit, input.settings.confidence);
  DecisionView view;
  view.p = combined.p_fits;
  std::optional<double> k = ln_k_star(pass.sequence);
  if (k) {
    *k += pass.combined->ln_ratio - combined.ln_ratio;
    view.p_seq = probability_within(*k, 0, combined.u, combined.df);
  }
  const bool with_settled =
      std::any_of(lines.begin(), lines.end(), [](const LineInput& l) { return l.line == Line::settled; });
  if (with_settled) {
    const ShareAble share = find_share_able(input, combined, pass.settled, k);
    if (pass.settled.line->operators >= rules::least_operators) view.p_able = share.p_able;
    view.p_zone = share.p_zone;
  }
  return view;
}

namespace {

bool only_exactly_two(const LineLevel& level) {
  return std::all_of(level.leans.begin(), level.leans.end(),
                     [](const Reason& reason) { return reason.code == "exactly_two_operators"; });
}

template <class Keep>
std::vector<LineInput> lines_where(const std::vector<LineInput>& lines, Keep keep) {
  std::vector<LineInput> kept;
  std::copy_if(lines.begin(), lines.end(), std::back_inserter(kept), keep);
  return kept;
}

/// The views without each line that leans and without all of them; and the others beside exactly two operators.
void add_leaning_views(Evaluation& pass, const Case& input, const TimeAvailable& time) {
  const auto leans = [](const LineInput& line) { return !line.level.leans.empty() && !only_exactly_two(line.level); };
  std::size_t leaning = 0;
  for (const LineInput& line : pass.lines) {
    if (leans(line)) {
      ++leaning;
      const Line name = line.line;
      pass.facts.without_leaning.push_back(
          view_of(lines_where(pass.lines, [&](const LineInput& l) { return l.line != name; }), pass, input, time));
    } else if (!line.level.leans.empty()) {
      const Line name = line.line;
      pass.facts.others =
          view_of(lines_where(pass.lines, [&](const LineInput& l) { return l.line != name; }), pass, input, time);
    }
  }
  if (leaning > 1)
    pass.facts.without_leaning.push_back(
        view_of(lines_where(pass.lines, [&](const LineInput& l) { return !leans(l); }), pass, input, time));
}

} // namespace

/// Conditions that still differ on the last day of evidence.
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
  Evaluation pass;
  pass.settled = find_settled_operators(input, evidence, standard, time, with_differing);
  pass.restudy = find_restudy(input, evidence, standard, time, with_differing);
  const auto set_against = [&](LineLevel& level) {
    level.against = compare_with_limit(level, time.limit, input.settings.confidence);
  };
  if (pass.settled.line) set_against(pass.settled.line->level);
  if (pass.restudy.line) set_against(pass.restudy.line->level);
  pass.lines.push_back({Line::standard, standard.level});
  if (pass.settled.line) pass.lines.push_back({Line::settled, pass.settled.line->level});
  if (pass.restudy.line) pass.lines.push_back({Line::restudy, pass.restudy.line->level});
  pass.shared = find_shared(input, pass.settled, pass.restudy);
  pass.clashes = find_clashes(pass.lines, pass.shared, time.limit);
  pass.combined = combine_against_limit(pass.lines, pass.shared, time.limit, input.settings.confidence);

  SequenceBasis& basis = pass.basis;
  basis = {pass.combined->time, pass.combined->u, pass.combined->df, {}, 0, false};
  if (pass.settled.line && pass.settled.line->sd_within > 0) {
    basis.spread = {pass.settled.line->sd_within, pass.settled.line->lag1};
    basis.sd_between = pass.settled.line->sd_between;
    basis.spread_known = true;
  } else if (input.settings.cycle_spread) {
    basis.spread = {*input.settings.cycle_spread, 0};
    basis.spread_known = true;
  }
  pass.sequence = find_sequence(input, evidence, standard, time, basis);
  pass.share_able = find_share_able(input, *pass.combined, pass.settled, ln_k_star(pass.sequence));

  DecisionFacts& facts = pass.facts;
  facts.usable_line = !pass.lines.empty();
  facts.clash = std::any_of(pass.clashes.begin(), pass.clashes.end(), [](const Clash& c) { return c.blocks; });
  facts.all = view_of(pass.lines, pass, input, time).value_or(DecisionView{});
  add_leaning_views(pass, input, time);
  facts.zone_given = pass.sequence.zone_given;
  facts.spread_known = basis.spread_known;
  for (const LineInput& line : pass.lines)
    facts.identical_values = facts.identical_values ||
                             (line.level.identical_values &&
                              pass.combined->weights[static_cast<std::size_t>(line.line)] > rules::zero_spread_weight);
  facts.condition_differs_now = !standing.empty();
  facts.restored_state_has_evidence =
      pass.settled.line || pass.restudy.line || std::all_of(standing.begin(), standing.end(), [&](std::int32_t i) {
        return !input.conditions[static_cast<std::size_t>(i)].elements.empty();
      });
  facts.confidence = input.settings.confidence;
  pass.decision = decide_content(facts);
  return pass;
}

} // namespace docket
