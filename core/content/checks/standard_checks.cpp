#include "core/content/checks/standard_checks.h"

#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

namespace docket {
namespace {

/// Seconds of an element in the mean unit of the planned mix.
double per_unit_s(const ElementTime& element) {
  return element.share_of_units * element.times_per_unit * element.time.count();
}

const StandardElement& row_of_element(const Case& input, const ElementTime& element) {
  return input.standard[static_cast<std::size_t>(element.element)];
}

/// Cycles read by element, each with its variant (-1: not given); and which elements were seen at all.
struct ElementReadings {
  std::map<std::pair<std::int32_t, std::int64_t>, std::int32_t> cycles;
  std::set<std::int32_t> seen;
};

ElementReadings element_readings(const Case& input) {
  ElementReadings found;
  for (const Reading& reading : input.readings) {
    if (reading.element < 0 && reading.seen_element.empty()) continue;
    std::int32_t& variant = found.cycles.try_emplace({reading.session, reading.cycle}, -1).first->second;
    variant = std::max(variant, reading.variant);
    if (input.variants.size() == 1) variant = 0;
    if (reading.element >= 0) found.seen.insert(reading.element);
  }
  return found;
}

StudyCheck elements_not_seen(const Case& input, const StandardTime& standard, const ElementReadings& readings) {
  constexpr const char* code = "elements_not_seen";
  if (readings.cycles.empty()) return check_that_lacks(code, "element_readings");
  std::string names;
  double missed = 0, seconds = 0, too_few = 0;
  for (const ElementTime& element : standard.elements) {
    if (readings.seen.contains(element.element) || element.share_of_units <= 0) continue;
    const StandardElement& row = row_of_element(input, element);
    double expected = 0;
    for (const auto& [cycle, variant] : readings.cycles) {
      if (variant < 0 || carries(input.variants[static_cast<std::size_t>(variant)], row))
        expected += std::min(1.0, element.times_per_unit);
    }
    if (expected < rules::least_expected_seen) {
      ++too_few;
      continue;
    }
    ++missed;
    seconds += per_unit_s(element);
    add_name(names, row.element);
  }
  StudyCheck check = check_that_ran(code, missed > 0, Bias::too_heavy);
  check.names = names;
  check.numbers = {
      {"elements", missed}, {"seconds_s", seconds}, {"cycles", static_cast<double>(readings.cycles.size())}};
  if (too_few > 0) check.numbers["too_rare_to_tell"] = too_few;
  return check;
}

StudyCheck elements_not_in_standard(const StandardTime& standard, const ElementReadings& readings) {
  constexpr const char* code = "elements_not_in_standard";
  if (readings.cycles.empty()) return check_that_lacks(code, "element_readings");
  StudyCheck check = check_that_ran(code, !standard.unmatched.empty(), Bias::too_light);
  for (const std::string& name : standard.unmatched) add_name(check.names, name);
  check.numbers = {{"elements", static_cast<double>(standard.unmatched.size())},
                   {"seconds_s", standard.unmatched_per_unit.count()},
                   {"cycles", static_cast<double>(readings.cycles.size())}};
  return check;
}

StudyCheck elements_off_standard(const Case& input, const StandardTime& standard, const RestudyResult& restudy) {
  constexpr const char* code = "elements_off_standard";
  std::string names;
  double compared = 0, off = 0, seconds = 0;
  for (const SeenElement& seen : restudy.elements) {
    if (!seen.seen.low || !seen.seen.high) continue;
    ++compared;
    const ElementTime& element = standard.elements[static_cast<std::size_t>(seen.element)];
    if (element.time >= *seen.seen.low && element.time <= *seen.seen.high) continue;
    ++off;
    seconds += element.share_of_units * element.times_per_unit * (seen.seen.time - element.time).count();
    add_name(names, row_of_element(input, element).element);
  }
  if (compared == 0) return check_that_lacks(code, "element_intervals");
  StudyCheck check = check_that_ran(code, off > 0, seconds > 0 ? Bias::too_light : Bias::too_heavy);
  check.names = names;
  check.numbers = {{"elements", off},
                   {"compared", compared},
                   {"by_chance", compared * (1 - input.settings.confidence)},
                   {"seconds_s", seconds}};
  return check;
}

double mix_time_s(const StandardTime& standard, const std::vector<double>& shares) {
  double sum = 0, all = 0;
  for (std::size_t v = 0; v < shares.size(); ++v) {
    sum += shares[v] * standard.variants[v].time.count();
    all += shares[v];
  }
  return sum / all;
}

/// Units by variant: plain cycles of the log; without any, the build order given.
std::vector<double> units_built(const Case& input, const Evidence& evidence) {
  std::vector<double> units(input.variants.size(), 0);
  bool any = false;
  for (const PersonCycle& cycle : evidence.cycles) {
    if (cycle.session >= 0 || !cycle.marks.plain() || cycle.variant < 0) continue;
    ++units[static_cast<std::size_t>(cycle.variant)];
    any = true;
  }
  if (!any)
    for (const SequenceUnit& unit : input.build_sequence) ++units[static_cast<std::size_t>(unit.variant)];
  return units;
}

/// The mix the plant's standard was computed with, where its shares make a whole.
std::optional<std::vector<double>> shares_in_standard(const Case& input) {
  std::vector<double> shares;
  double sum = 0;
  for (const Variant& variant : input.variants) {
    shares.push_back(variant.share_in_standard.value_or(0));
    sum += shares.back();
  }
  if (std::abs(sum - 1) > rules::times_agree_within) return std::nullopt;
  return shares;
}

StudyCheck stale_mix(const Case& input, const Evidence& evidence, const StandardTime& standard) {
  constexpr const char* code = "stale_mix";
  const double planned = standard.mean.count();
  if (input.variants.size() == 1) {
    StudyCheck check = check_that_ran(code, false, Bias::none);
    check.numbers = {{"planned_s", planned}, {"single", 1}};
    return check;
  }
  const std::optional<std::vector<double>> in_standard = shares_in_standard(input);
  const std::vector<double> units = units_built(input, evidence);
  double n = 0;
  for (const double count : units) n += count;
  if (!in_standard && n == 0) return check_that_lacks(code, "another_mix");
  const double threshold = rules::stale_mix_share * planned;
  std::map<std::string, double> numbers{{"planned_s", planned}};
  bool old_off = false, built_off = false;
  double old_difference = 0, built_difference = 0;
  if (in_standard) {
    const double old_mean = mix_time_s(standard, *in_standard);
    old_difference = planned - old_mean;
    old_off = std::abs(old_difference) > threshold;
    numbers["in_standard_s"] = old_mean;
    numbers["planned_less_in_standard_s"] = old_difference;
  }
  if (n > 0) {
    const double mean = mix_time_s(standard, units);
    double variance = 0;
    for (std::size_t v = 0; v < units.size(); ++v)
      variance += units[v] / n * std::pow(standard.variants[v].time.count() - mean, 2);
    built_difference = mean - planned;
    built_off = std::abs(built_difference) > threshold &&
                std::abs(built_difference) > rules::mix_by_chance_z * std::sqrt(variance / n);
    numbers["built_s"] = mean;
    numbers["built_less_planned_s"] = built_difference;
    numbers["units"] = n;
  }
  const double decides = built_off ? built_difference : old_difference;
  StudyCheck check = check_that_ran(code, old_off || built_off, decides > 0 ? Bias::too_light : Bias::too_heavy);
  check.numbers = std::move(numbers);
  return check;
}

StudyCheck allowance_twice(const TimeAvailable& time) {
  constexpr const char* code = "allowance_twice";
  const bool in_time = time.allowance > 0 && (time.allowance_where == AllowanceWhere::in_cycle ||
                                              time.allowance_where == AllowanceWhere::in_standard);
  if (in_time && !time.oee) return check_that_lacks(code, "oee");
  StudyCheck check = check_that_ran(code, in_time && *time.oee < 1, Bias::too_heavy);
  check.numbers["allowance_share"] = time.allowance;
  if (time.oee) check.numbers["oee_share"] = *time.oee;
  return check;
}

StudyCheck allowance_absent(const TimeAvailable& time) {
  StudyCheck check = check_that_ran("allowance_absent", time.allowance <= 0, Bias::too_light);
  check.numbers["allowance_share"] = time.allowance;
  return check;
}

bool any_post(const Case& input) {
  return std::any_of(input.standard.begin(), input.standard.end(), [](const auto& e) { return !e.post.empty(); });
}

bool of_another_post(const Case& input, const StandardElement& element) {
  return !element.post.empty() && element.post != input.facts.post;
}

StudyCheck other_post_elements(const Case& input, const StandardTime& standard) {
  constexpr const char* code = "other_post_elements";
  if (input.facts.post.empty()) return check_that_lacks(code, "case_post");
  if (!any_post(input)) return check_that_lacks(code, "element_posts");
  std::string names;
  double elements = 0, seconds = 0;
  for (const ElementTime& element : standard.elements) {
    const StandardElement& row = row_of_element(input, element);
    if (!of_another_post(input, row)) continue;
    ++elements;
    seconds += per_unit_s(element);
    add_name(names, row.element);
  }
  StudyCheck check = check_that_ran(code, elements > 0, Bias::too_heavy);
  check.names = names;
  check.numbers = {{"elements", elements}, {"seconds_s", seconds}};
  return check;
}

const StandardElement* find_element(const Case& input, const std::string& name) {
  const auto found = std::find_if(input.standard.begin(), input.standard.end(),
                                  [&](const StandardElement& element) { return element.element == name; });
  return found == input.standard.end() ? nullptr : &*found;
}

bool any_after(const Case& input) {
  return std::any_of(input.standard.begin(), input.standard.end(), [](const auto& e) { return !e.after.empty(); });
}

StudyCheck waits_on_other_post(const Case& input) {
  constexpr const char* code = "waits_on_other_post";
  if (input.facts.post.empty()) return check_that_lacks(code, "case_post");
  if (!any_post(input)) return check_that_lacks(code, "element_posts");
  if (!any_after(input)) return check_that_lacks(code, "after");
  std::string names;
  double elements = 0;
  for (const StandardElement& element : input.standard) {
    if (of_another_post(input, element)) continue;
    for (const std::string& before : element.after) {
      const StandardElement* other = find_element(input, before);
      if (!other || !of_another_post(input, *other)) continue;
      ++elements;
      add_name(names, element.element + " after " + other->element);
    }
  }
  StudyCheck check = check_that_ran(code, elements > 0, Bias::too_light);
  check.names = names;
  check.numbers["elements"] = elements;
  return check;
}

/// Elements that must, in the end, come before themselves.
StudyCheck order_impossible(const Case& input) {
  constexpr const char* code = "order_impossible";
  if (!any_after(input)) return check_that_lacks(code, "after");
  std::string names;
  double elements = 0, with_after = 0;
  for (const StandardElement& start : input.standard) {
    if (!start.after.empty()) ++with_after;
    std::set<const StandardElement*> reached;
    std::vector<const StandardElement*> open{&start};
    while (!open.empty()) {
      const StandardElement* at = open.back();
      open.pop_back();
      for (const std::string& before : at->after) {
        const StandardElement* other = find_element(input, before);
        if (other && reached.insert(other).second) open.push_back(other);
      }
    }
    if (!reached.contains(&start)) continue;
    ++elements;
    add_name(names, start.element);
  }
  StudyCheck check = check_that_ran(code, elements > 0, Bias::either);
  check.names = names;
  check.numbers = {{"elements", elements}, {"with_after", with_after}};
  return check;
}

/// Numbers only: what each of the two measures leaves out of sight.
StudyCheck efficiency_and_utilisation(const StandardTime& standard) {
  constexpr const char* code = "efficiency_and_utilisation";
  if (standard.mean <= Seconds::zero()) return check_that_lacks(code, "times");
  StudyCheck check = check_that_ran(code, false, Bias::none);
  check.numbers = {{"efficiency_share", standard.efficiency},
                   {"utilisation_share", standard.utilisation},
                   {"nnva_s", standard.by_class[static_cast<std::size_t>(ElementClass::nnva)].count()},
                   {"nva_s", standard.by_class[static_cast<std::size_t>(ElementClass::nva)].count()}};
  return check;
}

StudyCheck sources_of_times(const Case& input, const StandardTime& standard) {
  constexpr const char* code = "sources_of_times";
  if (standard.mean <= Seconds::zero()) return check_that_lacks(code, "times");
  double history = 0, estimate = 0, not_said = 0;
  std::string names;
  for (const ElementTime& element : standard.elements) {
    const StandardElement& row = row_of_element(input, element);
    const double share = per_unit_s(element) / standard.mean.count();
    if (row.time_source == TimeSource::history) history += share;
    if (row.time_source == TimeSource::estimate) estimate += share;
    if (row.time_source == TimeSource::not_said) not_said += share;
    if (row.time_source == TimeSource::history || row.time_source == TimeSource::estimate) add_name(names, row.element);
  }
  const double all = history + estimate + not_said;
  StudyCheck check = check_that_ran(code, all > rules::unmeasured_share, Bias::either);
  check.names = names;
  check.numbers = {
      {"share", all}, {"history_share", history}, {"estimate_share", estimate}, {"not_said_share", not_said}};
  return check;
}

StudyCheck standby_seconds(const Case& input, const StandardTime& standard) {
  constexpr const char* code = "standby_seconds";
  if (standard.mean <= Seconds::zero()) return check_that_lacks(code, "times");
  double machine = 0, wait = 0;
  std::string names;
  for (const ElementTime& element : standard.elements) {
    const StandardElement& row = row_of_element(input, element);
    if (row.kind != ElementKind::machine && row.kind != ElementKind::wait) continue;
    (row.kind == ElementKind::machine ? machine : wait) += per_unit_s(element);
    add_name(names, row.element);
  }
  StudyCheck check = check_that_ran(code, machine + wait > 0, Bias::too_heavy);
  check.names = names;
  check.numbers = {{"seconds_s", machine + wait}, {"machine_s", machine}, {"wait_s", wait}};
  return check;
}

} // namespace

std::vector<StudyCheck> check_standard(const Case& input, const Evidence& evidence, const StandardTime& standard,
                                       const TimeAvailable& time, const RestudyResult& restudy) {
  const ElementReadings readings = element_readings(input);
  return {elements_not_seen(input, standard, readings),
          elements_not_in_standard(standard, readings),
          elements_off_standard(input, standard, restudy),
          stale_mix(input, evidence, standard),
          allowance_twice(time),
          allowance_absent(time),
          other_post_elements(input, standard),
          waits_on_other_post(input),
          order_impossible(input),
          efficiency_and_utilisation(standard),
          sources_of_times(input, standard),
          standby_seconds(input, standard)};
}

} // namespace docket
