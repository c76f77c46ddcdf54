#include "ingest/event_log.h"

#include "core/error.h"
#include "ingest/event_log/event_cycles.h"
#include "ingest/file_hash.h"
#include "ingest/package/gzip.h"
#include "ingest/package/read_ahead.h"
#include "ingest/package/xml.h"
#include "ingest/reading/cell_values.h"
#include "ingest/reading/word_match.h"
#include "ingest/tables.h"
#include "ingest/text_encoding.h"

#include <charconv>
#include <cmath>
#include <filesystem>
#include <system_error>

namespace docket {

namespace {

constexpr std::size_t most_keys_named = 100;
constexpr std::size_t most_key_shown = 40;

[[noreturn]] void refuse(const std::string& file, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, file, what, remedy);
}

struct Mapped {
  std::size_t column = 0;
  TimeUnit unit = TimeUnit::seconds;
};

/// The column of cycle_log that an attribute is named after; a duration is the length of a cycle.
std::optional<Mapped> find_mapped(std::string_view key) {
  std::string name(key);
  constexpr std::string_view duration = "duration_";
  if (small_letters(name).starts_with(duration)) name = "cycle_" + name.substr(duration.size());
  const auto columns = declaration_of(TableName::cycle_log).columns;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (const auto unit = match_header(name, columns[i])) return Mapped{i, *unit};
  return std::nullopt;
}

/// Clause 4.5: the type of an attribute is the name of its element.
RawCell cell_of(std::string_view type, std::string_view value, const Mapped& mapped) {
  if (type == "boolean") {
    if (value == "true" || value == "1") return {CellKind::truth, "TRUE", 1};
    if (value == "false" || value == "0") return {CellKind::truth, "FALSE", 0};
  } else if (type == "date") {
    if (const auto when = read_iso_instant(value)) return date_cell(when->ms);
  } else if (type == "int" || type == "float" || mapped.unit != TimeUnit::seconds) {
    double number = 0;
    const auto read = std::from_chars(value.data(), value.data() + value.size(), number);
    if (read.ec == std::errc() && read.ptr == value.data() + value.size() && std::isfinite(number)) {
      // To the microsecond, so that 1500 TMU are 54 s and not its neighbour.
      if (mapped.unit != TimeUnit::seconds) number = std::round(number * seconds_in(mapped.unit) * 1e6) / 1e6;
      return {CellKind::number, number_text(number), number};
    }
  }
  return text_cell(value);
}

enum class Place : std::uint8_t { outside, log, trace, event };

class LogReader {
public:
  LogReader(const std::string& file, const ReaderCaps& caps) : file_(file), cycles_(file, caps) {}

  void start(std::string_view name, const XmlAttributes& attributes);
  void end(std::string_view name);
  RawTable take();

private:
  void take_attribute(std::string_view type, const XmlAttributes& attributes);
  void take_event_attribute(std::string_view type, std::string_view key, std::string_view value);
  void not_read(std::string_view key);
  void tell_trace();

  const std::string& file_;
  EventCycles cycles_;
  Place place_ = Place::outside;
  bool in_trace_ = false;
  bool trace_told_ = false;
  int skipped_depth_ = 0; ///< Inside an attribute, or in what only describes the log.
  Event event_;
  std::int64_t events_ = 0;
  std::string trace_name_;
  ColumnCells trace_cells_;
  std::map<std::string, std::int64_t> not_read_;
};

void LogReader::start(std::string_view name, const XmlAttributes& attributes) {
  if (skipped_depth_ > 0) {
    ++skipped_depth_;
  } else if (place_ == Place::outside) {
    if (name != "log")
      refuse(file_,
             "This is XML, but no event log: it begins with <" + std::string(first_of_utf8(name, most_key_shown)) +
                 ">.",
             "An event log (XES) begins with <log>. Save a workbook as .xlsx or .ods.");
    place_ = Place::log;
    cycles_.begin_trace(); // for events outside of traces
  } else if (place_ == Place::log && name == "trace") {
    cycles_.end_trace();
    cycles_.begin_trace();
    trace_name_.clear();
    trace_cells_.clear();
    in_trace_ = true;
    trace_told_ = false;
    place_ = Place::trace;
  } else if ((place_ == Place::log || place_ == Place::trace) && name == "event") {
    tell_trace();
    event_ = Event{};
    event_.number = ++events_;
    place_ = Place::event;
  } else {
    if (place_ != Place::log) take_attribute(name, attributes);
    skipped_depth_ = 1;
  }
}

void LogReader::end(std::string_view) {
  if (skipped_depth_ > 0) {
    --skipped_depth_;
    return;
  }
  switch (place_) {
  case Place::outside:
    return;
  case Place::log:
    cycles_.end_trace();
    place_ = Place::outside;
    return;
  case Place::trace:
    cycles_.end_trace();
    cycles_.begin_trace();
    in_trace_ = false;
    place_ = Place::log;
    return;
  case Place::event:
    cycles_.add(std::move(event_));
    place_ = in_trace_ ? Place::trace : Place::log;
    return;
  }
}

/// Clause 5: the attributes of a trace stand before its events.
void LogReader::tell_trace() {
  if (!in_trace_ || trace_told_) return;
  cycles_.trace_says(trace_name_, trace_cells_);
  trace_told_ = true;
}

void LogReader::take_attribute(std::string_view type, const XmlAttributes& attributes) {
  const auto key = attributes.find("key"), value = attributes.find("value");
  if (!key) return;
  if (!value) {
    not_read(*key); // lists and containers
  } else if (place_ == Place::event) {
    take_event_attribute(type, *key, *value);
  } else if (*key == "concept:name") {
    trace_name_ = *value;
  } else if (const auto mapped = find_mapped(*key)) {
    trace_cells_[mapped->column] = cell_of(type, *value, *mapped);
  } else {
    not_read(*key);
  }
}

void LogReader::take_event_attribute(std::string_view type, std::string_view key, std::string_view value) {
  if (key == "concept:name") {
    event_.activity = value;
  } else if (key == "concept:instance") {
    event_.instance = value;
  } else if (key == "lifecycle:transition") {
    event_.transition = small_letters(trimmed(value));
  } else if (key == "org:resource") {
    event_.resource = value;
  } else if (key == "time:timestamp") {
    event_.at = read_iso_instant(trimmed(value));
    if (!event_.at) event_.written_at = value;
  } else if (const auto mapped = find_mapped(key)) {
    event_.cells[mapped->column] = cell_of(type, value, *mapped);
  } else {
    not_read(key);
  }
}

void LogReader::not_read(std::string_view key) {
  const std::string shown(first_of_utf8(key, most_key_shown));
  if (not_read_.size() < most_keys_named || not_read_.contains(shown)) ++not_read_[shown];
}

RawTable LogReader::take() {
  RawTable table = cycles_.take();
  if (table.rows.size() == 1)
    refuse(file_,
           events_ == 0 ? "The event log holds no event."
                        : "None of the " + std::to_string(events_) + " events of the log makes a cycle.",
           "A cycle is an event with lifecycle:transition start and one with complete, or one event with a duration in "
           "seconds (duration_s).");
  if (!not_read_.empty()) {
    std::string keys;
    for (const auto& [key, count] : not_read_)
      keys += (keys.empty() ? "" : ", ") + key + " (" + std::to_string(count) + ")";
    table.notes.push_back({"attributes_not_read", "Attributes that are not read: " + keys + ".",
                           "An attribute named like a column of cycle_log is read."});
  }
  return table;
}

} // namespace

bool may_be_event_log(std::string_view first_bytes) {
  if (is_gzip(first_bytes)) return true;
  if (first_bytes.starts_with(std::string_view("\xFF\xFE<\0", 4)) ||
      first_bytes.starts_with(std::string_view("\xFE\xFF\0<", 4)))
    return true;
  if (first_bytes.starts_with("\xEF\xBB\xBF")) first_bytes.remove_prefix(3);
  const std::size_t first = first_bytes.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && first_bytes[first] == '<';
}

RawFile read_event_log(const std::string& path, const ReaderCaps& caps) {
  std::error_code trouble;
  const auto size = std::filesystem::file_size(path, trouble);
  if (!trouble && size > static_cast<std::uintmax_t>(caps.unpacked_bytes))
    refuse(name_without_folder(path),
           "The event log is larger than " + std::to_string(caps.unpacked_bytes >> 20) + " MiB.",
           "Give a long log in parts, or as a CSV file.");
  return parse_event_log(read_file_bytes(path), name_without_folder(path), caps);
}

RawFile parse_event_log(std::string_view bytes, const std::string& file, const ReaderCaps& caps) {
  RawFile result{file, sha256_of(bytes), {}};
  std::string_view rest = bytes;
  const ReadBytes read_plain = [&rest](std::span<char> block) {
    const std::size_t got = rest.copy(block.data(), block.size());
    rest.remove_prefix(got);
    return got;
  };
  LogReader reader(result.file, caps);
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) { reader.start(name, attributes); };
  events.end = [&](std::string_view name) { reader.end(name); };
  events.text = [](std::string_view) {};
  read_xml({file, "event log", "", is_gzip(bytes) ? read_ahead(open_gzip(bytes, file, "event log", caps)) : read_plain},
           events, caps, caps.unpacked_bytes);
  result.tables.push_back(reader.take());
  return result;
}

} // namespace docket
