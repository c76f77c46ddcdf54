// Why this word, what flips it, and what would decide it.
#include "core/rules.h"
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

namespace docket {
namespace {

void add_flips(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  if (content.flips.empty() || !content.combined) {
    pages.paragraph("There is nothing to change: no line of evidence carries it.");
    return;
  }
  Table table;
  table.caption = "The finding with one thing changed at a time";
  table.columns = {
      {"Changed", Align::left},         {"Margin, s", Align::right},          {"Chance of fitting, mean", Align::right},
      {"Order of units", Align::right}, {"Enough in the zone", Align::right}, {"A would be", Align::left}};
  const auto row = [&](Runs what, Seconds margin, double p, std::optional<double> p_seq, std::optional<double> p_zone,
                       Runs word) {
    table.rows.push_back({std::move(what), runs(format_signed_bare_seconds(margin)), runs(format_chance(p)),
                          runs(p_seq ? format_chance(*p_seq) : "not known"),
                          runs(p_zone ? format_chance(*p_zone) : "not known"), std::move(word)});
  };
  row({strong("As it stands")}, content.combined->margin, content.combined->p_fits, content.sequence.p,
      content.again.facts.all.p_zone, {strong(wording::finding_word(content.word))});
  bool any = false;
  for (const Flip& flip : content.flips) {
    const bool flips = flip.word != content.word;
    any = any || flips;
    row(runs(wording::flip_in_words(flip)), flip.margin, flip.p, flip.p_seq, flip.p_zone,
        flips ? Runs{strong(wording::finding_word(flip.word))} : runs("the same"));
  }
  pages.add(table);
  pages.paragraph(
      any ? "A word in bold differs from the finding. It does not say that the change is right: each row asks "
            "what the finding would be if it were."
          : "No row changes the word.");
  pages.paragraph(
      "FITS asks " + format_percent(0.5 + view.input.settings.confidence / 2) + " of the first two chances and " +
          format_percent(rules::zone_able) +
          " of the third, and that they hold without lines that lean. Margin: limit less the mean of all lines "
          "together, in seconds. Where only a level or how sure it is changes, "
          "the "
          "order of units is not drawn again; its room moves with the level. The work zone is not among the rows: "
          "how much more of it would do stands with the order of units.",
      ParagraphRole::small);
}

} // namespace

void add_what_decides(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  pages.section("What the finding rests on, and what would decide it");
  pages.part("Why this word");
  List why;
  for (const Reason& reason : content.reasons) why.items.push_back(runs(wording::reason_in_words(reason)));
  if (why.items.empty()) why.items.push_back(runs("No reason was recorded."));
  pages.add(why);
  pages.paragraph(
      "The word comes from row " + std::to_string(content.decision_row) +
          " of a fixed table of six rows, the first that holds. The table, with the numbers of this case and why the "
          "earlier rows did not hold, is in \u201CWhich row of the decision holds\u201D.",
      ParagraphRole::small);
  pages.part("What flips it");
  add_flips(pages, view);
  pages.part("What would decide it");
  List decide;
  for (const Reason& reason : content.would_decide)
    decide.items.push_back(runs(wording::would_decide_in_words(reason)));
  if (decide.items.empty()) {
    pages.paragraph("The evidence carries this finding. What would open it again: " +
                    std::string(wording::what_opens_it_again));
  } else {
    pages.add(decide);
  }
}

} // namespace docket
