// The PDF itself. Source: Adobe, PDF Reference, third edition (PDF 1.4), 3.4; ISO 19005-1, 6.7.11 (version and level).
#include "core/error.h"
#include "report/pdf/finish.h"
#include "report/pdf/paper.h"
#include "report/pdf/pdf.h"

#include <gtest/gtest.h>

#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace docket {
namespace {

Document every_block() {
  const Runs words{{"Some words & <signs> (of \\ all) kinds \u2212 5 %", TextStyle::plain}};
  Document document;
  document.title = "Case (file) \\ \u00e4 <x>";
  document.case_ref = "GC-1";
  Figure figure{"A figure", "What it shows", words, {}};
  figure.drawing.height = 60;
  figure.drawing.shapes = {LineShape{{0, 0}, {50, 0}, 1, Ink::mid, true},
                           RectangleShape{{0, 5}, 50, 20, Fill::hatch, true},
                           RectangleShape{{60, 5}, 50, 20, Fill::dots, false},
                           CircleShape{{130, 15}, 4, false, Ink::dark},
                           CircleShape{{150, 15}, 4, true, Ink::light},
                           PolylineShape{{{0, 30}, {50, 40}, {90, 30}}, 1, Ink::dark, Fill::none, true},
                           PolylineShape{{{0, 45}, {50, 55}, {90, 45}}, 1, Ink::dark, Fill::pale, false},
                           TextShape{{200, 20}, "in the figure", Anchor::middle, 11, true, Ink::dark}};
  const std::vector<Block> inner{Block{Paragraph{words, ParagraphRole::quote}}, Block{Heading{3, "", "Part"}},
                                 Block{List{{words, words}, true}}};
  document.blocks = {
      Block{Heading{1, "", "Title"}},
      Block{Notice{words}},
      Block{Definitions{{{"Term", words}, {"Other", words}, {"Third", words}}, true, false}},
      Block{Boxes{{{"Left", inner}, {"Right", inner}}, true}},
      Block{Strip{"Strip", inner}},
      Block{PageBreak{}},
      Block{Contents{}},
      Block{Heading{2, "1", "First section"}},
      Block{figure},
      Block{Paragraph{words, ParagraphRole::finding}},
      Block{Heading{3, "1.1", "First part"}},
      Block{Definitions{{{"Term", words}}, false, true}},
      Block{Boxes{{{"Above", inner}, {"Below", inner}}, false}},
      Block{Heading{2, "2", "Second section"}},
      Block{Table{"A table", {{"What"}, {"Value", Align::right}}, {{words, words}}, true}},
      Block{Fold{"Fold", inner}},
      Block{RuledSpace{2}},
  };
  return document;
}

std::size_t count_of(const std::string& text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

TEST(Pdf, IsMarkedAndHasNoClock) {
  const std::string file = write_pdf(every_block());
  EXPECT_TRUE(file.starts_with("%PDF-1.4\n"));
  EXPECT_TRUE(file.ends_with("%%EOF\n"));
  EXPECT_NE(file.find("pdfaid:part=\"1\" pdfaid:conformance=\"B\""), std::string::npos);
  EXPECT_EQ(file.find("Date"), std::string::npos);
  EXPECT_NE(file.find("/Outlines"), std::string::npos);
  EXPECT_EQ(count_of(file, "/Subtype /Link"), 2U); // a section each
  EXPECT_NE(file.find("Case (file) \\ \u00e4 &lt;x&gt;"), std::string::npos);
}

// 3.4.3: each entry is twenty bytes, and names the byte at which its object begins.
TEST(Pdf, TableOfObjectsIsRight) {
  const std::string file = write_pdf(every_block());
  std::size_t table = 0;
  const std::size_t start = file.rfind("startxref\n") + 10;
  std::from_chars(file.data() + start, file.data() + file.size(), table);
  ASSERT_EQ(file.substr(table, 7), "xref\n0 ");
  EXPECT_EQ(count_of(file, "\nxref\n"), 1U);
  std::size_t count = 0;
  std::from_chars(file.data() + table + 7, file.data() + file.size(), count);
  ASSERT_GT(count, 10U);
  const std::size_t first = file.find('\n', table + 7) + 1;
  for (std::size_t i = 1; i < count; ++i) {
    std::size_t place = 0;
    const char* entry = file.data() + first + i * 20;
    std::from_chars(entry, entry + 10, place);
    const std::string object = std::to_string(i) + " 0 obj\n";
    EXPECT_EQ(file.substr(place, object.size()), object);
  }
}

TEST(Pdf, SameDocumentSameBytesWhateverTheMachineSays) {
  const std::string file = write_pdf(every_block());
  EXPECT_EQ(file, write_pdf(every_block()));
  for (const char* name : {"QT_SCALE_FACTOR", "QT_FONT_DPI", "QT_USE_PHYSICAL_DPI"}) setenv(name, "3", 1);
  setenv("QT_QPA_PLATFORM", "none such", 1);
  setenv("TZ", "Pacific/Apia", 1); // a day is written with its distance from UTC, which is longer than a Z
  setenv("XDG_RUNTIME_DIR", "/not there", 1);
  EXPECT_EQ(file, write_pdf(every_block()));
  EXPECT_STREQ(std::getenv("XDG_RUNTIME_DIR"), "/not there"); // as it was
  EXPECT_EQ(std::getenv("FONTCONFIG_FILE"), nullptr);
}

TEST(Pdf, OtherWordsOtherBytes) {
  Document other = every_block();
  std::get<Heading>(other.blocks[0].content).text = "Other";
  EXPECT_NE(write_pdf(other), write_pdf(every_block()));
}

TEST(Pdf, TextWithoutLettersIsPrinted) {
  Document document = every_block();
  document.blocks = {Block{Heading{1, "", "\u6f22\u5b57 \U0001F600"}}};
  EXPECT_EQ(count_of(write_pdf(document), "/Type /Page\n"), 1U);
}

TEST(Pdf, AFileThatIsBuiltOtherwiseIsRefused) {
  EXPECT_THROW(pdf::finish_pdf("%PDF-1.7\nstartxref\n3\n%%EOF\n", {}, "en"), Error);
}

/// A source's text, with its \uXXXX written out.
std::string source_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  const std::string raw((std::istreambuf_iterator<char>(in)), {});
  std::string out;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    if (raw.compare(i, 2, "\\u") != 0 || i + 6 > raw.size()) {
      out += raw[i];
      continue;
    }
    unsigned code = 0;
    std::from_chars(raw.data() + i + 2, raw.data() + i + 6, code, 16);
    if (code >= 0x800U) out += static_cast<char>(0xE0U | (code >> 12U));
    out += static_cast<char>(code >= 0x800U ? 0x80U | ((code >> 6U) & 0x3FU) : 0xC0U | (code >> 6U));
    out += static_cast<char>(0x80U | (code & 0x3FU));
    i += 5;
  }
  return out;
}

TEST(Pdf, EverySignTheDocumentsPrintHasALetter) {
  namespace fs = std::filesystem;
  std::string all;
  for (const char* folder : {"report", "core", "ingest"})
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(DOCKET_TESTS_DIR).parent_path() / folder))
      if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h") all += source_text(entry.path());
  EXPECT_NE(all.find("\u2212"), std::string::npos);
  EXPECT_NE(all.find("\u202f"), std::string::npos);
  EXPECT_EQ(pdf::signs_without_letter(all), std::vector<std::string>());
  EXPECT_EQ(pdf::signs_without_letter("a\u6f22b\u6f22\U0001F3AD"), (std::vector<std::string>{"\u6f22", "\U0001F3AD"}));
}

} // namespace
} // namespace docket
