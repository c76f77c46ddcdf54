// Tables `conditions`, `sessions`, `readings`, `cycle_log`, `stops`, `helps`: what was seen at the station.
#include "ingest/declarations/topics.h"

#include <array>

namespace docket::declarations {

namespace {

using Kind = ColumnKind;
using Words = std::string_view;

constexpr std::array<Words, 3> yes_no_unknown{"yes", "no", "unknown"};
constexpr std::array<Words, 2> yes_no{"yes", "no"};
constexpr std::array<Words, 3> states{"as_standard", "differs", "not_checked"};
constexpr std::array<Words, 2> cycle_meanings{"work", "line"};

constexpr Words marks_note =
    "Blank for a plain cycle, or: helped, cut_short, starved, blocked, foreign, defect, skipped, "
    "instrument. Several divided by ;";

constexpr std::array condition_columns{
    ColumnDeclaration{
        .name = "check",
        .kind = Kind::text,
        .required = true,
        .note = "What was checked against what the standard assumes, for example torque tool, part bins, mix."},
    ColumnDeclaration{.name = "state",
                      .kind = Kind::choice,
                      .required = true,
                      .words = states,
                      .note = "as_standard, differs or not_checked."},
    ColumnDeclaration{
        .name = "affects",
        .kind = Kind::names,
        .note = "Elements, sessions or variants it touches, divided by ; for example E40;E50. Blank: the whole "
                "station."},
    ColumnDeclaration{.name = "from",
                      .kind = Kind::instant,
                      .note = "Since when, for example 2026-10-26 or 2026-10-26 14:00. Blank: from the beginning."},
    ColumnDeclaration{
        .name = "to", .kind = Kind::instant, .note = "Until when; a day alone counts to its end. Blank: still so."},
    ColumnDeclaration{
        .name = "note", .kind = Kind::text, .note = "What was found, for example tool runs at 380 rpm, not 450."},
};

constexpr std::array session_columns{
    ColumnDeclaration{.name = "session",
                      .kind = Kind::name,
                      .required = true,
                      .note = "A short name for one spell of timing, for example S1. The sheet readings uses it."},
    ColumnDeclaration{.name = "date", .kind = Kind::date, .required = true, .note = "Day, for example 2026-11-04."},
    ColumnDeclaration{.name = "operator",
                      .kind = Kind::code,
                      .required = true,
                      .note = "Code of the person who was timed, for example A1."},
    ColumnDeclaration{.name = "start", .kind = Kind::time_on_day, .note = "Time of day it began, for example 08:10."},
    ColumnDeclaration{
        .name = "end",
        .kind = Kind::time_on_day,
        .note = "Time of day it ended, for example 08:55. Past midnight: write the day too, 2026-11-05 00:20."},
    ColumnDeclaration{.name = "shift", .kind = Kind::name, .note = "Shift, for example early."},
    ColumnDeclaration{
        .name = "observer", .kind = Kind::name, .note = "Role code of the observer, for example IE1 or REP1. No name."},
    ColumnDeclaration{.name = "same_as",
                      .kind = Kind::name,
                      .note = "Session of another observer who timed the same cycles at the same time."},
    ColumnDeclaration{.name = "planned_cycles",
                      .kind = Kind::count,
                      .note = "Cycles that were to be timed, as planned beforehand, for example 40."},
    ColumnDeclaration{.name = "first_cycle",
                      .kind = Kind::count,
                      .least = 1,
                      .note =
                          "The person's own count of the first cycle timed, for example 5301. Blank: counted on, and "
                          "marked as estimated."},
    ColumnDeclaration{.name = "rating_percent",
                      .kind = Kind::percent,
                      .least = 30,
                      .most = 200,
                      .usual_least = 50,
                      .usual_most = 150,
                      .note =
                          "Pace rating of the whole session; 100 is normal pace. It holds where a reading has none."},
    ColumnDeclaration{.name = "method_as_standard",
                      .kind = Kind::choice,
                      .words = yes_no_unknown,
                      .note = "yes, no or unknown: was the work done by the method of the standard?"},
    ColumnDeclaration{.name = "blind_rating",
                      .kind = Kind::choice,
                      .words = yes_no,
                      .note = "yes or no: did the observer rate without knowing the required time?"},
};

constexpr std::array reading_columns{
    ColumnDeclaration{.name = "session",
                      .kind = Kind::name,
                      .required = true,
                      .note = "Session from the sheet sessions, for example S1."},
    ColumnDeclaration{.name = "cycle",
                      .kind = Kind::count,
                      .required = true,
                      .least = 1,
                      .note = "Number of the cycle in the session: 1, 2, 3 ... Gaps are allowed."},
    ColumnDeclaration{
        .name = "time_s",
        .kind = Kind::seconds,
        .required = true,
        .least = 0,
        .most = 86400,
        .least_excluded = true,
        .note = "This person's work in seconds, for example 52.4. Take out waiting that the standard does not "
                "contain. For minutes name the column time_min, for hundredths of a minute time_cmin."},
    ColumnDeclaration{
        .name = "element",
        .kind = Kind::name,
        .note = "Element of the standard, for example E20; the time holds all its occurrences in the cycle. Blank: the "
                "whole cycle. Work that is not in the standard: + and a name, for example +untangle hose."},
    ColumnDeclaration{.name = "wait_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "Waiting in seconds that was taken out, for example 4.0."},
    ColumnDeclaration{.name = "helped_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "Seconds another person worked on this unit, for example 12."},
    ColumnDeclaration{.name = "rating_percent",
                      .kind = Kind::percent,
                      .least = 30,
                      .most = 200,
                      .usual_least = 50,
                      .usual_most = 150,
                      .note = "Pace rating; 100 is normal pace, 110 is faster than normal."},
    ColumnDeclaration{.name = "variant", .kind = Kind::name, .note = "Variant of the unit, for example V1."},
    ColumnDeclaration{.name = "mark", .kind = Kind::marks, .note = marks_note},
    ColumnDeclaration{.name = "note", .kind = Kind::text, .note = "Anything the observer wants kept."},
};

constexpr std::array log_columns{
    ColumnDeclaration{.name = "started_at",
                      .kind = Kind::instant,
                      .required = true,
                      .note = "Day and time of day the cycle began, for example 2026-11-03 06:12:40."},
    ColumnDeclaration{.name = "cycle_s",
                      .kind = Kind::seconds,
                      .required = true,
                      .least = 0,
                      .most = 86400,
                      .least_excluded = true,
                      .note = "Length of the cycle in seconds, for example 53.1."},
    ColumnDeclaration{
        .name = "cycle_is",
        .kind = Kind::choice,
        .words = cycle_meanings,
        .preset = "work",
        .note = "work: this person's time. line: from the unit's entry to its exit, which is the line's time. "
                "Blank: work."},
    ColumnDeclaration{.name = "unit", .kind = Kind::name, .note = "Number of the unit, for example 118204."},
    ColumnDeclaration{.name = "variant", .kind = Kind::name, .note = "Variant of the unit, for example V1."},
    ColumnDeclaration{
        .name = "station", .kind = Kind::name, .note = "Station; rows of another station are set apart and counted."},
    ColumnDeclaration{.name = "shift", .kind = Kind::name, .note = "Shift, for example early."},
    ColumnDeclaration{.name = "operator",
                      .kind = Kind::code,
                      .note = "Code of the person, for example A1. Blank: taken from the sheet roster."},
    ColumnDeclaration{.name = "wait_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "Waiting inside the cycle in seconds, for example 2.5. Blank: none."},
    ColumnDeclaration{.name = "helped_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "Seconds another person worked on this unit, for example 12."},
    ColumnDeclaration{.name = "mark", .kind = Kind::marks, .note = marks_note},
};

constexpr std::array stop_columns{
    ColumnDeclaration{.name = "started_at",
                      .kind = Kind::instant,
                      .required = true,
                      .note = "Day and time of day the line stopped, for example 2026-11-03 09:40."},
    ColumnDeclaration{.name = "shift", .kind = Kind::name, .note = "Shift, for example early."},
    ColumnDeclaration{.name = "minutes",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 100000,
                      .note = "How long, in minutes, for example 3.5."},
    ColumnDeclaration{.name = "reason", .kind = Kind::text, .note = "Why, for example part short."},
    ColumnDeclaration{.name = "called_by_station",
                      .kind = Kind::choice,
                      .words = yes_no,
                      .note = "yes or no: did this station call the stop?"},
};

constexpr std::array help_columns{
    ColumnDeclaration{.name = "at",
                      .kind = Kind::instant,
                      .required = true,
                      .note = "Day and time of day help came, for example 2026-11-03 10:05."},
    ColumnDeclaration{.name = "called_by_role", .kind = Kind::text, .note = "Role that called for it. No name."},
    ColumnDeclaration{
        .name = "reason", .kind = Kind::text, .note = "Why: late, part, tool, quality, relief or training."},
    ColumnDeclaration{.name = "element", .kind = Kind::name, .note = "Element the helper did, for example E30."},
    ColumnDeclaration{.name = "seconds",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "Seconds of help, for example 15."},
};

} // namespace

TableDeclaration conditions() {
  return {.table = TableName::conditions,
          .purpose = "What was checked at the station against what the standard assumes.",
          .absent = "Without it nobody can say whether tools, parts and layout were as the standard assumes.",
          .columns = condition_columns};
}

TableDeclaration sessions() {
  return {.table = TableName::sessions,
          .purpose = "Each spell of stopwatch timing: when, whom by code, under which method.",
          .absent = "Without it there is no restudy: no stopwatch check of the standard.",
          .columns = session_columns};
}

TableDeclaration readings() {
  return {.table = TableName::readings,
          .purpose = "The stopwatch readings of those sessions.",
          .absent = "Without it there is no restudy: no stopwatch check of the standard, element by element.",
          .columns = reading_columns};
}

TableDeclaration cycle_log() {
  return {.table = TableName::cycle_log,
          .purpose = "Logged cycles, one row a cycle, as many as there are.",
          .absent =
              "Without it nobody can say what trained people really take (settled operators), nor how people's times "
              "changed with practice.",
          .columns = log_columns};
}

TableDeclaration stops() {
  return {.table = TableName::stops,
          .used_now = false,
          .purpose = "Stops of the line.",
          .absent = "Without it nobody can see how often this station stopped the line.",
          .columns = stop_columns};
}

TableDeclaration helps() {
  return {.table = TableName::helps,
          .used_now = false,
          .purpose = "Help given at the station.",
          .absent = "Without it nobody can see how much of the work was done by helpers.",
          .columns = help_columns};
}

} // namespace docket::declarations
