#include "core/content/checks/source_checks.h"

#include "core/rules.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>

namespace docket {
namespace {

constexpr double rounding = 1e-9; // a difference of 10 % as written is not above it

/// Seconds of an element in the mean unit of the planned mix.
double per_unit_s(const ElementTime& element) {
  return element.share_of_units * element.times_per_unit * element.time.count();
}

const StandardElement& row_of_element(const Case& input, const ElementTime& element) {
  return input.standard[static_cast<std::size_t>(element.element)];
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

/// With one variant there is only one mix.
StudyCheck passed_with_one_variant(const char* code, double planned_s) {
  StudyCheck check = check_that_ran(code, false, Bias::none);
  check.numbers = {{"planned_s", planned_s}, {"single", 1}};
  return check;
}

/// Heavier than the plant's own figure: that figure makes the station look lighter than the planned mix is.
StudyCheck stale_mix(const Case& input, const StandardTime& standard) {
  constexpr const char* code = "stale_mix";
  const double planned = standard.mean.count();
  if (input.variants.size() == 1) return passed_with_one_variant(code, planned);
  const std::optional<std::vector<double>> in_standard = shares_in_standard(input);
  if (!in_standard) return check_that_lacks(code, "mix_of_standard");
  const double old_mean = mix_time_s(standard, *in_standard);
  const double difference = planned - old_mean;
  StudyCheck check = check_that_ran(code, std::abs(difference) > rules::stale_mix_share * planned,
                                    difference > 0 ? Bias::too_light : Bias::too_heavy);
  check.numbers = {{"planned_s", planned}, {"in_standard_s", old_mean}, {"planned_less_in_standard_s", difference}};
  return check;
}

/// Heavier as built than as planned: A, which is for the planned mix, makes the station look lighter than it was.
StudyCheck mix_built(const Case& input, const Evidence& evidence, const StandardTime& standard) {
  constexpr const char* code = "mix_built";
  const double planned = standard.mean.count();
  if (input.variants.size() == 1) return passed_with_one_variant(code, planned);
  const std::vector<double> units = units_built(input, evidence);
  double n = 0;
  for (const double count : units) n += count;
  if (n == 0) return check_that_lacks(code, "mix_built");
  const double mean = mix_time_s(standard, units);
  double variance = 0;
  for (std::size_t v = 0; v < units.size(); ++v)
    variance += units[v] / n * std::pow(standard.variants[v].time.count() - mean, 2);
  const double difference = mean - planned;
  const double chance = rules::mix_by_chance_z * std::sqrt(variance / n);
  const bool apart = std::abs(difference) > rules::stale_mix_share * planned;
  StudyCheck check = check_that_ran(code, apart && std::abs(difference) > chance, !apart,
                                    difference > 0 ? Bias::too_light : Bias::too_heavy);
  check.numbers = {{"planned_s", planned},
                   {"built_s", mean},
                   {"built_less_planned_s", difference},
                   {"chance_s", chance},
                   {"units", n}};
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

/// Elements whose time is given and whose motions give one too.
StudyCheck motions_against_given(const Case& input, const StandardTime& standard) {
  constexpr const char* code = "motions_against_given";
  if (standard.motions.empty()) return check_that_lacks(code, "motions");
  double compared = 0, off = 0, longer = 0, shorter = 0;
  std::string names;
  for (const ElementMotions& motions : standard.motions) {
    const StandardElement& row = input.standard[static_cast<std::size_t>(motions.element)];
    const std::optional<Seconds> from_motions = motions.first().time();
    if (row.time_from_motions || !row.time || *row.time <= Seconds::zero() || !from_motions) continue;
    ++compared;
    const Seconds given_less_motions = *row.time - *from_motions;
    if (std::abs(given_less_motions / *row.time) <= rules::motions_differ_share + rounding) continue;
    ++off;
    add_name(names, row.element);
    for (const ElementTime& element : standard.elements)
      if (element.element == motions.element)
        (given_less_motions > Seconds::zero() ? longer : shorter) +=
            element.share_of_units * element.times_per_unit * std::abs(given_less_motions.count());
  }
  if (compared == 0) return check_that_lacks(code, "given_and_motions");
  const Bias bias = shorter == 0 ? Bias::too_heavy : longer == 0 ? Bias::too_light : Bias::either;
  StudyCheck check = check_that_ran(code, off > 0, bias);
  check.names = names;
  check.numbers = {{"elements", off}, {"compared", compared}, {"given_longer_s", longer}, {"given_shorter_s", shorter}};
  return check;
}

/// Part of an element's motion time that rests on a shipped value that was not found in print, as a share of it.
double not_confirmed_share(const MotionAnalysis& analysis) {
  double sum = 0;
  for (const MotionStepTime& row : analysis.result.rows) {
    const bool confirmed = std::all_of(row.used.begin(), row.used.end(), [](const MotionValueUsed& value) {
      return value.origin.status == MotionValueStatus::found;
    });
    if (row.counts && !confirmed) sum += row.per_element_tmu;
  }
  return analysis.result.tmu && *analysis.result.tmu > 0 ? sum / *analysis.result.tmu : 0;
}

StudyCheck motion_values_not_confirmed(const Case& input, const StandardTime& standard) {
  constexpr const char* code = "motion_values_not_confirmed";
  if (standard.motions.empty()) return check_that_lacks(code, "motions");
  if (standard.mean <= Seconds::zero()) return check_that_lacks(code, "times");
  double from_motions = 0, seconds = 0, elements = 0;
  std::string names;
  for (const ElementTime& element : standard.elements) {
    const StandardElement& row = row_of_element(input, element);
    if (!row.time_from_motions) continue;
    from_motions += per_unit_s(element);
    const auto motions = std::find_if(standard.motions.begin(), standard.motions.end(),
                                      [&](const ElementMotions& m) { return m.element == element.element; });
    const double share = motions == standard.motions.end() ? 0 : not_confirmed_share(motions->first());
    if (share <= 0) continue;
    ++elements;
    seconds += share * per_unit_s(element);
    add_name(names, row.element);
  }
  const double share = seconds / standard.mean.count();
  StudyCheck check = check_that_ran(code, share > rules::unmeasured_share, Bias::either);
  check.names = names;
  check.numbers = {{"share", share}, {"seconds_s", seconds}, {"elements", elements}, {"from_motions_s", from_motions}};
  return check;
}

} // namespace

std::vector<StudyCheck> check_mixes(const Case& input, const Evidence& evidence, const StandardTime& standard) {
  return {stale_mix(input, standard), mix_built(input, evidence, standard)};
}

std::vector<StudyCheck> check_sources(const Case& input, const StandardTime& standard) {
  return {sources_of_times(input, standard), motions_against_given(input, standard),
          motion_values_not_confirmed(input, standard)};
}

} // namespace docket
