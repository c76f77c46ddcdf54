// CSV text as rows of cells. The expected cells are what RFC 4180 section 2 defines (its numbers stand beside the
// checks), or the deviation that ingest/csv.h names; the digests are the examples of FIPS 180.
#include "core/error.h"
#include "ingest/csv.h"
#include "ingest/file_hash.h"
#include "ingest/text_encoding.h"

#include <gtest/gtest.h>

#include <fstream>
#include <string>
#include <utility>
#include <vector>

namespace docket {
namespace {

using Rows = std::vector<std::pair<std::int64_t, std::vector<std::string>>>;

Rows rows_of(const RawTable& table) {
  Rows rows;
  for (const auto& row : table.rows) {
    rows.emplace_back(row.number, std::vector<std::string>());
    for (const auto& cell : row.cells) {
      EXPECT_EQ(cell.kind, cell.text.empty() ? CellKind::blank : CellKind::text);
      rows.back().second.push_back(cell.text);
    }
  }
  return rows;
}

Rows parsed(std::string_view text) { return rows_of(parse_csv(text, "readings.csv")); }

std::string message_of(std::string_view text) {
  try {
    parse_csv(text, "readings.csv");
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::input_has_faults);
    return error.what();
  }
  return "no error";
}

std::string utf16(std::u16string_view text, bool big_end_first) {
  std::string bytes;
  for (const char16_t unit : text) {
    const char high = static_cast<char>(unit >> 8), low = static_cast<char>(unit & 0xFF);
    bytes += big_end_first ? high : low;
    bytes += big_end_first ? low : high;
  }
  return bytes;
}

// RFC 4180 section 2, rules 1, 2, 5, 6 and 7 with their own examples.
TEST(Csv, reads_the_examples_of_its_definition) {
  const Rows plain{{1, {"aaa", "bbb", "ccc"}}, {2, {"zzz", "yyy", "xxx"}}};
  EXPECT_EQ(parsed("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), plain);
  EXPECT_EQ(parsed("aaa,bbb,ccc\r\nzzz,yyy,xxx"), plain);
  EXPECT_EQ(parsed("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), plain);
  EXPECT_EQ(parsed("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{1, {"aaa", "b\nbb", "ccc"}}, {3, {"zzz", "yyy", "xxx"}}}));
  EXPECT_EQ(parsed("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{1, {"aaa", "b\"bb", "ccc"}}}));
}

TEST(Csv, names_the_table_after_the_file) {
  EXPECT_EQ(parse_csv("a,b", "cycle_log.csv").name, "cycle_log");
  EXPECT_TRUE(parse_csv("", "cycle_log.csv").rows.empty());
  EXPECT_TRUE(parse_csv("\xEF\xBB\xBF\n\n", "cycle_log.csv").rows.empty());
}

TEST(Csv, finds_the_separator) {
  const Rows expected{{1, {"element", "time_s", "note"}}, {2, {"lift", "12,5", "left, then right"}}};
  const RawTable semicolon = parse_csv("element;time_s;note\nlift;12,5;left, then right\n", "standard.csv");
  EXPECT_EQ(rows_of(semicolon), expected);
  EXPECT_TRUE(semicolon.decimal_comma_possible);
  const RawTable tab = parse_csv("element\ttime_s\tnote\nlift\t12,5\tleft, then right\n", "standard.csv");
  EXPECT_EQ(rows_of(tab), expected);
  EXPECT_TRUE(tab.decimal_comma_possible);
  const RawTable comma = parse_csv("element,time_s,note\nlift,\"12,5\",\"left, then right\"\n", "standard.csv");
  EXPECT_EQ(rows_of(comma), expected);
  EXPECT_FALSE(comma.decimal_comma_possible);
}

TEST(Csv, is_not_misled_by_separators_inside_cells) {
  // A list in every data row, but not in the header.
  EXPECT_EQ(parsed("variant,options\nA,x;y\nB,x;z\n"),
            (Rows{{1, {"variant", "options"}}, {2, {"A", "x;y"}}, {3, {"B", "x;z"}}}));
  // A decimal comma in every data row, a title above the header.
  EXPECT_EQ(parsed("Readings, May\ncycle;time_s\n1;57,5\n2;58,1\n"),
            (Rows{{1, {"Readings, May"}}, {2, {"cycle", "time_s"}}, {3, {"1", "57,5"}}, {4, {"2", "58,1"}}}));
  EXPECT_EQ(parsed("\"a;b\",\"c;d\"\n\"e;f\",\"g;h\"\n"), (Rows{{1, {"a;b", "c;d"}}, {2, {"e;f", "g;h"}}}));
  EXPECT_EQ(parsed("element\nlift\n"), (Rows{{1, {"element"}}, {2, {"lift"}}}));
}

TEST(Csv, obeys_a_first_line_that_states_the_separator) {
  EXPECT_EQ(parsed("sep=;\r\na,b;c\r\n"), (Rows{{2, {"a,b", "c"}}}));
  EXPECT_EQ(parsed("sep=,\na;b,c\n"), (Rows{{2, {"a;b", "c"}}}));
}

TEST(Csv, counts_lines_over_all_line_ends_blank_lines_and_quoted_breaks) {
  for (const std::string end : {"\n", "\r\n", "\r"}) {
    const std::string text =
        "a,b" + end + end + " , " + end + "\"1" + end + "2\",x" + end + ",,," + end + "c,d" + end + end;
    EXPECT_EQ(parsed(text), (Rows{{1, {"a", "b"}}, {4, {"1\n2", "x"}}, {7, {"c", "d"}}})) << text;
  }
}

TEST(Csv, trims_cells_and_drops_blank_ones_at_the_end) {
  EXPECT_EQ(parsed(" a ,\t b\xC2\xA0, \"c \" ,,\n,x,\"\",\n"), (Rows{{1, {"a", "b", "c"}}, {2, {"", "x"}}}));
}

TEST(Csv, takes_a_quotation_mark_inside_an_unquoted_field_as_text) {
  EXPECT_EQ(parsed("5\" pipe,b\n"), (Rows{{1, {"5\" pipe", "b"}}}));
}

TEST(Csv, reads_byte_order_marks_and_utf16) {
  const Rows expected{{1, {"pumpe", "W\xC3\xA4rme"}}, {2, {"\xF0\x9F\x94\xA7", "2"}}};
  EXPECT_EQ(parsed("\xEF\xBB\xBFpumpe,W\xC3\xA4rme\n\xF0\x9F\x94\xA7,2\n"), expected);
  const std::u16string_view text = u"\uFEFFpumpe\tW\u00E4rme\r\n\U0001F527\t2\r\n";
  EXPECT_EQ(parsed(utf16(text, false)), expected);
  EXPECT_EQ(parsed(utf16(text, true)), expected);
}

TEST(Csv, says_what_is_wrong_with_text) {
  EXPECT_EQ(message_of("a,b\nW\xE4rme,2\n"), "readings.csv: The text in line 2 is not UTF-8. Open it in a spreadsheet "
                                             "program and save it as CSV UTF-8.");
  EXPECT_EQ(message_of("\xFF\xFE"
                       "a"),
            "readings.csv: The text is marked as UTF-16, but is not. Open it in a spreadsheet "
            "program and save it as CSV UTF-8.");
  EXPECT_EQ(message_of(utf16(u"a,b\n", false)),
            "readings.csv: This is not CSV text: zero bytes are in it. Open it in a "
            "spreadsheet program and save it as CSV UTF-8.");
  EXPECT_EQ(message_of("a,b\n1,\"x\n2,y\n"), "readings.csv: The quotation mark opened in line 2 is never closed. Close "
                                             "it, or double a quotation mark that belongs to the text.");
  EXPECT_EQ(message_of("a,b\nx,\"left\" pump\n"),
            "readings.csv: In line 2 text follows a closing quotation mark. Double "
            "a quotation mark that belongs to the text.");
}

TEST(Csv, reads_a_long_table) {
  std::string text = "cycle;time_s\n";
  for (int i = 1; i <= 20000; ++i) text += std::to_string(i) + ";57,5\n";
  const auto table = parse_csv(text, "readings.csv");
  ASSERT_EQ(table.rows.size(), 20001U);
  EXPECT_EQ(table.rows.back().number, 20001);
  EXPECT_EQ(table.rows.back().cells.front().text, "20000");
}

TEST(CsvFile, is_read_with_its_hash) {
  const std::string path = testing::TempDir() + "/docket_csv_test.csv";
  std::ofstream(path, std::ios::binary) << "abc";
  const RawFile file = read_csv_file(path);
  EXPECT_EQ(file.file, "docket_csv_test.csv");
  // FIPS 180: SHA-256 of "abc".
  EXPECT_EQ(file.sha256, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  ASSERT_EQ(file.tables.size(), 1U);
  EXPECT_EQ(file.tables[0].name, "docket_csv_test");
  EXPECT_EQ(rows_of(file.tables[0]), (Rows{{1, {"abc"}}}));
}

TEST(CsvFile, that_is_a_workbook_is_refused) {
  const std::string path = testing::TempDir() + "/docket_csv_test_zip.csv";
  std::ofstream(path, std::ios::binary) << "PK\x03\x04 and so on";
  try {
    read_csv_file(path);
    ADD_FAILURE() << "no error";
  } catch (const Error& error) {
    EXPECT_STREQ(error.what(), "docket_csv_test_zip.csv: This is not CSV text but a workbook or a zip file. Give a "
                               "workbook the ending .xlsx, or save the sheet as CSV UTF-8.");
  }
}

TEST(FileHash, agrees_with_its_standard) {
  // FIPS 180, examples for SHA-256; the empty message from NIST's test vectors.
  EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_of(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(FileHash, says_why_a_file_cannot_be_read) {
  const auto message = [](const std::string& path) {
    try {
      read_file_bytes(path);
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
      return std::string(error.what());
    }
    return std::string("no error");
  };
  EXPECT_EQ(message(testing::TempDir() + "/no_such_file.csv"),
            "no_such_file.csv: There is no such file. Check the name and the folder.");
  EXPECT_EQ(message(DOCKET_TESTS_DIR "/ingest"), "ingest: This is a folder, not a file. Name a file in it.");
  EXPECT_EQ(message(DOCKET_TESTS_DIR "/ingest/"), "ingest: This is a folder, not a file. Name a file in it.");
}

TEST(TextEncoding, tells_utf8_from_other_bytes) {
  // RFC 3629 section 3 (table), 4 (syntax) and 10 (overlong C0 80, surrogates).
  for (const std::string good : {"", "a", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF",
                                 "\xEE\x80\x80", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_FALSE(find_invalid_utf8(good)) << testing::PrintToString(good);
  }
  for (const std::string bad : {"\x80", "\xC0\x80", "\xC1\xBF", "\xC2",
                                "\xC2"
                                "a",
                                "\xE0\x9F\xBF", "\xED\xA0\x80", "\xE2\x82", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80",
                                "\xF5\x80\x80\x80", "\xFF"}) {
    EXPECT_EQ(find_invalid_utf8("ok" + bad), 2U) << testing::PrintToString(bad);
  }
}

TEST(TextEncoding, marks_what_is_not_utf8) {
  EXPECT_EQ(with_question_marks("leng\x96h\xC3\xA4\xC3"), "leng?h\xC3\xA4?");
  EXPECT_EQ(with_question_marks("\xE2\x82 \xFF\xFF"), "?? ??");
  EXPECT_EQ(with_question_marks(""), "");
}

TEST(TextEncoding, converts_utf16) {
  // RFC 2781 section 5: U+12345 "=Ra" is D8 08 DF 45 00 3D 00 52 00 61; in UTF-8 F0 92 8D 85.
  EXPECT_EQ(utf8_from_utf16(std::string("\xD8\x08\xDF\x45\0=\0R\0a", 10), true), "\xF0\x92\x8D\x85=Ra");
  EXPECT_EQ(utf8_from_utf16(std::string("\x08\xD8\x45\xDF=\0R\0a\0", 10), false), "\xF0\x92\x8D\x85=Ra");
  EXPECT_FALSE(utf8_from_utf16(std::string("\xD8\x08\0a", 4), true));
  EXPECT_FALSE(utf8_from_utf16(std::string("\xD8\x08", 2), true));
  EXPECT_FALSE(utf8_from_utf16(std::string("\xDF\x45", 2), true));
  EXPECT_FALSE(utf8_from_utf16("abc", true));
}

TEST(Utf8, is_cut_between_characters) {
  EXPECT_EQ(first_of_utf8("abc", 5), "abc");
  EXPECT_EQ(first_of_utf8("abcdef", 3), "abc");
  EXPECT_EQ(first_of_utf8("ab\xC3\xA4z", 3), "ab"); // U+00E4 is two bytes (RFC 3629, 3)
  EXPECT_EQ(first_of_utf8("ab\xC3\xA4z", 4), "ab\xC3\xA4");
  EXPECT_EQ(first_of_utf8("\xF0\x9F\x94\xA7", 3), "");
}

} // namespace
} // namespace docket
