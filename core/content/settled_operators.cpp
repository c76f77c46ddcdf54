#include "core/content/settled_operators.h"

#include "core/content/operator_order.h"
#include "core/content/settled_rule.h"
#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/blocks.h"
#include "core/statistics/distributions.h"
#include "core/statistics/random_effects.h"
#include "core/statistics/summary.h"
#include "core/statistics/uncertainty.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace docket {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// One operator's cycles that may speak for A2: in time order, cut to the window.
struct Record {
  std::int32_t op = -1;
  std::vector<const PersonCycle*> plain;
  std::int64_t helped = 0, helped_without_seconds = 0; ///< marked cycles of the same days
  bool met = false;                                    ///< any cycle at all
  std::int64_t plain_seen = 0, before_count = 0;
};

/// FNV-1a of the code: draws belong to the person, not to the row the person stands in.
std::uint64_t stream_of(const std::string& code) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : code) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash;
}

bool usable(const PersonCycle& cycle, bool with_differing) { return cycle.condition < 0 || with_differing; }

Record window_of(const Case& input, const Evidence& evidence, std::int32_t op, bool with_differing) {
  Record record;
  record.op = op;
  std::vector<const PersonCycle*> after;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.op != op) continue;
    record.met = true;
    if (!usable(cycle, with_differing)) continue;
    if (cycle.marks.plain()) ++record.plain_seen;
    if (cycle.own_count <= input.settings.settled_after_cycles) {
      if (cycle.marks.plain()) ++record.before_count;
      continue;
    }
    after.push_back(&cycle);
  }
  std::vector<Date> days;
  for (const PersonCycle* cycle : after)
    if (cycle->marks.plain() && (days.empty() || days.back() != cycle->day)) days.push_back(cycle->day);
  if (days.empty()) return record;
  const auto window = static_cast<std::ptrdiff_t>(std::min<std::size_t>(days.size(), rules::settled_window_days));
  const Date first = *(days.end() - window);
  for (const PersonCycle* cycle : after) {
    if (cycle->day < first) continue;
    if (cycle->marks.plain()) {
      record.plain.push_back(cycle);
    } else if (cycle->marks.has(Mark::helped) || cycle->marks.has(Mark::cut_short)) {
      ++record.helped;
      if (!cycle->helped_given) ++record.helped_without_seconds;
    }
  }
  return record;
}

/// y / S_v, with the allowance on it where the standard already holds it.
double scaled(const PersonCycle& cycle, const StandardTime& standard, const TimeAvailable& time) {
  return time.measured_factor * (cycle.work / standard.variants[static_cast<std::size_t>(cycle.variant)].time);
}

/// Scaled times by worked day, in order.
std::vector<std::vector<double>> by_day(const Record& record, const StandardTime& standard, const TimeAvailable& time) {
  std::vector<std::vector<double>> days;
  const PersonCycle* previous = nullptr;
  for (const PersonCycle* cycle : record.plain) {
    if (!previous || previous->day != cycle->day) days.emplace_back();
    days.back().push_back(scaled(*cycle, standard, time));
    previous = cycle;
  }
  return days;
}

/// Own means by variant; absent under `own_variant_cycles` plain cycles. [1], m_ov / S_v.
std::vector<std::optional<double>> own_ratios(const Record& record, const StandardTime& standard,
                                              const TimeAvailable& time) {
  std::vector<std::int64_t> n(standard.variants.size());
  std::vector<double> sum(standard.variants.size());
  for (const PersonCycle* cycle : record.plain) {
    const auto v = static_cast<std::size_t>(cycle->variant);
    ++n[v];
    sum[v] += scaled(*cycle, standard, time);
  }
  std::vector<std::optional<double>> ratios(n.size());
  for (std::size_t v = 0; v < n.size(); ++v)
    if (n[v] >= rules::own_variant_cycles) ratios[v] = sum[v] / static_cast<double>(n[v]);
  return ratios;
}

/// The level of one operator for the planned mix, whether or not they are settled.
OperatorLevel level_of(const Record& record, const Case& input, const StandardTime& standard,
                       const TimeAvailable& time) {
  OperatorLevel level;
  level.op = record.op;
  level.n = static_cast<std::int64_t>(record.plain.size());
  level.plain_seen = record.plain_seen;
  const std::vector<std::vector<double>> days = by_day(record, standard, time);
  level.days = static_cast<int>(days.size());
  if (record.plain.empty()) return level;

  std::vector<double> values;
  for (const std::vector<double>& day : days) values.insert(values.end(), day.begin(), day.end());
  const Summary all = summarise(values);
  const std::vector<std::optional<double>> own = own_ratios(record, standard, time);
  for (std::size_t v = 0; v < own.size(); ++v) {
    const VariantTime& variant = standard.variants[v];
    level.ratio += variant.share * own[v].value_or(all.mean) * (variant.time / standard.mean);
    if (!own[v] && variant.share >= rules::common_variant_share) level.bridged = true;
  }
  level.level.time = level.ratio * standard.mean;

  level.n_eff = static_cast<double>(all.n);
  if (all.n >= 3) {
    std::vector<std::vector<double>> residuals = days;
    for (std::vector<double>& day : residuals)
      for (double& value : day) value -= all.mean;
    level.lag1 = lag1_autocorrelation(residuals).corrected;
    level.n_eff = effective_count(static_cast<double>(all.n), level.lag1);
    const double df = std::max(1.0, level.n_eff - 1);
    const double reach =
        student_t_quantile(0.5 + input.settings.confidence / 2, df) * all.sd / all.mean / std::sqrt(level.n_eff);
    level.level.low = level.level.time * std::exp(-reach);
    level.level.high = level.level.time * std::exp(reach);
  }
  return level;
}

void apply_settled_rule(OperatorLevel& level, const Record& record, const Case& input, const StandardTime& standard,
                        const TimeAvailable& time) {
  const Operator& op = input.operators[static_cast<std::size_t>(record.op)];
  if (op.trained != YesNo::yes) {
    level.status = OperatorStatus::untrained;
    return;
  }
  level.status = OperatorStatus::too_short;
  if (level.n >= rules::settled_least_cycles && level.days >= rules::settled_least_days) {
    const FallWithBound fall = find_fall(by_day(record, standard, time), input.settings.seed, stream_of(op.code));
    level.fall = fall.fall;
    level.fall_bound = fall.bound;
    if (fall.bound <= input.settings.improvement_left) {
      level.status = OperatorStatus::settled;
    } else if (fall.fall > input.settings.improvement_left) {
      level.status = OperatorStatus::falling;
    }
  }
  if (level.status != OperatorStatus::settled && op.left_station) level.status = OperatorStatus::left;
}

/// What the standard's element errors add where levels are bridged by its ratios: sum of (d_e f_e u(t_e) / S)^2.
double bridged_variance(const std::vector<const Record*>& settled, const Case& input, const StandardTime& standard) {
  std::vector<double> q(standard.variants.size());
  double n = 0;
  for (const Record* record : settled)
    for (const PersonCycle* cycle : record->plain) {
      q[static_cast<std::size_t>(cycle->variant)] += 1;
      n += 1;
    }
  double variance = 0;
  for (const ElementTime& element : standard.elements) {
    double d = element.share_of_units;
    for (std::size_t v = 0; v < q.size(); ++v)
      if (carries(input.variants[v], input.standard[static_cast<std::size_t>(element.element)]))
        d -= (standard.mean / standard.variants[v].time) * q[v] / n;
    variance += std::pow(d * element.times_per_unit * (element.u / standard.mean), 2);
  }
  return variance;
}

/// Is the ratio to the standard the same for every variant? Operators as blocks; those with own means for all variants.
std::optional<double> test_ratio_by_variant(const std::vector<const Record*>& settled, const StandardTime& standard,
                                            const TimeAvailable& time) {
  std::vector<std::vector<double>> rows;
  for (const Record* record : settled) {
    const std::vector<std::optional<double>> own = own_ratios(*record, standard, time);
    std::vector<double> row;
    bool complete = true;
    for (std::size_t v = 0; v < own.size(); ++v) {
      if (standard.variants[v].share < rules::common_variant_share) continue;
      complete = complete && own[v].has_value();
      row.push_back(std::log(own[v].value_or(1)));
    }
    if (complete) rows.push_back(std::move(row));
  }
  const BlockTest test = test_treatments_in_blocks(rows);
  return test.possible ? std::optional(test.p) : std::nullopt;
}

/// Random part of the level: from operators, from days where there is one operator, from cycles where there is one day.
UncertaintyPart random_part(const std::vector<const Record*>& settled, double s, const OperatorLevel& only,
                            const StandardTime& standard, const TimeAvailable& time) {
  const auto m = static_cast<double>(settled.size());
  if (settled.size() >= 2) return {s / std::sqrt(m), m - 1};
  const std::vector<std::vector<double>> days = by_day(*settled.front(), standard, time);
  std::vector<double> values;
  for (const std::vector<double>& day : days) {
    if (days.size() >= 2) {
      values.push_back(std::log(summarise(day).mean));
    } else {
      for (const double y : day) values.push_back(std::log(y));
    }
  }
  const double n = days.size() >= 2 ? static_cast<double>(values.size()) : only.n_eff;
  return {summarise(values).sd / std::sqrt(n), std::max(1.0, n - 1)};
}

void add_spreads(SettledOperators& line, const std::vector<const Record*>& settled, const StandardTime& standard,
                 const TimeAvailable& time) {
  std::vector<GroupSummary> groups;
  std::vector<std::vector<double>> stretches;
  for (const Record* record : settled) {
    std::vector<std::vector<double>> days = by_day(*record, standard, time);
    std::vector<double> values;
    for (std::vector<double>& day : days)
      for (double& y : day) values.push_back(y = std::log(y));
    groups.push_back(summarise_group(values));
    for (std::vector<double>& day : days) {
      for (double& y : day) y -= groups.back().mean;
      stretches.push_back(std::move(day));
    }
  }
  const RandomEffects effects = fit_random_effects(groups);
  line.sd_within = std::sqrt(std::max(0.0, effects.variance_within));
  if (line.sd_within < rules::identical_within) line.sd_within = 0;
  line.sd_between = groups.size() < 2 ? 0.0 : std::sqrt(std::max(0.0, effects.variance_between));
  line.lag1 = line.sd_within > 0 ? lag1_autocorrelation(stretches).corrected : 0.0;
}

SettledOperators combine_settled(const std::vector<const Record*>& settled, const std::vector<OperatorLevel>& levels,
                                 const Case& input, const StandardTime& standard, const TimeAvailable& time) {
  SettledOperators line;
  line.operators = static_cast<std::int64_t>(settled.size());
  std::vector<double> ln_ratios;
  bool bridged = false;
  std::int64_t marked = 0;
  bool help_without_seconds = false;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const Record& record = *settled[i];
    ln_ratios.push_back(std::log(levels[i].ratio));
    bridged = bridged || levels[i].bridged;
    line.cycles += levels[i].n;
    line.within_limit += levels[i].level.time <= time.limit ? 1 : 0;
    marked += record.helped;
    help_without_seconds = help_without_seconds ||
                           static_cast<double>(record.helped_without_seconds) >
                               rules::help_without_seconds_share * static_cast<double>(levels[i].n + record.helped);
  }
  const Summary over_operators = summarise(ln_ratios);
  line.s = settled.size() >= 2 ? over_operators.sd : 0;
  line.ratio = std::exp(over_operators.mean);
  line.within_limit_lower = clopper_pearson(line.within_limit, line.operators, input.settings.confidence).low;
  add_spreads(line, settled, standard, time);

  const UncertaintyPart random = random_part(settled, line.s, levels.front(), standard, time);
  line.ratio_se = random.u;
  line.u_bridged = bridged ? std::sqrt(bridged_variance(settled, input, standard)) : 0;
  line.variant_test_p = test_ratio_by_variant(settled, standard, time);

  const double people =
      settled.size() <= 2 ? input.settings.between_people / std::sqrt(static_cast<double>(settled.size())) : 0;
  LineLevel& level = line.level;
  level.time = line.ratio * standard.mean;
  level.se = random.u;
  level.df = random.u > 0 ? random.df : infinite;
  level.u_as_agreed = std::sqrt(random.u * random.u + people * people + line.u_bridged * line.u_bridged);
  level.u = std::hypot(level.u_as_agreed, input.settings.pace_uncertainty);
  level.identical_values = random.u < rules::identical_within;

  if (line.operators == 1) level.leans.push_back({"fewer_than_three_operators", {}});
  if (line.operators == 2) level.leans.push_back({"exactly_two_operators", {}});
  if (bridged && line.variant_test_p && *line.variant_test_p < rules::variant_test_p)
    level.leans.push_back({"bridged_levels_differ", {}});
  if (marked > 0) level.leans.push_back({"helped_row_not_computed", std::to_string(marked)});
  if (help_without_seconds) level.leans.push_back({"help_without_seconds", {}});
  return line;
}

std::string why_nobody(const Case& input, const Evidence& evidence, const std::vector<OperatorLevel>& levels,
                       bool with_differing) {
  if (evidence.cycles.empty() || (input.operators.empty() && evidence.facts.no_operator_rows > 0)) {
    if (evidence.facts.no_operator_rows > 0) return "no_operator_known";
    return evidence.facts.line_time_rows > 0 ? "line_time_only" : "no_cycles";
  }
  // Nobody is named in most of the log: that, and not what the few other cycles lack, is the reason.
  if (evidence.facts.no_operator_rows > static_cast<std::int64_t>(evidence.cycles.size())) return "no_operator_known";
  const auto any = [&](auto&& condition) {
    return std::any_of(evidence.cycles.begin(), evidence.cycles.end(), condition);
  };
  const auto trained = [&](const PersonCycle& c) {
    return input.operators[static_cast<std::size_t>(c.op)].trained == YesNo::yes;
  };
  if (!any(trained)) return "nobody_trained";
  if (!any([&](const PersonCycle& c) { return c.marks.plain(); })) return "all_marked";
  if (!any([&](const PersonCycle& c) { return c.marks.plain() && usable(c, with_differing); }))
    return "all_out_by_condition";
  return levels.empty() ? "no_cycles" : "nobody_settled";
}

} // namespace

SettledResult find_settled_operators(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                     const TimeAvailable& time, bool with_differing) {
  std::vector<std::int32_t> in_order(input.operators.size());
  for (std::size_t i = 0; i < in_order.size(); ++i) in_order[i] = static_cast<std::int32_t>(i);
  std::sort(in_order.begin(), in_order.end(), [&](std::int32_t a, std::int32_t b) {
    return code_before(input.operators[static_cast<std::size_t>(a)].code,
                       input.operators[static_cast<std::size_t>(b)].code);
  });

  SettledResult result;
  std::vector<Record> records;
  records.reserve(in_order.size());
  std::vector<const Record*> settled;
  std::vector<OperatorLevel> settled_levels;
  std::string leavers_not_counted;
  for (const std::int32_t op : in_order) {
    records.push_back(window_of(input, evidence, op, with_differing));
    const bool has_left = input.operators[static_cast<std::size_t>(op)].left_station.has_value();
    OperatorLevel level = level_of(records.back(), input, standard, time);
    apply_settled_rule(level, records.back(), input, standard, time);
    if (level.status == OperatorStatus::settled) {
      settled.push_back(&records.back());
      settled_levels.push_back(level);
    }
    if (has_left && level.status != OperatorStatus::settled)
      leavers_not_counted +=
          (leavers_not_counted.empty() ? "" : ", ") + input.operators[static_cast<std::size_t>(op)].code;
    result.before_count += records.back().before_count;
    result.outside_window += level.plain_seen - records.back().before_count - level.n;
    if (level.status != OperatorStatus::settled) result.not_settled += level.n;
    if (records.back().met || has_left) result.per_operator.push_back(level);
  }
  if (settled.empty()) {
    result.none_why = why_nobody(input, evidence, result.per_operator, with_differing);
    return result;
  }
  result.line = combine_settled(settled, settled_levels, input, standard, time);
  if (!leavers_not_counted.empty())
    result.line->level.leans.push_back({"leavers_row_not_computed", leavers_not_counted});
  return result;
}

} // namespace docket
