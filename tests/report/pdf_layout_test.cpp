// Lines and pages with letters of a plain width, so that every place can be told by hand.
#include "report/format.h"
#include "report/pdf/pages.h"
#include "report/pdf/set_document.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace docket::pdf {
namespace {

// Every character half as wide as it is high.
double half_width(std::string_view text, const TextLook& look) {
  return look.size * 0.5 * static_cast<double>(columns_of(text));
}

std::vector<std::string> lines_of(const std::string& text, double characters, Breaking breaking = Breaking::words) {
  std::vector<std::string> lines;
  for (const SetLine& line : break_into_lines({{text, TextStyle::plain}}, {10}, characters * 5, breaking, half_width)) {
    std::string whole;
    for (const SetText& part : line.texts) whole += part.text;
    lines.push_back(whole);
  }
  return lines;
}

using Lines = std::vector<std::string>;

TEST(PdfLines, EndAtBlanks) {
  EXPECT_EQ(lines_of("one two three", 7), (Lines{"one two", "three"}));
  EXPECT_EQ(lines_of("one two three", 6), (Lines{"one", "two", "three"}));
  EXPECT_EQ(lines_of("  one \n two ", 20), (Lines{"one two"}));
}

TEST(PdfLines, KeepNumberAndUnitAndCodesWhole) {
  EXPECT_EQ(lines_of("below 68 s now", 8), (Lines{"below", "68\u00a0s now"}));
  EXPECT_EQ(lines_of("on 2026-03-04 by N-8", 9), (Lines{"on", "2026-03-0", "4 by N-8"})); // no room: cut
  EXPECT_EQ(lines_of("on 2026-03-04 by N-8", 11), (Lines{"on", "2026-03-04", "by N-8"}));
}

TEST(PdfLines, EndBehindAHyphenBetweenLettersOnly) {
  EXPECT_EQ(lines_of("a value-adding step", 8), (Lines{"a value-", "adding", "step"}));
  EXPECT_EQ(lines_of("c + a n^-b here", 8), (Lines{"c + a", "n^-b", "here"}));
  EXPECT_EQ(lines_of("rows 105-107 here", 8), (Lines{"rows", "105-107", "here"}));
}

TEST(PdfLines, KeepLineEndsOfAQuote) {
  EXPECT_EQ(lines_of("one\ntwo", 20, Breaking::words_and_line_ends), (Lines{"one", "two"}));
}

TEST(PdfLines, CutAWordThatIsWiderThanTheLine) {
  EXPECT_EQ(lines_of("abcdefghij", 4), (Lines{"abcd", "efgh", "ij"}));
  // Never inside a character of several bytes.
  EXPECT_EQ(lines_of("\u2212\u2212\u2212", 2), (Lines{"\u2212\u2212", "\u2212"}));
}

TEST(PdfLines, StyleDoesNotBreakAWord) {
  const auto lines =
      break_into_lines({{"some", TextStyle::plain}, {"thing", TextStyle::strong}, {" else", TextStyle::plain}}, {10},
                       50, Breaking::words, half_width);
  ASSERT_EQ(lines.size(), 2U);
  ASSERT_EQ(lines[0].texts.size(), 2U);
  EXPECT_DOUBLE_EQ(lines[0].texts[1].x, 20);
  EXPECT_EQ(lines[1].texts[0].text, "else");
}

Runs text(const std::string& words) { return {{words, TextStyle::plain}}; }

Pages pages_of(const std::vector<Block>& blocks) {
  Document document;
  document.case_ref = "GC-1";
  document.blocks = blocks;
  return lay_on_pages(set_document(document, {.measure = half_width, .page_height = text_height}), document.case_ref);
}

/// The texts of a page, in the order in which they are drawn, without its foot.
Lines texts_on(const Page& page) {
  Lines texts;
  for (const Shape& shape : page.shapes)
    if (const auto* one = std::get_if<TextShape>(&shape)) texts.push_back(one->text);
  texts.resize(texts.size() - 2);
  return texts;
}

std::size_t count_of(const Lines& texts, const std::string& text) {
  return static_cast<std::size_t>(std::count(texts.begin(), texts.end(), text));
}

Table long_table(int rows) {
  Table table{"A table", {{"What"}, {"Value", Align::right}}, {}, false};
  for (int i = 0; i < rows; ++i) table.rows.push_back({text("row " + std::to_string(i)), text(std::to_string(i))});
  return table;
}

TEST(PdfPages, HeadOfATableStandsOnEveryPage) {
  const Pages pages = pages_of({Block{long_table(200)}});
  ASSERT_GT(pages.pages.size(), 2U);
  std::size_t rows = 0;
  for (const Page& page : pages.pages) {
    const Lines texts = texts_on(page);
    EXPECT_EQ(count_of(texts, "What"), 1U);
    EXPECT_EQ(count_of(texts, "Value"), 1U);
    for (const std::string& one : texts) rows += one.starts_with("row ") ? 1U : 0U;
  }
  EXPECT_EQ(rows, 200U);
}

TEST(PdfPages, FootHasCaseAndPage) {
  const Pages pages = pages_of({Block{long_table(100)}});
  for (std::size_t i = 0; i < pages.pages.size(); ++i) {
    const auto& shapes = pages.pages[i].shapes;
    EXPECT_EQ(std::get<TextShape>(shapes[shapes.size() - 2]).text, "Case file GC-1");
    EXPECT_EQ(std::get<TextShape>(shapes.back()).text,
              "page " + std::to_string(i + 1) + " of " + std::to_string(pages.pages.size()));
  }
}

// Whatever stands before it: a heading is never the last on a page, no row of a table is alone under its head or on the
// last page, and nothing reaches below the text.
TEST(PdfPages, NothingIsLeftAloneOrCut) {
  for (int before = 1; before < 90; ++before) {
    std::vector<Block> blocks;
    for (int i = 0; i < before; ++i) blocks.push_back(Block{Paragraph{text("line"), ParagraphRole::plain}});
    blocks.push_back(Block{Heading{2, "1", "Section"}});
    blocks.push_back(Block{Heading{3, "1.1", "Part"}});
    blocks.push_back(Block{long_table(5)});
    blocks.push_back(Block{Paragraph{text("note"), ParagraphRole::small}});
    const Pages pages = pages_of(blocks);
    for (const Page& page : pages.pages) {
      const Lines texts = texts_on(page);
      const bool has_head = count_of(texts, "What") > 0;
      EXPECT_EQ(count_of(texts, "Section"), count_of(texts, "Part")) << before;
      EXPECT_TRUE(count_of(texts, "Part") == 0 || count_of(texts, "row 1") > 0) << before;
      EXPECT_TRUE(!has_head || count_of(texts, "row 1") + count_of(texts, "row 3") > 0) << before;
      EXPECT_EQ(count_of(texts, "row 4"), count_of(texts, "note")) << before;
      for (std::size_t i = 0; i + 2 < page.shapes.size(); ++i)
        if (const auto* one = std::get_if<TextShape>(&page.shapes[i])) {
          EXPECT_LE(one->at.y, page_top + text_height);
        }
    }
  }
}

TEST(PdfPages, ContentsLeadToTheirPages) {
  std::vector<Block> blocks{Block{Heading{1, "", "Title"}}, Block{PageBreak{}}, Block{Contents{}}};
  for (int section = 1; section <= 3; ++section) {
    blocks.push_back(Block{Heading{2, std::to_string(section), "Section"}});
    blocks.push_back(Block{long_table(60)});
  }
  const Pages pages = pages_of(blocks);
  ASSERT_EQ(pages.bookmarks.size(), 3U);
  ASSERT_EQ(pages.pages[1].links.size(), 3U);
  const Lines texts = texts_on(pages.pages[1]);
  for (const BookmarkPlace& place : pages.bookmarks) {
    EXPECT_EQ(count_of(texts_on(pages.pages[place.page]), std::to_string(place.bookmark.section)) > 0, true);
    EXPECT_GT(count_of(texts, std::to_string(place.page + 1)), 0U);
  }
  EXPECT_NE(pages.bookmarks[2].page, pages.bookmarks[0].page);
}

// A first page is one page, however much it says, as long as readable letters can do it.
TEST(PdfPages, FirstPageShrinksToOne) {
  for (const int lines : {5, 40, 75}) {
    List list;
    for (int i = 0; i < lines; ++i) list.items.push_back(text("item"));
    const Box box{"Box", {Block{list}}};
    const Pages pages = pages_of({Block{Heading{1, "", "Title"}}, Block{Boxes{{box, box}, true}}, Block{PageBreak{}},
                                  Block{Paragraph{text("second"), ParagraphRole::plain}}});
    EXPECT_EQ(pages.pages.size(), 2U) << lines;
  }
}

TEST(PdfPages, ARowHigherThanAPageGoesOn) {
  std::string words;
  for (int i = 0; i < 3000; ++i) words += "word ";
  Table table{"", {{"What"}, {"Text"}}, {{text("first"), text(words)}}, false};
  const Pages pages = pages_of({Block{table}});
  std::size_t found = 0;
  for (const Page& page : pages.pages)
    for (const std::string& line : texts_on(page))
      for (std::size_t at = line.find("word"); at != std::string::npos; at = line.find("word", at + 1)) ++found;
  EXPECT_EQ(found, 3000U);
}

TEST(PdfPages, BoxesOfEqualWeightStandOnOnePage) {
  for (int before = 1; before < 60; ++before) {
    std::vector<Block> blocks;
    for (int i = 0; i < before; ++i) blocks.push_back(Block{Paragraph{text("line"), ParagraphRole::plain}});
    blocks.push_back(Block{Paragraph{text("sentence"), ParagraphRole::plain}});
    Boxes boxes;
    for (const char* who : {"one", "two", "three", "four"})
      boxes.boxes.push_back({who, {Block{Paragraph{text("box"), ParagraphRole::plain}}, Block{RuledSpace{4}}}});
    blocks.push_back(Block{boxes});
    for (const Page& page : pages_of(blocks).pages) {
      const Lines texts = texts_on(page);
      EXPECT_EQ(count_of(texts, "box"), 4 * count_of(texts, "sentence")) << before;
      // A pair begins at one height.
      std::vector<double> heights;
      for (const Shape& shape : page.shapes) {
        const auto* one = std::get_if<TextShape>(&shape);
        if (one != nullptr && one->text == "box") heights.push_back(one->at.y);
      }
      for (std::size_t i = 0; i + 1 < heights.size(); i += 2) EXPECT_DOUBLE_EQ(heights[i], heights[i + 1]);
    }
  }
}

TEST(PdfPages, BoxesHigherThanAPageGoOn) {
  std::vector<Block> blocks;
  for (int i = 0; i < 150; ++i) blocks.push_back(Block{Paragraph{text("line"), ParagraphRole::plain}});
  const Pages pages = pages_of({Block{Boxes{{{"Left", blocks}, {"Right", blocks}}, true}}});
  std::size_t found = 0;
  for (const Page& page : pages.pages) found += count_of(texts_on(page), "line");
  EXPECT_EQ(found, 300U);
}

} // namespace
} // namespace docket::pdf
