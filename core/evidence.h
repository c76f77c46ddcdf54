// The cycles as evidence: one cycle once, whose it is, what marks and conditions say of it, and why a cycle is not
// used. Both questions start here; neither adds or drops a cycle of its own.
//
// Rules
//   The log comes before the readings. Readings serve as a person's cycles only where the log has no cycle of that
//   operator in the session's time (without start and end: its date and shift). A log without operators displaces
//   nothing.
//   A worked day is a spell of one operator's cycles without a pause of six hours or more (common practice); it bears
//   the date on which it began, so a shift across midnight is its start day.
//   The own count n of a cycle counts every cycle of the operator except starved, blocked and instrument rows, after
//   what came before the first row here (prior_cycles, or shifts_before x cycles per shift, or nothing).
//   A cycle timed by two observers at once (same_as) is one cycle: the sheet of the session named counts.
//   Line time (station entry to exit) is never a person's time.
// Checked   tests/core/evidence_test.cpp
#pragma once

#include "core/case.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// Why a row is not a plain cycle of a person in the headline of A.
enum class Exclusion : std::uint8_t {
  mark,             ///< a mark of core/marks.h
  condition,        ///< touched by a condition that differs from the standard
  line_time,        ///< the line's time, not a person's
  other_station,    ///< a row of another station
  no_operator,      ///< nobody is named and no roster row fits
  no_variant,       ///< several variants, none given
  in_the_log,       ///< a reading of a cycle that the log has too
  elements_missing, ///< element readings that do not add up to a whole cycle of the variant
  timed_twice,      ///< the second observer's sheet of a cycle that the first one timed too
};

/// One row set apart, or one used beside the headline only. Rows of the log that are alike stand together: of a log of a
/// whole line most are other stations'.
struct ExcludedRow {
  SourceRow origin;
  Exclusion why = Exclusion::mark;
  Marks marks;
  std::int32_t condition = -1; ///< index into Case::conditions where `why` is condition
  std::int64_t rows = 1;       ///< this row and those that follow it in the file without a gap, all alike
};

/// One cycle of one person.
struct PersonCycle {
  std::int32_t op = -1;      ///< index into Case::operators
  std::int32_t variant = -1; ///< index into Case::variants
  std::int32_t session = -1; ///< index into Case::sessions; -1: from the log
  Date day{};                ///< the worked day
  std::string shift;
  Seconds work{}; ///< cycle less waiting
  Seconds helped{};
  bool helped_given = false; ///< seconds of help are given
  Marks marks;
  std::optional<double> rating; ///< 1 = normal pace
  std::int64_t own_count = 0;   ///< n; 0 where the row does not count (starved, blocked, instrument)
  std::int32_t condition = -1;  ///< index of the first differing condition that touches it; -1: none
  SourceRow origin;
};

/// Facts about the evidence as a whole that become data faults in the document.
struct EvidenceFacts {
  bool log_is_line_time = false;  ///< more than half of the work cycles lie within 1 % of the line cycle time
  bool log_without_marks = false; ///< help, stops and skipped steps cannot be seen in it
  std::int64_t line_time_rows = 0, other_station_rows = 0, no_operator_rows = 0, no_variant_rows = 0,
               readings_in_the_log = 0;
  std::optional<Date> last_day; ///< of all cycles of persons
};

struct Evidence {
  std::vector<PersonCycle> cycles;        ///< for A2 and B: by operator (order of Case::operators), then in time order
  std::vector<PersonCycle> restudy;       ///< for A3: whole cycles from the readings, by session and cycle number
  std::vector<PersonCycle> second_sheets; ///< the same of a second observer (same_as): compared, used for nothing else
  std::vector<ExcludedRow> excluded;      ///< in the order of the input
  EvidenceFacts facts;
  std::int64_t cycles_per_shift = 0; ///< as given, or the median per operator and shift in the log, or assumed
  bool cycles_per_shift_assumed = false;
};

/// How many rows are in `excluded`.
std::int64_t rows_excluded(const Evidence& evidence);

/// `line_cycle` decides whether a log is the line's time.
Evidence gather_evidence(const Case& input, Seconds line_cycle);

} // namespace docket
