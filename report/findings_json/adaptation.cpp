#include "report/wording/adaptation.h"

#include "report/findings_json/adaptation_parts.h"
#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"
#include "report/wording/wording.h"

#include <cmath>
#include <optional>
#include <string>

namespace docket::findings_json {
namespace {

constexpr std::string_view no_curve = "no_curve: too few plain cycles for a curve, or all the same";
constexpr std::string_view never = "never: not within three times the cycles seen, after the last one";

JsonArray course(const AdaptationEstimates& own) {
  JsonArray list;
  for (const LevelAtCycle& at : own.course) {
    JsonObject row{{"cycle", number(at.cycle)}, {"counted_as", number(at.counted_as)}};
    put_estimate(row, "level", &at.level, no_end);
    list.append(row);
  }
  return list;
}

std::string_view shape_key(CurveModel model) {
  if (model == CurveModel::power || model == CurveModel::power_plateau) return "b";
  return model == CurveModel::hyperbolic_plateau ? "h_cycles" : "tau_cycles";
}

JsonArray models(const AdaptationEstimates& own) {
  JsonArray list;
  for (const ModelAnswer& answer : own.models) {
    const CurveFit& fit = answer.fit;
    JsonObject parameters{{"c_s", number(fit.c)}};
    if (fit.model != CurveModel::constant) {
      parameters["excess_s"] = number(fit.excess);
      parameters["from_cycle"] = number(fit.first);
      parameters[std::string(shape_key(fit.model))] = number(fit.shape);
    }
    if (fit.model == CurveModel::two_phase) {
      parameters["excess2_s"] = number(fit.excess2);
      parameters["tau2_cycles"] = number(fit.shape2);
    }
    JsonObject row{{"model", name_of(fit.model)},
                   {"weight", number(answer.weight)},
                   {"parameters", parameters},
                   {"sigma_log", number(fit.sigma)},
                   {"converged", std::isfinite(fit.log_likelihood)}};
    put(row, "aicc", number(answer.aicc), "infinite: the curve meets every value");
    put(row, "log_likelihood", number(fit.log_likelihood), "infinite: the curve meets every value");
    put_estimate(row, "settled", &answer.settled, no_end);
    put_estimate(row, "asymptote", answer.asymptote ? &*answer.asymptote : nullptr,
                 "no_floor: this curve falls without end");
    list.append(row);
  }
  return list;
}

/// Under NOT ASSESSABLE NOW every value is null with the same reason: nothing can be read from what surrounds the word.
JsonObject adaptation_of(const Case& input, const Findings& findings, const Adaptation& one) {
  const bool closed = one.word == AdaptationWord::not_assessable_now;
  const std::string closed_why = "not_assessable_now: " + std::string(wording::not_assessable_line);
  const AdaptationEstimates* own = one.estimates ? &*one.estimates : nullptr;
  const std::string_view why = closed ? std::string_view(closed_why) : no_curve;
  JsonObject row{{"operator", operator_code(input, one.op)},
                 {"finding", wording::finding_word(one.word)},
                 {"reasons", coded(one.reasons, wording::adaptation_reason_in_words)},
                 {"would_decide", coded(one.would_decide, wording::would_decide_adaptation)}};
  put(row, "decision_row", closed || !one.decision_row ? JsonValue() : JsonValue(*one.decision_row), why);
  const auto put_count = [&](std::string_view name, std::int64_t count) {
    put(row, name, closed ? JsonValue() : number(count), why);
  };
  put_count("cycles", one.series.cycles);
  put_count("plain_cycles", static_cast<std::int64_t>(one.series.plain.size()));
  put_count("lower_bounds", one.series.lower_bounds);
  put_count("days", one.series.days);
  put_count("first_cycle", one.series.first_cycle);
  put_count("last_cycle", one.series.last_cycle);
  put(row, "first_cycle_estimated", closed ? JsonValue() : JsonValue(one.series.first_cycle_estimated), why);
  put(row, "by_variant", closed ? JsonValue() : JsonValue(by_variant(input, one.series)), why);
  put(row, "segments", closed ? JsonValue() : JsonValue(segments(one)), why);
  put(row, "horizon_cycles", own ? number(own->horizon_cycles) : JsonValue(), why);
  put(row, "reach_cycles", own ? number(own->reach_cycles) : JsonValue(), why);
  put(row, "course", own ? JsonValue(course(*own)) : JsonValue(), why);
  put(row, "models", own ? JsonValue(models(*own)) : JsonValue(), why);
  put_estimate(row, "settled", own ? &own->settled : nullptr, why);
  put_estimate(row, "today", own ? &own->today : nullptr, why);
  put(row, "settled_with_helped_s", own ? number(own->settled_with_helped) : JsonValue(), why);
  put(row, "mean_seen_s", own ? number(own->mean_seen) : JsonValue(), why);
  put(row, "improvement_left_percent",
      own ? JsonValue(JsonObject{{"median", number(100 * own->improvement)},
                                 {"low", number(100 * own->improvement_low)},
                                 {"high", number(100 * own->improvement_high)}})
          : JsonValue(),
      why);
  put(row, "p_improving", own ? number(own->p_improving) : JsonValue(), why);
  put(row, "p_improving_with_helped", own ? number(own->p_improving_with_helped) : JsonValue(), why);
  put(row, "p_within", own ? number(own->p_within) : JsonValue(), why);
  put(row, "p_within_with_helped", own ? number(own->p_within_with_helped) : JsonValue(), why);
  put(row, "p_never", own ? number(own->to_limit.p_never) : JsonValue(), why);
  const auto put_to_go = [&](std::string_view name, const std::optional<double>& cycles) {
    put(row, name, own && cycles ? number(*cycles) : JsonValue(), own ? never : why);
  };
  const CyclesToGo to_go = own ? own->to_limit : CyclesToGo{};
  put_to_go("cycles_to_line_cycle", to_go.median);
  put_to_go("cycles_to_line_cycle_low", to_go.low);
  put_to_go("cycles_to_line_cycle_high", to_go.high);
  put(row, "lag1", own ? number(own->lag1) : JsonValue(), why);
  put(row, "phi", own ? number(own->phi) : JsonValue(), why);
  put(row, "both_ways", own ? JsonValue(own->both_ways) : JsonValue(), why);
  put(row, "late_slope", own && own->late_slope ? JsonValue(late_slope(*own->late_slope)) : JsonValue(),
      own ? "not_asked: only where no other improvement is left to see" : why);
  put(row, "outlook", own ? JsonValue(outlook(own->outlook)) : JsonValue(), why);
  put(row, "checks", own && own->checks ? JsonValue(residual_checks(*own->checks)) : JsonValue(), why);
  const std::optional<OthersAbove> others = others_above(findings, one.op);
  JsonValue counted;
  if (others) counted = JsonObject{{"above", number(others->above)}, {"of", number(others->of)}};
  const std::string_view others_why = one.word == AdaptationWord::settled_above
                                          ? "too_few_others: fewer than three other settled operators"
                                          : "not_asked: only beside SETTLED ABOVE";
  put(row, "others_above_limit", counted, closed ? why : others_why);
  JsonValue lent;
  for (const BesideAdaptation& beside : findings.beside_adaptation)
    if (beside.op == one.op && beside.borrowed) lent = borrowed(*beside.borrowed);
  put(row, "borrowed", lent,
      closed ? why : "not_borrowed: enough own cycles, too few of them, or no earlier learners to borrow from");
  return row;
}

} // namespace

JsonArray adaptation(const Case& input, const Findings& findings) {
  JsonArray list;
  for (const Adaptation& one : findings.adaptation) list.append(adaptation_of(input, findings, one));
  return list;
}

JsonValue adaptation_band(const Findings& findings) {
  if (!findings.adaptation_band) return {};
  const AdaptationBand& band = *findings.adaptation_band;
  return JsonObject{{"n", number(band.n)}, {"low_s", number(band.low)}, {"high_s", number(band.high)}};
}

JsonArray bridge(const Case& input, const Findings& findings) {
  JsonArray list;
  for (const TimeBridge& bridge : findings.bridges) {
    JsonObject row{{"operator", operator_code(input, bridge.op)}};
    JsonValue terms;
    if (bridge.terms) {
      JsonArray steps;
      for (const BridgeTerm& term : *bridge.terms) {
        JsonObject step{{"term", term.term}, {"s", number(term.seconds)}};
        put(step, "low_s", number(term.low), no_end);
        put(step, "high_s", number(term.high), no_end);
        steps.append(step);
      }
      terms = steps;
    }
    const std::string why = bridge.absent_why + ": " + wording::bridge_absent_in_words(bridge.absent_why);
    put(row, "terms", terms, why);
    put(row, "sum_s", bridge.terms ? number(bridge.sum) : JsonValue(), why);
    list.append(row);
  }
  return list;
}

} // namespace docket::findings_json
