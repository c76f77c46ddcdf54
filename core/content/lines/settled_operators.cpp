#include "core/content/lines/settled_operators.h"

#include "core/content/lines/operator_order.h"
#include "core/content/lines/settled_record.h"
#include "core/content/lines/settled_rows.h"
#include "core/content/lines/settled_rule.h"
#include "core/rules.h"
#include "core/statistics/autocorrelation.h"
#include "core/statistics/distributions.h"
#include "core/statistics/random_effects.h"
#include "core/statistics/studies/blocks.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace docket {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// FNV-1a of the code: draws belong to the person, not to the row the person stands in.
std::uint64_t stream_of(const std::string& code) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : code) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash;
}

/// What the settled rule says of one person: status and fall, and nothing of the level.
void apply_settled_rule(OperatorLevel& level, const OperatorRecord& record, const Case& input,
                        const StandardTime& standard, const TimeAvailable& time) {
  const Operator& op = input.operators[static_cast<std::size_t>(record.op)];
  if (op.trained != YesNo::yes) {
    level.status = OperatorStatus::untrained;
    return;
  }
  level.status = OperatorStatus::too_short;
  const std::vector<std::vector<double>> days = by_day(record, standard, time);
  if (static_cast<std::int64_t>(record.cycles.size()) >= rules::settled_least_cycles &&
      static_cast<int>(days.size()) >= rules::settled_least_days) {
    const FallWithBound fall = find_fall(days, input.settings.seed, stream_of(op.code));
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
double bridged_variance(const std::vector<const OperatorRecord*>& settled, const Case& input,
                        const StandardTime& standard) {
  std::vector<double> q(standard.variants.size());
  double n = 0;
  for (const OperatorRecord* record : settled)
    for (const PersonCycle* cycle : record->cycles) {
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
std::optional<double> test_ratio_by_variant(const std::vector<const OperatorRecord*>& settled,
                                            const StandardTime& standard, const TimeAvailable& time) {
  std::vector<std::vector<double>> rows;
  for (const OperatorRecord* record : settled) {
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

/// How the times of the variants lie to one another, over the trained people with own means. Practice and pace act on
/// all variants of a person alike, so that a short record counts too; a falling one might mix it with what was built when.
VariantRatios ratios_of_variants(const std::vector<OperatorRecord>& records, const std::vector<OperatorLevel>& judged,
                                 const StandardTime& standard, const TimeAvailable& time) {
  std::vector<VariantCell> cells;
  for (std::size_t o = 0; o < records.size(); ++o) {
    if (judged[o].status == OperatorStatus::untrained || judged[o].status == OperatorStatus::falling) continue;
    const std::vector<std::optional<double>> own = own_ratios(records[o], standard, time);
    for (std::size_t v = 0; v < own.size(); ++v)
      if (own[v]) cells.push_back({o, v, std::log(*own[v])});
  }
  std::vector<double> content;
  for (const VariantTime& variant : standard.variants) content.push_back(variant.share * variant.time.count());
  return find_variant_ratios(cells, content);
}

/// What the error of the ratios measured on others adds to the mean of ln r_o.
double bridged_by_others_variance(const std::vector<const OperatorRecord*>& settled, const VariantRatios& ratios,
                                  const StandardTime& standard, const TimeAvailable& time) {
  std::vector<double> mean(standard.variants.size());
  for (const OperatorRecord* record : settled) {
    const std::vector<double> leaning = leaning_on_ratios(*record, ratios, standard, time);
    for (std::size_t v = 0; v < mean.size(); ++v) mean[v] += leaning[v] / static_cast<double>(settled.size());
  }
  return ratios.variance_of(mean);
}

void add_spreads(SettledOperators& line, const std::vector<const OperatorRecord*>& settled,
                 const StandardTime& standard, const TimeAvailable& time) {
  std::vector<GroupSummary> groups;
  std::vector<std::vector<double>> stretches;
  for (const OperatorRecord* record : settled) {
    std::vector<std::vector<double>> days = by_day(*record, standard, time);
    std::vector<double> values;
    // What the standard's ratios between variants miss is no spread of a person's cycles.
    std::size_t next = 0;
    for (std::vector<double>& day : days)
      for (double& y : day) {
        const auto v = static_cast<std::size_t>(record->cycles[next++]->variant);
        values.push_back(y = std::log(y / line.variant_ratios.factor[v]));
      }
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

/// Codes of those whose times, before the mix is taken out, are all the same.
std::string people_with_times_alike(const std::vector<const OperatorRecord*>& settled, const Case& input) {
  std::string codes;
  for (const OperatorRecord* record : settled) {
    const std::vector<const PersonCycle*>& cycles = record->cycles;
    if (cycles.size() < rules::least_alike) continue;
    const Seconds first = cycles.front()->work;
    if (!std::all_of(cycles.begin(), cycles.end(), [&](const PersonCycle* cycle) { return cycle->work == first; }))
      continue;
    codes += (codes.empty() ? "" : ", ") + input.operators[static_cast<std::size_t>(record->op)].code;
  }
  return codes;
}

SettledOperators combine_settled(const std::vector<const OperatorRecord*>& settled,
                                 const std::vector<OperatorLevel>& levels, VariantRatios ratios_by_variant,
                                 const Case& input, const StandardTime& standard, const TimeAvailable& time) {
  SettledOperators line;
  line.variant_ratios = std::move(ratios_by_variant);
  std::vector<double> ratios;
  bool bridged = false, bridged_by_others = false;
  bool help_without_seconds = false;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const OperatorRecord& record = *settled[i];
    ratios.push_back(levels[i].ratio);
    bridged = bridged || levels[i].bridged;
    bridged_by_others = bridged_by_others || levels[i].bridged_by_others;
    line.cycles += levels[i].n;
    const auto helped = static_cast<double>(record.helped.size());
    help_without_seconds =
        help_without_seconds || static_cast<double>(record.helped_without_seconds) >
                                    rules::help_without_seconds_share * (static_cast<double>(levels[i].n) + helped);
  }
  add_spreads(line, settled, standard, time);
  line.u_bridged =
      std::sqrt((bridged ? bridged_variance(settled, input, standard) : 0) +
                (bridged_by_others ? bridged_by_others_variance(settled, line.variant_ratios, standard, time) : 0));
  line.variant_test_p = test_ratio_by_variant(settled, standard, time);
  if (bridged && line.variant_test_p && *line.variant_test_p < rules::variant_test_p)
    line.level.leans.push_back({"bridged_levels_differ", {}});
  if (help_without_seconds) line.level.leans.push_back({"help_without_seconds", {}});
  if (const std::string alike = people_with_times_alike(settled, input); !alike.empty())
    line.level.leans.push_back({"times_all_alike", alike});
  return with_ratios(line, ratios, random_part_of_one(*settled.front(), levels.front(), standard, time), input,
                     standard, time);
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
  if (!any([&](const PersonCycle& c) { return c.marks.plain() && (c.condition < 0 || with_differing); }))
    return "all_out_by_condition";
  return levels.empty() ? "no_cycles" : "nobody_settled";
}

} // namespace

UncertaintyPart random_part_of_one(const OperatorRecord& record, const OperatorLevel& level,
                                   const StandardTime& standard, const TimeAvailable& time) {
  const std::vector<std::vector<double>> days = by_day(record, standard, time);
  std::vector<double> values;
  for (const std::vector<double>& day : days) {
    if (days.size() >= 2) {
      values.push_back(std::log(summarise(day).mean));
    } else {
      for (const double y : day) values.push_back(std::log(y));
    }
  }
  const double n = days.size() >= 2 ? static_cast<double>(values.size()) : level.n_eff;
  return {summarise(values).sd / std::sqrt(n), std::max(1.0, n - 1)};
}

SettledOperators with_ratios(SettledOperators line, const std::vector<double>& ratios, const UncertaintyPart& alone,
                             const Case& input, const StandardTime& standard, const TimeAvailable& time) {
  std::vector<double> ln_ratios;
  line.within_limit = 0;
  for (const double ratio : ratios) {
    ln_ratios.push_back(std::log(ratio));
    line.within_limit += ratio * standard.mean <= time.limit ? 1 : 0;
  }
  const Summary over_operators = summarise(ln_ratios);
  const auto m = static_cast<double>(ratios.size());
  line.operators = static_cast<std::int64_t>(ratios.size());
  line.s = ratios.size() >= 2 ? over_operators.sd : 0;
  line.ratio = std::exp(over_operators.mean);
  line.within_limit_lower = clopper_pearson(line.within_limit, line.operators, input.settings.confidence).low;
  const UncertaintyPart random = ratios.size() >= 2 ? UncertaintyPart{line.s / std::sqrt(m), m - 1} : alone;
  line.ratio_se = random.u;

  const double people = ratios.size() <= 2 ? input.settings.between_people / std::sqrt(m) : 0;
  LineLevel& level = line.level;
  level.time = line.ratio * standard.mean;
  level.se = random.u;
  level.df = random.u > 0 ? random.df : infinite;
  level.u_as_agreed = std::sqrt(random.u * random.u + people * people + line.u_bridged * line.u_bridged);
  level.u = std::hypot(level.u_as_agreed, input.settings.pace_uncertainty);
  level.identical_values = random.u < rules::identical_within;
  level.against = compare_with_limit(level, time.limit, input.settings.confidence);

  std::erase_if(level.leans, [](const Reason& lean) {
    return lean.code == "fewer_than_three_operators" || lean.code == "exactly_two_operators";
  });
  if (line.operators == 1) level.leans.push_back({"fewer_than_three_operators", {}});
  if (line.operators == 2) level.leans.push_back({"exactly_two_operators", {}});
  return line;
}

SettledResult find_settled_operators(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                     const TimeAvailable& time, bool with_differing) {
  std::vector<std::int32_t> in_order(input.operators.size());
  for (std::size_t i = 0; i < in_order.size(); ++i) in_order[i] = static_cast<std::int32_t>(i);
  std::sort(in_order.begin(), in_order.end(), [&](std::int32_t a, std::int32_t b) {
    return code_before(input.operators[static_cast<std::size_t>(a)].code,
                       input.operators[static_cast<std::size_t>(b)].code);
  });

  std::vector<OperatorRecord> records;
  std::vector<OperatorLevel> judged;
  records.reserve(in_order.size());
  std::vector<const OperatorRecord*> settled;
  for (const std::int32_t op : in_order) {
    records.push_back(find_record(evidence, op, input.settings.settled_after_cycles, with_differing));
    apply_settled_rule(judged.emplace_back(), records.back(), input, standard, time);
    if (judged.back().status == OperatorStatus::settled) settled.push_back(&records.back());
  }
  // Everybody's level is bridged by the same ratios.
  const VariantRatios ratios = ratios_of_variants(records, judged, standard, time);
  SettledResult result;
  std::vector<OperatorLevel> settled_levels;
  for (std::size_t i = 0; i < records.size(); ++i) {
    OperatorLevel level = level_of(records[i], ratios, input, standard, time);
    level.status = judged[i].status;
    level.fall = judged[i].fall;
    level.fall_bound = judged[i].fall_bound;
    if (level.status == OperatorStatus::settled) settled_levels.push_back(level);
    result.before_count += records[i].before_count;
    result.outside_window += level.plain_seen - records[i].before_count - level.n;
    if (level.status != OperatorStatus::settled) result.not_settled += level.n;
    const bool has_left = input.operators[static_cast<std::size_t>(level.op)].left_station.has_value();
    if (records[i].met || has_left) result.per_operator.push_back(level);
  }
  if (settled.empty()) {
    result.none_why = why_nobody(input, evidence, result.per_operator, with_differing);
    return result;
  }
  result.line = combine_settled(settled, settled_levels, ratios, input, standard, time);
  add_settled_rows(result, settled, settled_levels, input, evidence, standard, time, with_differing);
  return result;
}

} // namespace docket
