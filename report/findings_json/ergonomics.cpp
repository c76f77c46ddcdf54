#include "report/wording/ergonomics.h"

#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"

namespace docket::findings_json {
namespace {

JsonArray reasons(const std::vector<Reason>& all) { return coded(all, wording::screening_reason_in_words); }

constexpr std::string_view in_why_not = "why_not: the reasons stand in why_not beside it";
constexpr std::string_view no_cycle_asked = "not_asked: no line_cycle_asked_s is given";
constexpr std::string_view one_lift = "fewer_than_two_lifts: nothing to put together";

void put_number(JsonObject& to, std::string_view key, const std::optional<double>& value) {
  put_or_why(to, key, value, in_why_not);
}

JsonObject method(const ScreeningMethod& method) {
  const wording::ScreeningWords words = wording::method_in_words(method);
  JsonArray range;
  for (const std::string_view code : method.range) range.append(code);
  return {{"method", method.code}, {"source", words.source},        {"source_code", method.source},
          {"range", range},        {"certainty", method.certainty}, {"certainty_in_words", words.certainty}};
}

JsonObject limit(const LiftLimit& limit) {
  const LiftMultipliers& m = limit.multipliers;
  return {{"hm", number(m.hm)},
          {"vm", number(m.vm)},
          {"dm", number(m.dm)},
          {"am", number(m.am)},
          {"fm", number(m.fm)},
          {"cm", number(m.cm)},
          {"firwl_kg", number(limit.firwl)},
          {"rwl_kg", number(limit.rwl)},
          {"fili", number(limit.fili)},
          {"li", number(limit.li)}};
}

JsonObject place(std::string_view name, const LiftAtPlace& at) {
  JsonObject row{{"place", name}, {"why_not", reasons(at.why_not)}, {"notes", reasons(at.notes)}};
  put(row, "exact", at.exact ? JsonValue(limit(*at.exact)) : JsonValue(), in_why_not);
  put(row, "as_printed", at.as_printed ? JsonValue(limit(*at.as_printed)) : JsonValue(), in_why_not);
  return row;
}

/// Values as printed in the document, of the place with the larger index; null where a place has none.
JsonObject lift_at(const LiftAtCycle& at) {
  const LiftScreening& screened = at.screened;
  JsonArray places;
  places.append(place("origin", screened.origin));
  if (screened.destination) places.append(place("destination", *screened.destination));
  const LiftLimit* counts = screened.origin.exact ? &*screened.origin.exact : nullptr;
  if (counts != nullptr && screened.destination) {
    if (!screened.destination->exact)
      counts = nullptr;
    else if (screened.destination->exact->li > counts->li)
      counts = &*screened.destination->exact;
  }
  JsonObject row{{"per_min", number(at.per_min)}, {"places", places}, {"notes", reasons(screened.notes)}};
  constexpr std::string_view no_place = "place_without_number: the reasons stand in places";
  put_or_why(row, "rwl_kg", counts != nullptr ? std::optional(counts->rwl) : std::nullopt, no_place);
  put_or_why(row, "li", counts != nullptr ? std::optional(counts->li) : std::nullopt, no_place);
  put(row, "duration", screened.duration ? JsonValue(wording::duration_in_words(*screened.duration)) : JsonValue(),
      no_place);
  return row;
}

JsonArray lifts(const Case& input, const Ergonomics& found) {
  JsonArray list;
  for (const LiftCaution& caution : found.lifts) {
    const Lift& lift = input.lifts[static_cast<std::size_t>(caution.lift)];
    JsonObject row = lift_at(caution.now);
    row["task"] = lift.task;
    row["load_kg"] = number(lift.load);
    row["share_of_units"] = number(caution.share_of_units);
    row["per_min_from_units"] = caution.per_min_from_units;
    put(row, "asked", caution.asked ? JsonValue(lift_at(*caution.asked)) : JsonValue(), no_cycle_asked);
    put_origin(row, input, lift.origin);
    list.append(row);
  }
  return list;
}

JsonValue composite(const std::optional<CompositeLiftScreening>& screened) {
  if (!screened) return {};
  JsonObject row{{"why_not", reasons(screened->why_not)}};
  put_number(row, "cli_as_printed", screened->as_printed ? std::optional(screened->as_printed->cli) : std::nullopt);
  put_number(row, "cli_exact", screened->exact ? std::optional(screened->exact->cli) : std::nullopt);
  return row;
}

JsonObject acceptable(const EffortScreening& at) {
  JsonObject row{{"why_not", reasons(at.why_not)}, {"notes", reasons(at.notes)}};
  put_number(row, "duty_cycle", at.duty_cycle);
  put_number(row, "mae", at.mae);
  put_number(row, "acceptable_n", at.acceptable_n);
  put_number(row, "force_share", at.force_share);
  put_number(row, "of_acceptable", at.of_acceptable);
  return row;
}

JsonObject effort_at(const EffortAtCycle& at) {
  JsonObject strain{{"why_not", reasons(at.strain.why_not)}};
  put_number(strain, "index", at.strain.result ? std::optional(at.strain.result->index) : std::nullopt);
  if (const auto& si = at.strain.result)
    strain["multipliers"] = JsonObject{{"intensity", number(si->intensity)}, {"exerted", number(si->exerted)},
                                       {"per_min", number(si->per_min)},     {"posture", number(si->posture)},
                                       {"speed", number(si->speed)},         {"hours", number(si->hours)}};
  JsonObject revised{{"why_not", reasons(at.revised_strain.why_not)}, {"notes", reasons(at.revised_strain.notes)}};
  put_number(revised, "index",
             at.revised_strain.result ? std::optional(at.revised_strain.result->index) : std::nullopt);
  if (const auto& rsi = at.revised_strain.result)
    revised["multipliers"] = JsonObject{{"im", number(rsi->im)},
                                        {"em", number(rsi->em)},
                                        {"dm", number(rsi->dm)},
                                        {"pm", number(rsi->pm)},
                                        {"hm", number(rsi->hm)}};
  JsonObject row = acceptable(at.acceptable);
  row["per_min"] = number(at.per_min);
  row["strain_index"] = strain;
  row["revised_strain_index"] = revised;
  return row;
}

JsonArray efforts(const Case& input, const Ergonomics& found) {
  JsonArray list;
  for (const EffortCaution& caution : found.efforts) {
    const Effort& effort = input.efforts[static_cast<std::size_t>(caution.effort)];
    JsonObject row = effort_at(caution.now);
    row["task"] = effort.task;
    row["hand"] = wording::hand_of_effort(effort.hand);
    row["share_of_units"] = number(caution.share_of_units);
    put(row, "in_a_row", caution.in_a_row ? JsonValue(acceptable(*caution.in_a_row)) : JsonValue(),
        "every_unit: every unit of the planned mix has it");
    put(row, "asked", caution.asked ? JsonValue(effort_at(*caution.asked)) : JsonValue(), no_cycle_asked);
    put_origin(row, input, effort.origin);
    list.append(row);
  }
  return list;
}

JsonArray hands(const std::vector<HandScreening>& screened) {
  JsonArray list;
  for (const HandScreening& hand : screened) {
    JsonObject row{{"hand", wording::hand_of_effort(hand.hand)},
                   {"efforts", number(static_cast<std::int64_t>(hand.efforts))},
                   {"why_not", reasons(hand.why_not)},
                   {"notes", reasons(hand.notes)}};
    put_number(row, "duty_cycle", hand.duty_cycle);
    put_number(row, "mae", hand.mae);
    put_number(row, "largest_force_share", hand.largest_force_share);
    put_number(row, "mean_force_share", hand.mean_force_share);
    list.append(row);
  }
  return list;
}

JsonValue repetition(const std::optional<RepetitionAtCycle>& at) {
  if (!at) return {};
  JsonObject row{
      {"line_cycle_s", number(at->cycle)}, {"below_30_s", at->below_30_s}, {"why_not", reasons(at->why_not)}};
  put(row, "half_in_one_pattern", at->half_in_one_pattern ? JsonValue(*at->half_in_one_pattern) : JsonValue(),
      in_why_not);
  put_or_why(row, "recovery_s", at->recovery, in_why_not);
  put_number(row, "pattern_share", at->pattern_share);
  put_number(row, "cycles_per_shift", at->cycles_per_shift);
  put_number(row, "recovery_share", at->recovery_share);
  return row;
}

} // namespace

JsonObject ergonomics(const Case& input, const Findings& findings) {
  const Ergonomics& found = findings.ergonomics;
  JsonArray cautions, methods;
  for (const char* code : {"injury_risk_not_assessed", "fits_void_while_referral_open", "do_not_speed_up",
                           "report_pain_early", "breaks_are_no_savings", "stop_work_right_first"})
    cautions.append(code);
  for (const ScreeningMethod* one :
       {&revised_lifting_equation(), &composite_lifting_index(), &maximum_acceptable_effort_method(),
        &strain_index_1995(), &revised_strain_index_2017(), &repetition_definition()})
    methods.append(method(*one));
  JsonObject all{{"cautions", cautions},
                 {"screening", wording::screening_line},
                 {"methods", methods},
                 {"lifts", lifts(input, found)},
                 {"efforts", efforts(input, found)},
                 {"hands", hands(found.hands)},
                 {"hands_asked", hands(found.hands_asked)},
                 {"busy_per_unit_s", number(found.busy_per_unit)},
                 {"repetition", repetition(found.repetition.now)}};
  put(all, "composite_lift", composite(found.composite), one_lift);
  put(all, "composite_lift_asked", composite(found.composite_asked), found.asked_cycle ? one_lift : no_cycle_asked);
  put(all, "repetition_asked", repetition(found.repetition.asked), no_cycle_asked);
  put_or_why(all, "line_cycle_asked_s", found.asked_cycle, not_given);
  return all;
}

} // namespace docket::findings_json
