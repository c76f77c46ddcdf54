// Where the excess lies in the document: facts, the sentence on intent, and nothing under the gate. Filled by hand.
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/excess.h"
#include "report/wording/wording.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

std::string text_of(const Findings& findings) {
  return bare_text(write_html(build_case_document(made_case(), findings, {})));
}

Findings with_excess(AdaptationWord word) {
  Findings made = made_findings_with_b(word);
  Excess excess;
  excess.op = 1;
  excess.elements.parts = {{0, 24, 4, 96, 1.12, 1.03, 1.22, Seconds{3.6}, Seconds{0.9}, Seconds{6.6}}};
  excess.elements.standing_out = 1;
  excess.elements.by_chance = 0.05;
  excess.variants.parts = {{0, 60, 3, 800, 0.98, 0.94, 1.02, Seconds{-1.1}, Seconds{-3.2}, Seconds{1.0}},
                           {1, 40, 3, 500, 1.03, 0.97, 1.09, Seconds{1.7}, Seconds{-1.7}, Seconds{4.9}}};
  excess.variants.by_chance = 0.1;
  made.excesses = {excess};
  return made;
}

TEST(ExcessPages, FactsWithIntervalsAndWhatChanceWouldDo) {
  const std::string text = text_of(with_excess(AdaptationWord::still_learning));
  for (const char* wanted :
       {"Beside the settled operators, by element", "4, 96", "1.120 (1.030 to 1.220)", "+3.6 (+0.9 to +6.6 s)",
        "Of 1 element compared, 1 has an interval without 1. About 0.05 of these would stand out by chance.",
        "0.980 (0.940 to 1.020)", "Of 2 variants compared, 0 have an interval without 1. About 0.10 of these"}) {
    EXPECT_TRUE(holds(text, wanted)) << wanted;
  }
  EXPECT_TRUE(holds(text, wording::excess_shows_no_intent));
  EXPECT_TRUE(holds(text, "Such a pattern has many causes and shows no intent."));
  EXPECT_TRUE(holds(text, wording::excess_interval));
}

TEST(ExcessPages, WhatIsNotComparedSaysWhy) {
  Findings made = with_excess(AdaptationWord::not_shown);
  made.excesses[0].elements = made.excesses[0].variants = {};
  made.excesses[0].elements.absent_why = "no_element_readings";
  made.excesses[0].variants.absent_why = "one_variant";
  const std::string text = text_of(made);
  EXPECT_TRUE(holds(text, "by element: not compared. It takes five plain cycles of this operator"));
  EXPECT_TRUE(holds(text, "by variant: not compared. It takes twenty plain cycles"));
  EXPECT_FALSE(holds(text, wording::excess_shows_no_intent));
}

// Even if the findings held something, the page of a gated answer has the one sentence and nothing else.
TEST(ExcessPages, NothingUnderNotAssessableNow) {
  Findings made = with_excess(AdaptationWord::settled_above);
  close_adaptation(made.adaptation.front());
  const std::string text = text_of(made);
  EXPECT_FALSE(holds(text, "Beside the settled operators"));
  EXPECT_FALSE(holds(text, "1.12"));
}

TEST(ExcessWording, EveryCodeHasWords) {
  for (const char* code : {"not_assessable_now", "no_element_readings", "too_few_peers_timed", "one_variant",
                           "too_few_peers_by_variant", "variants_apart"})
    EXPECT_NE(wording::excess_absent_in_words(code), code);
  EXPECT_EQ(wording::excess_absent_in_words("not_assessable_now"), wording::not_assessable_line);
  EXPECT_EQ(wording::excess_absent_in_words("new_code"), "new_code");
}

} // namespace
} // namespace docket
