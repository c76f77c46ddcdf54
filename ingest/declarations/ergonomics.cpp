// Tables `lifts` and `efforts`: facts for the ergonomics cautions.
#include "ingest/declarations/topics.h"

#include <array>

namespace docket::declarations {

namespace {

using Kind = ColumnKind;
using Words = std::string_view;

constexpr std::array<Words, 3> couplings{"good", "fair", "poor"};
constexpr std::array<Words, 3> hands{"L", "R", "B"};
constexpr std::array<Words, 3> postures{"neutral", "bent", "far"};
constexpr std::array<Words, 2> bends{"flexion", "extension"};
constexpr std::array<Words, 5> intensities{"light", "somewhat_hard", "hard", "very_hard", "near_maximal"};
constexpr std::array<Words, 5> wrist_postures{"very_good", "good", "fair", "bad", "very_bad"};
constexpr std::array<Words, 5> speeds{"very_slow", "slow", "fair", "fast", "very_fast"};

constexpr std::array lift_columns{
    ColumnDeclaration{.name = "task",
                      .kind = Kind::name,
                      .required = true,
                      .note = "What is lifted, for example compressor from rack."},
    ColumnDeclaration{.name = "load_kg",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 500,
                      .least_excluded = true,
                      .note = "Weight in kg, for example 11.5."},
    ColumnDeclaration{.name = "h_cm",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 300,
                      .note = "Distance of the hands from the ankles, level, in cm, for example 40."},
    ColumnDeclaration{.name = "v_cm",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 300,
                      .note = "Height of the hands above the floor at the start, in cm, for example 75."},
    ColumnDeclaration{.name = "d_cm",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 300,
                      .note = "How far up or down the load goes, in cm, for example 30."},
    ColumnDeclaration{.name = "a_deg",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 180,
                      .note = "Turn of the body to the side, in degrees, for example 30."},
    ColumnDeclaration{.name = "per_min",
                      .kind = Kind::number,
                      .required = true,
                      .may_be_blank = true,
                      .least = 0,
                      .most = 60,
                      .least_excluded = true,
                      .note = "Lifts a minute over all units, as the line runs now, for example 1.1. Or leave it blank "
                              "and fill times_per_unit."},
    ColumnDeclaration{
        .name = "hours", .kind = Kind::number, .least = 0, .most = 24, .note = "Hours of it a shift, for example 7.5."},
    ColumnDeclaration{.name = "coupling",
                      .kind = Kind::choice,
                      .words = couplings,
                      .note = "good, fair or poor: how well the hands hold the load."},
    ColumnDeclaration{.name = "h_cm_dest",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 300,
                      .note = "Where the load must be set down with control: h_cm there."},
    ColumnDeclaration{
        .name = "v_cm_dest", .kind = Kind::number, .least = 0, .most = 300, .note = "v_cm where it is set down."},
    ColumnDeclaration{
        .name = "d_cm_dest", .kind = Kind::number, .least = 0, .most = 300, .note = "d_cm where it is set down."},
    ColumnDeclaration{
        .name = "a_deg_dest", .kind = Kind::number, .least = 0, .most = 180, .note = "a_deg where it is set down."},
    ColumnDeclaration{
        .name = "coupling_dest", .kind = Kind::choice, .words = couplings, .note = "coupling where it is set down."},
    ColumnDeclaration{.name = "recovery_hours",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 24,
                      .note = "Hours of rest or light work that follow these lifts, for example 1.5."},
    ColumnDeclaration{.name = "times_per_unit",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 1000,
                      .least_excluded = true,
                      .note = "Lifts on one unit that has it, for example 1; used where per_min is blank."},
    ColumnDeclaration{.name = "element",
                      .kind = Kind::name,
                      .note = "Element of the standard it belongs to, so that only units with it count. Blank: every "
                              "unit has it."},
};

constexpr std::array effort_columns{
    ColumnDeclaration{.name = "task",
                      .kind = Kind::name,
                      .required = true,
                      .note = "What is pushed, pulled or gripped, for example hose clamp."},
    ColumnDeclaration{.name = "hand",
                      .kind = Kind::choice,
                      .required = true,
                      .words = hands,
                      .note = "L, R or B: left, right or both hands."},
    ColumnDeclaration{.name = "force_n",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 5000,
                      .note = "Force in newton, measured, for example 60."},
    ColumnDeclaration{.name = "seconds",
                      .kind = Kind::seconds,
                      .required = true,
                      .least = 0,
                      .most = 86400,
                      .note = "How long it is held, in seconds, for example 1.5."},
    ColumnDeclaration{.name = "times_per_unit",
                      .kind = Kind::number,
                      .required = true,
                      .least = 0,
                      .most = 1000,
                      .note = "How often on one unit that has it, for example 6."},
    ColumnDeclaration{.name = "strength_n",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 5000,
                      .least_excluded = true,
                      .usual_most = 1500,
                      .note = "Strength to compare with, in newton. Without it the effort is not assessed."},
    ColumnDeclaration{.name = "strength_source",
                      .kind = Kind::text,
                      .note = "Where strength_n is from, for example the table it is printed in."},
    ColumnDeclaration{.name = "posture",
                      .kind = Kind::choice,
                      .words = postures,
                      .note = "neutral, bent or far: how the wrist or arm stands."},
    ColumnDeclaration{.name = "speed", .kind = Kind::text, .note = "How fast, in words, for example fast."},
    ColumnDeclaration{
        .name = "hours", .kind = Kind::number, .least = 0, .most = 24, .note = "Hours of it a shift, for example 7.5."},
    ColumnDeclaration{.name = "element",
                      .kind = Kind::name,
                      .note = "Element of the standard it belongs to, so that only units with it count. Blank: every "
                              "unit has it."},
    ColumnDeclaration{.name = "wrist_deg",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 180,
                      .note = "Angle of the wrist from straight, measured, in degrees, for example 20."},
    ColumnDeclaration{.name = "wrist_bend",
                      .kind = Kind::choice,
                      .words = bends,
                      .note = "flexion (towards the palm) or extension. Needed beside wrist_deg above 0."},
    ColumnDeclaration{.name = "rated_intensity",
                      .kind = Kind::choice,
                      .words = intensities,
                      .note = "Rating of the effort by somebody trained in it: light, somewhat_hard, hard, very_hard "
                              "or near_maximal."},
    ColumnDeclaration{.name = "rated_posture",
                      .kind = Kind::choice,
                      .words = wrist_postures,
                      .note = "Rating of the wrist: very_good, good, fair, bad or very_bad."},
    ColumnDeclaration{.name = "rated_speed",
                      .kind = Kind::choice,
                      .words = speeds,
                      .note = "Rating of the speed: very_slow, slow, fair, fast or very_fast."},
};

} // namespace

TableDeclaration lifts() {
  return {.table = TableName::lifts,
          .purpose = "Lifts at the station, for the ergonomics cautions.",
          .absent = "Without it lifting is not screened.",
          .columns = lift_columns};
}

TableDeclaration efforts() {
  return {.table = TableName::efforts,
          .purpose = "Efforts of hands and arms, for the ergonomics cautions.",
          .absent = "Without it efforts of hands and arms are not screened.",
          .columns = effort_columns};
}

} // namespace docket::declarations
