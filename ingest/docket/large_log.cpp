#include "ingest/docket/large_log.h"

#include "ingest/csv.h"
#include "ingest/docket/cycles/cycle_csv.h"
#include "ingest/docket/cycles/cycle_records.h"
#include "ingest/docket/cycles/cycle_store.h"
#include "ingest/docket/ledger.h"
#include "ingest/docket/log_order.h"
#include "ingest/file_hash.h"
#include "ingest/iso_times.h"
#include "ingest/reading/table_rows.h"
#include "ingest/reading/word_match.h"
#include "ingest/tables.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <memory>

namespace docket {

namespace {

namespace fs = std::filesystem;

std::int64_t count_lines(std::ifstream& in, std::int64_t enough) {
  std::string block(std::size_t{1} << 20, '\0');
  std::int64_t lines = 0;
  while (lines < enough && (in.read(block.data(), static_cast<std::streamsize>(block.size())), in.gcount() > 0))
    lines += std::count(block.begin(), block.begin() + in.gcount(), '\n');
  return lines;
}

/// The first records of a text, as many as the separator is told by and a header is looked for in. `whole`: the text ends
/// where the file does; else its last record may be cut in two.
std::string_view first_records(std::string_view text, bool whole) {
  constexpr int records = 60;
  const SeparatorFound found = find_separator(text);
  RecordPlace place = found.first;
  std::size_t cells = 0;
  for (int i = 0; i < records && place.at < text.size(); ++i)
    if (pass_record(text, found.separator, place, cells)) return {};
  return place.at < text.size() || whole ? text.substr(0, place.at) : std::string_view();
}

RawCell number_cell(std::optional<Seconds> time, TimeUnit unit) {
  if (!time) return {};
  const double number = unit == TimeUnit::seconds ? time->count() : time->count() / seconds_in(unit);
  return {CellKind::number, number_text(number), number};
}

/// The time as the number that stood in the file.
RawCell time_cell(const CycleTimes& times, std::size_t place) {
  if (times.millionths.empty() || times.millionths[place] < 0) return number_cell(time_at(times, place), times.unit);
  const double number = static_cast<double>(times.millionths[place]) / 1e6;
  return {CellKind::number, number_text(number), number};
}

RawCell marks_cell(Marks marks) {
  std::string text;
  for (const MarkUse& use : mark_uses)
    if (marks.has(use.mark)) text += (text.empty() ? "" : ";") + std::string(use.name);
  return text_cell(text);
}

/// Where the columns stand in the file's own header.
struct Columns {
  std::size_t width = 0;
  std::optional<std::size_t> started_at, cycle, cycle_is, unit, wait, helped, mark;
  std::array<std::optional<std::size_t>, cycle_word_kinds> words;
};

Columns find_columns(const RawTable& sheet) {
  FoundIssues unheard; // what is wrong with the header is said where the sheet is read
  unheard.files.resize(1);
  const TableDeclaration& table = declaration_of(TableName::cycle_log);
  Columns columns;
  const auto header = find_header({0, &sheet}, table, table.columns, unheard);
  if (!header) return columns;
  columns.width = sheet.rows[header->row].cells.size();
  const auto place = [&](std::string_view name) { return header->cells[*find_column(table, name)]; };
  columns.started_at = place("started_at");
  columns.cycle = place("cycle_s");
  columns.cycle_is = place("cycle_is");
  columns.unit = place("unit");
  columns.wait = place("wait_s");
  columns.helped = place("helped_s");
  columns.mark = place("mark");
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind) columns.words[kind] = place(cycle_word_names[kind]);
  return columns;
}

void fill_row(RawRow& row, const Columns& columns, const CycleBlock& block, const CycleWords& words, std::size_t at) {
  row.number = block.row[at];
  row.cells.assign(columns.width, RawCell{});
  const auto put = [&](std::optional<std::size_t> place, RawCell cell) {
    if (place) row.cells[*place] = std::move(cell);
  };
  put(columns.started_at, date_cell(block.started_at[at]));
  put(columns.cycle, time_cell(block.cycle, at));
  if (block.is_line_time[at] != 0) put(columns.cycle_is, text_cell("line"));
  put(columns.unit, text_cell(block.unit.at(at)));
  put(columns.wait, time_cell(block.wait, at));
  put(columns.helped, time_cell(block.helped, at));
  put(columns.mark, marks_cell(Marks{block.marks[at]}));
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    put(columns.words[kind], text_cell(words[kind].words[block.words[kind][at]]));
}

} // namespace

std::optional<RawTable> find_large_log(const std::string& path, const ReadingOptions& reading,
                                       std::int64_t least_lines) {
  std::error_code failed;
  if (!fs::is_regular_file(path, failed) || small_letters(fs::path(path).extension().string()) != ".csv" ||
      reading.dates != DateOrder::iso_only || !reading.codes_file.empty() || !reading.sheet.empty() ||
      reading.set_aside)
    return std::nullopt;
  const auto named = find_table(fs::path(path).stem().string());
  if ((named ? named : reading.as) != TableName::cycle_log) return std::nullopt;
  std::ifstream in(path, std::ios::binary);
  if (count_lines(in, least_lines) < least_lines) return std::nullopt;
  in.clear();
  in.seekg(0);
  constexpr std::streamsize start_bytes = 1 << 20;
  std::string start(start_bytes, '\0');
  in.read(start.data(), start_bytes);
  start.resize(static_cast<std::size_t>(in.gcount()));
  if (start.starts_with("\xFF\xFE") || start.starts_with("\xFE\xFF") || start.starts_with("PK")) return std::nullopt;
  const bool marked = start.starts_with("\xEF\xBB\xBF");
  const std::string_view records = first_records(std::string_view(start).substr(marked ? 3 : 0), in.eof());
  if (records.empty()) return std::nullopt;
  RawTable sheet = parse_csv(records, name_without_folder(path));
  sheet.name = name_of(TableName::cycle_log);
  FoundIssues unheard;
  unheard.files.resize(1);
  const TableDeclaration& table = declaration_of(TableName::cycle_log);
  const auto header = find_header({0, &sheet}, table, table.columns, unheard);
  if (!header || !header->complete) return std::nullopt;
  sheet.rows.resize(header->row + 1);
  return sheet;
}

LargeLogStored store_large_log(Database& docket, std::int64_t source, const std::string& path, const RawTable& sheet,
                               const std::function<void(std::int64_t, std::int64_t, std::int64_t)>& progress) {
  constexpr std::size_t most_samples = 50'000;
  const Columns columns = find_columns(sheet);
  CycleWriter writer(docket.connection(), source, docket.path());
  LogOrder order;
  std::vector<RawRow> samples;
  CycleReading reading;
  reading.take = [&](CycleBatch& batch) {
    writer.write(batch);
    order.look_at(batch.block);
    if (order.new_together().empty() || samples.size() > most_samples) return;
    const CycleWords words = read_cycle_words(docket.connection(), docket.path());
    for (const std::size_t at : order.new_together()) fill_row(samples.emplace_back(), columns, batch.block, words, at);
  };
  reading.progress = progress;
  CycleLogRead read = read_cycle_csv(path, reading);
  LargeLogStored stored{std::move(read.issues), read.rows, read.bytes, std::move(read.sha256), std::nullopt};
  if (order.in_order() && samples.size() <= most_samples) stored.samples = std::move(samples);
  return stored;
}

bool has_cycles(Database& docket, std::int64_t source) {
  SqlStatement any(docket, "SELECT 1 FROM cycle_chunk WHERE source = ? LIMIT 1");
  any.bind(source);
  return any.next();
}

void give_cycles(RawTable& sheet, Database& docket, std::int64_t source) {
  const Columns columns = find_columns(sheet);
  sheet.more_rows = [&docket, source, columns](const std::function<void(const RawRow&)>& take) {
    const CycleWords words = read_cycle_words(docket.connection(), docket.path());
    RawRow row;
    scan_cycles(docket.connection(), {CycleColumns::all(), source, {}, {}}, docket.path(),
                [&](const CycleBlock& block) {
                  for (std::size_t at = 0; at < block.rows; ++at) {
                    fill_row(row, columns, block, words, at);
                    take(row);
                  }
                });
  };
}

std::string cycles_for_hash(Database& docket, std::int64_t source) {
  if (!has_cycles(docket, source)) return {};
  std::string text = netstring("cycles");
  SqlStatement chunks(docket, "SELECT chunk, cycles, packed FROM cycle_chunk WHERE source = ? ORDER BY chunk");
  chunks.bind(source);
  while (chunks.next())
    text += netstring(std::to_string(chunks.whole(0))) + netstring(std::to_string(chunks.whole(1))) +
            netstring(sha256_of(chunks.view(2)));
  std::array<std::uint32_t, cycle_word_kinds> greatest{};
  CycleScan scan;
  scan.source = source;
  scan.columns.words.fill(true);
  scan_cycles(docket.connection(), scan, docket.path(), [&](const CycleBlock& block) {
    for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
      for (const std::uint32_t code : block.words[kind]) greatest[kind] = std::max(greatest[kind], code);
  });
  const CycleWords words = read_cycle_words(docket.connection(), docket.path());
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    for (std::uint32_t code = 1; code <= greatest[kind]; ++code) text += netstring(words[kind].words[code]);
  return text;
}

} // namespace docket
