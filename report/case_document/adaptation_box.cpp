#include "report/case_document/adaptation_box.h"

#include "report/format.h"
#include "report/wording/adaptation.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

void add_list(Box& box, std::string_view title, const std::vector<std::string>& items) {
  if (items.empty()) return;
  box.blocks.push_back(Block{Heading{3, "", std::string(title)}});
  List list;
  for (const std::string& item : items) list.items.push_back(runs(item));
  box.blocks.push_back(Block{list});
}

void add_what_holds(Box& box) {
  add_list(box, "What holds meanwhile",
           {"B never answers A: where a person stands does not show that the content fits.",
            "The help given meanwhile stays."});
}

Box box_of_none(Box box, const std::vector<std::string>& not_in_data) {
  box.blocks.push_back(block({runs(not_in_data.empty() ? "Not asked" : "No answer"), ParagraphRole::finding}));
  box.blocks.push_back(
      block({not_in_data.empty() ? runs(wording::b_not_asked) : runs(wording::asked_not_in_data_in_words(not_in_data)),
             ParagraphRole::lead}));
  add_list(box, "What B would ask",
           {"Is improvement left to see in an operator's own times, counted in own cycles?",
            "If so, about how many cycles are still to go, as a range, to plan support?"});
  add_what_holds(box);
  add_list(box, "What would be needed",
           {"Each operator's own cycles since the first day on the station, with help and gaps recorded.",
            "The operator named for B (complainants or b_for in the table case), under the agreement."});
  return box;
}

Table levels(const CaseView& view, const AdaptationEstimates& own) {
  Table table;
  table.columns = {{"Own level, limit " + format_seconds(view.findings.time.limit), Align::left},
                   {"seconds", Align::right},
                   {"from, to", Align::right}};
  table.rows = {{runs("Today"),
                 {strong(format_bare_seconds(own.today.time))},
                 runs(format_bare_interval(own.today.low, own.today.high))},
                {runs("Settled, by the curves"),
                 {strong(format_bare_seconds(own.settled.time))},
                 runs(format_bare_interval(own.settled.low, own.settled.high))}};
  return table;
}

std::vector<std::string> what_it_rests_on(const CaseView& view, const Adaptation& adaptation) {
  const PracticeSeries& series = adaptation.series;
  std::vector<std::string> facts{
      "n = " + counted(static_cast<std::int64_t>(series.plain.size()), "plain cycle", "plain cycles") + " on " +
      counted(series.days, "worked day", "worked days") + ", own cycles " + format_count(series.first_cycle) + " to " +
      format_count(series.last_cycle) + wording::count_before_in_words(series, adaptation.before_tried) + "."};
  if (series.lower_bounds > 0)
    facts.push_back(counted(series.lower_bounds, "cycle was", "cycles were") +
                    " helped or cut short: at least this long without help.");
  if (adaptation.estimates) {
    const AdaptationEstimates& own = *adaptation.estimates;
    facts.push_back("Improvement left: " + format_percent(own.improvement) + " (" +
                    format_percent(own.improvement_low) + " to " + format_percent(own.improvement_high) + ").");
  }
  if (adaptation.word == AdaptationWord::learning_interrupted && !adaptation.interruptions.empty())
    facts.push_back(wording::interruption_in_words(adaptation.interruptions.back()));
  if (adaptation.word == AdaptationWord::settled_above)
    facts.push_back(wording::others_above_in_words(others_above(view.findings, adaptation.op)));
  return facts;
}

std::vector<std::string> reasons_of(const Adaptation& adaptation) {
  std::vector<std::string> out;
  for (const Reason& reason : adaptation.reasons) out.push_back(wording::adaptation_reason_in_words(reason));
  return out;
}

std::vector<std::string> would_decide(const Adaptation& adaptation) {
  std::vector<std::string> out;
  for (const Reason& reason : adaptation.would_decide) out.push_back(wording::would_decide_adaptation(reason));
  return out;
}

Box box_of_one(Box box, const CaseView& view, const Adaptation& adaptation) {
  box.blocks.push_back(block({runs(wording::finding_word(adaptation.word)), ParagraphRole::finding}));
  const std::string whose = "Operator " + operator_code(view.input, adaptation.op) + ". ";
  if (adaptation.word == AdaptationWord::not_assessable_now) {
    box.blocks.push_back(block({runs(whose + std::string(wording::not_assessable_line)), ParagraphRole::lead}));
    box.blocks.push_back(block({runs(wording::not_assessable_never_which)}));
    add_what_holds(box);
    return box;
  }
  box.blocks.push_back(block({runs(whose + std::string(wording::nothing_about_why)), ParagraphRole::lead}));
  if (adaptation.estimates) {
    const AdaptationEstimates& own = *adaptation.estimates;
    box.blocks.push_back(Block{levels(view, own)});
    if (adaptation.word == AdaptationWord::still_learning || adaptation.word == AdaptationWord::learning_interrupted) {
      add_list(box, "Still to go, to plan support",
               {wording::cycles_to_go_in_words(own.to_limit, own.reach_cycles) +
                    wording::in_worked_days(own.to_limit, adaptation.series),
                "Today's level lies " + wording::against_limit(own.today, view.findings.time.limit) + "."});
    }
  }
  add_list(box, "Why this word", reasons_of(adaptation));
  add_list(box, "What it rests on", what_it_rests_on(view, adaptation));
  add_list(box, adaptation.word == AdaptationWord::not_shown ? "What would decide it" : "What would change it",
           would_decide(adaptation));
  add_what_holds(box);
  return box;
}

std::string short_line(const CaseView& view, const Adaptation& adaptation) {
  if (adaptation.word == AdaptationWord::not_assessable_now) return std::string(wording::not_assessable_line);
  std::string line;
  if (adaptation.word == AdaptationWord::still_learning && adaptation.estimates) {
    const AdaptationEstimates& own = *adaptation.estimates;
    line = "Today " + format_bare_seconds(own.today.time) + ", settled " + format_bare_seconds(own.settled.time) +
           " (" + format_bare_interval(own.settled.low, own.settled.high) +
           ") s. Own cycles to go: " + wording::cycles_to_go_in_short(own.to_limit) + ". ";
  } else if (!adaptation.reasons.empty()) {
    line = wording::adaptation_reason_in_words(adaptation.reasons.front()) + " ";
  }
  if (adaptation.word == AdaptationWord::learning_interrupted && !adaptation.interruptions.empty())
    line += wording::interruption_in_words(adaptation.interruptions.back()) + " ";
  if (adaptation.word == AdaptationWord::settled_above)
    line += wording::others_above_in_words(others_above(view.findings, adaptation.op)) + " ";
  const PracticeSeries& series = adaptation.series;
  line += "n = " + counted(static_cast<std::int64_t>(series.plain.size()), "plain cycle", "plain cycles") + " on " +
          counted(series.days, "worked day", "worked days") + ". ";
  const std::vector<std::string> what = would_decide(adaptation);
  if (!what.empty())
    line += adaptation.word == AdaptationWord::not_shown ? "What would decide it: " : "What would change it: ";
  for (const std::string& one : what) line += one + " ";
  return line + std::string(wording::nothing_about_why);
}

// Several operators: a short line each; all of it is in the section on B.
Box box_of_several(Box box, const CaseView& view) {
  for (const Adaptation& adaptation : view.findings.adaptation) {
    box.blocks.push_back(block({{strong(operator_code(view.input, adaptation.op) + ": " +
                                        std::string(wording::finding_word(adaptation.word)) + ". "),
                                 plain(short_line(view, adaptation))}}));
  }
  add_what_holds(box);
  return box;
}

} // namespace

Box adaptation_box(const CaseView& view) {
  Box box{std::string(wording::question_b), {}};
  const std::vector<Adaptation>& asked = view.findings.adaptation;
  if (asked.empty()) return box_of_none(std::move(box), view.findings.asked_not_in_data);
  if (asked.size() == 1) return box_of_one(std::move(box), view, asked.front());
  return box_of_several(std::move(box), view);
}

std::vector<std::string> pair_sentences(const CaseView& view) {
  const std::vector<Adaptation>& asked = view.findings.adaptation;
  const ContentWord content = view.findings.content.word;
  if (asked.empty()) return {wording::grid_sentence(content, std::nullopt, "")};
  std::vector<std::string> sentences;
  for (const AdaptationWord word : wording::adaptation_words) {
    std::string codes;
    for (const Adaptation& adaptation : asked)
      if (adaptation.word == word) codes += (codes.empty() ? "" : ", ") + operator_code(view.input, adaptation.op);
    if (!codes.empty()) sentences.push_back(wording::grid_sentence(content, word, asked.size() > 1 ? codes : ""));
  }
  return sentences;
}

} // namespace docket
