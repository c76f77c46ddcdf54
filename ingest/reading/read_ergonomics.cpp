#include "ingest/reading/read_tables.h"

namespace docket {

namespace {

std::optional<double> number(const TableRow& row, std::string_view column) {
  const CellValue& value = value_of(row, column);
  return value.given ? std::optional(value.number) : std::nullopt;
}

template <class Word>
std::optional<Word> word(const TableRow& row, std::string_view column) {
  const CellValue& value = value_of(row, column);
  return value.given ? std::optional(static_cast<Word>(value.whole)) : std::nullopt;
}

/// `where`: empty at the origin, `_dest` at the destination.
LiftSpot read_spot(const TableRow& row, const std::string& where) {
  LiftSpot spot;
  spot.h = value_of(row, "h_cm" + where).number;
  spot.v = value_of(row, "v_cm" + where).number;
  spot.d = value_of(row, "d_cm" + where).number;
  spot.a = number(row, "a_deg" + where);
  spot.coupling = word<Coupling>(row, "coupling" + where);
  return spot;
}

/// The destination is a place of its own, or none.
void read_destination(Draft& draft, const TableRow& row, Lift& lift) {
  bool any = false;
  std::string missing;
  for (const char* column : {"h_cm_dest", "v_cm_dest", "d_cm_dest"}) {
    any = any || value_of(row, column).given;
    if (!value_of(row, column).given) missing += (missing.empty() ? "" : ", ") + std::string(column);
  }
  any = any || value_of(row, "a_deg_dest").given || value_of(row, "coupling_dest").given;
  if (!any) return;
  if (missing.empty())
    lift.to = read_spot(row, "_dest");
  else
    row_issue(draft, row, missing.substr(0, missing.find(',')),
              {IssueGrade::fault, "destination_incomplete",
               "The place where the load is set down is described only in part. Blank: " + missing + ".",
               "Fill in h_cm_dest, v_cm_dest and d_cm_dest, or leave all columns that end in _dest blank where no "
               "control is needed there."});
}

void check_frequency(Draft& draft, const TableRow& row, const Lift& lift) {
  if (!lift.per_min && !lift.times_per_unit)
    row_issue(draft, row, "per_min",
              {IssueGrade::fault, "lift_frequency_not_given", "It is not said how often this is lifted.",
               "Fill in per_min (lifts a minute) or times_per_unit (lifts on one unit that has it)."});
  if (lift.per_min && lift.times_per_unit)
    row_issue(draft, row, "times_per_unit",
              {IssueGrade::question, "lift_frequency_twice",
               "per_min and times_per_unit are both filled; per_min counts.",
               "Leave one of them blank. With times_per_unit the frequency follows the line and the mix."});
}

/// A dash or a question mark is no source.
bool says_something(std::string_view source) {
  return std::count_if(source.begin(), source.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
         }) >= 3;
}

} // namespace

void read_lifts(Draft& draft) {
  each_row(draft, TableName::lifts, [&](const TableRow& row) {
    Lift lift;
    lift.element = find_element(draft, row, "element");
    if (row.faulty) return;
    lift.origin = row.origin;
    lift.task = value_of(row, "task").text;
    lift.load = value_of(row, "load_kg").number;
    lift.from = read_spot(row, "");
    read_destination(draft, row, lift);
    lift.per_min = number(row, "per_min");
    lift.times_per_unit = number(row, "times_per_unit");
    check_frequency(draft, row, lift);
    lift.hours = number(row, "hours");
    lift.recovery_hours = number(row, "recovery_hours");
    draft.input.lifts.push_back(std::move(lift));
  });
}

void read_efforts(Draft& draft) {
  each_row(draft, TableName::efforts, [&](const TableRow& row) {
    Effort effort;
    effort.element = find_element(draft, row, "element");
    if (row.faulty) return;
    effort.origin = row.origin;
    effort.task = value_of(row, "task").text;
    effort.hand = static_cast<Hand>(value_of(row, "hand").whole + 1);
    effort.force_n = value_of(row, "force_n").number;
    effort.time = Seconds(value_of(row, "seconds").number);
    effort.times_per_unit = value_of(row, "times_per_unit").number;
    effort.strength_n = number(row, "strength_n");
    effort.strength_source = value_of(row, "strength_source").text;
    if (!says_something(effort.strength_source)) effort.strength_source.clear();
    if (value_of(row, "posture").given) effort.posture = static_cast<EffortPosture>(value_of(row, "posture").whole + 1);
    effort.speed = value_of(row, "speed").text;
    effort.hours = number(row, "hours");
    effort.wrist_deg = number(row, "wrist_deg");
    const CellValue& bend = value_of(row, "wrist_bend");
    effort.wrist_flexion = !bend.given || bend.whole == 0;
    if (effort.wrist_deg && *effort.wrist_deg > 0 && !bend.given)
      row_issue(draft, row, "wrist_bend",
                {IssueGrade::fault, "wrist_bend_not_given",
                 "An angle of the wrist is given, but not to which side it is bent.",
                 "Write flexion (towards the palm) or extension."});
    effort.rated_intensity = word<ExertionIntensity>(row, "rated_intensity");
    effort.rated_posture = word<WristPosture>(row, "rated_posture");
    effort.rated_speed = word<WorkSpeed>(row, "rated_speed");
    if (effort.strength_n && effort.strength_source.empty())
      row_issue(draft, row, "strength_source",
                {IssueGrade::question, "strength_without_source",
                 "A strength value is given, but not where it is from. The effort is not compared with it.",
                 "Write the table or the measurement it is from, for which people, posture and direction."});
    draft.input.efforts.push_back(std::move(effort));
  });
}

} // namespace docket
