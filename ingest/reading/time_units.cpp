#include "ingest/reading/cell_values.h"
#include "ingest/reading/cross_checks.h"
#include "ingest/reading/time_available.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace docket {

namespace {

/// A median this many times the standard, or this part of it, is taken for another unit.
constexpr double too_far = 5;

/// So many readings of one element before its time in the standard is asked about (common practice).
constexpr std::size_t least_readings = 3;

/// A single reading of an element is asked about where it is off by this share of the station time too (common
/// practice): short elements are often five times as long as they should be.
constexpr double share_of_station = 0.1;

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*std::max_element(values.begin(), middle) + *middle) / 2;
}

bool is_too_far(double ratio) { return ratio >= too_far || ratio <= 1 / too_far; }

std::string rounded(double seconds) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), seconds < 1000 ? "%.4g s" : "%.0f s", seconds);
  return text.data();
}

/// Thousandfold is milliseconds, a sixtieth minutes; between, both are asked.
std::string ask_unit(double ratio) {
  if (ratio >= 100) return "Are these milliseconds?";
  if (ratio <= 0.05) return "Are these minutes or hundredths of a minute?";
  return "milliseconds? minutes?";
}

void report(Draft& draft, TableName table, std::string_view column, double seen, double expected,
            const std::string& what, const std::string& against) {
  add_table_issue(
      draft.issues,
      {IssueGrade::fault, "unit_of_time_unlikely",
       what + " is " + rounded(seen) + ", but " + against + " " + rounded(expected) + ". " + ask_unit(seen / expected),
       "Times are in the unit of the header: _s seconds, _min minutes, _cmin hundredths of a minute, _tmu TMU."},
      draft.state(table).sheets.front().source, table, 0, column, rounded(seen));
}

/// The mean of the standard over the mix.
double standard_mean(const Case& input) {
  double mean = 0;
  for (const Variant& variant : input.variants)
    for (const StandardElement& element : input.standard)
      if (element.time && carries(variant, element))
        mean += variant.share * element.times_per_unit * element.time->count();
  return mean;
}

/// A reading of an element holds all its occurrences in the cycle. Absent where the standard has no time, or none.
std::optional<double> element_seconds(const Case& input, std::int32_t element) {
  const StandardElement& row = input.standard[static_cast<std::size_t>(element)];
  if (!row.time) return std::nullopt;
  const double seconds = row.times_per_unit * row.time->count();
  return seconds > 0 ? std::optional<double>{seconds} : std::nullopt;
}

/// False where the unit is in question.
bool check_readings(Draft& draft, double standard) {
  std::vector<double> ratios;
  std::vector<double> times;
  std::vector<double> expected;
  for (const Reading& reading : draft.input.readings) {
    if (reading.element < 0 && !reading.seen_element.empty()) continue;
    const std::optional<double> of_standard =
        reading.element >= 0 ? element_seconds(draft.input, reading.element) : std::optional<double>{standard};
    if (!of_standard) continue;
    ratios.push_back(reading.time.count() / *of_standard);
    times.push_back(reading.time.count());
    expected.push_back(*of_standard);
  }
  if (ratios.empty() || !is_too_far(median(ratios))) return true;
  report(draft, TableName::readings, "time_s", median(times), median(expected), "The median reading",
         "the standard has for the same work");
  return false;
}

void check_log(Draft& draft, double standard) {
  std::vector<double> times;
  const std::string station = plain_word(draft.input.facts.station);
  std::vector<bool> is_here;
  for (const std::string& word : draft.input.log_words)
    is_here.push_back(station.empty() || plain_word(word) == station);
  for (const LoggedCycle& cycle : draft.input.cycle_log)
    if (cycle.station < 0 || is_here[static_cast<std::size_t>(cycle.station)]) times.push_back(cycle.cycle.count());
  if (times.empty() || !is_too_far(median(times) / standard)) return;
  report(draft, TableName::cycle_log, "cycle_s", median(times), standard, "The median cycle", "the standard makes");
}

/// An element shorter than anything the stopwatch tells apart, where no motions give it: a slip of the unit, most often.
void ask_about_very_short_elements(Draft& draft) {
  constexpr double very_short = 0.3; // [s], common practice
  for (const StandardElement& row : draft.input.standard)
    if (row.time && row.time->count() < very_short)
      row_issue(draft, row.origin, "time_s", short_number(row.time->count()),
                {IssueGrade::question, "element_very_short",
                 "This element takes " + rounded(row.time->count()) + ". Is the time in minutes?",
                 "If it is right, leave it. A time in minutes stands in a column time_min."});
}

/// One element whose readings are far from its time in the standard, while the others are not: a slip of the unit there,
/// or another element.
void ask_about_elements(Draft& draft) {
  std::vector<std::vector<double>> times(draft.input.standard.size());
  for (const Reading& reading : draft.input.readings)
    if (reading.element >= 0 && reading.marks.plain())
      times[static_cast<std::size_t>(reading.element)].push_back(reading.time.count());
  for (std::size_t e = 0; e < times.size(); ++e) {
    const std::optional<double> expected = element_seconds(draft.input, static_cast<std::int32_t>(e));
    if (times[e].size() < least_readings || !expected) continue;
    const double seen = median(times[e]);
    if (!is_too_far(seen / *expected)) continue;
    const StandardElement& row = draft.input.standard[e];
    row_issue(draft, row.origin, "time_s", short_number(row.time->count()),
              {IssueGrade::question, "element_time_unlikely",
               "The standard has " + rounded(*expected) + " a unit for this element, but the median of its " +
                   std::to_string(times[e].size()) + " readings is " + rounded(seen) + ". " +
                   ask_unit(seen / *expected),
               "If both are right, leave them. Else mend the time, its unit or times_per_unit, or the element named in "
               "the readings."});
  }
}

/// A single time far from the standard that no mark explains. It stays in; somebody should say what it was.
void ask_about_extreme_cycles(Draft& draft, double standard) {
  const auto ask = [&](const SourceRow& origin, std::string_view column, double seconds, double expected) {
    row_issue(draft, origin, column, short_number(seconds),
              {IssueGrade::question, "extreme_cycle",
               "The standard for this work is " + short_number(std::round(expected * 10) / 10) +
                   " s. No mark says what happened in this cycle, so its time is used as it stands.",
               "If it is right, leave it. If the line stood or the work was not this station's, give the row a mark."});
  };
  // Where most are far off, the unit is the question, and it has been asked.
  std::vector<double> logged;
  for (const LoggedCycle& cycle : draft.input.cycle_log) logged.push_back(cycle.cycle.count() / standard);
  if (!logged.empty() && is_too_far(median(logged))) return;
  for (const LoggedCycle& cycle : draft.input.cycle_log)
    if (cycle.marks.plain() && !cycle.is_line_time && is_too_far((cycle.cycle - cycle.wait).count() / standard))
      ask(cycle.origin, "cycle_s", cycle.cycle.count(), standard);
  for (const Reading& reading : draft.input.readings)
    if (reading.marks.plain() && reading.element < 0 && reading.seen_element.empty() &&
        is_too_far(reading.time.count() / standard))
      ask(reading.origin, "time_s", reading.time.count(), standard);
  for (const Reading& reading : draft.input.readings) {
    if (!reading.marks.plain() || reading.element < 0) continue;
    const std::optional<double> expected = element_seconds(draft.input, reading.element);
    if (expected && is_too_far(reading.time.count() / *expected) &&
        std::abs(reading.time.count() - *expected) > share_of_station * standard)
      ask(reading.origin, "time_s", reading.time.count(), *expected);
  }
}

} // namespace

void check_units_of_times(Draft& draft) {
  for (const TableName table : {TableName::standard, TableName::variants, TableName::motions, TableName::motion_table})
    if (has_faults(draft, table)) return;
  const double standard = standard_mean(draft.input);
  if (!(standard > 0)) return;
  if (const auto line_cycle = find_line_cycle(draft.input.facts); line_cycle && *line_cycle > Seconds(0)) {
    const double ratio = standard / line_cycle->count();
    if (is_too_far(ratio))
      report(draft, TableName::standard, "time_s", standard, line_cycle->count(), "The total of the standard",
             "the line cycle time is");
  }
  ask_about_very_short_elements(draft);
  const bool readings_make_sense = check_readings(draft, standard);
  check_log(draft, standard);
  if (!readings_make_sense) return;
  if (!has_faults(draft, TableName::readings)) ask_about_elements(draft);
  if (!has_faults(draft, TableName::readings) && !has_faults(draft, TableName::cycle_log))
    ask_about_extreme_cycles(draft, standard);
}

} // namespace docket
