// Event logs written by hand in the structure of IEEE 1849 (extensions, globals and a classifier before the traces, an
// attribute one element, its type the element's name). Packed ones were packed by Python's gzip
// (awkward_files/make.py). Expected times are differences of the times written.
#include "core/error.h"
#include "ingest/case_reader.h"
#include "ingest/event_log.h"
#include "ingest/file_hash.h"
#include "tests/ingest/awkward_files.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace docket {
namespace {

const std::string head = R"(<?xml version="1.0" encoding="UTF-8"?>
<!-- A comment may stand before the log. -->
<log xes.version="1849.2016" xes.features="" xmlns="http://www.xes-standard.org/">
  <extension name="Concept" prefix="concept" uri="http://www.xes-standard.org/concept.xesext"/>
  <extension name="Lifecycle" prefix="lifecycle" uri="http://www.xes-standard.org/lifecycle.xesext"/>
  <global scope="event"><string key="concept:name" value="never read"/></global>
  <classifier name="Activity" keys="concept:name lifecycle:transition"/>
  <string key="concept:name" value="Line 1, week 10"/>
)";

std::string attribute(const std::string& type, const std::string& key, const std::string& value) {
  return "<" + type + " key=\"" + key + "\" value=\"" + value + "\"/>";
}

std::string event(const std::string& station, const std::string& transition, const std::string& at,
                  const std::string& more = "") {
  return "<event>" + attribute("string", "concept:name", station) +
         (transition.empty() ? "" : attribute("string", "lifecycle:transition", transition)) +
         (at.empty() ? "" : attribute("date", "time:timestamp", "2026-03-02T" + at)) + more + "</event>\n";
}

std::string trace(const std::string& unit, const std::string& inside) {
  return "<trace>" + attribute("string", "concept:name", unit) + inside + "</trace>\n";
}

std::string by(const std::string& code) { return attribute("string", "org:resource", code); }

RawTable table_of(const std::string& inside) {
  const RawFile file = parse_event_log(head + inside + "</log>\n", "line.xes");
  EXPECT_EQ(file.tables.size(), 1U);
  EXPECT_EQ(file.tables.at(0).name, "cycle_log");
  return file.tables.at(0);
}

/// A row by the names in the header, blank cells left out: "started_at=..., cycle_s=...".
std::string named(const RawTable& table, std::size_t row) {
  std::string text;
  const auto& names = table.rows.at(0).cells;
  const auto& cells = table.rows.at(row).cells;
  for (std::size_t i = 0; i < cells.size(); ++i)
    if (cells[i].kind != CellKind::blank) text += (text.empty() ? "" : ", ") + names.at(i).text + "=" + cells[i].text;
  return text;
}

std::string note_of(const RawTable& table, const std::string& code) {
  for (const TableNote& note : table.notes)
    if (note.code == code) return note.wrong;
  return "no note";
}

std::string refusal(const std::string& bytes, const ReaderCaps& caps = {}) {
  try {
    parse_event_log(bytes, "line.xes", caps);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::input_has_faults);
    return error.what();
  }
  return "no error";
}

// ---- what is read ---------------------------------------------------------------------------------------------------

TEST(EventLog, start_and_complete_make_a_cycle) {
  const RawTable table = table_of(
      trace("U1", event("HP-11", "start", "06:00:00+01:00", by("B1")) + event("HP-12", "start", "06:00:10+01:00") +
                      event("HP-11", "complete", "06:00:57.500+01:00", by("B1")) +
                      event("HP-12", "COMPLETE", "06:01:10+01:00")) +
      trace("U2", event("HP-11", "start", "06:01:00+01:00") + event("HP-11", "complete", "06:02:00+01:00", by("B2"))));
  ASSERT_EQ(table.rows.size(), 4U);
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:00, cycle_s=57.5, unit=U1, station=HP-11, operator=B1");
  EXPECT_EQ(named(table, 2), "started_at=2026-03-02T06:00:10, cycle_s=60, unit=U1, station=HP-12");
  EXPECT_EQ(named(table, 3), "started_at=2026-03-02T06:01:00, cycle_s=60, unit=U2, station=HP-11, operator=B2");
  // A row is the event that starts the cycle, counted from 1.
  EXPECT_EQ(table.rows[1].number, 1);
  EXPECT_EQ(table.rows[2].number, 2);
  EXPECT_EQ(table.rows[3].number, 5);
  EXPECT_TRUE(table.notes.empty());
}

TEST(EventLog, a_duration_makes_a_cycle_of_one_event) {
  const RawTable table =
      table_of(trace("U1", event("A", "complete", "06:01:00", attribute("float", "duration_s", "57.5"))) +
               trace("U2", event("A", "start", "06:02:00", attribute("float", "cycle_min", "1.5"))) +
               trace("U3", event("A", "", "06:04:00", attribute("int", "Duration_TMU", "1500"))) +
               trace("U4", event("A", "complete", "06:06:00", attribute("string", "cycle_s", "long"))));
  ASSERT_EQ(table.rows.size(), 5U);
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:02.500, cycle_s=57.5, unit=U1, station=A");
  EXPECT_EQ(named(table, 2), "started_at=2026-03-02T06:02:00, cycle_s=90, unit=U2, station=A");
  EXPECT_EQ(named(table, 3), "started_at=2026-03-02T06:04:00, cycle_s=54, unit=U3, station=A"); // 1500 x 0.036 s
  EXPECT_EQ(named(table, 4), "started_at=2026-03-02T06:06:00, cycle_s=long, unit=U4, station=A");
  EXPECT_EQ(note_of(table, "event_taken_as_start").substr(0, 1), "1");
}

TEST(EventLog, attributes_named_like_a_column_fill_it) {
  const RawTable table = table_of(
      "<trace>" + attribute("string", "concept:name", "U1") + attribute("string", "variant", "V1") +
      attribute("string", "shift", "early") +
      event("A", "start", "06:00:00", attribute("string", "mark", "helped") + attribute("string", "shift", "late")) +
      event("A", "complete", "06:01:00",
            attribute("float", "helped_min", "0.5") + attribute("boolean", "rework", "true")) +
      "</trace>");
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:00, cycle_s=60, unit=U1, variant=V1, station=A, shift=late, "
                             "helped_s=30, mark=helped");
  EXPECT_EQ(note_of(table, "attributes_not_read"), "Attributes that are not read: rework (1).");
}

TEST(EventLog, from_suspend_to_resume_is_waiting) {
  const RawTable table = table_of(trace("U1", event("A", "start", "06:00:00") + event("A", "suspend", "06:00:20") +
                                                  event("A", "resume", "06:00:25") + event("A", "suspend", "06:00:50") +
                                                  event("A", "complete", "06:00:57")));
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:00, cycle_s=57, unit=U1, station=A, wait_s=12");
}

TEST(EventLog, instances_tell_cycles_apart_that_overlap) {
  const auto instance = [](const char* name) { return attribute("string", "concept:instance", name); };
  const RawTable table = table_of(trace("shift 1", event("A", "start", "06:00:00", instance("1")) +
                                                       event("A", "start", "06:00:30", instance("2")) +
                                                       event("A", "complete", "06:01:30", instance("2")) +
                                                       event("A", "complete", "06:02:00", instance("1"))));
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:00, cycle_s=120, station=A");
  EXPECT_EQ(named(table, 2), "started_at=2026-03-02T06:00:30, cycle_s=60, station=A");
  EXPECT_EQ(note_of(table, "trace_is_no_unit").substr(0, 7), "1 trace");
}

TEST(EventLog, lengths_are_taken_across_zones_and_clocks_as_written) {
  // The night the clock is put forward: 01:59:30 at +01:00 is a minute before 03:00:30 at +02:00.
  const RawTable table =
      table_of(trace("U1", event("A", "start", "01:59:30+01:00") + event("A", "complete", "03:00:30+02:00")));
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T01:59:30, cycle_s=60, unit=U1, station=A");
}

TEST(EventLog, what_is_not_taken_over_is_said) {
  const RawTable table = table_of(trace(
      "U1", event("A", "start", "06:00:00Z", by("B1")) + event("A", "complete", "06:01:00Z", by("B2")) +
                event("B", "complete", "06:01:00") + event("C", "start", "06:01:00") + event("D", "", "06:01:00") +
                event("E", "start", "06:01:00") + event("E", "ate_abort", "06:01:10") +
                event("F", "Schedule", "06:01:00") + event("F", "schedule", "06:01:00") +
                event("G", "resume", "06:01:00",
                      attribute("string", "cost:total", "5") + "<list key=\"tools\"><values/></list>")));
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:00, cycle_s=60, unit=U1, station=A");
  EXPECT_EQ(note_of(table, "events_never_completed"), "1 event: start without a complete, so not read.");
  EXPECT_EQ(note_of(table, "events_never_started"), "1 event: complete without a start, so not read.");
  EXPECT_EQ(note_of(table, "events_without_length"), "1 event: no lifecycle transition and no duration, so not read.");
  EXPECT_EQ(note_of(table, "events_aborted"), "1 cycle: aborted, so not read.");
  EXPECT_EQ(note_of(table, "transition_not_read"), "2 events: the transition \"schedule\" is not read.");
  EXPECT_EQ(note_of(table, "events_of_two_people"),
            "1 cycle: started by one resource and completed by another, so read without an operator.");
  EXPECT_EQ(note_of(table, "times_in_utc"), "2 events: the time is written in UTC, and read as the plant's own clock.");
  EXPECT_EQ(note_of(table, "attributes_not_read"), "Attributes that are not read: cost:total (1), tools (1).");
  EXPECT_EQ(table.notes.size(), 8U);
}

TEST(EventLog, a_cycle_without_anything_is_said_and_one_with_a_unit_alone_keeps_it) {
  const std::string begun = "<event>" + attribute("string", "lifecycle:transition", "start") + "</event>";
  const std::string ended = "<event>" + attribute("string", "lifecycle:transition", "complete") + "</event>";
  const RawTable table = table_of(begun + ended + trace("U1", begun + ended + begun + ended) +
                                  trace("U2", event("A", "start", "06:00:00") + event("A", "complete", "06:01:00")));
  ASSERT_EQ(table.rows.size(), 4U);
  EXPECT_EQ(named(table, 1), "unit=U1");
  EXPECT_EQ(note_of(table, "cycles_without_anything"), "1 cycle: neither time nor length nor station, so not read.");
}

TEST(EventLog, events_outside_of_traces_and_nested_attributes) {
  const RawTable table = table_of(event("A", "start", "06:00:00") +
                                  "<event><string key=\"concept:name\" value=\"A\"><string key=\"concept:name\" "
                                  "value=\"inner\"/></string>" +
                                  attribute("string", "lifecycle:transition", "complete") +
                                  attribute("date", "time:timestamp", "2026-03-02T06:01:00") + "</event>");
  EXPECT_EQ(named(table, 1), "started_at=2026-03-02T06:00:00, cycle_s=60, station=A");
}

TEST(EventLog, a_time_that_cannot_be_read_is_a_fault_of_its_row) {
  const std::string log = head +
                          trace("U1", event("A", "start", "", attribute("string", "time:timestamp", "early")) +
                                          event("A", "complete", "06:01:00")) +
                          trace("U2", event("A", "start", "") + event("A", "complete", "06:01:00")) + "</log>";
  const Intake intake = read_case_from({parse_event_log(log, "line.xes")});
  std::vector<std::string> found;
  for (const Issue& issue : intake.issues)
    if (issue.table == "cycle_log" && issue.grade == IssueGrade::fault)
      found.push_back(std::to_string(issue.row) + " " + issue.column + " " + issue.code);
  EXPECT_EQ(found, (std::vector<std::string>{"1 started_at not_a_date", "1 cycle_s cell_blank",
                                             "3 started_at cell_blank", "3 cycle_s cell_blank"}));
}

TEST(EventLog, notes_are_warnings_of_the_case) {
  const std::string log =
      head + trace("U1", event("A", "start", "06:00:00Z") + event("A", "complete", "06:01:00Z")) + "</log>";
  const Intake intake = read_case_from({parse_event_log(log, "line.xes")});
  const auto note = std::find_if(intake.issues.begin(), intake.issues.end(),
                                 [](const Issue& issue) { return issue.code == "times_in_utc"; });
  ASSERT_NE(note, intake.issues.end());
  EXPECT_EQ(note->grade, IssueGrade::warning);
  EXPECT_EQ(note->file, "line.xes");
  EXPECT_EQ(note->table, "cycle_log");
}

TEST(EventLog, packed_in_several_members_is_read_to_its_end) {
  const RawFile plain = read_event_log(path_of("line.xes"));
  const RawFile packed = read_event_log(path_of("line.xes.gz"));
  EXPECT_EQ(rows_of(packed.tables.at(0)), rows_of(plain.tables.at(0)));
  EXPECT_EQ(plain.tables.at(0).rows.size(), 41U); // the header and make.py's 40 cycles
  EXPECT_EQ(packed.sha256, sha256_of(read_file_bytes(path_of("line.xes.gz"))));
}

TEST(EventLog, is_known_by_its_first_bytes) {
  EXPECT_TRUE(may_be_event_log("<?xml ve"));
  EXPECT_TRUE(may_be_event_log("\xEF\xBB\xBF\n<log>"));
  EXPECT_TRUE(may_be_event_log("\x1F\x8B\x08"));
  EXPECT_TRUE(may_be_event_log(std::string("\xFF\xFE<\0?\0", 6)));
  EXPECT_FALSE(may_be_event_log("started_"));
  EXPECT_FALSE(may_be_event_log(""));
}

// ---- what is refused ------------------------------------------------------------------------------------------------

TEST(EventLogRefused, what_is_no_event_log) {
  EXPECT_EQ(refusal("<office:document xmlns:office=\"x\"/>"),
            "line.xes: This is XML, but no event log: it begins with <document>. An event log (XES) begins with <log>. "
            "Save a workbook as .xlsx or .ods.");
  const std::string remedy = " A cycle is an event with lifecycle:transition start and one with complete, or one event "
                             "with a duration in seconds (duration_s).";
  EXPECT_EQ(refusal(head + "</log>"), "line.xes: The event log holds no event." + remedy);
  EXPECT_EQ(refusal(head + event("A", "complete", "06:00:00") + "</log>"),
            "line.xes: None of the 1 events of the log makes a cycle." + remedy);
  EXPECT_EQ(refusal(head + "<trace></log>"),
            "line.xes: The event log is damaged (line 9: mismatched tag). Copy it again "
            "from where it came, or export it again.");
  EXPECT_EQ(refusal(""), "line.xes: The event log is damaged (line 1: no element found). Copy it again from where it "
                         "came, or export it again.");
}

TEST(EventLogRefused, what_was_made_to_exhaust_the_computer) {
  const std::string remedy = " Export it again; if that does not help, ask where it came from.";
  EXPECT_EQ(refusal("<!DOCTYPE log [<!ENTITY a \"aaaa\">]><log>&a;</log>"),
            "line.xes: The event log declares a document type, which no event log does." + remedy);
  std::string deep = head + "<trace>";
  for (int i = 0; i < 300; ++i) deep += "<string key=\"a\" value=\"b\">";
  EXPECT_EQ(refusal(deep), "line.xes: The event log is nested more than 256 deep." + remedy);
  EXPECT_EQ(refusal(head + "<string key=\"" + std::string(3'000'000, 'a')),
            "line.xes: The event log holds a tag that does not end." + remedy);
  ReaderCaps few;
  few.cells = 30;
  std::string many = head, begun = head;
  for (int i = 0; i < 10; ++i) {
    many += trace("U" + std::to_string(i), event("A", "start", "06:00:00") + event("A", "complete", "06:01:00"));
    begun += event("A", "start", "06:00:00");
  }
  const std::string fewer = " Delete the sheets that are not needed, or give a long log as a CSV file.";
  EXPECT_EQ(refusal(many + "</log>", few), "line.xes: The event log holds more than 30 cells." + fewer);
  EXPECT_EQ(refusal(begun + "</log>", few), "line.xes: The event log holds more than 30 cells." + fewer);
  ReaderCaps little;
  little.unpacked_bytes = 100;
  EXPECT_EQ(refusal(many, little), "line.xes: The event log is larger than 0 MiB." + remedy);
}

TEST(EventLogRefused, packed_bytes_that_unpack_without_end) {
  try {
    read_event_log(path_of("bomb.xes.gz"));
    ADD_FAILURE() << "no error";
  } catch (const Error& error) {
    EXPECT_STREQ(error.what(),
                 "bomb.xes.gz: The event log unpacks to more than 16 MiB. Give a long log in parts, or as "
                 "a CSV file.");
  }
}

TEST(EventLogRefused, packed_and_cut_at_any_byte) {
  const std::string bytes = read_file_bytes(path_of("line.xes.gz"));
  for (std::size_t size = 2; size < bytes.size(); ++size) {
    const std::string message = refusal(bytes.substr(0, size));
    // At the end of a member nothing is missing but the rest of the XML.
    ASSERT_TRUE(message.starts_with("line.xes: The event log is cut short.") ||
                message.starts_with("line.xes: The event log is damaged ("))
        << size << ": " << message;
  }
  EXPECT_EQ(refusal(bytes + std::string(512, '\0')), "no error");
  EXPECT_EQ(refusal(bytes + "x"),
            "line.xes: The event log is damaged (other bytes follow the packed ones). Copy it again "
            "from where it came, or export it again.");
}

TEST(EventLogRefused, packed_with_a_changed_byte) {
  const std::string bytes = read_file_bytes(path_of("line.xes.gz"));
  const Rows whole = rows_of(read_event_log(path_of("line.xes.gz")).tables.at(0));
  std::int64_t refused = 0;
  for (std::size_t at = 2; at < bytes.size(); ++at) {
    std::string changed = bytes;
    changed[at] = static_cast<char>(changed[at] ^ 0x01);
    try {
      EXPECT_EQ(rows_of(parse_event_log(changed, "line.xes").tables.at(0)), whole) << "byte " << at;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::input_has_faults);
      ++refused;
    }
  }
  // All but what a gzip header says of time, program and flags without effect.
  EXPECT_GT(refused, static_cast<std::int64_t>(bytes.size()) - 30);
}

} // namespace
} // namespace docket
