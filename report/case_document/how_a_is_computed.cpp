// Question A, step by step: each formula with the numbers of this case in it and where it comes from, so that a reviewer
// with a calculator can go from the levels to the word. It computes nothing that the findings do not hold.
#include "core/rules.h"
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace docket {
namespace {

constexpr std::size_t most_in_a_row = 12; ///< more numbers than that stand in a table of their own
constexpr double normal_from = 200;       ///< degrees of freedom: t and normal differ by less than 0.1 % of chance

std::string in_brackets(double value, int decimals) {
  const std::string text = format_fixed(value, decimals);
  return value < 0 ? "(" + text + ")" : text;
}

std::string log_of(double value) { return format_fixed(value, 5); }
std::string seconds3(Seconds time) { return format_fixed(time.count(), 3) + " s"; }

/// Where what is printed is worked on further: a quotient by a small u comes out to its four decimals.
std::string worked_on(double value) { return format_fixed(value, 7); }
std::string seconds2(Seconds time) { return format_fixed(time.count(), 2) + " s"; }

std::string square(double value) { return log_of(value) + "\u00B2"; }

std::string df_in_words(double df) {
  constexpr double countless = 1e6; ///< a random part next to nothing: rounding alone makes such a number
  if (!std::isfinite(df)) return "without end (normal)";
  return df > countless ? "more than a million" : format_fixed(df, 1);
}

/// "√(0.01833² + 0.05000²) = 0.05325"
std::string root_of_squares(std::initializer_list<double> parts, double sum) {
  std::string text;
  for (const double part : parts)
    if (part != 0) text += (text.empty() ? "" : " + ") + square(part);
  return "\u221A(" + (text.empty() ? "0" : text) + ") = " + log_of(sum);
}

/// A line as it enters: its name, z and what is known of it.
struct Entered {
  Line line;
  const LineLevel* level;
  double z, weight;
};

std::vector<Entered> lines_entered(const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  std::vector<Entered> lines;
  const auto add = [&](Line line, const LineLevel& level) {
    lines.push_back({line, &level, std::log(level.time / view.findings.time.limit),
                     content.combined->weights[static_cast<std::size_t>(line)]});
  };
  add(Line::standard, content.standard.level);
  if (content.settled.line) add(Line::settled, content.settled.line->level);
  if (content.restudy.line) add(Line::restudy, content.restudy.line->level);
  return lines;
}

double shared_by(const CombinedLine& combined, Line a, Line b) {
  if (a > b) std::swap(a, b);
  if (b != Line::restudy) return 0;
  return a == Line::standard ? combined.shared.standard_restudy : combined.shared.settled_restudy;
}

std::string level_as_z(std::string_view name, Seconds time, Seconds limit) {
  return std::string(name) + " = ln(" + seconds3(time) + " / " + seconds3(limit) +
         ") = " + log_of(std::log(time / limit));
}

class Steps {
public:
  void step(std::string_view title, std::string_view text, std::string_view source) {
    list_.items.push_back({strong(std::string(title) + ". "), plain(std::string(text) + " "),
                           plain("Source: " + std::string(source) + ".")});
  }
  List take() {
    list_.numbered = true;
    return std::move(list_);
  }

private:
  List list_;
};

void add_limit(Steps& steps, const TimeAvailable& time) {
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

void add_standard(Steps& steps, const CaseView& view) {
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

void add_settled(Steps& steps, const CaseView& view) {
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

/// What lies between the arithmetic mean of the restudied people's ratios and their geometric mean.
std::string between_the_means(const Restudy& line, const StandardTime& standard) {
  if (line.per_operator.size() < 2) return "";
  double logs = 0;
  for (const RestudiedOperator& person : line.per_operator) logs += std::log(person.normal / standard.mean);
  const double geometric = logs / static_cast<double>(line.per_operator.size());
  return " The geometric mean of the same numbers is " + log_of(std::exp(geometric)) +
         ": as logarithms, the two means are " + log_of(std::log(line.normal / standard.mean) - geometric) + " apart.";
}

void add_restudied(Steps& steps, const CaseView& view) {
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

void add_shared(Steps& steps, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  if (!content.restudy.line) return;
  const SharedParts& shared = content.combined->shared;
  const Settings& settings = view.input.settings;
  std::string text = "Errors that two lines have in common, as covariances. Standard and restudy: ";
  text += shared.standard_restudy > 0
              ? "level of the standard \u00D7 rating = " + log_of(settings.standard_uncertainty) + " \u00D7 " +
                    log_of(settings.rating_uncertainty) + " = " + format_fixed(shared.standard_restudy, 7) +
                    ", because times of the standard come from a stopwatch, from the same "
                    "observer, or nobody said from where."
              : "0, because no time of the standard comes from a stopwatch or the same "
                "observer.";
  if (content.settled.line) {
    const SettledOperators& settled = *content.settled.line;
    const auto restudied = static_cast<std::int64_t>(content.restudy.line->operators.size());
    text += " Settled operators and restudy: people in both \u00D7 s\u00B2 / (people in the one \u00D7 people in the "
            "other) = " +
            format_count(content.again.settled_and_restudied) + " \u00D7 " + square(settled.s) + " / (" +
            format_count(settled.operators) + " \u00D7 " + format_count(restudied) +
            ") = " + format_fixed(shared.settled_restudy, 7) +
            ". s is that of the settled operators. The other pair shares nothing.";
  }
  steps.step("What lines share", text, "JCGM 100:2008, 5.2");
}

void add_weights(Steps& steps, const CaseView& view, const std::vector<Entered>& lines) {
  const CombinedLine& combined = *view.findings.content.combined;
  std::string weights, checks, out;
  for (const Entered& one : lines) {
    const std::string name(wording::line_in_sentence(one.line));
    if (one.weight == 0) {
      out += " Left out, because its weight would be below 0: " + name + ".";
      continue;
    }
    weights += (weights.empty() ? "" : ", ") + name + " " + log_of(one.weight);
    std::string sum;
    for (const Entered& other : lines) {
      if (other.weight == 0) continue;
      const double shared = shared_by(combined, one.line, other.line);
      if (other.line != one.line && shared == 0) continue;
      sum += (sum.empty() ? "" : " + ") + log_of(other.weight) + " \u00D7 " +
             (other.line == one.line ? square(one.level->u) : format_fixed(shared, 7));
    }
    checks += (checks.empty() ? "" : "; ") + name + " " + sum;
  }
  std::string text = "w: " + weights + "." + out;
  if (checks.find(';') != std::string::npos)
    text +=
        " They are the ones that make the whole surest. To check: they add up to 1, and for every line the sum of "
        "weight \u00D7 u\u00B2 (its own) and weight \u00D7 covariance (of each other) is the same number, u\u00B2: " +
        checks + "; each is " + format_fixed(combined.u * combined.u, 7) + ".";
  steps.step("Weights", text,
             "A. C. Aitken, Proc. Roy. Soc. Edinburgh 55 (1935), 42-48; L. Lyons, D. Gibaut, P. Clifford, Nucl. Instr. "
             "Meth. A 270 (1988), 110-117");
}

void add_together(Steps& steps, const CaseView& view, const std::vector<Entered>& lines) {
  const CombinedLine& combined = *view.findings.content.combined;
  const Seconds limit = view.findings.time.limit;
  std::string sum, parts;
  for (const Entered& one : lines) {
    if (one.weight == 0) continue;
    sum += (sum.empty() ? "" : " + ") + log_of(one.weight) + " \u00D7 " + in_brackets(one.z, 5);
    if (one.level->se > 0 && std::isfinite(one.level->df))
      parts += (parts.empty() ? "" : " + ") + std::string("(") + log_of(one.weight) + " \u00D7 " +
               log_of(one.level->se) + ")\u2074 / " + format_plain_number(one.level->df, 1);
  }
  std::string df = "Degrees of freedom nu: ";
  df += parts.empty()
            ? "without end, for no random part was estimated."
            : "u\u2074 / (sum of (weight \u00D7 random part)\u2074 / its own) = " + log_of(combined.u) + "\u2074 / (" +
                  parts + ") = " + df_in_words(combined.df) + " (at least 1). The other parts count as known.";
  steps.step("All lines together",
             "z = " + sum + " = " + log_of(combined.ln_ratio) + ". T = limit \u00D7 e^z = " + seconds3(combined.time) +
                 ". u = " + log_of(combined.u) + ", the root of that number. " + df,
             "as the weights; JCGM 100:2008, G.4.1 (Welch-Satterthwaite)");
  const double q = view.findings.content.again.reach;
  steps.step("Margin and its range",
             "margin = limit \u2212 T = " + format_fixed(combined.margin.count(), 3) + " s. t at " +
                 format_percent(0.5 + view.input.settings.confidence / 2) + " for nu: " + format_fixed(q, 4) +
                 ". From limit \u2212 T \u00D7 e^(t u) = " + format_fixed(combined.margin_low.count(), 3) +
                 " s to limit \u2212 T \u00D7 e^(\u2212t u) = " + format_fixed(combined.margin_high.count(), 3) +
                 " s. Limit: " + seconds3(limit) + ".",
             "JCGM 100:2008, G.3");
}

std::string from_table_of_t(double x, double df, double p) {
  const char* variable = df < normal_from ? "P(t \u2264 " : "P(normal \u2264 ";
  return variable + format_fixed(x, 4) + ") = " + format_chance(p);
}

void add_chances(Steps& steps, const CaseView& view) {
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
  std::string text = "P_able: (\u2212z \u2212 q s) / u_able = " + format_fixed(x, 4) + "; " +
                     from_table_of_t(x, share.df, able.p_able.value_or(0)) + ".";
  if (able.p_zone && content.again.ln_k_star) {
    const double zone = (*content.again.ln_k_star - share.z_able * s) / share.u;
    text += " In the work zone, P_zone: (ln k* \u2212 q s) / u_able = " + format_fixed(zone, 4) + "; " +
            from_table_of_t(zone, share.df, *able.p_zone) + ".";
  } else if (able.p_zone) {
    text += " No room in the work zone is known: P_zone is the same number.";
  }
  steps.step("Chance that enough people are able", text, "JCGM 106:2012, 7.2");
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

void add_how_a_is_computed(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  pages.part("How the answer to A is computed");
  if (!content.combined) {
    pages.paragraph("No line of evidence can be used, so nothing is computed.");
    return;
  }
  pages.paragraph(
      "Each step with the numbers of this case. They carry more digits here than they deserve, so that a calculator "
      "comes to what is printed. ln is the natural logarithm, e^ its inverse. A level is compared as ln(time / limit), "
      "because what is not sure of a time is a share of it: below 0 it is within the limit.");
  const std::vector<Entered> lines = lines_entered(view);
  Steps steps;
  add_limit(steps, view.findings.time);
  add_standard(steps, view);
  add_settled(steps, view);
  add_restudied(steps, view);
  add_shared(steps, view);
  add_weights(steps, view, lines);
  add_together(steps, view, lines);
  add_room(steps, view);
  add_heaviest_variant(steps, view);
  add_chances(steps, view);
  pages.add(steps.take());
}

} // namespace docket
