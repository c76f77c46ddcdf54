#include "core/content/word/weighing.h"

#include "core/rules.h"
#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace docket {

namespace {

ShareParts share_parts(const CombinedLine& combined, const SettledOperators& settled, double able) {
  const auto m = static_cast<double>(settled.operators);
  ShareParts share;
  share.z_able = normal_quantile(able);
  share.u_spread = std::abs(share.z_able) * settled.s / std::sqrt(2 * (m - 1));
  const std::array<UncertaintyPart, 2> parts{{{combined.u, combined.df}, {share.u_spread, m - 1}}};
  share.u = combined_uncertainty(parts);
  share.df = effective_degrees_of_freedom(parts);
  return share;
}

/// P that a share `able` of trained people has an own mean within `reach` (as a logarithm of a ratio to the level).
double p_share(double reach, const CombinedLine& combined, const SettledOperators& settled, double able) {
  const ShareParts share = share_parts(combined, settled, able);
  return probability_within(reach - share.z_able * settled.s, 0, share.u, share.df);
}

ShareAble find_share_able(double able, const CombinedLine& combined, const SettledOperators* settled,
                          std::optional<double> ln_k_star) {
  ShareAble share;
  share.required = able;
  if (settled == nullptr || settled->operators < 2) return share;
  const double reach = -combined.ln_ratio;
  if (settled->s <= 0) {
    share.estimate = reach >= 0 ? 1 : 0;
    share.p_zone = ln_k_star.value_or(reach) >= 0 ? 1 : 0;
    return share;
  }
  share.estimate = normal_cdf(reach / settled->s);
  share.p_able = p_share(reach, combined, *settled, share.required);
  share.p_zone = p_share(ln_k_star.value_or(reach), combined, *settled, share.required);
  return share;
}

std::vector<LineInput> lines_of(const WeighingBasis& basis, const SettledOperators* settled) {
  std::vector<LineInput> lines{{Line::standard, basis.standard}};
  if (settled != nullptr) lines.push_back({Line::settled, settled->level});
  if (basis.restudy) lines.push_back({Line::restudy, *basis.restudy});
  return lines;
}

SharedParts shared_of(const WeighingBasis& basis, const SettledOperators* settled) {
  SharedParts shared;
  if (settled != nullptr) shared.standard_settled = basis.alike.standard_settled;
  if (!basis.restudy) return shared;
  shared.standard_restudy = std::max(basis.shared_level, basis.alike.standard_restudy);
  if (settled != nullptr)
    shared.settled_restudy =
        basis.alike.settled_restudy + static_cast<double>(basis.settled_and_restudied) * settled->s * settled->s /
                                          static_cast<double>(settled->operators * basis.restudied);
  return shared;
}

std::optional<double> ln_k_star_at(const WeighingBasis& basis, double ln_ratio) {
  if (!basis.sequence) return std::nullopt;
  return basis.sequence->ln_k_star + basis.sequence->at_ln_ratio - ln_ratio;
}

/// What the rows look at with only these lines; absent where there is none.
std::optional<DecisionView> view_of(const WeighingBasis& basis, const std::vector<LineInput>& lines,
                                    const SharedParts& shared, const SettledOperators* settled) {
  if (lines.empty()) return std::nullopt;
  const CombinedLine combined = combine_against_limit(lines, shared, basis.limit, basis.confidence);
  const std::optional<double> ln_k_star = ln_k_star_at(basis, combined.ln_ratio);
  DecisionView view;
  view.p = combined.p_fits;
  if (ln_k_star) view.p_seq = probability_within(*ln_k_star, 0, combined.u, combined.df);
  const bool with_settled =
      std::any_of(lines.begin(), lines.end(), [](const LineInput& l) { return l.line == Line::settled; });
  if (with_settled) {
    const ShareAble share = find_share_able(basis.able, combined, settled, ln_k_star);
    if (settled->operators >= rules::least_operators) view.p_able = share.p_able;
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
void add_leaning_views(Weighing& weighing, const WeighingBasis& basis, const SettledOperators* settled) {
  const auto leans = [](const LineInput& line) { return !line.level.leans.empty() && !only_exactly_two(line.level); };
  const auto view_where = [&](auto keep) {
    return view_of(basis, lines_where(weighing.lines, keep), weighing.shared, settled);
  };
  std::size_t leaning = 0;
  for (const LineInput& line : weighing.lines) {
    const auto is_another = [name = line.line](const LineInput& l) { return l.line != name; };
    if (leans(line)) {
      ++leaning;
      weighing.without.push_back({line.line});
      weighing.facts.without_leaning.push_back(view_where(is_another));
    } else if (!line.level.leans.empty()) {
      weighing.facts.others = view_where(is_another);
    }
  }
  if (leaning < 2) return;
  std::vector<Line> all;
  for (const LineInput& line : weighing.lines)
    if (leans(line)) all.push_back(line.line);
  weighing.without.push_back(std::move(all));
  weighing.facts.without_leaning.push_back(view_where([&](const LineInput& l) { return !leans(l); }));
}

} // namespace

Weighing weigh(const WeighingBasis& basis) {
  const SettledOperators* settled = basis.settled ? &*basis.settled : nullptr;
  Weighing out;
  out.lines = lines_of(basis, settled);
  out.shared = shared_of(basis, settled);
  out.clashes = find_clashes(out.lines, out.shared, basis.limit);
  out.combined = combine_against_limit(out.lines, out.shared, basis.limit, basis.confidence);
  out.ln_k_star = ln_k_star_at(basis, out.combined.ln_ratio);
  out.share_able = find_share_able(basis.able, out.combined, settled, out.ln_k_star);
  if (out.share_able.p_able) out.share_parts = share_parts(out.combined, *settled, basis.able);

  DecisionFacts& facts = out.facts;
  facts.usable_line = true; // the standard is always one
  facts.clash = std::any_of(out.clashes.begin(), out.clashes.end(), [](const Clash& c) { return c.blocks; });
  facts.all = view_of(basis, out.lines, out.shared, settled).value_or(DecisionView{});
  add_leaning_views(out, basis, settled);
  for (const SettledOperators& row : basis.must_agree)
    facts.must_agree.push_back(
        view_of(basis, lines_of(basis, &row), shared_of(basis, &row), &row).value_or(DecisionView{}));
  facts.help_of_unknown_length = basis.help_of_unknown_length;
  facts.zone_given = basis.zone_given;
  facts.spread_known = basis.spread_known;
  facts.identical_values = std::any_of(out.lines.begin(), out.lines.end(), [&](const LineInput& line) {
    return line.level.identical_values &&
           out.combined.weights[static_cast<std::size_t>(line.line)] > rules::zero_spread_weight;
  });
  facts.condition_differs_now = basis.condition_differs_now;
  facts.restored_state_has_evidence = basis.restored_state_has_evidence;
  facts.confidence = basis.confidence;
  out.decision = decide_content(facts);
  return out;
}

} // namespace docket
