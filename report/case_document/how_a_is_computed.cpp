// Question A, step by step: each formula with the numbers of this case in it and where it comes from, so that a reviewer
// with a calculator can go from the levels to the word. It computes nothing that the findings do not hold.
#include "report/case_document/computation_steps.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace docket {
namespace {

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
  add_limit_step(steps, view);
  add_standard_steps(steps, view);
  add_settled_steps(steps, view);
  add_restudy_steps(steps, view);
  add_shared(steps, view);
  add_weights(steps, view, lines);
  add_together(steps, view, lines);
  add_room_steps(steps, view);
  add_chance_steps(steps, view);
  pages.add(steps.take());
}

} // namespace docket
