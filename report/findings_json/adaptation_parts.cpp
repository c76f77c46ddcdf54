#include "report/findings_json/adaptation_parts.h"

#include "report/findings_json/parts.h"
#include "report/format.h"
#include "report/wording/adaptation.h"

namespace docket::findings_json {
namespace {

std::string_view word_of(BreakKind kind) {
  switch (kind) {
  case BreakKind::gap:
    return "gap";
  case BreakKind::new_variant:
    return "new_variant";
  case BreakKind::training:
    return "training";
  }
  return "";
}

JsonObject segment(const Interruption& found) {
  JsonObject row{{"kind", word_of(found.at.kind)},
                 {"what", found.at.what},
                 {"after_cycle", number(found.at.after)},
                 {"last_before", format_date(found.at.last_before)},
                 {"first_after", format_date(found.at.day)},
                 {"days", number(static_cast<std::int64_t>((found.at.day - found.at.last_before).count()))},
                 {"nobody_seen", found.at.nobody_seen},
                 {"since_cycles", number(found.since)},
                 {"loss_shown", found.loss_shown}};
  put(row, "back_after_cycles", found.back_after ? number(*found.back_after) : JsonValue(),
      found.loss_shown ? "not_back: the level before is not reached again" : "no_loss: no loss is shown");
  const std::string none = found.none_why + ": " + wording::no_loss_in_words(found.none_why);
  put_estimate(row, "level_before", found.level_before ? &*found.level_before : nullptr, none);
  JsonValue percent, seconds;
  if (found.loss && found.level_before) {
    const Loss& loss = *found.loss;
    const Seconds level = found.level_before->time;
    percent = JsonObject{
        {"mean", number(100 * loss.share)}, {"low", number(100 * loss.low)}, {"high", number(100 * loss.high)}};
    seconds = JsonObject{
        {"mean", number(level * loss.share)}, {"low", number(level * loss.low)}, {"high", number(level * loss.high)}};
  }
  put(row, "loss_percent", percent, none);
  put(row, "loss_s", seconds, none);
  const std::string_view lost_why =
      found.loss ? std::string_view("not_told: the curve before never stood so high") : std::string_view(none);
  put_or_why(row, "cycles_lost", found.cycles_lost, lost_why);
  put_or_why(row, "cycles_lost_low", found.least_lost, lost_why);
  put_or_why(row, "cycles_lost_high", found.most_lost,
             found.cycles_lost ? "no_end: more than the cycles seen before the break" : lost_why);
  return row;
}

} // namespace

void put_estimate(JsonObject& to, const std::string& name, const TimeEstimate* estimate, std::string_view why) {
  put(to, name + "_s", estimate ? number(estimate->time) : JsonValue(), why);
  put(to, name + "_low_s", estimate && estimate->low ? number(*estimate->low) : JsonValue(), estimate ? no_end : why);
  put(to, name + "_high_s", estimate && estimate->high ? number(*estimate->high) : JsonValue(),
      estimate ? no_end : why);
}

JsonArray segments(const Adaptation& adaptation) {
  JsonArray list;
  for (const Interruption& found : adaptation.interruptions) list.append(segment(found));
  return list;
}

JsonArray by_variant(const Case& input, const PracticeSeries& series) {
  JsonArray list;
  for (std::size_t v = 0; v < series.by_variant.size(); ++v)
    list.append(JsonObject{{"variant", variant_name(input, static_cast<std::int32_t>(v))},
                           {"cycles", number(series.by_variant[v])}});
  return list;
}

JsonObject late_slope(const LateSlope& late) {
  return {{"improvement_bound_percent", number(100 * late.improvement_bound)},
          {"p_improving", number(late.p_improving)},
          {"could_fall", late.could_fall}};
}

JsonObject outlook(const Outlook& outlook) {
  JsonObject row{{"more_plain_cycles", number(outlook.cycles)}};
  put_or_why(row, "settled_width_s", outlook.width, no_end);
  put_or_why(row, "settled_width_then_s", outlook.width_then, no_end);
  return row;
}

JsonObject residual_checks(const ResidualChecks& checks) {
  JsonArray extremes;
  for (const ExtremeCycle& extreme : checks.extremes)
    extremes.append(JsonObject{{"cycle", number(extreme.n)},
                               {"s", number(extreme.time)},
                               {"day", format_date(extreme.day)},
                               {"in_sd", number(extreme.in_sd)}});
  JsonObject row{{"lag1", number(checks.dependence.lag1)},
                 {"pairs", number(checks.dependence.pairs)},
                 {"p_by_chance", number(checks.dependence.p)},
                 {"extremes_looked_for", checks.extremes_looked_for},
                 {"extremes", extremes}};
  JsonValue warm_up, robust;
  if (checks.warm_up)
    warm_up = JsonObject{{"days", number(static_cast<std::int64_t>(checks.warm_up->days))},
                         {"ratio", number(checks.warm_up->ratio)},
                         {"low", number(checks.warm_up->low)},
                         {"high", number(checks.warm_up->high)},
                         {"named", checks.warm_up->named}};
  if (checks.robust) {
    JsonObject refit{{"clipped", number(checks.robust->clipped)},
                     {"scale_log", number(checks.robust->scale)},
                     {"rounds", number(static_cast<std::int64_t>(checks.robust->rounds))},
                     {"converged", checks.robust->converged}};
    put_estimate(refit, "settled", &checks.robust->settled, no_end);
    robust = refit;
  }
  put(row, "warm_up", warm_up, "too_few_days: fewer than five worked days with first cycles and enough others");
  put(row, "robust", robust, "no_spread: half of the cycles or more lie on the curve");
  return row;
}

JsonObject borrowed(const BorrowedEstimate& borrowed) {
  JsonObject row{{"note", wording::borrowed_from(borrowed.learners)},
                 {"learners", number(static_cast<std::int64_t>(borrowed.learners))},
                 {"own_cycles", number(borrowed.own_cycles)},
                 {"own_share", number(borrowed.own_share)},
                 {"reach_cycle", number(borrowed.reach)},
                 {"p_never", number(borrowed.p_never)}};
  put_estimate(row, "settled", &borrowed.settled, no_end);
  put_estimate(row, "today", &borrowed.today, no_end);
  constexpr std::string_view never = "never: not before reach_cycle";
  put_or_why(row, "cycles_to_line_cycle", borrowed.to_limit, never);
  put_or_why(row, "cycles_to_line_cycle_low", borrowed.to_limit_low, never);
  put_or_why(row, "cycles_to_line_cycle_high", borrowed.to_limit_high, never);
  return row;
}

JsonValue earlier_learners(const Findings& findings) {
  if (!findings.earlier_learners) return {};
  const EarlierLearnersBand& band = *findings.earlier_learners;
  JsonArray levels;
  for (const LearnersAtCycle& at : band.levels) {
    JsonObject level{{"cycle", number(at.cycle)}};
    put_estimate(level, "level", &at.level, no_end);
    levels.append(level);
  }
  JsonObject row{{"learners", number(static_cast<std::int64_t>(band.learners))}, {"levels", levels}};
  put_estimate(row, "settled", &band.settled, no_end);
  return row;
}

} // namespace docket::findings_json
