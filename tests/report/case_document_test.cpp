// The case file as a whole, from findings filled by hand: fixed sentences, references, order, nothing left out.
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/adaptation.h"
#include "report/wording/wording.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace docket {
namespace {

std::string page_of(const Case& input, const Findings& findings, const Issues& issues = {}) {
  return write_html(build_case_document(input, findings, issues, CopyFor::review));
}

std::string text_of(ContentWord word) { return bare_text(page_of(made_case(), made_findings(word))); }

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

TEST(CaseDocument, FirstLineAndWordOfEveryFinding) {
  for (const ContentWord word :
       {ContentWord::fits, ContentWord::fits_only_if, ContentWord::does_not_fit, ContentWord::not_shown}) {
    const std::string text = text_of(word);
    EXPECT_TRUE(holds(text, "Taken as it stands, the plant's own standard is 2.0 s below the line cycle time."));
    EXPECT_TRUE(holds(text, wording::finding_word(word)));
    EXPECT_TRUE(holds(text, wording::grid_sentence(word, std::nullopt, "")));
    EXPECT_TRUE(holds(text, wording::b_not_asked));
    EXPECT_TRUE(holds(text, "Local law and the collective agreement in force come first"));
    for (const std::string_view caution : wording::cautions) EXPECT_TRUE(holds(text, caution)) << caution;
  }
}

TEST(CaseDocument, SecondLineOfFitsAndFixedLinesOfNotShown) {
  constexpr std::string_view fits = "In time, for trained people. This says nothing about strain or safety.";
  constexpr std::string_view open =
      "Neither shown to fit nor shown not to fit. The complaint stays open, and so does the help given meanwhile.";
  EXPECT_TRUE(holds(text_of(ContentWord::fits), fits));
  EXPECT_TRUE(holds(text_of(ContentWord::fits_only_if), fits));
  EXPECT_FALSE(holds(text_of(ContentWord::not_shown), fits));
  EXPECT_TRUE(holds(text_of(ContentWord::not_shown), open));
  EXPECT_FALSE(holds(text_of(ContentWord::does_not_fit), open));
  EXPECT_TRUE(holds(text_of(ContentWord::not_shown), wording::lean_sentence(Leaning::neither)));
}

TEST(CaseDocument, AnOpenMatterHoldsTheFinding) {
  Findings findings = made_findings(ContentWord::fits);
  constexpr std::string_view held = "Do not act on this finding: a safety or health matter is open.";
  EXPECT_FALSE(holds(bare_text(page_of(made_case(), findings)), held));
  findings.content.held = true;
  const std::string text = bare_text(page_of(made_case(), findings));
  EXPECT_TRUE(holds(text, held));
  EXPECT_LT(text.find(held), text.find("FITS"));
}

TEST(CaseDocument, BlanksAreSaidNotHidden) {
  const std::string text = text_of(ContentWord::not_shown);
  EXPECT_TRUE(holds(text, "Open safety or health matter: not answered."));
  EXPECT_TRUE(holds(text, "Data basisnot given"));
  EXPECT_TRUE(holds(text, "Operator or worker's representative: no statement given yet"));
}

TEST(CaseDocument, InputsCarryTableAndRow) {
  const std::string text = text_of(ContentWord::not_shown);
  for (const char* reference : {"(standard row 7)", "(case row 6)", "(variants row 3)", "(conditions row 4)",
                                "(operators row 2)", "(settings row 3)"}) {
    EXPECT_TRUE(holds(text, reference)) << reference;
  }
  Case several = made_case();
  several.sources = {{"standard.csv", std::string(64, 'a'), 1}, {"log.csv", std::string(64, 'b'), 1}};
  EXPECT_TRUE(holds(bare_text(page_of(several, made_findings(ContentWord::fits))), "(standard.csv row 7)"));
}

// Common practice: 912 min and 800 units a day give 68.4 s; at 80.4 % OEE, 55 s.
TEST(CaseDocument, TimeAvailableShowsItsArithmetic) {
  const std::string text = text_of(ContentWord::not_shown);
  EXPECT_TRUE(holds(text, "60 \u00D7 912 min / 800 units = 68.4 s"));
  EXPECT_TRUE(holds(text, "68.4 s \u00D7 0.804 = 55.0 s"));
}

TEST(CaseDocument, SectionsAreNumberedInOrder) {
  const Document document = build_case_document(made_case(), made_findings(ContentWord::fits), {});
  int section = 0;
  for (const Block& block : document.blocks) {
    const auto* heading = std::get_if<Heading>(&block.content);
    if (heading != nullptr && heading->level == 2) {
      EXPECT_EQ(heading->number, std::to_string(++section));
    }
  }
  EXPECT_EQ(section, 12);
}

TEST(CaseDocument, FourFiguresWithNOnThem) {
  const Document document = build_case_document(made_case(), made_findings(ContentWord::fits), {});
  int figures = 0;
  for (const Block& block : document.blocks) {
    const auto* figure = std::get_if<Figure>(&block.content);
    if (figure == nullptr) continue;
    ++figures;
    EXPECT_TRUE(std::any_of(figure->drawing.shapes.begin(), figure->drawing.shapes.end(),
                            [](const Shape& shape) { return std::holds_alternative<TextShape>(shape); }));
    EXPECT_TRUE(holds(figure->description, "n = ") || holds(figure->caption.front().text, "n = ")) << figure->title;
  }
  EXPECT_EQ(figures, 4);
}

TEST(CaseDocument, NoOrderNoFigure) {
  Case input = made_case();
  input.build_sequence.clear();
  Findings findings = made_findings(ContentWord::fits);
  findings.content.sequence.given.reset();
  const std::string text = bare_text(page_of(input, findings));
  EXPECT_FALSE(holds(text, "Sequence stress"));
  EXPECT_TRUE(holds(text, "No build order is given, so there is no picture of it."));
}

TEST(CaseDocument, OperatorsStandInTheOrderOfTheirCodes) {
  const std::string text = text_of(ContentWord::not_shown);
  const std::size_t table = text.find("Own level, s (from, to)");
  EXPECT_LT(text.find("A-1", table), text.find("B-2", table)); // A-1 takes longer: the order is not that of times
}

TEST(CaseDocument, EveryRowSetApartIsListed) {
  const std::string text = text_of(ContentWord::not_shown);
  EXPECT_TRUE(holds(text, "cycle_log, marked: helped: 24 rows"));
  EXPECT_TRUE(holds(text, "14-37 (24)"));
  EXPECT_TRUE(holds(text, "Result without the cycles under a differing condition: NOT SHOWN. With them: NOT SHOWN."));
}

TEST(CaseDocument, ChangedSettingsAndUnusedTablesAreMarked) {
  const std::string text = text_of(ContentWord::not_shown);
  EXPECT_TRUE(holds(text, "changed: agreed on 2 March (settings row 3)"));
  EXPECT_TRUE(holds(text, "taken in, not yet used"));
}

TEST(CaseDocument, ALogWithoutMarksStandsOnPageOne) {
  Findings findings = made_findings(ContentWord::not_shown);
  findings.data_faults = {{"log_without_marks", ""}, {"not_used_yet", "lifts"}, {"not_used_yet", "stops"}};
  const std::string text = bare_text(page_of(made_case(), findings));
  EXPECT_LT(text.find("Help, stops and skipped steps cannot be seen in it."),
            text.find("The claim, and what people say"));
  EXPECT_TRUE(holds(text, "Taken in and checked: lifts, stops."));
}

TEST(CaseDocument, PageOneHasNoMethodNamesOrAbbreviations) {
  const std::string text = text_of(ContentWord::not_shown);
  const std::string page_one = text.substr(0, text.find("The claim, and what people say"));
  for (const char* word : {"REML", "JCGM", "GLS", "Theil", "k*", "P =", "p =", " CI", " SD", "AR(1)", "confidence",
                           "sigma", "percentile", "degrees of freedom", "standard uncertainty"}) {
    EXPECT_FALSE(holds(page_one, word)) << word;
  }
}

TEST(CaseDocument, TextOfPeopleIsEscaped) {
  Case input = made_case();
  const std::string awkward = "<img src=x>&\"'";
  input.facts.title = input.facts.case_ref = input.facts.station = input.facts.complaint_text = awkward;
  input.variants[0].variant = input.standard[0].description = input.conditions[0].note = awkward;
  input.statements = {{awkward, {}, awkward, {}}};
  const Issue issue{IssueGrade::warning, "c", awkward, awkward, 3, awkward, awkward, awkward, awkward};
  const std::string page = page_of(input, made_findings(ContentWord::fits_only_if), {issue});
  EXPECT_EQ(page.find("<img"), std::string::npos);
  EXPECT_EQ(find_unbalanced(page), "");
  const std::vector<std::string> ids = attribute_values(page, "id");
  EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ids.size());
}

TEST(CaseDocument, NotesAreOnlyInTheCopyForReview) {
  Case input = made_case();
  input.conditions[0].note = "found by the night shift";
  const Findings findings = made_findings(ContentWord::fits_only_if);
  const std::string joint = write_html(build_case_document(input, findings, {}, CopyFor::joint));
  const std::string review = write_html(build_case_document(input, findings, {}, CopyFor::review));
  EXPECT_EQ(joint.find(input.conditions[0].note), std::string::npos);
  EXPECT_NE(joint.find(wording::is_joint_copy), std::string::npos);
  EXPECT_NE(review.find(input.conditions[0].note), std::string::npos);
  EXPECT_NE(review.find(wording::is_review_copy), std::string::npos);
  EXPECT_EQ(write_html(build_case_document(input, findings, {})), joint);
}

TEST(CaseDocument, NothingAtAllIsStillADocument) {
  Findings findings;
  findings.time.line_cycle = findings.time.limit = Seconds{60};
  const std::string page = page_of(Case{}, findings);
  EXPECT_EQ(find_unbalanced(page), "");
  EXPECT_TRUE(holds(bare_text(page), "NOT SHOWN"));
}

TEST(CaseDocument, SameInputSameBytes) {
  EXPECT_EQ(page_of(made_case(), made_findings(ContentWord::fits)),
            page_of(made_case(), made_findings(ContentWord::fits)));
}

TEST(CaseDocument, NoWordJudgesAPersonOrPromisesSafety) {
  std::string text = text_of(ContentWord::fits) + text_of(ContentWord::does_not_fit);
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  for (const char* word : {"lazy", "unwilling", "slow worker", "slowest", "fastest", "restricting", "malinger",
                           "incapable", "attitude", "unfit", "discipline", "is safe", "no risk", "safe to "}) {
    EXPECT_FALSE(holds(text, word)) << word;
  }
}

} // namespace
} // namespace docket
