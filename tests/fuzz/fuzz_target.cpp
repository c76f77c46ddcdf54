#include "tests/fuzz/fuzz_target.h"

#include "ingest/case_reader.h"
#include "ingest/csv.h"
#include "ingest/text_encoding.h"
#include "ingest/workbook.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>

namespace docket::fuzz {

namespace {

bool has_table(const std::vector<RawFile>& files, std::string_view name) {
  for (const RawFile& file : files)
    for (const RawTable& table : file.tables)
      if (table.name == name) return true;
  return false;
}

void add_csv(std::vector<RawFile>& files, const std::string& name, std::string_view text) {
  if (!has_table(files, name)) files.push_back({name + ".csv", "", {parse_csv(text, name + ".csv")}});
}

void check_intake(const Intake& intake) {
  for (const Issue& issue : intake.issues) {
    require_utf8(issue.wrong);
    require_utf8(issue.right);
    require_utf8(issue.raw);
    require_utf8(issue.table + issue.column + issue.file);
  }
  for (const TableCounts& count : intake.counts)
    require(count.read == count.used + count.with_issue && count.used >= 0, "rows read are used or at issue");
  if (intake.input)
    for (const SetAsideRow& row : intake.input->set_aside) require_utf8(row.raw + row.wrong + row.column);
}

/// A package of plain parts instead of a zip file, whose check sums no fuzzer gets right: "==== name" begins a part.
Package package_of_parts(std::string_view bytes) {
  constexpr std::string_view mark = "==== ";
  Package package{"fuzz.zip", {}};
  while (bytes.starts_with(mark)) {
    const std::size_t line_end = std::min(bytes.find('\n'), bytes.size());
    std::string name(bytes.substr(mark.size(), line_end - mark.size()));
    bytes.remove_prefix(std::min(line_end + 1, bytes.size()));
    std::size_t end = bytes.find("\n==== ");
    end = end == std::string_view::npos ? bytes.size() : end;
    const std::string_view part = bytes.substr(0, end);
    bytes.remove_prefix(std::min(end + 1, bytes.size()));
    std::transform(name.begin(), name.end(), name.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    package.openers[name] = [part]() -> ReadBytes {
      const auto rest = std::make_shared<std::string_view>(part);
      return [rest](std::span<char> block) {
        const std::size_t got = rest->copy(block.data(), block.size());
        rest->remove_prefix(got);
        return got;
      };
    };
  }
  return package;
}

} // namespace

ReaderCaps small_caps() {
  ReaderCaps caps;
  caps.unpacked_bytes = caps.free_bytes = 1 << 20;
  caps.small_part_bytes = 1 << 18;
  caps.cells = 50'000;
  caps.text_bytes = 1 << 20;
  return caps;
}

void require(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

void require_utf8(std::string_view text) { require(!find_invalid_utf8(text), "text is UTF-8"); }

void check_tables(const std::vector<RawTable>& tables) {
  for (const RawTable& table : tables) {
    require_utf8(table.name);
    for (const TableNote& note : table.notes) require_utf8(note.code + note.wrong + note.right);
    std::int64_t before = -1;
    for (const RawRow& row : table.rows) {
      require(row.number > before, "rows are in order");
      before = row.number;
      require(!row.cells.empty() && row.cells.back().kind != CellKind::blank, "no row is blank at its end");
      for (const RawCell& cell : row.cells) {
        require_utf8(cell.text);
        require(std::isfinite(cell.number), "a number is one");
        require(cell.kind != CellKind::text || text_cell(cell.text).text == cell.text, "a text is trimmed");
        require((cell.kind == CellKind::blank || cell.kind == CellKind::not_calculated) == cell.text.empty() ||
                    cell.kind == CellKind::error,
                "what is not blank has a text");
      }
    }
  }
}

void check_case(std::vector<RawFile> files) {
  add_csv(files, "case", "key,value\ncase_ref,C-1\ntitle,Fan deck\nstation,HP-11\nline,Line 2\nline_cycle_s,55\n");
  add_csv(files, "standard", "element,description,class,time_s\nE10,place fan,va,30\nE20,fix screws,nnva,20\n");
  run([&] { check_intake(read_case_from(files)); });
  run([&] { check_intake(read_case_from(files, true)); });
}

void check_workbook(std::string_view bytes, const std::string& name,
                    std::vector<RawTable> (*read)(const Package&, const ReaderCaps&)) {
  run([&] {
    const ReaderCaps caps = small_caps();
    const bool parts = bytes.starts_with("==== ");
    RawFile file{name, "", {}};
    file.tables = parts ? read(package_of_parts(bytes), caps) : parse_workbook(bytes, name, caps).tables;
    check_tables(file.tables);
    check_case({file});
  });
}

} // namespace docket::fuzz
