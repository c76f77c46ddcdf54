#include "ingest/event_log/event_cycles.h"

#include "ingest/package/package.h"
#include "ingest/tables.h"
#include "ingest/text_encoding.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {

namespace {

constexpr std::size_t most_transitions_named = 20;
constexpr std::size_t most_shown = 40;
constexpr double seconds_in_a_year = 366.0 * 86400; ///< No cycle is longer; beyond, the row is a fault anyway.

std::size_t place_of(std::string_view column) {
  const auto place = find_column(declaration_of(TableName::cycle_log), column);
  assert(place);
  return *place;
}

RawCell number_cell(double number) { return {CellKind::number, number_text(number), number}; }

/// Seconds from one to the other, across zones where both have one.
std::optional<double> seconds_between(const std::optional<IsoInstant>& from, const std::optional<IsoInstant>& to) {
  if (!from || !to) return std::nullopt;
  std::int64_t ms = to->ms - from->ms;
  if (from->offset_minutes && to->offset_minutes)
    ms -= std::int64_t{60'000} * (*to->offset_minutes - *from->offset_minutes);
  return static_cast<double>(ms) / 1000;
}

} // namespace

EventCycles::EventCycles(std::string file, const ReaderCaps& caps) : file_(std::move(file)), caps_(caps) {}

void EventCycles::begin_trace() {
  unit_.clear();
  of_trace_.clear();
  first_row_ = table_.rows.size();
  activities_.clear();
  repeats_ = false;
}

void EventCycles::trace_says(std::string name, ColumnCells cells) {
  unit_ = std::move(name);
  of_trace_ = std::move(cells);
}

void EventCycles::add(Event event) {
  if (event.at && event.at->offset_minutes == 0) ++in_utc_;
  const auto length = event.cells.find(place_of("cycle_s"));
  const std::string& transition = event.transition;
  const bool one_event =
      length != event.cells.end() && (transition.empty() || transition == "start" || transition == "complete");
  if (one_event) {
    if (transition == "complete" && event.at && length->second.kind == CellKind::number &&
        std::abs(length->second.number) < seconds_in_a_year)
      event.at->ms -= std::llround(length->second.number * 1000);
    if (transition.empty()) ++taken_as_start_;
    add_cycle(event, std::move(event.cells), std::nullopt, event.resource);
  } else if (transition == "start") {
    // What is begun and not yet completed is kept in memory as well.
    constexpr std::int64_t cells_of_an_event = 8;
    if (++open_count_ * cells_of_an_event > caps_.cells)
      count_cells(used_, caps_.cells + 1, 0, caps_, file_, "event log");
    Key key{event.activity, event.instance};
    open_[std::move(key)].push_back({std::move(event), {}, 0});
  } else if (transition == "complete") {
    complete(std::move(event));
  } else if (transition == "suspend" || transition == "resume") {
    pause(event, transition == "suspend");
  } else if (transition == "pi_abort" || transition == "ate_abort") {
    const auto open = open_.find({event.activity, event.instance});
    if (open == open_.end()) return;
    ++aborted_;
    --open_count_;
    open->second.pop_front();
    if (open->second.empty()) open_.erase(open);
  } else if (transition.empty()) {
    ++without_length_;
  } else if (other_transitions_.size() < most_transitions_named || other_transitions_.contains(transition)) {
    ++other_transitions_[transition];
  }
}

void EventCycles::complete(Event event) {
  const auto open = open_.find({event.activity, event.instance});
  if (open == open_.end()) {
    ++never_started_;
    return;
  }
  Activity activity = std::move(open->second.front());
  open->second.pop_front();
  --open_count_;
  if (open->second.empty()) open_.erase(open);
  if (activity.paused_at) activity.paused += seconds_between(activity.paused_at, event.at).value_or(0);
  ColumnCells cells = std::move(event.cells);
  cells.merge(activity.start.cells);
  if (activity.paused > 0) cells.emplace(place_of("wait_s"), number_cell(activity.paused));
  std::string resource = activity.start.resource.empty() ? event.resource : activity.start.resource;
  if (!event.resource.empty() && resource != event.resource) {
    ++two_people_;
    resource.clear();
  }
  if (!event.at && activity.start.at) activity.start.written_at = event.written_at;
  add_cycle(activity.start, std::move(cells), seconds_between(activity.start.at, event.at), resource);
}

void EventCycles::pause(const Event& event, bool begins) {
  const auto open = open_.find({event.activity, event.instance});
  if (open == open_.end()) return;
  Activity& activity = open->second.front();
  if (begins && !activity.paused_at) {
    activity.paused_at = event.at;
  } else if (!begins && activity.paused_at) {
    activity.paused += seconds_between(activity.paused_at, event.at).value_or(0);
    activity.paused_at.reset();
  }
}

void EventCycles::add_cycle(const Event& start, ColumnCells cells, std::optional<double> length,
                            const std::string& resource) {
  const std::size_t station = place_of("station"), unit = place_of("unit");
  if (length) cells[place_of("cycle_s")] = number_cell(*length);
  cells.emplace(place_of("started_at"), start.at ? date_cell(start.at->ms) : text_cell(start.written_at));
  cells.emplace(station, text_cell(start.activity));
  cells.emplace(place_of("operator"), text_cell(resource));
  for (const auto& [place, cell] : of_trace_) cells.emplace(place, cell);
  cells.emplace(unit, text_cell(unit_));
  repeats_ = !activities_.insert(start.activity).second || repeats_;

  RawRow row{start.number, {}};
  row.cells.resize(cells.rbegin()->first + 1);
  std::size_t text_bytes = 0;
  for (auto& [place, cell] : cells) {
    text_bytes += cell.text.size();
    row.cells[place] = std::move(cell);
  }
  count_cells(used_, static_cast<std::int64_t>(row.cells.size()), text_bytes, caps_, file_, "event log");
  const std::size_t before = table_.rows.size();
  add_row(table_, std::move(row));
  if (table_.rows.size() == before) ++without_anything_;
}

void EventCycles::end_trace() {
  never_completed_ += open_count_;
  open_count_ = 0;
  open_.clear();
  // A name that stands for more than one cycle of a station is no single unit.
  if (!repeats_ || unit_.empty() || of_trace_.contains(place_of("unit"))) return;
  ++traces_that_repeat_;
  for (std::size_t i = first_row_; i < table_.rows.size(); ++i) take_unit_away(table_.rows[i]);
}

void EventCycles::take_unit_away(RawRow& row) const {
  const std::size_t unit = place_of("unit");
  if (unit >= row.cells.size() || row.cells[unit].text != unit_) return;
  const auto is_filled = [](const RawCell& cell) { return cell.kind != CellKind::blank; };
  // Without anything else the row would be none, and its faults would not be seen.
  if (std::count_if(row.cells.begin(), row.cells.end(), is_filled) == 1) return;
  row.cells[unit] = {};
  while (!is_filled(row.cells.back())) row.cells.pop_back();
}

void EventCycles::note(std::string code, std::int64_t count, const std::string& counted, const std::string& wrong,
                       const std::string& right) {
  if (count == 0) return;
  table_.notes.push_back(
      {std::move(code), std::to_string(count) + " " + counted + (count == 1 ? ": " : "s: ") + wrong, right});
}

RawTable EventCycles::take() {
  table_.name = name_of(TableName::cycle_log);
  std::stable_sort(table_.rows.begin(), table_.rows.end(),
                   [](const RawRow& a, const RawRow& b) { return a.number < b.number; });
  RawRow header;
  for (const ColumnDeclaration& column : declaration_of(TableName::cycle_log).columns)
    header.cells.push_back(text_cell(column.name));
  table_.rows.insert(table_.rows.begin(), std::move(header));

  const std::string for_length = "A cycle needs its start and its complete, or a duration in seconds (duration_s).";
  note("events_without_length", without_length_, "event", "no lifecycle transition and no duration, so not read.",
       for_length);
  note("events_never_completed", never_completed_, "event", "start without a complete, so not read.", for_length);
  note("events_never_started", never_started_, "event", "complete without a start, so not read.", for_length);
  note("cycles_without_anything", without_anything_, "cycle", "neither time nor length nor station, so not read.",
       for_length);
  note("events_aborted", aborted_, "cycle", "aborted, so not read.", "Nothing needs to be done.");
  for (const auto& [transition, count] : other_transitions_)
    note("transition_not_read", count, "event",
         "the transition \"" + std::string(first_of_utf8(transition, most_shown)) + "\" is not read.",
         "Only start, complete, suspend, resume and the aborts are.");
  note("events_of_two_people", two_people_, "cycle",
       "started by one resource and completed by another, so read without an operator.",
       "Correct the log where one person did it all.");
  note("trace_is_no_unit", traces_that_repeat_, "trace",
       "more than one cycle of a station is in it, so its name is not taken as the unit.",
       "Give the unit as an attribute `unit` of the event where it is known.");
  note("event_taken_as_start", taken_as_start_, "event",
       "a duration, but no word whether the time is its start or its end; taken as the start.",
       "Add lifecycle:transition where it is the end.");
  note("times_in_utc", in_utc_, "event", "the time is written in UTC, and read as the plant's own clock.",
       "Export local times; else days and shifts are cut at the wrong hour.");
  return std::move(table_);
}

} // namespace docket
