#include "core/rules.h"
#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"
#include "report/wording/alternatives.h"

#include <optional>
#include <string>

namespace docket::findings_json {
namespace {

constexpr std::string_view no_zone_or_spread =
    "no_zone_or_spread: it takes the work zone and the spread from cycle to cycle";
constexpr std::string_view no_build_sequence = "no_build_sequence: the build order is not given";

JsonValue given_sequence(const Findings& findings) {
  if (!findings.content.sequence.given) return {};
  const GivenSequence& given = *findings.content.sequence.given;
  return JsonObject{{"units", number(given.units)},
                    {"overloads", number(given.overloads)},
                    {"overloads_per_1000", number(given.overloads_per_1000)},
                    {"seconds_lost", number(given.lost)},
                    {"worst_position", number(given.worst_position)},
                    {"k_star", number(given.k_star.factor)},
                    {"k_star_end", end_of(given.k_star)},
                    {"p", number(given.p)}};
}

JsonValue drawn_sequence(const Findings& findings) {
  if (!findings.content.sequence.drawn) return {};
  const DrawnSequence& drawn = *findings.content.sequence.drawn;
  JsonArray rates;
  for (const MarginAtRate& rate : drawn.at_rates)
    rates.append(JsonObject{{"tolerated", number(rate.tolerated_per_1000)},
                            {"k_star", number(rate.k_star.factor)},
                            {"k_star_end", end_of(rate.k_star)},
                            {"p", number(rate.p)}});
  return JsonObject{{"units", number(drawn.units)},
                    {"overloads_per_1000", number(drawn.overloads_per_1000)},
                    {"low", number(drawn.low)},
                    {"high", number(drawn.high)},
                    {"seconds_lost_per_1000", number(drawn.lost_per_1000)},
                    {"people_averaged_per_1000", number(drawn.people_averaged_per_1000)},
                    {"rate_at_1_10_50", rates},
                    {"k_star", number(drawn.k_star.factor)},
                    {"k_star_end", end_of(drawn.k_star)},
                    {"p", number(drawn.p)},
                    {"tolerated", number(drawn.tolerated_per_1000)},
                    {"sd_of_cycles", number(drawn.spread.sigma)},
                    {"lag1", number(drawn.spread.rho)},
                    {"cycles_per_shift", number(drawn.cycles_per_shift)}};
}

JsonObject posts(const PostsNeeded& posts) {
  return {{"filled", number(posts.filled)},
          {"at_efficiency", number(posts.at_efficiency)},
          {"at_utilisation", number(posts.at_utilisation)}};
}

JsonObject count_of(const OrderCount& count) {
  return {{"overloads", number(count.overloads)},
          {"seconds_lost", number(count.lost)},
          {"longest_heaviest", number(count.longest_heaviest)}};
}

JsonValue even_order(const Findings& findings) {
  const std::optional<EvenOrder>& even = findings.content.alternatives.even;
  if (!even) return {};
  JsonObject order{{"units", number(even->units)},
                   {"changed", number(even->changed)},
                   {"before", count_of(even->before)},
                   {"after", count_of(even->after)}};
  put(order, "k_star", even->k_star ? number(even->k_star->factor) : JsonValue(), no_zone_or_spread);
  put_or_why(order, "p", even->p, no_zone_or_spread);
  return order;
}

JsonObject stretch(const Case& input, const Stretch& row) {
  return {{"first_position", number(input.build_sequence[row.first].position)},
          {"last_position", number(input.build_sequence[row.last].position)},
          {"units", number(static_cast<std::int64_t>(row.last - row.first + 1))}};
}

JsonValue worst_stretch(const Case& input, const Findings& findings) {
  const std::optional<HeaviestStretches>& found = findings.content.alternatives.stretches;
  if (!found || !found->worst) return {};
  JsonObject worst = stretch(input, *found->worst);
  JsonArray variants;
  for (std::size_t i = found->worst->first; i <= found->worst->last; ++i)
    variants.append(variant_name(input, input.build_sequence[i].variant));
  worst["variants"] = variants;
  worst["over_limit_s"] = number(found->over_limit);
  worst["finish_s"] = number(found->finish);
  worst["over_zone_s"] = number(found->over_zone);
  return worst;
}

JsonObject enough_for(const Case& input, const EnoughForOrder& order) {
  JsonArray out;
  for (const OutOfVariant& of : order.out_of_variant) {
    JsonObject row{{"variant", variant_name(input, of.variant)}, {"at_least_spare", of.at_least_spare}};
    put_or_why(row, "seconds_s", of.seconds, "not_alone: not by this variant alone");
    out.append(row);
  }
  JsonObject enough{{"order", order.drawn ? "drawn" : "given"},
                    {"units", number(order.units)},
                    {"overloads_per_1000", number(order.rate_per_1000)},
                    {"out_of_variant", out}};
  const std::string why =
      order.late_finish.none_why + ": " + std::string(wording::no_late_finish_in_words(order.late_finish.none_why));
  put_or_why(enough, "late_finish_s", order.late_finish.needed, why);
  return enough;
}

} // namespace

JsonObject sequence(const Case& input, const Findings& findings) {
  const SequenceFindings& found = findings.content.sequence;
  JsonObject sequence{{"zone_given", found.zone_given}, {"spread_known", found.spread_known}};
  put_or_why(sequence, "p", found.p, no_zone_or_spread);
  const auto put_room = [&](const char* key, Seconds SequenceRoom::*part) {
    put(sequence, key, found.room ? number((*found.room).*part) : JsonValue(), no_zone_or_spread);
  };
  put_room("margin_s", &SequenceRoom::margin);
  put_room("margin_low_s", &SequenceRoom::low);
  put_room("margin_high_s", &SequenceRoom::high);
  put(sequence, "given", given_sequence(findings),
      input.build_sequence.empty() ? no_build_sequence : no_zone_or_spread);
  put(sequence, "drawn", drawn_sequence(findings), no_zone_or_spread);
  return sequence;
}

JsonValue heaviest(const Case& input, const Findings& findings) {
  const HeaviestVariant& variant = findings.content.heaviest;
  if (variant.variant < 0) return {};
  JsonObject heaviest{{"variant", variant_name(input, variant.variant)},
                      {"time_s", number(variant.time)},
                      {"margin_s", number(variant.margin)},
                      {"margin_low_s", number(variant.margin_low)},
                      {"margin_high_s", number(variant.margin_high)}};
  put_or_why(heaviest, "longest_run", variant.longest_run, no_build_sequence);
  put_or_why(heaviest, "run_that_fits", variant.run_that_fits,
             findings.content.sequence.zone_given ? "no_end: any number in a row"
                                                  : "no_zone: the work zone is not given");
  return heaviest;
}

JsonValue pace_price(const Findings& findings) {
  if (!findings.content.pace_price) return {};
  const PacePrice& price = *findings.content.pace_price;
  return JsonObject{{"over_speed", number(price.over_speed)},
                    {"per_unit_s", number(price.per_unit)},
                    {"target_efficiency", rules::target_efficiency},
                    {"target_utilisation", rules::target_utilisation},
                    {"posts_at_line_cycle", posts(price.at_line_cycle)},
                    {"posts_at_takt", posts(price.at_takt)}};
}

JsonObject alternatives(const Case& input, const Findings& findings) {
  const Alternatives& found = findings.content.alternatives;
  const OutOfEveryUnit& out = found.out_of_every_unit;
  JsonObject every_unit{{"mean_s", number(out.mean)}, {"both_s", number(out.both)}};
  put_or_why(every_unit, "sequence_s", out.sequence, no_zone_or_spread);
  put(every_unit, "sequence_end", out.sequence ? JsonValue(end_of(out.k_star)) : JsonValue(), no_zone_or_spread);
  JsonArray enough, waste, moves;
  for (const EnoughForOrder& order : found.enough) enough.append(enough_for(input, order));
  for (const WasteElement& line : found.waste) {
    const StandardElement& element = input.standard[static_cast<std::size_t>(line.element)];
    waste.append(JsonObject{{"element", element.element},
                            {"class", element.element_class == ElementClass::nva ? "nva" : "nnva"},
                            {"per_unit_s", number(line.per_unit)},
                            {"sum_s", number(line.sum)},
                            {"margin_standard_s", number(line.margin_standard)},
                            {"margin_s", number(line.margin)}});
  }
  for (const MovableElement& line : found.movable)
    moves.append(JsonObject{{"element", input.standard[static_cast<std::size_t>(line.element)].element},
                            {"earlier", line.earlier},
                            {"later", line.later},
                            {"per_unit_s", number(line.per_unit)},
                            {"in_heaviest_s", number(line.in_heaviest)}});
  JsonObject all{{"tolerated_per_1000", number(found.tolerated_per_1000)},
                 {"out_of_every_unit", every_unit},
                 {"enough", enough},
                 {"waste", waste},
                 {"precedence_given", found.precedence_given},
                 {"moves", moves}};
  constexpr std::string_view no_order = "no_order: it takes a build order and the work zone";
  put(all, "worst_stretch", worst_stretch(input, findings),
      found.stretches ? "none_late: no unit is finished past the limit" : no_order);
  const auto put_row = [&](std::string_view name, const std::optional<Stretch>& row) {
    put(all, name, row ? JsonValue(stretch(input, *row)) : JsonValue(),
        found.stretches ? "none: there is no such unit" : no_order);
  };
  put_row("longest_heaviest", found.stretches ? found.stretches->longest_heaviest : std::nullopt);
  put_row("longest_above_limit", found.stretches ? found.stretches->longest_above : std::nullopt);
  put(all, "even_order", even_order(findings),
      "no_order: it takes a build order of two variants or more, and the work zone");
  return all;
}

} // namespace docket::findings_json
