#include "ingest/blank_workbook.h"

#include "core/error.h"
#include "core/marks.h"
#include "ingest/blank_workbook_text.h"
#include "ingest/tables.h"
#include "ingest/walk_list.h"

#include <xlsxwriter.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace docket {

namespace {

/// 2026-01-01 00:00 UTC. A constant, so that the same version writes the same bytes.
constexpr time_t created = 1767225600;

/// How far down drop-down lists reach; logs are pasted in, and need none.
constexpr lxw_row_t rows_with_lists = 2000;

/// Widths of the first sheet's columns [characters].
constexpr double sheet_width = 24, purpose_width = 66, absent_width = 66;

constexpr double line_height = 15; // [pt], of the default font

struct Formats {
  lxw_format *title, *heading, *prose, *header, *needed, *note, *key, *needed_key;
};

/// Formats of the cells that are filled in; in `case` and `settings` with a frame around each.
struct InputFormats {
  lxw_format *plain, *text, *date, *instant, *time_of_day;
};

lxw_format* new_format(lxw_workbook* book, bool bold, bool wrapped) {
  lxw_format* format = workbook_add_format(book);
  if (bold) format_set_bold(format);
  if (wrapped) {
    format_set_text_wrap(format);
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
  }
  return format;
}

InputFormats make_input_formats(lxw_workbook* book, bool framed) {
  const auto format = [&](const char* code) {
    lxw_format* const made = workbook_add_format(book);
    if (code) format_set_num_format(made, code);
    if (framed) {
      format_set_border(made, LXW_BORDER_THIN);
      format_set_text_wrap(made);
      format_set_align(made, LXW_ALIGN_VERTICAL_TOP);
      format_set_align(made, LXW_ALIGN_LEFT);
    }
    return made;
  };
  return {format(nullptr), format("@"), format("yyyy-mm-dd"), format("yyyy-mm-dd hh:mm:ss"), format("hh:mm")};
}

/// Lines a text takes when it is wrapped at blanks.
double lines_of(std::string_view text, double width) {
  const auto room = static_cast<std::size_t>(width * 0.93); // letters are wider than the digits a width is counted in
  std::size_t lines = 1;
  std::size_t used = 0;
  while (!text.empty()) {
    const std::size_t word = std::min(text.find(' '), text.size());
    if (used > 0 && used + 1 + word > room) {
      ++lines;
      used = 0;
    }
    used += (used > 0 ? 1 : 0) + word;
    text.remove_prefix(std::min(text.size(), word + 1));
  }
  return static_cast<double>(lines);
}

void set_height(lxw_worksheet* sheet, lxw_row_t row, double lines) {
  worksheet_set_row(sheet, row, line_height * lines + 1, nullptr);
}

Formats make_formats(lxw_workbook* book) {
  Formats f{};
  f.title = new_format(book, true, false);
  format_set_font_size(f.title, 16);
  f.heading = new_format(book, true, false);
  f.prose = new_format(book, false, true);
  f.header = new_format(book, true, false);
  format_set_bottom(f.header, LXW_BORDER_THIN);
  f.needed = new_format(book, true, false);
  format_set_bottom(f.needed, LXW_BORDER_THICK);
  format_set_bg_color(f.needed, 0xE0E0E0);
  f.note = new_format(book, false, true);
  format_set_italic(f.note);
  format_set_font_color(f.note, 0x505050);
  f.key = new_format(book, false, true);
  f.needed_key = new_format(book, true, true);
  format_set_bg_color(f.needed_key, 0xE0E0E0);
  return f;
}

/// Names and codes are text, or a spreadsheet program would make a day of 3-11 and a number of 007.
lxw_format* format_of(const InputFormats& f, ColumnKind kind) {
  switch (kind) {
  case ColumnKind::text:
  case ColumnKind::name:
  case ColumnKind::names:
  case ColumnKind::code:
  case ColumnKind::codes:
  case ColumnKind::choice:
  case ColumnKind::marks:
    return f.text;
  case ColumnKind::date:
    return f.date;
  case ColumnKind::instant:
    return f.instant;
  case ColumnKind::time_of_day:
  case ColumnKind::time_on_day:
    return f.time_of_day;
  default:
    return f.plain;
  }
}

std::string note_text(const ColumnDeclaration& column) {
  return (column.required && !column.may_be_blank ? "Needed. " : "") + std::string(column.note);
}

void write(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t column, const std::string& text, lxw_format* format) {
  worksheet_write_string(sheet, row, column, text.c_str(), format);
}

/// A drop-down of the words; `strict`: no other word may be typed.
void offer(lxw_worksheet* sheet, lxw_row_t first, lxw_row_t last, lxw_col_t column,
           const std::vector<std::string>& words, bool strict) {
  std::vector<std::string> kept = words;
  std::vector<char*> list;
  for (std::string& word : kept) list.push_back(word.data());
  list.push_back(nullptr);
  lxw_data_validation validation{};
  validation.validate = LXW_VALIDATION_TYPE_LIST;
  validation.value_list = list.data();
  validation.show_error = strict ? LXW_VALIDATION_ON : LXW_VALIDATION_OFF;
  worksheet_data_validation_range(sheet, first, column, last, column, &validation);
}

void offer_words(lxw_worksheet* sheet, lxw_row_t first, lxw_row_t last, lxw_col_t place,
                 const ColumnDeclaration& column) {
  if (column.kind == ColumnKind::choice) {
    offer(sheet, first, last, place, {column.words.begin(), column.words.end()}, true);
  } else if (column.kind == ColumnKind::marks) {
    std::vector<std::string> marks;
    for (const MarkUse& use : mark_uses) marks.emplace_back(use.name);
    offer(sheet, first, last, place, marks, false);
  } else if (column.kind == ColumnKind::text && !column.words.empty()) {
    offer(sheet, first, last, place, {column.words.begin(), column.words.end()}, false);
  }
}

void set_page(lxw_worksheet* sheet, lxw_row_t header_row) {
  constexpr std::uint8_t a4 = 9;
  worksheet_set_landscape(sheet);
  worksheet_set_paper(sheet, a4);
  worksheet_fit_to_pages(sheet, 1, 0);
  worksheet_set_footer(sheet, "&L&A&R&P / &N");
  worksheet_freeze_panes(sheet, header_row + 1, 0);
  worksheet_repeat_rows(sheet, header_row, header_row);
}

double width_of(const ColumnDeclaration& column) {
  const double by_note = static_cast<double>(column.note.size()) / 5;
  const double least = column.kind == ColumnKind::text || column.kind == ColumnKind::instant ? 20 : 14;
  return std::clamp(by_note, least, 40.0);
}

void write_key_sheet(lxw_worksheet* sheet, const TableDeclaration& table, const Formats& f, const InputFormats& input) {
  constexpr double note_width = 80;
  const bool reasons = table.table == TableName::settings;
  lxw_row_t row = 0;
  if (!table.heading.empty()) write(sheet, row++, 0, std::string(table.heading), f.heading);
  const lxw_col_t reason = 2;
  const lxw_col_t note = reasons ? 3 : 2;
  set_page(sheet, row);
  worksheet_set_column(sheet, 0, 0, 30, nullptr);
  worksheet_set_column(sheet, 1, 1, 36, nullptr);
  if (reasons) worksheet_set_column(sheet, reason, reason, 36, nullptr);
  worksheet_set_column(sheet, note, note, note_width, nullptr);
  const auto columns = key_value_columns();
  write(sheet, row, 0, "key", f.needed);
  write(sheet, row, 1, "value", f.needed);
  if (reasons) write(sheet, row, reason, "reason", f.header);
  write(sheet, row++, note, "note", f.header);
  write(sheet, row, 0, "# " + std::string(columns[0].note), f.note);
  write(sheet, row, 1, std::string(columns[1].note), f.note);
  if (reasons) write(sheet, row, reason, std::string(columns[2].note), f.note);
  write(sheet, row++, note, std::string(columns[3].note), f.note);
  for (const ColumnDeclaration& key : table.columns) {
    write(sheet, row, 0, std::string(key.name), key.required ? f.needed_key : f.key);
    worksheet_write_blank(sheet, row, 1, format_of(input, key.kind));
    if (reasons) worksheet_write_blank(sheet, row, reason, input.text);
    write(sheet, row, note, note_text(key), f.prose);
    set_height(sheet, row, lines_of(note_text(key), note_width));
    offer_words(sheet, row, row, 1, key);
    ++row;
  }
}

void write_table_sheet(lxw_worksheet* sheet, const TableDeclaration& table, const Formats& f,
                       const InputFormats& input) {
  set_page(sheet, 0);
  lxw_col_t place = 0;
  double lines = 1;
  for (const ColumnDeclaration& column : table.columns) {
    const std::string note = (place == 0 ? "# " : "") + note_text(column);
    lines = std::max(lines, lines_of(note, width_of(column)));
    worksheet_set_column(sheet, place, place, width_of(column), format_of(input, column.kind));
    write(sheet, 0, place, std::string(column.name), column.required ? f.needed : f.header);
    write(sheet, 1, place, note, f.note);
    offer_words(sheet, 2, rows_with_lists, place, column);
    ++place;
  }
  set_height(sheet, 1, lines);
}

/// A paragraph over the three columns.
void write_prose(lxw_worksheet* sheet, lxw_row_t row, const std::string& text, lxw_format* format) {
  set_height(sheet, row, lines_of(text, sheet_width + purpose_width + absent_width));
  worksheet_merge_range(sheet, row, 0, row, 2, text.c_str(), format);
}

void write_first_sheet(lxw_worksheet* sheet, const Formats& f) {
  worksheet_set_landscape(sheet);
  worksheet_set_paper(sheet, 9);
  worksheet_fit_to_pages(sheet, 1, 0);
  worksheet_set_column(sheet, 0, 0, sheet_width, nullptr);
  worksheet_set_column(sheet, 1, 1, purpose_width, nullptr);
  worksheet_set_column(sheet, 2, 2, absent_width, nullptr);
  lxw_row_t row = 0;
  for (const Paragraph& paragraph : first_sheet_paragraphs()) {
    lxw_format* const format = paragraph.style == Paragraph::Style::title     ? f.title
                               : paragraph.style == Paragraph::Style::heading ? f.heading
                                                                              : f.prose;
    write_prose(sheet, row, std::string(paragraph.text), format);
    if (paragraph.style == Paragraph::Style::title) set_height(sheet, row, 1.6);
    ++row;
  }
  ++row;
  write(sheet, row, 0, "Sheet", f.header);
  write(sheet, row, 1, "What it is for", f.header);
  write(sheet, row++, 2, "What is missing without it", f.header);
  for (const TableDeclaration& table : all_tables()) {
    const std::string purpose =
        std::string(table.purpose) + (table.used_now ? "" : " Checked and kept; not yet used in this version.");
    const std::string absent(table.required ? "Needed." : table.absent);
    write(sheet, row, 0, std::string(name_of(table.table)), table.required ? f.needed_key : f.key);
    write(sheet, row, 1, purpose, f.prose);
    write(sheet, row, 2, absent, f.prose);
    set_height(sheet, row++, std::max(lines_of(purpose, purpose_width), lines_of(absent, absent_width)));
  }
  ++row;
  write_prose(sheet, row++, std::string(triggers_heading()), f.heading);
  const TableDeclaration& referrals = declaration_of(TableName::referrals);
  for (const std::string_view trigger : referrals.columns[find_column(referrals, "trigger").value()].words) {
    worksheet_merge_range(sheet, row, 0, row, 2, std::string(trigger).c_str(), f.prose);
    ++row;
  }
}

lxw_workbook* new_workbook(const std::string& file, std::string title) {
  lxw_workbook* const book = workbook_new(file.c_str());
  if (!book) return nullptr;
  lxw_doc_properties properties{};
  properties.title = title.data();
  properties.created = created;
  workbook_set_properties(book, &properties);
  return book;
}

lxw_error write_all(const std::string& file) {
  lxw_workbook* const book = new_workbook(file, "Station Docket: blank workbook");
  if (!book) return LXW_ERROR_MEMORY_MALLOC_FAILED;
  const Formats formats = make_formats(book);
  const InputFormats framed = make_input_formats(book, true);
  const InputFormats open = make_input_formats(book, false);
  write_first_sheet(workbook_add_worksheet(book, "start_here"), formats);
  for (const TableDeclaration& table : all_tables()) {
    lxw_worksheet* const sheet = workbook_add_worksheet(book, std::string(name_of(table.table)).c_str());
    if (table.key_value)
      write_key_sheet(sheet, table, formats, framed);
    else
      write_table_sheet(sheet, table, formats, open);
  }
  return workbook_close(book);
}

/// A row over all columns that is not read.
void write_note(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t last, const std::string& text, double width,
                lxw_format* format) {
  worksheet_merge_range(sheet, row, 0, row, last, ("# " + text).c_str(), format);
  set_height(sheet, row, lines_of(text, width));
}

lxw_error write_walk(const std::string& file) {
  lxw_workbook* const book = new_workbook(file, "Station Docket: check list for a station walk");
  if (!book) return LXW_ERROR_MEMORY_MALLOC_FAILED;
  const Formats f = make_formats(book);
  const InputFormats framed = make_input_formats(book, true);
  lxw_worksheet* const sheet = workbook_add_worksheet(book, std::string(name_of(TableName::conditions)).c_str());
  const TableDeclaration& table = declaration_of(TableName::conditions);
  const auto last = static_cast<lxw_col_t>(table.columns.size() - 1);
  constexpr double check_width = 52, text_width = 26, other_width = 14;
  double all_width = 0;
  lxw_row_t row = 0;
  for (const std::string_view line : walk_introduction()) {
    write_note(sheet, row, last, std::string(line), check_width + text_width + 4 * other_width, f.prose);
    ++row;
  }
  set_page(sheet, row);
  for (lxw_col_t place = 0; place <= last; ++place) {
    const ColumnDeclaration& column = table.columns[place];
    const double width = place == 0 ? check_width : column.kind == ColumnKind::text ? text_width : other_width;
    worksheet_set_column(sheet, place, place, width, nullptr);
    write(sheet, row, place, std::string(column.name), column.required ? f.needed : f.header);
    all_width += width;
  }
  ++row;
  for (const WalkTopic& topic : walk_topics()) {
    write_note(sheet, row++, last, std::string(topic.topic), all_width, f.heading);
    for (const std::string_view check : topic.checks) {
      if (check.empty()) continue;
      for (lxw_col_t place = 0; place <= last; ++place) {
        const ColumnDeclaration& column = table.columns[place];
        lxw_format* const format = format_of(framed, column.kind);
        if (place == 0)
          write(sheet, row, place, std::string(check), format);
        else if (column.name == "state")
          write(sheet, row, place, "not_checked", format);
        else
          worksheet_write_blank(sheet, row, place, format);
        offer_words(sheet, row, row, place, column);
      }
      set_height(sheet, row, std::max(1.5, lines_of(check, check_width)));
      ++row;
    }
  }
  return workbook_close(book);
}

void write_new_workbook(const std::string& path, lxw_error (*write_file)(const std::string&)) {
  namespace fs = std::filesystem;
  std::error_code failed;
  if (fs::exists(fs::symlink_status(path, failed)))
    throw Error(ErrorKind::could_not_be_done, path, "There is a file of this name already.",
                "Give another name, or move the file away.");
  const std::string unfinished = path + ".part";
  const auto refuse = [&] {
    fs::remove(unfinished, failed);
    throw Error(ErrorKind::could_not_be_done, path, "The workbook could not be written.",
                "Check that the folder exists, that you may write in it and that the disk has room.");
  };
  // The library reports a folder that can't be written to on stderr; so it is tried before.
  if (!std::ofstream(unfinished, std::ios::binary)) refuse();
  if (write_file(unfinished) != LXW_NO_ERROR) refuse();
  fs::rename(unfinished, path, failed);
  if (failed) refuse();
}

} // namespace

void write_blank_workbook(const std::string& path) { write_new_workbook(path, write_all); }

void write_walk_list(const std::string& path) { write_new_workbook(path, write_walk); }

} // namespace docket
