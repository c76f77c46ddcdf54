// The steps from the limit to the level of each line of evidence.
#include "report/case_document/computation_steps.h"
#include "report/format.h"

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

std::string ratios_in_a_row(const CaseView& view, std::string& logs) {
  std::string text;
  std::size_t n = 0;
  for (const OperatorLevel& level : view.findings.content.settled.per_operator) {
    if (level.status != OperatorStatus::settled) continue;
    if (++n > most_in_a_row) return "";
    text += (text.empty() ? "" : ", ") + operator_code(view.input, level.op) + " " + log_of(level.ratio);
    logs += (logs.empty() ? "" : " + ") + in_brackets(std::log(level.ratio), 5);
  }
  return text;
}

std::string bridged_part(const ContentFindings& content) {
  const std::vector<BridgedVariant>& all = content.again.bridged;
  const auto settled = [&](std::int32_t op) {
    const std::vector<OperatorLevel>& people = content.settled.per_operator;
    return std::any_of(people.begin(), people.end(), [&](const OperatorLevel& level) {
      return level.op == op && level.status == OperatorStatus::settled;
    });
  };
  const auto any = [&](bool by_others) {
    return std::any_of(all.begin(), all.end(),
                       [&](const BridgedVariant& one) { return one.by_others == by_others && settled(one.op); });
  };
  std::string text;
  if (any(false))
    text =
        "for the standard's ratios the root of the sum over the elements of (d \u00D7 times a unit \u00D7 its own "
        "\u00B1 / S)\u00B2, d = share of units with it less S \u00D7 the sum over the variants with it of q / time of "
        "the variant, q the variant's share of the cycles looked at";
  if (any(true))
    text += std::string(text.empty() ? "" : "; ") +
            "for the ratios measured on others, what their spread between people leaves unsure of mu";
  return text;
}

/// What lies between the arithmetic mean of the restudied people's ratios and their geometric mean.
std::string between_the_means(const Restudy& line, const StandardTime& standard) {
  if (line.per_operator.size() < 2) return "";
  double logs = 0;
  for (const RestudiedOperator& person : line.per_operator) logs += std::log(person.normal / standard.mean);
  const double geometric = logs / static_cast<double>(line.per_operator.size());
  return " The geometric mean of the same numbers is " + log_of(std::exp(geometric)) +
         ": as logarithms, the two means are " + log_of(std::log(line.normal / standard.mean) - geometric) + " apart.";
}

} // namespace

void add_limit_step(Steps& steps, const CaseView& view) {
  const TimeAvailable& time = view.findings.time;
  std::string text = "limit = ";
  if (time.allowance_where == AllowanceWhere::in_cycle) {
    text += "line cycle time / (1 + allowance) = " + seconds3(time.line_cycle) + " / " +
            format_plain_number(1 + time.allowance, 4) + " = " + seconds3(time.limit) + ".";
  } else {
    text += "line cycle time = " + seconds3(time.limit) + ".";
  }
  if (time.measured_factor != 1)
    text +=
        " Each measured time is first multiplied by 1 + allowance = " + format_plain_number(time.measured_factor, 4) +
        ", because the standard already holds it.";
  steps.step("Limit", text, "common practice");
}

void add_standard_steps(Steps& steps, const CaseView& view) {
  const StandardTime& standard = view.findings.content.standard;
  std::string sum;
  if (standard.variants.size() <= most_in_a_row)
    for (const VariantTime& variant : standard.variants)
      sum += (sum.empty() ? "" : " + ") + format_plain_number(variant.share, 4) + " \u00D7 " +
             format_plain_number(variant.time.count(), 3);
  steps.step("The standard, its mean",
             "S = sum over the variants of share \u00D7 time = " + (sum.empty() ? "" : sum + " = ") +
                 seconds3(standard.mean) +
                 ". A variant's time is the sum over its elements of times a unit \u00D7 time; both are in the tables "
                 "of the standard. " +
                 level_as_z("z1", standard.level.time, view.findings.time.limit) + ".",
             "common practice (weighted mean)");
  const double elements = standard.u_random / standard.mean, level = standard.u_systematic / standard.mean;
  steps.step(
      "The standard, how sure",
      "Two parts. Single elements: root of the sum over the elements of (share of units with it \u00D7 times a unit "
      "\u00D7 its own \u00B1)\u00B2 = " +
          seconds3(standard.u_random) + ", over S: " + log_of(elements) +
          ". An element's own \u00B1, where not given, is 0.10 \u00D7 \u221A(3.6 s \u00D7 time). The level of the "
          "whole standard, a setting: " +
          log_of(level) + ". u1 = " + root_of_squares({elements, level}, standard.level.u) +
          ". Both are taken as known, so nothing is counted in degrees of freedom.",
      "JCGM 100:2008, 5.1.2; the sizes are common practice and a setting");
}

void add_settled_steps(Steps& steps, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  if (!content.settled.line) return;
  const SettledOperators& line = *content.settled.line;
  const double mu = std::log(line.ratio);
  const std::string m = format_count(line.operators);
  std::string logs;
  const std::string ratios = ratios_in_a_row(view, logs);
  std::string text = "Each person: r = sum over the variants of share \u00D7 own mean time / S. ";
  text += ratios.empty() ? "They stand in the table of operators. " : "r: " + ratios + ". ";
  text += "Mean of their logarithms: mu = ";
  if (!ratios.empty() && line.operators > 1) text += "(" + logs + ") / " + m + " = ";
  text += log_of(mu) + ". T2 = S \u00D7 e^mu = " + seconds3(line.level.time) + ". " +
          level_as_z("z2", line.level.time, view.findings.time.limit) +
          ". The mean of logarithms is the geometric mean: a person who takes 10 % longer and one who takes 1/1.1 of "
          "the time balance, so that it does not hang on which of two times is the base.";
  steps.step("Settled operators, their mean", text,
             "J. Aitchison, J. A. C. Brown, The Lognormal Distribution (1957) (from memory, to be confirmed)");

  const Settings& settings = view.input.settings;
  const double people =
      line.operators <= 2 ? settings.between_people / std::sqrt(static_cast<double>(line.operators)) : 0;
  text.clear();
  if (line.operators > 1) {
    text += "s = SD of these logarithms (divisor " + format_count(line.operators - 1) + ") = " + log_of(line.s) +
            ". Random part: s / \u221A" + m + " = " + log_of(line.level.se) + ", with " +
            format_count(line.operators - 1) + (line.operators == 2 ? " degree" : " degrees") + " of freedom. ";
  } else {
    text += "One person: the random part " + log_of(line.level.se) +
            " comes from that person's days (SD of the logarithms of the day means, over the root of their number), "
            "with " +
            df_in_words(line.level.df) + " degrees of freedom; it can't be made from this page alone. ";
  }
  if (people > 0)
    text += "With one or two people the spread between people is added from the settings: " + log_of(people) + ". ";
  text += line.u_bridged > 0 ? "Bridged levels add " + log_of(line.u_bridged) + ": " + bridged_part(content) + ". "
                             : "No bridged level adds anything. ";
  text += "Own pace against normal pace, a setting: " + log_of(settings.pace_uncertainty) + ". u2 = " +
          root_of_squares({line.level.se, people, line.u_bridged, settings.pace_uncertainty}, line.level.u) + ".";
  steps.step("Settled operators, how sure", text, "JCGM 100:2008, 4.2.3 and 5.1.2");
}

void add_restudy_steps(Steps& steps, const CaseView& view) {
  if (!view.findings.content.restudy.line) return;
  const Restudy& line = *view.findings.content.restudy.line;
  const StandardTime& standard = view.findings.content.standard;
  const auto m = static_cast<std::int64_t>(line.operators.size());
  const double factor = view.findings.time.measured_factor;
  std::string ratios;
  if (line.per_operator.size() <= most_in_a_row)
    for (const RestudiedOperator& person : line.per_operator)
      ratios += (ratios.empty() ? "" : ", ") + operator_code(view.input, person.op) + " " +
                log_of(person.normal / standard.mean) + " (n = " + format_count(person.n) + ")";
  std::string text = "Each person: mean over the cycles of reading \u00D7 rating / standard time of the variant" +
                     (ratios.empty() ? std::string() : ": " + ratios) + ". Their arithmetic mean is " +
                     log_of(line.normal / standard.mean) + ". T3 = that \u00D7 S" +
                     (factor != 1 ? " \u00D7 " + format_plain_number(factor, 4) : std::string()) + " = " +
                     seconds3(line.level.time) + ". " + level_as_z("z3", line.level.time, view.findings.time.limit) +
                     ". Arithmetic, as time study does it, unlike the settled operators.";
  text += between_the_means(line, standard);
  steps.step("Restudy, its mean", text, "International Labour Office, Introduction to Work Study, 4th ed. (1992)");

  const Settings& settings = view.input.settings;
  const double people = m <= 2 ? settings.between_people / std::sqrt(static_cast<double>(m)) : 0;
  text.clear();
  if (m > 1) {
    text += "s = SD of the logarithms of these means = " + log_of(line.s) + ". Random part: s / \u221A" +
            format_count(m) + " = " + log_of(line.level.se) + ", with " + format_count(m - 1) +
            (m == 2 ? " degree" : " degrees") + " of freedom. ";
  } else {
    text += "One person: the random part " + log_of(line.level.se) +
            " comes from the sessions (one session: from the cycles), with " + df_in_words(line.level.df) +
            " degrees of freedom. ";
  }
  if (people > 0)
    text += "With one or two people the spread between people is added from the settings: " + log_of(people) + ". ";
  text += "Rating, a setting: " + log_of(settings.rating_uncertainty) +
          ". u3 = " + root_of_squares({line.level.se, people, settings.rating_uncertainty}, line.level.u) + ".";
  steps.step("Restudy, how sure", text, "JCGM 100:2008, 4.2.3 and 5.1.2");
}

} // namespace docket
