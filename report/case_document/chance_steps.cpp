// The steps from the combined level to the chances that the rows of the decision look at, and to the room there is.
#include "core/rules.h"
#include "report/case_document/computation_steps.h"
#include "report/format.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

constexpr double normal_from = 200; ///< degrees of freedom: t and normal differ by less than 0.1 % of chance

std::string from_table_of_t(double x, double df, double p) {
  const char* variable = df < normal_from ? "P(t \u2264 " : "P(normal \u2264 ";
  return variable + format_fixed(x, 4) + ") = " + format_chance(p);
}

/// "From limit - T e^(t u)": the two ends of a range that the level alone makes unsure.
std::string ends_of_range(const std::string& from, const std::string& times, Seconds low, Seconds high) {
  return " From " + from + " \u2212 " + times + " \u00D7 e^(t u) = " + seconds2(low) + " to " + from + " \u2212 " +
         times + " \u00D7 e^(\u2212t u) = " + seconds2(high) + ", t and u as for the margin of the mean.";
}

void add_room(Steps& steps, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  const SequenceFindings& sequence = content.sequence;
  if (!sequence.room || !sequence.k_star) return;
  const std::string level = seconds3(content.combined->time);
  std::string text = "k* \u00D7 T \u2212 T = " + worked_on(sequence.k_star->factor) + " \u00D7 " + level + " \u2212 " +
                     level + " = " + seconds2(sequence.room->margin) + ".";
  if (sequence.k_star->at_high_end)
    text += " The search for k* ended there: the room is at least that, and no range is shown.";
  else if (sequence.k_star->at_low_end)
    text += " The search for k* ended there: the room is at most that, and no range is shown.";
  else
    text += ends_of_range("k* \u00D7 T", "T", sequence.room->low, sequence.room->high);
  steps.step("Order of units, room", text,
             "C. A. Yano, R. Rachamadugu, Management Science 37 (1991), 572-586; JCGM 100:2008, G.3");
}

void add_heaviest_variant(Steps& steps, const CaseView& view) {
  const HeaviestVariant& heaviest = view.findings.content.heaviest;
  const StandardTime& standard = view.findings.content.standard;
  const auto found = std::find_if(standard.variants.begin(), standard.variants.end(),
                                  [&](const VariantTime& one) { return one.variant == heaviest.variant; });
  if (heaviest.variant < 0 || found == standard.variants.end()) return;
  const Seconds level = view.findings.content.combined->time, late = view.input.facts.late_finish.value_or(Seconds{});
  const double by_people = heaviest.time / (found->time * (level / standard.mean));
  std::string text = "t_v, the time of " + variant_name(view.input, heaviest.variant) +
                     " at the level T: its standard time \u00D7 T / S = " + seconds3(found->time) + " \u00D7 " +
                     seconds3(level) + " / " + seconds3(standard.mean);
  if (std::abs(by_people - 1) > rules::identical_within)
    text += ", \u00D7 " + log_of(by_people) +
            ", because the ratios between variants are those of the settled operators where they have own means";
  text += ": " + seconds3(heaviest.time) +
          ". Margin: limit + late finish \u2212 t_v = " + seconds3(view.findings.time.limit) + " + " + seconds3(late) +
          " \u2212 " + seconds3(heaviest.time) + " = " + seconds2(heaviest.margin) + "." +
          ends_of_range("limit + late finish", "t_v", heaviest.margin_low, heaviest.margin_high);
  steps.step("Heaviest variant, with zone", text, "common practice; JCGM 100:2008, G.3");
}

} // namespace

void add_room_steps(Steps& steps, const CaseView& view) {
  add_room(steps, view);
  add_heaviest_variant(steps, view);
}

void add_chance_steps(Steps& steps, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  const CombinedLine& combined = *content.combined;
  if (combined.u > 0)
    steps.step("Chance that the mean is within, P",
               "\u2212z / u = " + format_fixed(-combined.ln_ratio, 5) + " / " + log_of(combined.u) + " = " +
                   format_fixed(-combined.ln_ratio / combined.u, 4) +
                   ". From a table of Student's t for nu; above 200 degrees of freedom "
                   "the table of the normal distribution gives the same: " +
                   from_table_of_t(-combined.ln_ratio / combined.u, combined.df, combined.p_fits) + ".",
               "JCGM 106:2012, 7.2");
  if (content.again.ln_k_star && content.sequence.p && combined.u > 0) {
    const double x = *content.again.ln_k_star / combined.u;
    const bool both = content.sequence.given && content.sequence.drawn;
    steps.step("Chance that the order of units holds, P_seq",
               "k* is the factor by which all times can grow until overloads reach the tolerated rate: " +
                   worked_on(std::exp(*content.again.ln_k_star)) +
                   (both ? ", the smaller one of the order given and the drawn order" : "") +
                   ". It comes from running the order through the work zone with the seed given, and can't be had by "
                   "hand; from here on it can. ln k* / u = " +
                   worked_on(*content.again.ln_k_star) + " / " + worked_on(combined.u) + " = " + format_fixed(x, 4) +
                   "; " + from_table_of_t(x, combined.df, *content.sequence.p) + ".",
               "C. A. Yano, R. Rachamadugu, Management Science 37 (1991), 572-586; JCGM 106:2012, 7.2");
  }
  if (!content.again.share || !content.settled.line) return;
  const ShareParts& share = *content.again.share;
  const ShareAble& able = content.share_able;
  const double s = content.settled.line->s;
  if (s < rules::identical_within) {
    steps.step("Share able",
               "Every level is the same (s = 0), so all people are able or none: " +
                   format_percent(able.estimate.value_or(0)) + "; the chance of it is P.",
               "as for the mean");
    return;
  }
  const std::string required = format_percent(able.required);
  const double x = (-combined.ln_ratio - share.z_able * s) / share.u;
  const std::string sd_of_sd = "JCGM 100:2008, G.4.1; SD of a sample SD: M. G. Kendall, A. Stuart, The Advanced Theory "
                               "of Statistics 1, 10.5 (from memory, to be confirmed)";
  steps.step("Share able, estimated",
             "Normal table at \u2212z / s = " + log_of(-combined.ln_ratio) + " / " + log_of(s) + " = " +
                 format_fixed(-combined.ln_ratio / s, 4) + ": " + format_percent(able.estimate.value_or(0)) + ".",
             "normal distribution between people, as for the settled operators");
  steps.step("Share able, how sure",
             required + " of people are able where z + q s \u2264 0, q = " + format_fixed(share.z_able, 4) +
                 " (normal table at " + required + "). s is not sure either: q s / \u221A(2 (" +
                 format_count(content.settled.line->operators) + " \u2212 1)) = " + log_of(share.u_spread) +
                 ". Both: u_able = " + root_of_squares({combined.u, share.u_spread}, share.u) +
                 ", degrees of freedom by the formula of nu: " + df_in_words(share.df) + ".",
             sd_of_sd);
  std::string text = "P_able: (\u2212z \u2212 q s) / u_able = (" + log_of(-combined.ln_ratio) + " \u2212 " +
                     format_fixed(share.z_able, 4) + " \u00D7 " + log_of(s) + ") / " + log_of(share.u) + " = " +
                     format_fixed(x, 4) + "; " + from_table_of_t(x, share.df, able.p_able.value_or(0)) + ".";
  if (able.p_zone && content.again.ln_k_star) {
    const double zone = (*content.again.ln_k_star - share.z_able * s) / share.u;
    text += " In the work zone, P_zone: (ln k* \u2212 q s) / u_able = (" + log_of(*content.again.ln_k_star) +
            " \u2212 " + format_fixed(share.z_able, 4) + " \u00D7 " + log_of(s) + ") / " + log_of(share.u) + " = " +
            format_fixed(zone, 4) + "; " + from_table_of_t(zone, share.df, *able.p_zone) + ".";
  } else if (able.p_zone) {
    text += " No room in the work zone is known: P_zone is the same number.";
  }
  steps.step("Chance that enough people are able", text, "JCGM 106:2012, 7.2");
}

} // namespace docket
