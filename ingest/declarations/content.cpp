// Tables `standard`, `variants`, `build_sequence`, `motions`, `motion_table`: the prescribed content.
#include "ingest/declarations/topics.h"

#include <array>

namespace docket::declarations {

namespace {

using Kind = ColumnKind;
using Words = std::string_view;

constexpr std::array<Words, 3> classes{"va", "nnva", "nva"};
constexpr std::array<Words, 6> kinds{"work", "handle", "walk", "inspect", "wait", "machine"};
constexpr std::array<Words, 4> sources{"motion_times", "stopwatch", "history", "estimate"};
constexpr std::array<Words, 3> hands{"L", "R", "B"};

constexpr std::array standard_columns{
    ColumnDeclaration{.name = "element",
                      .kind = Kind::name,
                      .required = true,
                      .note = "A short name for one work element, for example E10. Each only once."},
    ColumnDeclaration{.name = "description",
                      .kind = Kind::text,
                      .required = true,
                      .note = "What is done, for example place compressor on base plate."},
    ColumnDeclaration{.name = "class",
                      .kind = Kind::choice,
                      .required = true,
                      .words = classes,
                      .note = "va: adds value. nnva: needed, adds no value. nva: waste."},
    ColumnDeclaration{.name = "time_s",
                      .kind = Kind::seconds,
                      .required = true,
                      .may_be_blank = true,
                      .least = 0,
                      .most = 86400,
                      .least_excluded = true,
                      .note = "Time of doing it once, in seconds at normal pace, for example 6.5. For minutes name the "
                              "column time_min, for TMU time_tmu."},
    ColumnDeclaration{.name = "kind",
                      .kind = Kind::choice,
                      .words = kinds,
                      .preset = "work",
                      .note =
                          "work, handle, walk, inspect, wait or machine. Of wait and machine only the seconds in which "
                          "the person can do nothing else. Blank: work."},
    ColumnDeclaration{.name = "times_per_unit",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 1000,
                      .least_excluded = true,
                      .preset = "1",
                      .note = "How often on one unit, for example 4 screws: 4; every tenth unit: 0.1. Blank: 1."},
    ColumnDeclaration{.name = "option",
                      .kind = Kind::text,
                      .note =
                          "Blank: on every unit. A;B: only on units with option A or B. not A: only on units without "
                          "option A."},
    ColumnDeclaration{
        .name = "uncertainty_percent",
        .kind = Kind::percent,
        .least = 0,
        .most = 100,
        .least_excluded = true,
        .note = "How sure the time is: one standard uncertainty in percent, for example 8. Blank: the usual."},
    ColumnDeclaration{
        .name = "analyst", .kind = Kind::name, .note = "Role code of whoever set the time, for example IE1."},
    ColumnDeclaration{.name = "source",
                      .kind = Kind::choice,
                      .words = sources,
                      .note = "motion_times, stopwatch, history or estimate. Blank: not said."},
    ColumnDeclaration{
        .name = "source_note", .kind = Kind::text, .note = "Where it is written, for example study 2025-11."},
    ColumnDeclaration{.name = "post", .kind = Kind::name, .note = "Person's place, where the station has several."},
    ColumnDeclaration{.name = "after",
                      .kind = Kind::names,
                      .note = "Elements that must come before this one, divided by ; for example E10;E20."},
};

constexpr std::array variant_columns{
    ColumnDeclaration{
        .name = "variant", .kind = Kind::name, .required = true, .note = "Name of the variant, for example V1."},
    ColumnDeclaration{.name = "share_percent",
                      .kind = Kind::percent,
                      .required = true,
                      .least = 0,
                      .most = 100,
                      .note =
                          "Its planned share of the units in percent, for example 25. All shares together make 100."},
    ColumnDeclaration{.name = "options",
                      .kind = Kind::names,
                      .note = "Options it carries, divided by ; The sheet standard uses them in its column option."},
    ColumnDeclaration{.name = "also_called",
                      .kind = Kind::names,
                      .note = "Other names of the same variant in your data, divided by ;"},
    ColumnDeclaration{.name = "share_in_standard_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 100,
                      .note = "The share the standard was made with, if it was another, for example 20."},
};

constexpr std::array sequence_columns{
    ColumnDeclaration{.name = "position",
                      .kind = Kind::count,
                      .required = true,
                      .note = "Place in the order of building: 1, 2, 3 ..."},
    ColumnDeclaration{
        .name = "variant", .kind = Kind::name, .required = true, .note = "Variant of the unit, for example V1."},
    ColumnDeclaration{
        .name = "run",
        .kind = Kind::name,
        .note = "Day or shift; where it changes the person starts on time again, for example 2026-11-03 early."},
};

constexpr std::array motion_columns{
    ColumnDeclaration{.name = "element",
                      .kind = Kind::name,
                      .required = true,
                      .note = "Element of the sheet standard, for example E10."},
    ColumnDeclaration{
        .name = "step", .kind = Kind::count, .required = true, .note = "Order inside the element: 1, 2, 3 ..."},
    ColumnDeclaration{.name = "code",
                      .kind = Kind::name,
                      .required = true,
                      .note = "Motion code in inches and pounds, for example R16C."},
    ColumnDeclaration{.name = "per_element",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 1000,
                      .least_excluded = true,
                      .preset = "1",
                      .note = "How often in the element. Blank: 1."},
    ColumnDeclaration{
        .name = "hand", .kind = Kind::choice, .words = hands, .note = "L, R or B: left, right or both hands."},
    ColumnDeclaration{.name = "tmu",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 1000000,
                      .note = "Its time in TMU (0.036 s), if it is stated."},
    ColumnDeclaration{.name = "analyst",
                      .kind = Kind::name,
                      .note = "Role code of whoever made the analysis, for example IE1. A second analyst's rows of the "
                              "same element are compared with the first's."},
};

constexpr std::array motion_table_columns{
    ColumnDeclaration{
        .name = "code", .kind = Kind::name, .required = true, .note = "Motion code of the plant's own table."},
    ColumnDeclaration{.name = "tmu",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 1000000,
                      .note = "Its time in TMU (0.036 s)."},
};

} // namespace

TableDeclaration standard() {
  return {.table = TableName::standard,
          .required = true,
          .purpose = "The plant's own standard: the work elements of this station and their times.",
          .columns = standard_columns};
}

TableDeclaration variants() {
  return {.table = TableName::variants,
          .purpose = "The variants that are built, and their shares.",
          .absent = "Without it every unit counts as the same, and nobody can say whether the heavy variants fit.",
          .columns = variant_columns};
}

TableDeclaration build_sequence() {
  return {.table = TableName::build_sequence,
          .purpose = "The order in which units were or will be built.",
          .absent = "Without it the sequence is only drawn at random, and the real order is not checked.",
          .columns = sequence_columns};
}

TableDeclaration motions() {
  return {.table = TableName::motions,
          .purpose = "Motion codes of the elements.",
          .absent = "Without it the standard's times are taken as they are, and not built up from motions.",
          .columns = motion_columns};
}

TableDeclaration motion_table() {
  return {.table = TableName::motion_table,
          .purpose = "The plant's own licensed table of motion times, if it has one.",
          .absent = "Without it motion codes have no times of the plant's own table.",
          .columns = motion_table_columns};
}

} // namespace docket::declarations
