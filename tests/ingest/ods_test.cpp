// OpenDocument workbooks written by hand from the clauses of OpenDocument 1.3 part 3 (awkward_files/make.py); the
// expected values are what make.py put in. Workbooks written by another program: workbook_test.cpp.
#include "core/error.h"
#include "ingest/file_hash.h"
#include "ingest/workbook.h"
#include "tests/ingest/awkward_files.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace docket {
namespace {

TEST(Ods, cells_of_every_type) {
  const RawFile file = read_workbook(path_of("cells.ods"));
  ASSERT_EQ(file.tables.size(), 2U);
  // Days by Python: date(1899, 12, 30) + timedelta(hours=1105974) is 2026-03-01 06:00.
  EXPECT_EQ(rows_of(sheet(file, "s")),
            (Rows{{1, {"n:-57.5",   "%:0.804",   "n:12.5",     "d:2026-03-02",  "d:2026-03-02T06:05:30.250",
                       "D:6:05:00", "D:6:05:00", "D:26:30:00", "D:0:00:57.500", "d:2026-03-01T06:05:30",
                       "b:TRUE",    "b:FALSE",   "b:TRUE",     "t:plain",       "t:stored",
                       "n:8",       "?:",        "?:",         "e:#DIV/0!",     "t:no type"}}}));
}

TEST(Ods, texts_as_they_are_shown) {
  const RawFile file = read_workbook(path_of("cells.ods"));
  EXPECT_EQ(rows_of(sheet(file, "texts & notes")),
            (Rows{{1,
                   {"t:first\nsecond", "t:two   blanks", "t:a\tb\nc", "t:many white places", "t:in a link and 3 March",
                    "t:read", "t:with note", "t:beside", "t:base", "-:", "t:5 < 6 & 7"}}}));
}

TEST(Ods, repeated_cells_and_rows_stand_where_they_are) {
  const RawFile file = read_workbook(path_of("repeats.ods"));
  ASSERT_EQ(file.tables.size(), 2U) << "what only caches another file is no sheet";
  EXPECT_EQ(rows_of(sheet(file, "s")), (Rows{{1, {"t:title"}},
                                             {5, {"-:", "-:", "n:7", "n:7", "n:7"}},
                                             {6, {"-:", "-:", "n:7", "n:7", "n:7"}},
                                             {7, {"n:7"}}}));
  EXPECT_TRUE(sheet(file, "blank").rows.empty());
}

TEST(Ods, times_count_from_the_day_the_file_names) {
  const RawFile file = read_workbook(path_of("day_0.ods"));
  // Python: date(1904, 1, 1) + timedelta(hours=1070886) is 2026-03-01 06:00.
  EXPECT_EQ(rows_of(sheet(file, "s")), (Rows{{1, {"D:6:00:00", "d:2026-03-01T06:05:00"}}}));
}

TEST(Ods, without_its_first_part_is_known_by_its_content) {
  EXPECT_EQ(rows_of(sheet(read_workbook(path_of("no_mimetype.ods")), "s")), (Rows{{1, {"n:7"}}}));
}

TEST(Ods, is_known_by_its_content_whatever_its_name_is) {
  const RawFile file = parse_workbook(read_file_bytes(path_of("cells.ods")), "log.xlsx");
  EXPECT_EQ(file.file, "log.xlsx");
  EXPECT_EQ(file.tables.size(), 2U);
}

// ---- what is refused ------------------------------------------------------------------------------------------------

const std::string copy_again = " Copy it again from where it came, or save it again in a spreadsheet program.";
const std::string save_again =
    " Open it in a spreadsheet program and save it again as .xlsx; if that does not help, ask where it came from.";
const std::string too_much = " Delete the sheets that are not needed, or give a long log as a CSV file.";

struct OdsRefusal {
  std::string file;
  std::string message; ///< Behind the file's name.
};

void PrintTo(const OdsRefusal& refusal, std::ostream* out) { *out << refusal.file; }

class OdsRefusals : public testing::TestWithParam<OdsRefusal> {};

TEST_P(OdsRefusals, say_what_is_wrong_and_what_to_do) {
  EXPECT_EQ(message_of(path_of(GetParam().file)), GetParam().file + ": " + GetParam().message);
}

OdsRefusal damaged(const std::string& file, const std::string& detail) {
  return {file, "The workbook is damaged (sheet \"s\", row 7: " + detail + ")." + copy_again};
}

INSTANTIATE_TEST_SUITE_P(
    Files, OdsRefusals,
    testing::Values(
        OdsRefusal{"letter.ods", "This is an OpenDocument file, but no workbook. Open it in the program that made it, "
                                 "and save its table as .ods or .xlsx."},
        OdsRefusal{"locked.ods", "This workbook is encrypted. Open it in a spreadsheet program, remove the password, "
                                 "and save it again."},
        OdsRefusal{"laughs.ods",
                   "A part of the workbook declares a document type, which no workbook does (content.xml)." +
                       save_again},
        OdsRefusal{"deep.ods", "A part of the workbook is nested more than 256 deep (content.xml)." + save_again},
        OdsRefusal{"long_tag.ods", "A part of the workbook holds a tag that does not end (content.xml)." + save_again},
        OdsRefusal{"bomb.ods", "The workbook unpacks to more than 16 MiB." + too_much},
        OdsRefusal{"all_cells.ods", "The workbook holds more than 10000000 cells." + too_much},
        OdsRefusal{"all_blanks.ods", "The workbook holds more than 256 MiB of text." + too_much},
        damaged("bad_value.ods", "number \"12,5\""), damaged("bad_kind.ods", "cell type \"colour\""),
        damaged("bad_truth.ods", "truth value \"yes\""), damaged("bad_time.ods", "time \"6:05\""),
        damaged("no_value.ods", "a cell of type \"float\" without a value"),
        damaged("too_long.ods", "row 7 is too long"), damaged("bad_repeat.ods", "repeated \"-1\" times"),
        OdsRefusal{"too_deep_down.ods",
                   "The workbook is damaged (sheet \"s\", row 1048577: it has more than 1048576 rows)." + copy_again}));

TEST(Ods, with_a_changed_byte_fails_its_check_sum) {
  std::string bytes = read_file_bytes(path_of("repeats.ods"));
  // The content is the last part; its data stand in front of the central directory.
  const std::size_t directory = bytes.find("PK\x01\x02");
  bytes[directory - 40] = static_cast<char>(bytes[directory - 40] ^ 0x10);
  try {
    parse_workbook(bytes, "changed.ods");
    ADD_FAILURE() << "no error";
  } catch (const Error& error) {
    EXPECT_TRUE(std::string(error.what()).starts_with("changed.ods: The workbook is damaged (content.xml"))
        << error.what();
  }
}

TEST(Ods, cut_at_any_byte_is_refused) {
  const std::string bytes = read_file_bytes(path_of("repeats.ods"));
  for (std::size_t size = 0; size + 22 <= bytes.size(); ++size)
    EXPECT_THROW(parse_workbook(std::string_view(bytes).substr(0, size), "cut.ods"), Error) << size;
}

} // namespace
} // namespace docket
