// How fast workbooks and event logs are read, and how much memory that takes beside the values. See run.py.
//
//     readers_speed make FILE.xlsx ROWS    a cycle log of 8 columns
//     readers_speed read FILE              "seconds S processor S rows N cells N peak_mb M values_mb M"
#include "ingest/event_log.h"
#include "ingest/workbook.h"

#include <sys/resource.h>
#include <xlsxwriter.h>

#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>

namespace docket {
namespace {

int make(const std::string& path, int rows) {
  lxw_workbook_options options{};
  options.constant_memory = LXW_TRUE;
  lxw_workbook* const book = workbook_new_opt(path.c_str(), &options);
  lxw_format* const instant = workbook_add_format(book);
  format_set_num_format(instant, "yyyy-mm-dd hh:mm:ss");
  lxw_worksheet* const sheet = workbook_add_worksheet(book, "cycle_log");
  const std::array<const char*, 8> names{"started_at", "cycle_s",  "unit",   "variant",
                                         "station",    "operator", "wait_s", "mark"};
  for (std::size_t i = 0; i < names.size(); ++i)
    worksheet_write_string(sheet, 0, static_cast<lxw_col_t>(i), names[i], nullptr);
  const double first_day = 46083; // 2026-03-02
  for (int i = 0; i < rows; ++i) {
    const auto row = static_cast<lxw_row_t>(i + 1);
    worksheet_write_number(sheet, row, 0, first_day + i * 58.0 / 86400, instant);
    worksheet_write_number(sheet, row, 1, 50 + (i * 7919 % 1000) / 100.0, nullptr);
    worksheet_write_string(sheet, row, 2, ("U" + std::to_string(i)).c_str(), nullptr);
    worksheet_write_string(sheet, row, 3, i % 4 == 0 ? "V2" : "V1", nullptr);
    worksheet_write_string(sheet, row, 4, "HP-11", nullptr);
    worksheet_write_string(sheet, row, 5, ("B" + std::to_string(i / 450 % 9 + 1)).c_str(), nullptr);
    worksheet_write_number(sheet, row, 6, i % 10 / 2.0, nullptr);
    worksheet_write_string(sheet, row, 7, i % 50 == 0 ? "helped" : "foreign", nullptr);
  }
  return workbook_close(book) == LXW_NO_ERROR ? 0 : 3;
}

int read(const std::string& path) {
  constexpr double mb = 1e6;
  const auto begin = std::chrono::steady_clock::now();
  const RawFile file = path.ends_with(".gz") || path.ends_with(".xes") ? read_event_log(path) : read_workbook(path);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
  std::size_t rows = 0, cells = 0, bytes = 0;
  const std::size_t inside = std::string().capacity();
  for (const RawTable& table : file.tables)
    for (const RawRow& row : table.rows) {
      ++rows;
      cells += row.cells.size();
      bytes += sizeof(RawRow) + row.cells.capacity() * sizeof(RawCell);
      for (const RawCell& cell : row.cells)
        if (cell.text.capacity() > inside) bytes += cell.text.capacity() + 1;
    }
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
  };
  std::printf("seconds %.3f processor %.3f rows %zu cells %zu peak_mb %.0f values_mb %.0f\n", taken.count(),
              seconds(used.ru_utime) + seconds(used.ru_stime), rows, cells,
              static_cast<double>(used.ru_maxrss) * 1024 / mb, static_cast<double>(bytes) / mb);
  return 0;
}

} // namespace
} // namespace docket

int main(int count, char** words) {
  const std::string verb = count > 1 ? words[1] : "";
  try {
    if (verb == "make" && count == 4) return docket::make(words[2], std::atoi(words[3]));
    if (verb == "read" && count == 3) return docket::read(words[2]);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  std::fprintf(stderr, "readers_speed make FILE.xlsx ROWS | readers_speed read FILE\n");
  return 2;
}
