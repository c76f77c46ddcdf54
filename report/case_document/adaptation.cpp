// Question B in detail: for every operator asked about, the practice curve, the curves compared, what it means, and
// where the seconds lie. Of an operator who can't be assessed now it holds the one sentence and nothing else.
#include "report/wording/adaptation.h"

#include "report/case_document/adaptation_parts.h"
#include "report/case_document/pages.h"
#include "report/figures/bridge_bars.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

// Enough to compute every number of the tables again with another program.
List how_to_recompute() {
  List list;
  for (const std::string_view line : wording::how_b_is_computed) list.items.push_back(runs(line));
  return list;
}

void add_told(CasePages& pages, const CaseView& view) {
  const CaseFacts& facts = view.input.facts;
  const auto day = [](const std::optional<Date>& date) { return date ? format_date(*date) : std::string("not given"); };
  pages.paragraph({plain("Those asked about were told on: " + day(facts.b_told_on)),
                   reference_to_key(view.input, "b_told_on"),
                   plain(". What is measured was agreed on: " + day(facts.plan_agreed_on)),
                   reference_to_key(view.input, "plan_agreed_on"), plain(".")},
                  ParagraphRole::small);
}

std::string signed_range(const BridgeTerm& term) { return format_signed_interval(term.low, term.high); }

void add_bridge(CasePages& pages, const CaseView& view, const TimeBridge& bridge) {
  const std::string code = operator_code(view.input, bridge.op);
  if (!bridge.terms) {
    pages.paragraph({strong("Time bridge: none. "), plain(wording::bridge_absent_in_words(bridge.absent_why))});
    return;
  }
  BridgeBars bars;
  bars.start = view.findings.time.limit;
  bars.start_label = "Limit";
  bars.end_label = "Mean of the cycles seen";
  bars.axis_title = "Seconds a unit, for the mix this operator built";
  Figure figure;
  figure.title = "Operator " + code + ": where the seconds lie";
  figure.description = "Bars from the limit, " + format_seconds(bars.start) + ", to the mean of the cycles seen. ";
  Table table;
  table.caption = "The steps of the bridge";
  table.columns = {{"Step", Align::left}, {"Seconds", Align::right}, {"From, to", Align::right}};
  for (const BridgeTerm& term : *bridge.terms) {
    const wording::BridgeWords words = wording::bridge_term_in_words(term.term);
    bars.steps.push_back({std::string(words.what), std::string(words.against), term.seconds, term.low, term.high});
    const std::string step = std::string(words.what) + " " + std::string(words.against);
    figure.description += step + " " + format_signed_seconds(term.seconds) + ". ";
    table.rows.push_back({runs(step), runs(format_signed_bare_seconds(term.seconds)), runs(signed_range(term))});
  }
  table.rows.push_back({{strong("Mean of the cycles seen, against the limit")},
                        {strong(format_signed_bare_seconds(bridge.sum))},
                        runs("")});
  const auto n = static_cast<std::int64_t>(
      std::find_if(view.findings.adaptation.begin(), view.findings.adaptation.end(), [&](const Adaptation& adaptation) {
        return adaptation.op == bridge.op;
      })->series.plain.size());
  figure.caption =
      runs("n = " + format_count(n) + " plain cycles. Hatched: adds seconds. Dotted: takes seconds away. " +
           "The line below a bar is the interval of that step. " + std::string(wording::bridge_intervals));
  figure.drawing = draw_bridge_bars(bars);
  pages.add(figure);
  pages.add(table);
  pages.paragraph(
      "Every level is taken for the mix this operator built in the cycles seen, so it can differ from the "
      "level for the planned mix. The first two steps carry the uncertainty of the standard's level. The "
      "last step is what was gained while these cycles were made, and what the curves don't follow. Steps are "
      "rounded one by one, so they can miss their sum by 0.1 s. The bridge compares levels and is no measure "
      "of a person.",
      ParagraphRole::small);
}

void add_what_stands_beside(CasePages& pages, const CaseView& view, const Adaptation& adaptation) {
  if (!adaptation.interruptions.empty()) {
    pages.add(interruption_table(adaptation));
    const bool lost = std::any_of(adaptation.interruptions.begin(), adaptation.interruptions.end(),
                                  [](const Interruption& found) { return found.loss && found.loss->share > 0; });
    std::string text = "Loss: the first times after a break against the level before it. ";
    if (adaptation.estimates && adaptation.estimates->both_ways)
      text +=
          "After the loss the level came back. Whether that was learning again or a quicker coming back can't be told; "
          "both were reckoned, and today's level, the settled level, the improvement and the cycles to go hold both. "
          "The curves drawn and listed are those of learning again. ";
    if (lost)
      text += "Where one is shown, some of it is made good within these cycles already, so it is rather larger than "
              "shown. ";
    pages.paragraph(text + "A break is named by what it is and says nothing of why.", ParagraphRole::small);
  }
  if (adaptation.word == AdaptationWord::settled_above)
    pages.paragraph(wording::others_above_in_words(others_above(view.findings, adaptation.op)));
  if (adaptation.estimates && adaptation.estimates->checks) {
    pages.add(checks_table(*adaptation.estimates));
    pages.paragraph("These checks stand beside the answer and never instead of it: they change no word and leave no "
                    "cycle out.",
                    ParagraphRole::small);
  }
  const Table learners = earlier_learners_table(view, adaptation);
  if (learners.rows.empty()) return;
  pages.add(learners);
  pages.paragraph(
      "Earlier learners: everybody with a record from near the first cycle on, but those B is asked about; the "
      "interval is where " +
          format_percent(view.input.settings.confidence) +
          " of learners like them are expected. Whoever left before 60 plain cycles is not among them, so "
          "they may look too good. They are shown beside, and no word rests on them.",
      ParagraphRole::small);
}

/// Since when the person knew that the times are looked at.
std::string told_in_words(const CaseView& view, const Adaptation& adaptation) {
  const std::optional<Date>& told = view.input.facts.b_told_on;
  if (!told) return "The day on which the person was told of this is not given (b_told_on in the table case).";
  const std::vector<PracticePoint>& plain = adaptation.series.plain;
  const auto before = std::count_if(plain.begin(), plain.end(), [&](const PracticePoint& p) { return p.day < *told; });
  return "Told on " + format_date(*told) + ". Of " +
         counted(static_cast<std::int64_t>(plain.size()), "plain cycle", "plain cycles") + ", " + format_count(before) +
         (before == 1 ? " is" : " are") + " from before that day.";
}

void add_operator(CasePages& pages, const CaseView& view, const Adaptation& adaptation, const TimeBridge* bridge,
                  const Excess* excess) {
  pages.part("Operator " + operator_code(view.input, adaptation.op) + ": " +
             std::string(wording::finding_word(adaptation.word)));
  if (adaptation.word == AdaptationWord::not_assessable_now) {
    pages.paragraph(wording::not_assessable_line);
    return;
  }
  Runs why;
  for (const Reason& reason : adaptation.reasons)
    why.push_back(plain(wording::adaptation_reason_in_words(reason) + " "));
  why.push_back(plain(wording::nothing_about_why));
  why.push_back(reference_to(view.input, view.input.operators[static_cast<std::size_t>(adaptation.op)].origin));
  pages.paragraph(why);
  if (adaptation.estimates) {
    pages.add(curve_figure(view, adaptation));
    pages.add(what_the_cycles_say(view, adaptation));
    pages.add(model_table(*adaptation.estimates));
    pages.paragraph(disagreement_of(*adaptation.estimates));
  } else {
    const PracticeSeries& series = adaptation.series;
    pages.paragraph("No curve is laid through these cycles: " + counted(series.cycles, "own cycle", "own cycles") +
                    " seen, of them n = " + format_count(static_cast<std::int64_t>(series.plain.size())) +
                    " plain, on " + counted(series.days, "worked day", "worked days") + ".");
  }
  pages.paragraph(told_in_words(view, adaptation), ParagraphRole::small);
  add_what_stands_beside(pages, view, adaptation);
  const bool open = adaptation.word == AdaptationWord::not_shown;
  Runs decides{strong(open ? "What would decide it. " : "What would change it. ")};
  for (const Reason& reason : adaptation.would_decide)
    decides.push_back(plain(wording::would_decide_adaptation(reason) + " "));
  if (decides.size() > 1) pages.paragraph(decides);
  if (bridge != nullptr) add_bridge(pages, view, *bridge);
  if (excess != nullptr) add_excess(pages, view, *excess);
}

} // namespace

void add_adaptation(CasePages& pages, const CaseView& view) {
  pages.section("Question B in detail");
  const Findings& findings = view.findings;
  if (!findings.asked_not_in_data.empty())
    pages.paragraph(wording::asked_not_in_data_in_words(findings.asked_not_in_data));
  if (findings.adaptation.empty()) {
    if (findings.asked_not_in_data.empty()) pages.paragraph({strong("Not asked. "), plain(wording::b_not_asked)});
    return;
  }
  pages.paragraph(
      "B looks at one operator's own times against own cycles, and never at A. It is asked for those named "
      "in the case, in the order named. The order says nothing. A's rule for a settled operator looks back at "
      "the last worked days; B also asks what the curves say of cycles to come. The two can differ, and "
      "neither answers for the other.");
  add_told(pages, view);
  for (const Adaptation& adaptation : findings.adaptation) {
    const auto bridge = std::find_if(findings.bridges.begin(), findings.bridges.end(),
                                     [&](const TimeBridge& one) { return one.op == adaptation.op; });
    const auto excess = std::find_if(findings.excesses.begin(), findings.excesses.end(),
                                     [&](const Excess& one) { return one.op == adaptation.op; });
    add_operator(pages, view, adaptation, bridge == findings.bridges.end() ? nullptr : &*bridge,
                 excess == findings.excesses.end() ? nullptr : &*excess);
  }
  const std::string& none_why = findings.earlier_learners_none_why;
  if (!none_why.empty() && none_why != "not_asked" && none_why != "not_assessable_now")
    pages.paragraph("Earlier learners of this station: not shown. " + wording::no_earlier_learners_in_words(none_why),
                    ParagraphRole::small);
  if (std::any_of(findings.adaptation.begin(), findings.adaptation.end(),
                  [](const Adaptation& adaptation) { return adaptation.estimates.has_value(); })) {
    pages.part("How to compute the numbers of B again");
    pages.add(how_to_recompute());
  }
  if (findings.adaptation_band) {
    const AdaptationBand& band = *findings.adaptation_band;
    pages.paragraph("Others: the levels of the " + format_count(band.n) +
                    " settled operators of A whom B is not asked about lie between " + format_seconds(band.low) +
                    " and " + format_seconds(band.high) +
                    ". B says nothing about any one of them; the levels are those that A uses, in the section on A.");
  }
}

} // namespace docket
