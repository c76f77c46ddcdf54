// Tables `operators`, `roster`, `training`: who worked when. Codes, never names.
#include "ingest/declarations/topics.h"

#include <array>

namespace docket::declarations {

namespace {

using Kind = ColumnKind;
using Words = std::string_view;

constexpr std::array<Words, 3> yes_no_unknown{"yes", "no", "unknown"};
constexpr std::array<Words, 3> roles{"regular", "relief", "leader"};

constexpr std::array operator_columns{
    ColumnDeclaration{.name = "operator",
                      .kind = Kind::code,
                      .required = true,
                      .note =
                          "A code, never a name: letters, then digits, at most 6 characters, for example A1 or OP-12. "
                          "List everyone who ever had this job, also those who moved off."},
    ColumnDeclaration{.name = "trained",
                      .kind = Kind::choice,
                      .words = yes_no_unknown,
                      .preset = "unknown",
                      .note =
                          "yes, no or unknown: signed off for this station. Only trained people count in question A."},
    ColumnDeclaration{.name = "shift", .kind = Kind::name, .note = "Usual shift, for example early."},
    ColumnDeclaration{.name = "prior_cycles",
                      .kind = Kind::count,
                      .note = "Cycles worked at this station before the first row of the log, for example 5200."},
    ColumnDeclaration{.name = "on_station_since",
                      .kind = Kind::date,
                      .note = "Where the cycles are not known: first day at this station, for example 2025-09-01."},
    ColumnDeclaration{.name = "shifts_before",
                      .kind = Kind::count,
                      .note = "And the number of shifts worked here before the first row of the log, for example 12."},
    ColumnDeclaration{.name = "role", .kind = Kind::choice, .words = roles, .note = "regular, relief or leader."},
    ColumnDeclaration{.name = "left_station",
                      .kind = Kind::date,
                      .note = "Day the person moved off the station. Blank: still here. No reason is asked."},
};

constexpr std::array roster_columns{
    ColumnDeclaration{
        .name = "date",
        .kind = Kind::date,
        .required = true,
        .note = "Day the shift starts, for example 2026-11-03. A night shift belongs to the day it starts on."},
    ColumnDeclaration{.name = "shift", .kind = Kind::name, .required = true, .note = "Shift, for example late."},
    ColumnDeclaration{.name = "operator",
                      .kind = Kind::code,
                      .required = true,
                      .note = "Code of the person at the station, for example A1."},
    ColumnDeclaration{.name = "from",
                      .kind = Kind::time_of_day,
                      .note = "From this time of day, for example 14:00. Blank: from the start of the shift."},
    ColumnDeclaration{.name = "to",
                      .kind = Kind::time_of_day,
                      .note = "To this time of day, for example 22:00. At or before from: the next day."},
};

constexpr std::array training_columns{
    ColumnDeclaration{
        .name = "operator", .kind = Kind::code, .required = true, .note = "Code of the person, for example B3."},
    ColumnDeclaration{.name = "on", .kind = Kind::date, .required = true, .note = "Day, for example 2026-10-12."},
    ColumnDeclaration{
        .name = "given_by_role", .kind = Kind::text, .note = "Role that gave it, for example trainer. No name."},
    ColumnDeclaration{
        .name = "what", .kind = Kind::text, .note = "What was trained, for example brazing of the return line."},
    ColumnDeclaration{.name = "variants", .kind = Kind::names, .note = "Variants it covered, divided by ;"},
    ColumnDeclaration{
        .name = "signed_off", .kind = Kind::choice, .words = yes_no_unknown, .note = "yes, no or unknown."},
};

} // namespace

TableDeclaration operators() {
  return {.table = TableName::operators,
          .purpose = "Who works or worked at the station, by code, and who is trained.",
          .absent =
              "Without it nobody counts as trained, so what trained people really take (settled operators, restudy) "
              "is not answered.",
          .columns = operator_columns};
}

TableDeclaration roster() {
  return {.table = TableName::roster,
          .purpose = "Who stood at the station when. It fills the operator where the log has none.",
          .absent = "Without it a log row without an operator stays without one and feeds no line of evidence.",
          .columns = roster_columns};
}

TableDeclaration training() {
  return {.table = TableName::training,
          .purpose = "Training given at this station.",
          .absent = "Without it nobody can see what training was given, for question B.",
          .columns = training_columns};
}

} // namespace docket::declarations
