// Workbooks as rows of cells. The files in awkward_files/ were written by openpyxl, by LibreOffice 7.4, or by hand from
// the clauses of ISO/IEC 29500-1 (awkward_files/make.py); the expected values are what make.py put in.
#include "core/error.h"
#include "ingest/file_hash.h"
#include "ingest/workbook.h"
#include "tests/ingest/awkward_files.h"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace docket {
namespace {

void write_bytes(const std::string& path, std::string_view bytes) {
  std::ofstream(path, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

// ---- what is read ---------------------------------------------------------------------------------------------------

/// The sheet `kinds` of make.py by its first column; row 1 is the merged title, row 3 the header.
std::map<std::string, RawCell> kinds_of(const RawFile& file) {
  const RawTable& kinds = sheet(file, "kinds");
  EXPECT_EQ(kinds.rows.front().number, 1);
  EXPECT_EQ(shown(kinds.rows.front()), (std::vector<std::string>{"t:Station 12, as found"}));
  EXPECT_EQ(kinds.rows.at(1).number, 3);
  EXPECT_EQ(shown(kinds.rows.at(1)), (std::vector<std::string>{"t:what", "t:value"}));
  std::map<std::string, RawCell> cells;
  for (const auto& row : kinds.rows) {
    cells[row.cells.at(0).text] = row.cells.size() > 1 ? row.cells[1] : RawCell();
  }
  return cells;
}

struct Expected {
  const char* what;
  CellKind kind;
  const char* text;
  double number;
};

// Days are Python's (date - date(1970, 1, 1)).days: 2026-03-02 is 20514.
const std::vector<Expected> kinds_put_in{
    {"text", CellKind::text, "pump, left", 0},
    {"text_of_digits", CellKind::text, "012", 0},
    {"two_lines", CellKind::text, "first\nsecond", 0},
    {"accents", CellKind::text, "W\xC3\xA4rme \xE2\x89\xA5 5 \xF0\x9F\x94\xA7", 0},
    {"whole", CellKind::number, "100000", 100000},
    {"seconds", CellKind::number, "57.5", 57.5},
    {"sum", CellKind::number, "0.3", 0.3}, // 0.1 + 0.2, but both programs write 16 digits at most
    {"small", CellKind::number, "0.000036", 0.000036},
    {"in_days", CellKind::number, "2.5", 2.5},
    {"in_tmu", CellKind::number, "27.8", 27.8},
    {"red", CellKind::number, "-3.25", -3.25},
    {"percent", CellKind::percent, "0.05", 0.05},
    {"percent_1", CellKind::percent, "0.0725", 0.0725},
    {"day", CellKind::date, "2026-03-02", 20514},
    {"day_dotted", CellKind::date, "2026-03-02", 20514},
    {"day_built_in", CellKind::date, "2026-03-02", 20514},
    {"instant", CellKind::date, "2026-03-02T06:05:30.250", 20514 + 21930.25 / 86400},
    {"instant_as_time", CellKind::date, "2026-03-02T06:05:30", 20514 + 21930.0 / 86400},
    {"time_of_day", CellKind::duration, "6:05:00", 21900.0 / 86400},
    {"hours", CellKind::duration, "26:30:00", 26.5 / 24},
    {"minutes", CellKind::duration, "0:00:57.500", 57.5 / 86400},
    {"truth", CellKind::truth, "TRUE", 1},
    {"untruth", CellKind::truth, "FALSE", 0},
    {"error", CellKind::error, "#DIV/0!", 0},
    {"white", CellKind::blank, "", 0},
};

void check_kinds(std::map<std::string, RawCell> cells) {
  for (const auto& expected : kinds_put_in) {
    const RawCell& cell = cells[expected.what];
    EXPECT_EQ(cell.kind, expected.kind) << expected.what;
    EXPECT_EQ(cell.text, expected.text) << expected.what;
    EXPECT_DOUBLE_EQ(cell.number, expected.number) << expected.what;
  }
}

void check_other_sheets(const RawFile& file) {
  std::vector<std::string> names;
  for (const auto& table : file.tables) names.push_back(table.name);
  EXPECT_EQ(names, (std::vector<std::string>{"kinds", "hidden one", "formatted", "empty"}));
  EXPECT_EQ(rows_of(sheet(file, "hidden one")), (Rows{{3, {"-:", "t:seen"}}}));
  // 8,000 formatted cells, two of them with something in it.
  EXPECT_EQ(rows_of(sheet(file, "formatted")), (Rows{{1, {"t:element"}}, {2, {"-:", "-:", "n:5"}}}));
  EXPECT_TRUE(sheet(file, "empty").rows.empty());
}

TEST(Workbook, written_by_openpyxl) {
  const RawFile file = read_workbook(path_of("openpyxl.xlsx"));
  EXPECT_EQ(file.file, "openpyxl.xlsx");
  EXPECT_EQ(file.sha256, sha256_of(read_file_bytes(path_of("openpyxl.xlsx"))));
  auto cells = kinds_of(file);
  check_kinds(cells);
  // openpyxl stores no results.
  EXPECT_EQ(cells["formula"].kind, CellKind::not_calculated);
  // It also writes the text _x0041_ as it is, which by 22.9.2.19 stands for A.
  EXPECT_EQ(cells["looks_escaped"].text, "A");
  check_other_sheets(file);
}

TEST(Workbook, written_by_libreoffice) {
  const RawFile file = read_workbook(path_of("libreoffice.xlsx"));
  auto cells = kinds_of(file);
  check_kinds(cells);
  // It calculates.
  EXPECT_EQ(cells["formula"].kind, CellKind::number);
  EXPECT_EQ(cells["formula"].number, 2);
  // It takes openpyxl's text as it stands, and writes it as _x005F_x0041_.
  EXPECT_EQ(cells["looks_escaped"].text, "_x0041_");
  check_other_sheets(file);
}

TEST(Workbook, written_by_libreoffice_as_ods) {
  const RawFile file = read_workbook(path_of("libreoffice.ods"));
  auto cells = kinds_of(file);
  check_kinds(cells);
  EXPECT_EQ(cells["formula"].number, 2);
  EXPECT_EQ(cells["looks_escaped"].text, "_x0041_");
  check_other_sheets(file);
}

TEST(Workbook, that_counts_days_from_1904) {
  const RawFile file = read_workbook(path_of("days_1904.xlsx"));
  EXPECT_EQ(rows_of(sheet(file, "days")), (Rows{{1, {"d:2026-01-02", "d:2026-01-02T03:04:05", "D:1:30:00"}}}));
}

TEST(Workbook, days_times_and_iso_cells) {
  const RawFile file = read_workbook(path_of("days.xlsx"));
  const Rows rows = rows_of(sheet(file, "s"));
  ASSERT_EQ(rows.size(), 2U);
  // Calendar days by Python: date(1899, 12, 30) + timedelta(days=serial), from serial 61 on.
  EXPECT_EQ(rows[0].second,
            (std::vector<std::string>{"d:1900-01-01", "d:1900-02-28", "t:1900-02-29", "d:1900-03-01", "d:1970-01-01",
                                      "d:9999-12-31", "n:2958466", "n:-1", "d:2022-01-01T03:04:05",
                                      "d:2022-01-01T03:04:05", "d:2022-01-02", "d:2026-03-02", "D:6:00:00",
                                      "d:2026-03-02T06:00:00", "D:36:00:00", "D:0:00:01", "D:12:00:00"}));
  EXPECT_EQ(rows[1].second, (std::vector<std::string>{"d:2026-03-02", "d:2026-03-02T06:05:30.250",
                                                      "d:2026-03-02T06:05:00", "D:6:05:30", "t:2026-02-30"}));
}

TEST(Workbook, strings_in_all_their_shapes) {
  const RawFile file = read_workbook(path_of("strings.xlsx"));
  const Rows expected{
      {1,
       {"t:left pump", "t:plain A\xC3\xA4", "t:_x0041_", "t:\xF0\x9F\x94\xA7", "t:a\nb", "t:half _xD83D_ and _x0001_",
        "t:closeup", "-:", "t:5 < 6 & 7"}},
      {2, {"t:straight in", "t:two runs", "t:stored B", "-:", "e:#DIV/0!", "b:TRUE", "?:", "?:", "n:2"}}};
  EXPECT_EQ(rows_of(sheet(file, "s")), expected);
}

TEST(Workbook, rows_and_cells_without_places) {
  const RawFile file = read_workbook(path_of("places.xlsx"));
  const RawTable& table = sheet(file, "s");
  ASSERT_EQ(table.rows.size(), 4U);
  EXPECT_EQ(table.rows[0].number, 1);
  EXPECT_EQ(shown(table.rows[0]), (std::vector<std::string>{"n:1", "-:", "n:3"}));
  EXPECT_EQ(table.rows[1].number, 4);
  ASSERT_EQ(table.rows[1].cells.size(), 27U);
  EXPECT_EQ(table.rows[1].cells[1].number, 2);
  EXPECT_EQ(table.rows[1].cells[2].number, 3);
  EXPECT_EQ(table.rows[1].cells[26].number, 27);
  EXPECT_EQ(table.rows[2].number, 6);
  EXPECT_EQ(shown(table.rows[2]), (std::vector<std::string>{"n:6", "n:0.30000000000000004", "n:-57.5"}));
  EXPECT_EQ(table.rows[2].cells[1].number, 0.1 + 0.2);
  EXPECT_EQ(table.rows[3].number, 1048576);
  EXPECT_EQ(table.rows[3].cells.size(), 16384U);
}

TEST(Workbook, of_the_strict_edition_with_parts_in_odd_places) {
  const RawFile file = read_workbook(path_of("strict.xlsx"));
  ASSERT_EQ(file.tables.size(), 2U);
  EXPECT_EQ(file.tables[0].name, "second & first");
  EXPECT_EQ(rows_of(file.tables[0]), (Rows{{1, {"n:2"}}}));
  EXPECT_EQ(file.tables[1].name, "first");
  EXPECT_EQ(rows_of(file.tables[1]), (Rows{{1, {"n:1"}}}));
}

TEST(Workbook, whose_part_lies_about_its_size_is_read_by_its_data) {
  const RawFile file = read_workbook(path_of("wrong_size.xlsx"));
  ASSERT_EQ(sheet(file, "s").rows.size(), 1000U);
  EXPECT_EQ(sheet(file, "s").rows.back().cells.at(0).number, 1000);
}

// ---- what is refused ------------------------------------------------------------------------------------------------

const std::string copy_again = " Copy it again from where it came, or save it again in a spreadsheet program.";
const std::string save_again =
    " Open it in a spreadsheet program and save it again as .xlsx; if that does not help, ask where it came from.";

struct Refusal {
  std::string file;
  std::string message; ///< Behind the file's name.
};

void PrintTo(const Refusal& refusal, std::ostream* out) { *out << refusal.file; }

class Refusals : public testing::TestWithParam<Refusal> {};

TEST_P(Refusals, say_what_is_wrong_and_what_to_do) {
  EXPECT_EQ(message_of(path_of(GetParam().file)), GetParam().file + ": " + GetParam().message);
}

INSTANTIATE_TEST_SUITE_P(
    Files, Refusals,
    testing::Values(
        Refusal{"text.xlsx",
                "This is not a workbook although its name ends in .xlsx. Open it in the program that made it "
                "and save it as .xlsx, or as CSV UTF-8 with the ending .csv."},
        Refusal{"empty.xlsx", "The file is empty." + copy_again},
        Refusal{"protected.xlsx",
                "This is a password-protected workbook or an old .xls. Open it in a spreadsheet program, "
                "remove the password, and save it as .xlsx."},
        Refusal{"open_document.ods", "The workbook is damaged (content.xml holds no sheets)." + copy_again},
        Refusal{"binary.xlsx", "Binary workbooks (.xlsb) are not read: save it as .xlsx."},
        Refusal{"letter.xlsx",
                "No workbook is in this file. Open the workbook in a spreadsheet program and save it as .xlsx."},
        Refusal{"letter_with_parts.xlsx",
                "No workbook is in this file. Open the workbook in a spreadsheet program and save it as .xlsx."},
        Refusal{"encrypted_part.xlsx",
                "This workbook is encrypted. Open it in a spreadsheet program, remove the password, "
                "and save it as .xlsx."},
        Refusal{"laughs.xlsx", "A part of the workbook declares a document type, which no workbook does "
                               "(xl/worksheets/sheet1.xml)." +
                                   save_again},
        Refusal{"deep.xlsx",
                "A part of the workbook is nested more than 256 deep (xl/worksheets/sheet1.xml)." + save_again},
        Refusal{"long_tag.xlsx",
                "A part of the workbook holds a tag that does not end (xl/worksheets/sheet1.xml)." + save_again},
        Refusal{"bomb.xlsx",
                "The workbook unpacks to more than 16 MiB. Delete the sheets that are not needed, or give a "
                "long log as a CSV file."},
        Refusal{"twice.xlsx", "The workbook is damaged (its list of parts)." + copy_again},
        Refusal{"twice_in_capitals.xlsx",
                "The workbook is damaged (two parts are called xl/worksheets/sheet1.xml)." + copy_again},
        Refusal{"no_sheet_part.xlsx", "The workbook is damaged (xl/worksheets/sheet1.xml is missing)." + copy_again},
        Refusal{"bad_index.xlsx",
                "The workbook is damaged (sheet \"s\", cell A1: shared text number \"0\")." + copy_again},
        Refusal{"bad_number.xlsx", "The workbook is damaged (sheet \"s\", cell C5: number \"12,5\")." + copy_again},
        Refusal{"bad_order.xlsx",
                "The workbook is damaged (sheet \"s\": row 2 comes twice or out of order)." + copy_again},
        Refusal{"bad_cell.xlsx", "The workbook is damaged (sheet \"s\": cell \"B3\" in row 2)." + copy_again},
        Refusal{"bad_cell_order.xlsx",
                "The workbook is damaged (sheet \"s\": cell A2 comes twice or out of order)." + copy_again},
        Refusal{"bad_column.xlsx", "The workbook is damaged (sheet \"s\": cell \"XFE1\" in row 1)." + copy_again},
        Refusal{"bad_row.xlsx", "The workbook is damaged (sheet \"s\": row number \"1048577\")." + copy_again},
        Refusal{"bad_type.xlsx", "The workbook is damaged (sheet \"s\", cell A1: cell type \"z\")." + copy_again},
        Refusal{"bad_xml.xlsx",
                "The workbook is damaged (xl/worksheets/sheet1.xml, line 2: mismatched tag)." + copy_again}));

TEST(ReaderCaps, stop_what_asks_for_too_much) {
  const std::string path = path_of("openpyxl.xlsx");
  const std::string remedy = " Delete the sheets that are not needed, or give a long log as a CSV file.";
  ReaderCaps few_cells;
  few_cells.cells = 40;
  EXPECT_EQ(message_of(path, few_cells), "openpyxl.xlsx: The workbook holds more than 40 cells." + remedy);
  ReaderCaps little_text;
  little_text.text_bytes = 200;
  EXPECT_EQ(message_of(path, little_text), "openpyxl.xlsx: The workbook holds more than 0 MiB of text." + remedy);
  ReaderCaps small_file;
  small_file.file_bytes = 10;
  EXPECT_EQ(message_of(path, small_file), "openpyxl.xlsx: The file is larger than 0 MiB." + remedy);
  ReaderCaps small_parts;
  small_parts.small_part_bytes = 100;
  EXPECT_EQ(message_of(path, small_parts),
            "openpyxl.xlsx: A part of the workbook is larger than 0 MiB (_rels/.rels)." + save_again);
  // A row with one cell at the far right asks for all the cells left of it.
  ReaderCaps no_far_cells;
  no_far_cells.cells = 16000;
  EXPECT_EQ(message_of(path_of("places.xlsx"), no_far_cells),
            "places.xlsx: The workbook holds more than 16000 cells." + remedy);
}

/// What a reader may do with a damaged copy: refuse it, or read what was there. Never anything else.
void check_damaged(const std::string& path, const std::string& bytes, const Rows& whole, std::int64_t& refused) {
  write_bytes(path, bytes);
  try {
    const RawFile file = read_workbook(path);
    ASSERT_EQ(file.tables.size(), 1U);
    EXPECT_EQ(rows_of(file.tables[0]), whole);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::input_has_faults);
    ++refused;
  }
}

TEST(WorkbookDamage, a_file_cut_at_any_byte_is_refused) {
  const std::string bytes = read_file_bytes(path_of("strings.xlsx"));
  const Rows whole = rows_of(read_workbook(path_of("strings.xlsx")).tables.at(0));
  const std::string path = testing::TempDir() + "/docket_cut.xlsx";
  std::int64_t refused = 0;
  for (std::size_t size = 0; size + 22 <= bytes.size(); ++size) {
    check_damaged(path, bytes.substr(0, size), whole, refused);
    ASSERT_EQ(refused, static_cast<std::int64_t>(size) + 1) << "cut to " << size << " bytes";
  }
  write_bytes(path, std::string_view(bytes).substr(0, bytes.size() / 2));
  EXPECT_EQ(message_of(path), "docket_cut.xlsx: The workbook is cut short." + copy_again);
}

TEST(WorkbookDamage, a_changed_byte_is_refused_or_does_not_matter) {
  const std::string bytes = read_file_bytes(path_of("strings.xlsx"));
  const Rows whole = rows_of(read_workbook(path_of("strings.xlsx")).tables.at(0));
  const std::string path = testing::TempDir() + "/docket_changed.xlsx";
  std::int64_t refused = 0;
  for (std::size_t at = 0; at < bytes.size(); ++at) {
    for (const char change : {'\x01', '\xFF'}) {
      std::string changed = bytes;
      changed[at] = static_cast<char>(changed[at] ^ change);
      check_damaged(path, changed, whole, refused);
      ASSERT_FALSE(HasFailure()) << "byte " << at;
    }
  }
  EXPECT_GT(refused, 0);
}

TEST(WorkbookDamage, a_changed_byte_in_a_sheet_fails_its_check_sum) {
  std::string bytes = read_file_bytes(path_of("wrong_size.xlsx"));
  const std::string path = testing::TempDir() + "/docket_check_sum.xlsx";
  // The sheet is the last part; its data stand in front of the central directory.
  const std::size_t directory = bytes.find("PK\x01\x02");
  bytes[directory - 40] = static_cast<char>(bytes[directory - 40] ^ 0x10);
  write_bytes(path, bytes);
  const std::string message = message_of(path);
  EXPECT_TRUE(message.starts_with("docket_check_sum.xlsx: The workbook is damaged (xl/worksheets/sheet1.xml"))
      << message;
}

TEST(Workbook, that_is_not_there) {
  try {
    read_workbook(path_of("no_such_file.xlsx"));
    ADD_FAILURE() << "no error";
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
    EXPECT_STREQ(error.what(), "no_such_file.xlsx: There is no such file. Check the name and the folder.");
  }
}

} // namespace
} // namespace docket
