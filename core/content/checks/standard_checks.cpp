#include "core/content/checks/standard_checks.h"

#include "core/content/checks/source_checks.h"
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
  StudyCheck check = check_that_ran(code, missed > 0, too_few == 0, Bias::too_heavy);
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
  double compared = 0, off = 0, seconds = 0, wide = 0;
  for (const SeenElement& seen : restudy.elements) {
    if (!seen.seen.low || !seen.seen.high) continue;
    ++compared;
    const ElementTime& element = standard.elements[static_cast<std::size_t>(seen.element)];
    if (*seen.seen.high - *seen.seen.low > 2 * rules::element_tells_share * element.time) ++wide;
    if (element.time >= *seen.seen.low && element.time <= *seen.seen.high) continue;
    ++off;
    seconds += element.share_of_units * element.times_per_unit * (seen.seen.time - element.time).count();
    add_name(names, row_of_element(input, element).element);
  }
  if (compared == 0) return check_that_lacks(code, "element_intervals");
  StudyCheck check = check_that_ran(code, off > 0, wide == 0, seconds > 0 ? Bias::too_light : Bias::too_heavy);
  check.names = names;
  check.numbers = {{"elements", off},
                   {"compared", compared},
                   {"wide", wide},
                   {"by_chance", compared * (1 - input.settings.confidence)},
                   {"seconds_s", seconds}};
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
  StudyCheck check = check_that_ran(code, false, false, Bias::none); // no threshold
  check.numbers = {{"efficiency_share", standard.efficiency},
                   {"utilisation_share", standard.utilisation},
                   {"nnva_s", standard.by_class[static_cast<std::size_t>(ElementClass::nnva)].count()},
                   {"nva_s", standard.by_class[static_cast<std::size_t>(ElementClass::nva)].count()}};
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
  std::vector<StudyCheck> checks{elements_not_seen(input, standard, readings),
                                 elements_not_in_standard(standard, readings),
                                 elements_off_standard(input, standard, restudy)};
  const auto add = [&](std::vector<StudyCheck> more) { checks.insert(checks.end(), more.begin(), more.end()); };
  add(check_mixes(input, evidence, standard));
  add({allowance_twice(time), allowance_absent(time), other_post_elements(input, standard), waits_on_other_post(input),
       order_impossible(input), efficiency_and_utilisation(standard)});
  add(check_sources(input, standard));
  checks.push_back(standby_seconds(input, standard));
  return checks;
}

} // namespace docket
