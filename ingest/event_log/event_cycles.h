// From the events of a log to the rows of `cycle_log`; see event_log.h.
#pragma once

#include "ingest/iso_times.h"
#include "ingest/package/caps.h"
#include "ingest/table.h"

#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace docket {

/// Cells for declared columns of `cycle_log`, by the column's place.
using ColumnCells = std::map<std::size_t, RawCell>;

struct Event {
  std::int64_t number = 0; ///< In the whole log, from 1.
  std::string activity, instance, transition, resource;
  std::optional<IsoInstant> at;
  std::string written_at; ///< time:timestamp as it stands there, where it can't be read.
  ColumnCells cells;
};

/// Puts events together, trace by trace.
class EventCycles {
public:
  EventCycles(std::string file, const ReaderCaps& caps);

  void begin_trace();
  /// What the trace says of all its events; known before the first of them.
  void trace_says(std::string name, ColumnCells cells);
  void add(Event event);
  void end_trace();

  /// All rows in the order of their events, below a header, and notes of what is not in them.
  RawTable take();

private:
  struct Activity {
    Event start;
    std::optional<IsoInstant> paused_at;
    double paused = 0; ///< [s]
  };
  using Key = std::pair<std::string, std::string>;

  void complete(Event event);
  void pause(const Event& event, bool begins);
  void add_cycle(const Event& start, ColumnCells cells, std::optional<double> length, const std::string& resource);
  void take_unit_away(RawRow& row) const;
  void note(std::string code, std::int64_t count, const std::string& counted, const std::string& wrong,
            const std::string& right);

  std::string file_;
  const ReaderCaps& caps_;
  CapsUsed used_;
  RawTable table_;
  std::string unit_;
  ColumnCells of_trace_;
  std::map<Key, std::deque<Activity>> open_;
  std::int64_t open_count_ = 0;
  std::size_t first_row_ = 0;        ///< Of the trace, in table_.rows.
  std::set<std::string> activities_; ///< Of the trace's cycles.
  bool repeats_ = false;             ///< An activity of the trace has more than one cycle.
  std::int64_t never_completed_ = 0, never_started_ = 0, aborted_ = 0, without_length_ = 0, two_people_ = 0,
               traces_that_repeat_ = 0, in_utc_ = 0, taken_as_start_ = 0, without_anything_ = 0;
  std::map<std::string, std::int64_t> other_transitions_;
};

} // namespace docket
