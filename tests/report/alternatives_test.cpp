// What would bring it within the limit, and what the line speed costs, from findings filled by hand.
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/alternatives.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

Findings with_alternatives() {
  Findings made = made_findings(ContentWord::not_shown);
  Alternatives& a = made.content.alternatives;
  a.tolerated_per_1000 = 10;
  a.stretches = HeaviestStretches{Stretch{3, 5}, Seconds{5}, Seconds{10}, Seconds{1}, Stretch{1, 1}, Stretch{1, 1}};
  a.out_of_every_unit = {Seconds{6.21}, Seconds{-1.31}, {}, Seconds{6.21}};
  a.enough = {{true, 45000, 23.45, {Seconds{14.31}, {}}, {{0, {}, false}, {1, Seconds{2.41}, false}}},
              {false, 20000, 3.5, {{}, "mean_above_limit"}, {{1, Seconds{-55}, true}}}};
  a.waste = {{0, Seconds{3.25}, Seconds{3.25}, Seconds{5.25}, Seconds{2.85}}};
  a.even = EvenOrder{6, 2, {1, Seconds{1}, 3}, {0, Seconds{0}, 1}, SequenceMargin{}, 0.75};
  a.precedence_given = true;
  a.movable = {{0, false, true, Seconds{30}, Seconds{30}}};
  made.content.pace_price = PacePrice{0.196, Seconds{13.4}, {0.96, 1.01, 1.09}, {0.77, 0.82, 0.88}};
  return made;
}

/// The text from the part's heading up to the next heading that is not of it.
std::string part_of(const Findings& findings, const Case& input = made_case()) {
  const std::string text = bare_text(write_html(build_case_document(input, findings, {})));
  const std::size_t from = text.find("What would bring it within the limit");
  EXPECT_NE(from, std::string::npos);
  return text.substr(from, text.find("Question B", from) - from);
}

TEST(AlternativesDocument, EveryWayWithSecondsAndWhatItAssumes) {
  const std::string text = part_of(with_alternatives());
  for (const char* wanted : {"Local law and the collective agreement in force come first",
                             "6.2 s",
                             "nothing needed",
                             "23.4",
                             "14.3 s",
                             "not by this variant alone",
                             "2.4 s",
                             "none would do: the mean is above the limit",
                             "does not occur",
                             "nothing needed",

                             "E1: Set pump (standard row 7)",
                             "1 to 0 overloads",
                             "3 to 1 unit",
                             "a later station: nothing here waits for it",
                             "13.4 s a unit faster than takt",
                             "over-speed 19.6 %",
                             "They are waste",
                             "95 % efficiency",
                             "70 % utilisation",
                             "Common practice"}) {
    EXPECT_TRUE(holds(text, wanted)) << wanted << "\n" << text;
  }
}

TEST(AlternativesDocument, SaysWouldAndNeverShould) {
  const std::string text = part_of(with_alternatives());
  for (const char* word : {"should", "must ", "recommend", "DOES NOT FIT", "fault of", "is safe"})
    EXPECT_FALSE(holds(text, word)) << word;
  EXPECT_TRUE(holds(text, "would"));
}

TEST(AlternativesDocument, SaysWhatIsNotKnown) {
  Case input = made_case();
  input.build_sequence.clear();
  const std::string text = part_of(made_findings(ContentWord::fits), input);
  EXPECT_TRUE(holds(text, wording::no_precedence.substr(0, 50)));
  EXPECT_TRUE(holds(text, wording::only_a_drawn_order));
  EXPECT_TRUE(holds(text, "The takt time is not known"));
  EXPECT_TRUE(holds(text, "no element of class NVA or NNVA"));
}

TEST(AlternativesDocument, AnOpenMatterStandsOverIt) {
  Findings made = with_alternatives();
  made.content.held = true;
  EXPECT_TRUE(holds(part_of(made), "Do not act on this finding: a safety or health matter is open."));
}

TEST(AlternativesDocument, TheWorstStretchIsNamedByItsPositions) {
  const std::string text = bare_text(write_html(build_case_document(made_case(), with_alternatives(), {})));
  EXPECT_TRUE(holds(text, "positions 4 to 6 (1 \u00D7 heavy, 1 \u00D7 light, 1 \u00D7 heavy)"));
  EXPECT_TRUE(holds(text, "+5.0 s of content against the limit in all"));
  EXPECT_TRUE(holds(text, "10.0 s past the limit, 1.0 s past the end of the zone."));
  EXPECT_TRUE(holds(text, "1 time in a row (position 2)"));
}

TEST(AlternativesWording, EveryCodeHasWords) {
  for (const char* code : {"mean_above_limit", "not_within_a_line_cycle"})
    EXPECT_TRUE(holds(std::string(wording::no_late_finish_in_words(code)), " ")) << code;
  EXPECT_EQ(wording::no_late_finish_in_words("new_code"), "new_code");
}

TEST(AlternativesWording, PaceEitherWay) {
  EXPECT_EQ(wording::pace_in_words({0.2, Seconds{15}, {}, {}}), "15.0 s a unit faster than takt (over-speed 20 %)");
  EXPECT_EQ(wording::pace_in_words({-0.25, Seconds{-15}, {}, {}}), "15.0 s a unit slower than takt");
  EXPECT_EQ(wording::pace_in_words({0, Seconds{0}, {}, {}}), "as fast as takt");
}

} // namespace
} // namespace docket
