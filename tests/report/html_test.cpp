// The page: nesting, ids, escaping, nothing from outside. Source: WHATWG HTML, 13.1.2 (elements) and 3.2.6 (ids).
#include "report/html/html.h"
#include "report/html/markup.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

#include <set>

namespace docket {
namespace {

Document every_block() {
  const std::string awkward = "<b>&\"'</b>";
  Document document;
  document.title = awkward;
  document.case_ref = awkward;
  Figure figure{awkward, awkward, {{awkward, TextStyle::plain}}, {}};
  figure.drawing.height = 10;
  figure.drawing.shapes = {TextShape{{0, 5}, awkward, Anchor::start, 10, false, Ink::dark},
                           RectangleShape{{0, 0}, 5, 5, Fill::hatch, true}};
  const std::vector<Block> inner{Block{Paragraph{{{awkward, TextStyle::strong}}, ParagraphRole::quote}},
                                 Block{Heading{3, "", awkward}}};
  document.blocks = {
      Block{Heading{1, "", awkward}},
      Block{Definitions{{{awkward, {{awkward, TextStyle::reference}}}}, true, false}},
      Block{Boxes{{{awkward, inner}, {awkward, inner}}, true}},
      Block{Strip{awkward, inner}},
      Block{Heading{2, "1", awkward}},
      Block{figure},
      Block{List{{{{awkward, TextStyle::plain}}}, true}},
      Block{PageBreak{}},
      Block{Heading{2, "2", awkward}},
      Block{figure},
      Block{Table{
          awkward, {{awkward, Align::left}, {awkward, Align::right}}, {{{{awkward, TextStyle::plain}}, {}}}, true}},
      Block{Notice{{{awkward, TextStyle::plain}}}},
      Block{Fold{awkward, inner}},
      Block{RuledSpace{2}},
  };
  return document;
}

TEST(Html, EveryBlockIsBalanced) { EXPECT_EQ(find_unbalanced(write_html(every_block())), ""); }

TEST(Html, IdsAreUnique) {
  const std::vector<std::string> ids = attribute_values(write_html(every_block()), "id");
  EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ids.size());
  EXPECT_GT(ids.size(), 6U);
}

TEST(Html, WhatIsReferredToIsThere) {
  const std::string page = write_html(every_block());
  const std::vector<std::string> ids = attribute_values(page, "id");
  const std::set<std::string> known(ids.begin(), ids.end());
  for (const std::string& names : attribute_values(page, "aria-labelledby")) {
    EXPECT_TRUE(known.count(names.substr(0, names.find(' '))) == 1) << names;
  }
}

TEST(Html, TextOfTheCaseIsEscapedEverywhere) {
  EXPECT_EQ(write_html(every_block()).find("<b>"), std::string::npos);
  EXPECT_EQ(escape_markup("<&>\"'"), "&lt;&amp;&gt;&quot;&#39;");
  EXPECT_EQ(escape_markup(std::string_view("a\0b\x01\n", 5)), "ab\n");
}

TEST(Html, NothingIsAskedFromOutside) {
  const std::string page = write_html(every_block());
  EXPECT_NE(page.find("default-src 'none'"), std::string::npos);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(page.find(" src="), std::string::npos);
  EXPECT_EQ(page.find(" href="), std::string::npos);
}

TEST(Html, SameDocumentSameBytes) { EXPECT_EQ(write_html(every_block()), write_html(every_block())); }

TEST(Html, NumberAndUnitStayOnOneLine) {
  EXPECT_EQ(escape_running_text("2.0 s below, 5 % of 9 min, 3 such"),
            "2.0&#160;s below, 5&#160;% of 9&#160;min, 3 such");
}

TEST(Html, DaysAndCodesDoNotBreakAtTheirHyphen) {
  Document document;
  document.blocks = {Block{Paragraph{{{"N-8 on 2026-03-04, rows 14-37", TextStyle::plain}}, ParagraphRole::plain}}};
  const std::string page = write_html(document);
  EXPECT_NE(page.find("<span class=\"nb\">N-8</span> on <span class=\"nb\">2026-03-04</span>, rows 14-37"),
            std::string::npos);
}

} // namespace
} // namespace docket
