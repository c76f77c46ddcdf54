// The cautions on page one and in their section: every number with its range, source and the fixed sentence; no number
// without a reason.
#include "core/ergonomics/ergonomics.h"
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/ergonomics.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <variant>

namespace docket {
namespace {

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

/// Two lifts, one of them out of range where it is set down; two efforts, one without a strength value.
Case screened_case() {
  Case input = made_case();
  Lift pump;
  pump.task = "pump";
  pump.load = 12;
  pump.from = {25, 55, 95, 0.0, Coupling::fair};
  pump.per_min = 3;
  pump.hours = 0.75;
  pump.origin = row_of(TableName::lifts, 3);
  Lift cover = pump;
  cover.task = "cover";
  cover.to = LiftSpot{70, 150, 95, 0.0, Coupling::fair};
  cover.origin = row_of(TableName::lifts, 4);
  input.lifts = {pump, cover};
  Effort clamp;
  clamp.task = "clamp";
  clamp.hand = Hand::right;
  clamp.force_n = 60;
  clamp.time = Seconds{1.5};
  clamp.times_per_unit = 4;
  clamp.strength_n = 200;
  clamp.strength_source = "made up";
  clamp.hours = 7.5;
  clamp.wrist_deg = 20;
  clamp.rated_intensity = ExertionIntensity::hard;
  clamp.rated_posture = WristPosture::fair;
  clamp.rated_speed = WorkSpeed::fair;
  clamp.origin = row_of(TableName::efforts, 3);
  Effort hose = clamp;
  hose.task = "hose";
  hose.strength_n.reset();
  hose.origin = row_of(TableName::efforts, 4);
  input.efforts = {clamp, hose};
  input.facts.pattern = Seconds{18};
  input.facts.line_cycle_asked = Seconds{50};
  return input;
}

Findings screened_findings(const Case& input) {
  Findings findings = made_findings(ContentWord::not_shown);
  findings.ergonomics = screen_ergonomics(input, Seconds{55}, 420);
  return findings;
}

std::string page_text() {
  const Case input = screened_case();
  return bare_text(write_html(build_case_document(input, screened_findings(input), {})));
}

// 12 kg, H 25, V 55, D 95, 3 a minute for 45 minutes, fair: 15.7 kg and 0.76 (worked example in metric units; found in
// print).
TEST(ErgonomicsPage, ALiftHasItsLimitIndexAndRow) {
  const std::string text = page_text();
  EXPECT_TRUE(holds(text, "pump, start (lifts row 3)"));
  // By hand with the manual's tables, up to 8 hours for want of rest given: 23 x 0.94 x 0.867 x 0.55 x 0.95 = 9.8; 12/9.8.
  EXPECT_TRUE(holds(text, "9.81.22"));
}

TEST(ErgonomicsPage, NoNumberSaysWhy) {
  const std::string text = page_text();
  EXPECT_TRUE(holds(text, "No number where it is set down: The hands are further than 63 cm from the ankles"));
  EXPECT_TRUE(holds(text, "Not assessed: no strength value."));
  EXPECT_TRUE(holds(text, "No number for one of the lifts: cover."));
}

/// The section's parts: heading, then what stands up to the next.
std::vector<std::vector<const Block*>> parts_of_section(const Document& document) {
  std::vector<std::vector<const Block*>> parts;
  bool inside = false;
  for (const Block& block : document.blocks) {
    const auto* heading = std::get_if<Heading>(&block.content);
    if (heading != nullptr && heading->level == 2) inside = heading->text == "Ergonomics and safety";
    if (!inside) continue;
    if (heading != nullptr && heading->level == 3) parts.emplace_back();
    if (!parts.empty()) parts.back().push_back(&block);
  }
  return parts;
}

TEST(ErgonomicsPage, EveryTableHasRangeSourceAndSentence) {
  const Case input = screened_case();
  const Document document = build_case_document(input, screened_findings(input), {});
  std::size_t with_table = 0;
  for (const auto& part : parts_of_section(document)) {
    std::string text;
    bool table = false;
    for (const Block* block : part) {
      table = table || std::holds_alternative<Table>(block->content);
      if (const auto* paragraph = std::get_if<Paragraph>(&block->content))
        for (const Text& run : paragraph->runs) text += run.text;
    }
    if (!table) continue;
    ++with_table;
    const std::string& title = std::get<Heading>(part.front()->content).text;
    for (const std::string_view wanted : {wording::screening_line, std::string_view("Range: "),
                                          std::string_view("Source: "), std::string_view("Values: ")})
      EXPECT_TRUE(holds(text, wanted)) << wanted << " in " << title;
  }
  EXPECT_EQ(with_table, 5U); // lifting; efforts; two indices of strain; repetition
}

TEST(ErgonomicsPage, PageOneHasTheSentenceAndASourceBesideEachResult) {
  const Case input = screened_case();
  const Document document = build_case_document(input, screened_findings(input), {});
  const Strip* strip = nullptr;
  for (const Block& block : document.blocks)
    if (const auto* found = std::get_if<Strip>(&block.content)) strip = found;
  ASSERT_NE(strip, nullptr);
  std::string text;
  const Table* table = nullptr;
  for (const Block& block : strip->blocks) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block.content))
      for (const Text& run : paragraph->runs) text += run.text;
    if (const auto* found = std::get_if<Table>(&block.content)) table = found;
  }
  EXPECT_TRUE(holds(text, wording::screening_line));
  ASSERT_NE(table, nullptr);
  EXPECT_EQ(table->rows.size(), 5U); // lifting; efforts; two indices of strain; repetition
  for (const auto& row : table->rows) {
    ASSERT_EQ(row.size(), 4U);
    EXPECT_FALSE(row[3].empty() || row[3].front().text.empty()) << row[0].front().text;
  }
}

TEST(ErgonomicsPage, WhatIsNotGivenIsSaid) {
  const Case input = made_case();
  Findings findings = made_findings(ContentWord::fits);
  findings.ergonomics = screen_ergonomics(input, Seconds{55}, std::nullopt);
  const std::string text = bare_text(write_html(build_case_document(input, findings, {})));
  EXPECT_TRUE(holds(text, "not screened: no row in table lifts"));
  EXPECT_TRUE(holds(text, "not screened: no row in table efforts"));
  EXPECT_TRUE(holds(text, "Cycles a shift are not known"));
}

TEST(ErgonomicsPage, AnOpenMatterStandsFirst) {
  const Case input = screened_case();
  Findings findings = screened_findings(input);
  EXPECT_FALSE(holds(bare_text(write_html(build_case_document(input, findings, {}))), wording::open_matter_first));
  findings.content.held = true;
  const Document document = build_case_document(input, findings, {});
  ASSERT_GT(document.blocks.size(), 2U);
  EXPECT_TRUE(std::holds_alternative<Heading>(document.blocks[0].content));
  const auto* notice = std::get_if<Notice>(&document.blocks[1].content);
  ASSERT_NE(notice, nullptr);
  EXPECT_EQ(notice->runs.front().text, wording::open_matter_first);
}

TEST(ErgonomicsWording, EveryCodeOfTheMethodsHasWords) {
  for (const ScreeningMethod* method :
       {&revised_lifting_equation(), &composite_lifting_index(), &maximum_acceptable_effort_method(),
        &strain_index_1995(), &revised_strain_index_2017(), &repetition_definition()}) {
    const wording::ScreeningWords words = wording::method_in_words(*method);
    EXPECT_FALSE(words.name.empty() || words.source.empty() || words.certainty.empty() || words.range.empty() ||
                 words.short_source.empty() || words.short_range.empty())
        << method->code;
    for (const std::string_view code : method->range) EXPECT_FALSE(holds(words.range, code)) << code;
    if (method->certainty != "published") {
      EXPECT_TRUE(holds(words.certainty, "from memory")) << method->code;
    }
  }
}

TEST(ErgonomicsWording, AReasonIsASentence) {
  for (const wording::CodeWords& row : wording::screening_reason_table())
    for (const char* detail : {"", "pump"}) {
      const std::string text = wording::screening_reason_in_words({std::string(row.code), detail});
      EXPECT_TRUE(text.ends_with(".")) << text;
      EXPECT_FALSE(holds(text, "{") || holds(text, "[")) << text;
    }
  EXPECT_EQ(wording::screening_reason_in_words({"new_code", "7"}), "new_code (7)");
}

} // namespace
} // namespace docket
