// Lifting: each lift with its multipliers, and all lifts of the job.
#include "report/case_document/pages.h"
#include "report/case_document/screening_parts.h"
#include "report/format.h"
#include "report/wording/ergonomics.h"

namespace docket {
namespace {

const Lift& lift_of(const CaseView& view, const LiftCaution& caution) {
  return view.input.lifts[static_cast<std::size_t>(caution.lift)];
}

std::vector<Runs> lift_row(const CaseView& view, const LiftCaution& caution, std::string_view place,
                           const LiftAtPlace& at, const LiftAtPlace* asked) {
  const Lift& lift = lift_of(view, caution);
  std::vector<Runs> row{
      {plain(std::string(lift.task) + ", " + std::string(place)), reference_to(view.input, lift.origin)},
      runs(format_plain_number(lift.load, 2)),
      runs(format_fixed(caution.now.per_min, 2))};
  if (at.exact) {
    const LiftMultipliers& m = at.exact->multipliers;
    for (const double value : {m.hm, m.vm, m.dm, m.am, m.fm, m.cm}) row.push_back(runs(format_fixed(value, 2)));
    row.push_back(runs(format_fixed(at.exact->rwl, 1)));
    row.push_back({strong(format_fixed(at.exact->li, 2))});
  } else {
    for (int i = 0; i < 7; ++i) row.push_back({});
    row.push_back({strong("no number")});
  }
  if (asked != nullptr) row.push_back(runs(asked->exact ? format_fixed(asked->exact->li, 2) : "no number"));
  return row;
}

std::string spot_in_words(const LiftSpot& spot) {
  std::string text = "H " + format_plain_number(spot.h, 1) + ", V " + format_plain_number(spot.v, 1) + ", D " +
                     format_plain_number(spot.d, 1) + " cm";
  if (spot.a) text += ", A " + format_plain_number(*spot.a, 1) + "\u00B0";
  if (spot.coupling) text += ", hold " + std::string(wording::coupling_in_words(*spot.coupling));
  return text;
}

void add_lift_remarks(CasePages& pages, const CaseView& view, const LiftCaution& caution) {
  const Lift& lift = lift_of(view, caution);
  const LiftScreening& screened = caution.now.screened;
  std::string words = "Start: " + spot_in_words(lift.from);
  if (lift.to) words += "; set down: " + spot_in_words(*lift.to);
  words += lift.hours ? "; " + format_plain_number(*lift.hours, 2) + " h" : "; hours taken as up to 8";
  if (lift.recovery_hours) words += ", then " + format_plain_number(*lift.recovery_hours, 2) + " h rest or light work";
  words += ".";
  const auto say = [&](std::string_view where, const std::vector<Reason>& why) {
    if (!why.empty())
      words += (words.empty() ? "" : " ") + std::string(where) + wording::screening_reasons_in_words(why);
  };
  say("No number at the start: ", screened.origin.why_not);
  if (screened.destination) say("No number where it is set down: ", screened.destination->why_not);
  say("", screened.notes);
  say("", screened.origin.notes);
  if (screened.destination && screened.destination->notes != screened.origin.notes)
    say("Where it is set down: ", screened.destination->notes);
  if (caution.asked && screened.origin.why_not.empty() && !caution.asked->screened.origin.why_not.empty())
    say("At the line cycle time asked about: ", caution.asked->screened.origin.why_not);
  if (caution.per_min_from_units)
    words += (words.empty() ? "" : " ") + std::string("Lifts a minute from ") +
             format_plain_number(lift.times_per_unit.value_or(1), 2) + " a unit; units that have it: " +
             share_of_units_in_words(caution.share_of_units, lift.element, view.input) + ".";
  add_screening_remarks(pages, view, lift.task, lift.origin, words);
}

void add_composite(CasePages& pages, const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  if (!found.composite) return;
  pages.part("All lifts of the job together");
  add_screening_method(pages, {wording::what_composite_is}, composite_lifting_index());
  if (!found.composite->exact) {
    pages.paragraph("No number. " + wording::screening_reasons_in_words(found.composite->why_not));
    return;
  }
  Table table;
  table.caption = "What each lift adds";
  table.dense = true;
  table.columns = {{"Lift", Align::left},
                   {"Lifts/min up to here", Align::right},
                   {"Index without frequency", Align::right},
                   {"Index by itself", Align::right},
                   {"Adds", Align::right}};
  for (const CompositeLiftStep& step : found.composite->exact->steps) {
    const Lift& lift = view.input.lifts[step.task];
    Runs name{plain(lift.task + (step.at_destination ? ", where it is set down" : ", at the start")),
              reference_to(view.input, lift.origin)};
    table.rows.push_back({name, runs(format_fixed(step.per_min_sum, 2)), runs(format_fixed(step.fili, 2)),
                          runs(format_fixed(step.stli, 2)), runs(format_fixed(step.adds, 2))});
  }
  pages.add(table);
  Runs text{plain("Together: "), strong(format_fixed(found.composite->exact->cli, 2))};
  if (found.composite_asked)
    text.push_back(plain(", at " + format_seconds(*found.asked_cycle) + " " +
                         (found.composite_asked->exact
                              ? format_fixed(found.composite_asked->exact->cli, 2)
                              : "no number: " + wording::screening_reasons_in_words(found.composite_asked->why_not))));
  text.push_back(plain(". Hours: " + std::string(wording::duration_in_words(*found.composite->duration)) + "."));
  pages.paragraph(text);
}

} // namespace

void add_lifting(CasePages& pages, const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  pages.part("Lifting");
  if (found.lifts.empty()) {
    pages.paragraph("Not screened: table lifts has no row.");
    return;
  }
  add_screening_method(pages, {wording::what_lifting_index_is}, revised_lifting_equation());
  Table table;
  table.caption = "Limit = 23 kg \u00D7 HM \u00D7 VM \u00D7 DM \u00D7 AM \u00D7 FM \u00D7 CM; index = load over limit";
  table.dense = true;
  table.columns = {{"Lift", Align::left}, {"Load, kg", Align::right}, {"Lifts/min", Align::right}};
  for (const char* multiplier : {"HM", "VM", "DM", "AM", "FM", "CM", "Limit, kg", "Index"})
    table.columns.push_back({multiplier, Align::right});
  if (found.asked_cycle) table.columns.push_back({"at " + format_seconds(*found.asked_cycle), Align::right});
  for (const LiftCaution& caution : found.lifts) {
    const LiftScreening* asked = caution.asked ? &caution.asked->screened : nullptr;
    table.rows.push_back(
        lift_row(view, caution, "start", caution.now.screened.origin, asked != nullptr ? &asked->origin : nullptr));
    if (caution.now.screened.destination)
      table.rows.push_back(lift_row(view, caution, "set down", *caution.now.screened.destination,
                                    asked != nullptr ? &*asked->destination : nullptr));
  }
  pages.add(table);
  for (const LiftCaution& caution : found.lifts) add_lift_remarks(pages, view, caution);
  add_composite(pages, view);
}

} // namespace docket
