#include "core/content/content.h"

#include "core/rules.h"
#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

namespace docket {

namespace {

/// Everything that is computed anew when the cycles touched by a differing condition are taken in.
struct Pass {
  SettledResult settled;
  RestudyResult restudy;
  std::vector<LineInput> lines;
  SharedParts shared;
  std::vector<Clash> clashes;
  std::optional<CombinedLine> combined;
  SequenceBasis basis;
  SequenceFindings sequence;
  ShareAble share_able;
  DecisionFacts facts;
  Decision decision;
};

std::string_view code_of(Line line) {
  constexpr std::string_view codes[] = {"standard", "settled", "restudy"};
  return codes[static_cast<std::size_t>(line)];
}

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

/// What the rows look at with only these lines. The sequence margin scales with the level, so nothing is drawn again;
/// the spread of cycles is kept, for leaning is about a line's level.
std::optional<DecisionView> view_of(const std::vector<LineInput>& lines, const Pass& pass, const Case& input,
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
void add_leaning_views(Pass& pass, const Case& input, const TimeAvailable& time) {
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

Pass evaluate(const Case& input, const Evidence& evidence, const StandardTime& standard, const TimeAvailable& time,
              const std::vector<std::int32_t>& standing, bool with_differing) {
  Pass pass;
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

/// Why the row was reached, strongest first.
std::vector<Reason> reasons_for(const Pass& pass, const std::string& differing) {
  const DecisionFacts& facts = pass.facts;
  const double half_alpha = (1 - facts.confidence) / 2;
  std::vector<Reason> reasons;
  const auto leaning_lines = [&] {
    std::string names;
    for (const LineInput& line : pass.lines)
      if (!line.level.leans.empty()) names += (names.empty() ? "" : ", ") + std::string(code_of(line.line));
    return names;
  };
  switch (pass.decision.row) {
  case 1:
    for (const Clash& clash : pass.clashes)
      if (clash.blocks)
        reasons.push_back({"clash", std::string(code_of(clash.a)) + ", " + std::string(code_of(clash.b))});
    if (!facts.usable_line) reasons.push_back({"no_usable_line", {}});
    break;
  case 2:
    if (facts.all.p <= half_alpha) reasons.push_back({"mean_over", {}});
    if (facts.all.p_seq && *facts.all.p_seq <= half_alpha) reasons.push_back({"sequence_over", {}});
    if (facts.all.p_able && *facts.all.p_able <= half_alpha) reasons.push_back({"too_few_able", {}});
    break;
  case 3:
    if (!facts.zone_given) reasons.push_back({"zone_not_given", {}});
    if (!facts.spread_known) {
      reasons.push_back({"spread_not_known", {}});
      if (!pass.settled.line) reasons.push_back({pass.settled.none_why, {}});
    }
    if (facts.identical_values) reasons.push_back({"identical_values", {}});
    break;
  case 4:
  case 5:
    reasons.push_back({"mean_fits", {}});
    reasons.push_back({"sequence_fits", {}});
    reasons.push_back({facts.all.p_zone ? "enough_able" : "average_person_only", {}});
    if (facts.condition_differs_now) reasons.push_back({"condition_differs", differing});
    break;
  default:
    if (facts.all.p < 1 - half_alpha && facts.all.p > half_alpha) reasons.push_back({"mean_not_sure", {}});
    if (facts.all.p_seq && *facts.all.p_seq<1 - half_alpha&& * facts.all.p_seq> half_alpha)
      reasons.push_back({"sequence_not_sure", {}});
    if (facts.all.p_zone && *facts.all.p_zone < rules::zone_able) reasons.push_back({"too_few_within_zone", {}});
    // With all lines together a row would hold; a line that leans stands in the way.
    if (reasons.empty() && !facts.without_leaning.empty()) reasons.push_back({"leaning_line_needed", leaning_lines()});
    if (reasons.empty() && facts.others) reasons.push_back({"others_object", {}});
    if (reasons.empty() && facts.condition_differs_now) reasons.push_back({"no_evidence_of_restored_state", differing});
    break;
  }
  return reasons;
}

void add_for_leaning(std::vector<Reason>& list, const LineLevel& level) {
  for (const Reason& lean : level.leans) {
    if (lean.code == "fewer_than_three_operators" || lean.code == "exactly_two_operators")
      list.push_back({"more_settled_operators", {}});
    if (lean.code == "bridged_levels_differ") list.push_back({"time_the_station", {}});
    if (lean.code == "help_without_seconds") list.push_back({"seconds_of_help", {}});
    if (lean.code == "helped_row_not_computed") list.push_back({"helped_row", lean.detail});
    if (lean.code == "leavers_row_not_computed") list.push_back({"leavers_row", lean.detail});
    if (lean.code == "elements_missing") list.push_back({"complete_the_standard", lean.detail});
    if (lean.code == "method_not_known") list.push_back({"method_as_standard", lean.detail});
  }
}

/// True where the systematic part alone keeps P between alpha/2 and 1 - alpha/2: more cycles can't change that.
bool no_number_will(const Pass& pass) {
  double random = 0;
  for (const LineInput& line : pass.lines)
    random += std::pow(pass.combined->weights[static_cast<std::size_t>(line.line)] * line.level.se, 2);
  const double systematic = std::sqrt(std::max(0.0, pass.combined->u * pass.combined->u - random));
  return std::abs(pass.combined->ln_ratio) < normal_quantile(0.5 + pass.facts.confidence / 2) * systematic;
}

/// What would decide it, in the order in which it is worth doing. In words; no numbers yet.
std::vector<Reason> what_would_decide(const Pass& pass, const std::string& differing) {
  std::vector<Reason> list;
  if (pass.decision.word == ContentWord::fits || pass.decision.word == ContentWord::does_not_fit) return list;
  if (pass.facts.clash) list.push_back({"clear_the_clash", {}});
  if (!differing.empty()) list.push_back({"restore_conditions", differing});
  if (!pass.facts.zone_given) list.push_back({"give_work_zone", {}});
  if (!pass.facts.spread_known) list.push_back({"give_cycle_spread", {}});
  for (const LineInput& line : pass.lines) add_for_leaning(list, line.level);
  if (!pass.settled.line) list.push_back({"time_the_station", {}});
  if (!pass.restudy.line) list.push_back({"rated_restudy", {}});
  if (pass.lines.size() == 1) list.push_back({"second_line", {}});
  if (!pass.facts.clash && no_number_will(pass)) list.push_back({"no_number_will", {}});

  std::vector<Reason> once;
  for (const Reason& reason : list)
    if (std::find(once.begin(), once.end(), reason) == once.end()) once.push_back(reason);
  return once;
}

} // namespace

ContentFindings answer_content(const Case& input, const Evidence& evidence, const TimeAvailable& time) {
  ContentFindings found;
  found.standard = build_standard_time(input, time.line_cycle);
  found.standard.level.against = compare_with_limit(found.standard.level, time.limit, input.settings.confidence);
  found.held = safety_matter_is_open(input);

  const std::vector<std::int32_t> standing = standing_conditions(input, evidence);
  Pass pass = evaluate(input, evidence, found.standard, time, standing, false);
  found.word = pass.decision.word;
  found.decision_row = pass.decision.row;
  found.average_person_only = found.word == ContentWord::fits && !pass.facts.all.p_zone;
  if (pass.combined->p_fits > rules::leans_fits) found.leans = Leaning::fits;
  if (pass.combined->p_fits < rules::leans_over) found.leans = Leaning::over;
  std::string differing;
  for (const std::int32_t i : standing)
    differing += (differing.empty() ? "" : "; ") + input.conditions[static_cast<std::size_t>(i)].check;
  found.reasons = reasons_for(pass, differing);
  found.would_decide = what_would_decide(pass, differing);
  if (found.word == ContentWord::fits_only_if) found.only_if = standing;

  const auto touched = [](const PersonCycle& cycle) { return cycle.condition >= 0; };
  if (std::any_of(evidence.cycles.begin(), evidence.cycles.end(), touched) ||
      std::any_of(evidence.restudy.begin(), evidence.restudy.end(), touched)) {
    const Pass all = evaluate(input, evidence, found.standard, time, standing, true);
    found.with_differing = WithDiffering{all.decision.word, all.combined->p_fits};
  }

  found.heaviest = find_heaviest(input, found.standard, time, pass.basis);
  found.settled = std::move(pass.settled);
  found.restudy = std::move(pass.restudy);
  found.combined = pass.combined;
  found.clashes = std::move(pass.clashes);
  found.share_able = pass.share_able;
  found.sequence = std::move(pass.sequence);
  return found;
}

} // namespace docket
