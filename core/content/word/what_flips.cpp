#include "core/content/word/what_flips.h"

#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace docket {

namespace {

std::string percent_of(double share) {
  const auto tenths = std::llround(share * 1000);
  return std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10));
}

Flip flip_of(std::string code, std::string detail, const Weighing& weighing, Seconds limit) {
  return {std::move(code),          std::move(detail),        weighing.decision.word,   limit - weighing.combined.time,
          weighing.combined.p_fits, weighing.facts.all.p_seq, weighing.facts.all.p_zone};
}

/// The systematic part of a level made another size.
void set_systematic(LineLevel& level, double systematic) { level.u = std::hypot(level.u_as_agreed, systematic); }

/// Weighs again with one thing changed.
class Changes {
public:
  Changes(const WeighingBasis& basis, Seconds limit) : basis_(basis), limit_(limit) {}

  void add(std::string code, std::string detail, const std::function<void(WeighingBasis&)>& change) {
    WeighingBasis changed = basis_;
    change(changed);
    flips_.push_back(flip_of(std::move(code), std::move(detail), weigh(changed), limit_));
  }
  void add(Flip flip) { flips_.push_back(std::move(flip)); }
  std::vector<Flip> take() { return std::move(flips_); }

private:
  const WeighingBasis& basis_;
  Seconds limit_;
  std::vector<Flip> flips_;
};

void add_ratings(Changes& changes, const Case& input, const WeighingBasis& basis) {
  if (!basis.restudy) return;
  const double size = input.settings.rating_uncertainty;
  changes.add("rating_up", percent_of(size), [&](WeighingBasis& b) { b.restudy->time *= 1 + size; });
  changes.add("rating_down", percent_of(size), [&](WeighingBasis& b) { b.restudy->time *= 1 - size; });
}

void add_systematic(Changes& changes, const Case& input, const StandardTime& standard, const WeighingBasis& basis) {
  const auto scale_standard = [&](WeighingBasis& b, double factor) {
    set_systematic(b.standard, factor * input.settings.standard_uncertainty);
    b.shared_level *= factor;
  };
  const auto scale_pace = [&](WeighingBasis& b, double factor) {
    set_systematic(b.settled->level, factor * input.settings.pace_uncertainty);
    for (SettledOperators& row : b.must_agree) set_systematic(row.level, factor * input.settings.pace_uncertainty);
  };
  if (standard.unmatched_per_unit > Seconds::zero()) {
    const double more = 1 + standard.unmatched_per_unit / standard.mean;
    changes.add("with_missing_elements", {}, [&](WeighingBasis& b) { b.standard.time *= more; });
  }
  const double level = input.settings.standard_uncertainty, pace = input.settings.pace_uncertainty;
  changes.add("standard_halved", percent_of(level / 2), [&](WeighingBasis& b) { scale_standard(b, 0.5); });
  changes.add("standard_doubled", percent_of(level * 2), [&](WeighingBasis& b) { scale_standard(b, 2); });
  if (basis.settled || basis.restudy) {
    // Ratings and judged pace rest on one picture of normal pace, and so may the standard: half of it tried.
    const double rating = input.settings.rating_uncertainty, half = rules::errors_alike;
    changes.add("errors_alike", {}, [&](WeighingBasis& b) {
      b.alike = {half * level * rating, half * pace * rating, half * level * pace};
    });
  }
  if (!basis.settled || pace <= 0) return;
  // At another pace than normal: the time at normal pace is that much longer, or shorter.
  const auto times = [](WeighingBasis& b, double factor) {
    b.settled->level.time *= factor;
    for (SettledOperators& row : b.must_agree) row.level.time *= factor;
  };
  changes.add("pace_above_normal", percent_of(pace), [&](WeighingBasis& b) { times(b, 1 + pace); });
  changes.add("pace_below_normal", percent_of(pace), [&](WeighingBasis& b) { times(b, 1 - pace); });
  changes.add("pace_halved", percent_of(pace / 2), [&](WeighingBasis& b) { scale_pace(b, 0.5); });
  changes.add("pace_doubled", percent_of(pace * 2), [&](WeighingBasis& b) { scale_pace(b, 2); });
}

void add_people(Changes& changes, const Evaluation& found) {
  const std::vector<LeftOutOne>& out = found.settled.left_out_one;
  if (!out.empty()) {
    // Which one it is stays unsaid here: the section on the settled operators has all of them, in order of code.
    const auto [lowest, highest] =
        std::minmax_element(out.begin(), out.end(), [](const LeftOutOne& a, const LeftOutOne& b) {
          return a.line.level.time < b.line.level.time;
        });
    changes.add("one_out_lowest", {}, [&](WeighingBasis& b) { b.settled = highest->line; });
    changes.add("one_out_highest", {}, [&](WeighingBasis& b) { b.settled = lowest->line; });
  }
  for (const SettledRow& row : found.settled.rows)
    changes.add(row.code, std::to_string(row.added), [&](WeighingBasis& b) { b.settled = row.line; });
}

/// The case without its rows of cycles: they are in the evidence, and there can be millions of them.
Case without_cycles(const Case& input) {
  Case out;
  out.facts = input.facts;
  out.settings = input.settings;
  out.standard = input.standard;
  out.variants = input.variants;
  out.build_sequence = input.build_sequence;
  out.operators = input.operators;
  out.sessions = input.sessions;
  out.conditions = input.conditions;
  return out;
}

/// Everything from the standard on, under a case with another mix or allowance.
Flip evaluate_changed(std::string code, std::string detail, const Case& changed, const Evidence& evidence,
                      const StandardTime& standard, const TimeAvailable& time,
                      const std::vector<std::int32_t>& standing) {
  StandardTime built = build_standard_time(changed, time.line_cycle);
  built.level.leans = standard.level.leans; // found in the readings, which are left out here
  built.level.against = compare_with_limit(built.level, time.limit, changed.settings.confidence);
  return flip_of(std::move(code), std::move(detail), evaluate(changed, evidence, built, time, standing, false).weighing,
                 time.limit);
}

} // namespace

std::vector<double> built_mix(const Case& input, const Evidence& evidence) {
  std::vector<double> shares(input.variants.size());
  double n = 0;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (!cycle.marks.plain()) continue;
    shares[static_cast<std::size_t>(cycle.variant)] += 1;
    n += 1;
  }
  if (n == 0) {
    for (const SequenceUnit& unit : input.build_sequence) {
      shares[static_cast<std::size_t>(unit.variant)] += 1;
      n += 1;
    }
  }
  if (n == 0) return {};
  for (double& share : shares) share /= n;
  return shares;
}

std::vector<Flip> find_left_out(const Case& input, const TimeAvailable& time, const Evaluation& found) {
  Changes changes(found.basis, time.limit);
  for (const LeftOutOne& out : found.settled.left_out_one)
    changes.add("one_out", input.operators[static_cast<std::size_t>(out.op)].code,
                [&](WeighingBasis& b) { b.settled = out.line; });
  return changes.take();
}

std::vector<Flip> find_flips(const Case& input, const Evidence& evidence, const StandardTime& standard,
                             const TimeAvailable& time, const std::vector<std::int32_t>& standing,
                             const Evaluation& found, const Evaluation* all) {
  Changes changes(found.basis, time.limit);
  add_ratings(changes, input, found.basis);
  add_systematic(changes, input, standard, found.basis);
  const AllowanceWhere where = input.facts.allowance_where; // by relief it is in no comparison
  if (input.facts.allowance > 0 && (where == AllowanceWhere::in_cycle || where == AllowanceWhere::in_standard)) {
    Case changed = without_cycles(input);
    changed.facts.allowance = 0;
    changed.facts.allowance_where = AllowanceWhere::none;
    if (const std::optional<TimeAvailable> without = find_time_available(changed.facts).time)
      changes.add(evaluate_changed("without_allowance", percent_of(input.facts.allowance), changed, evidence, standard,
                                   *without, standing));
  }
  const std::vector<double> built = built_mix(input, evidence);
  if (input.variants.size() > 1 && !built.empty()) {
    Case changed = without_cycles(input);
    for (std::size_t v = 0; v < built.size(); ++v) changed.variants[v].share = built[v];
    changes.add(evaluate_changed("built_mix", {}, changed, evidence, standard, time, standing));
  }
  add_people(changes, found);
  if (all != nullptr) changes.add(flip_of("with_differing", {}, all->weighing, time.limit));
  return changes.take();
}

} // namespace docket
