#include "ingest/docket/large_log.h"

#include "core/error.h"
#include "ingest/csv.h"
#include "ingest/docket/cycles/cycle_csv.h"
#include "ingest/docket/cycles/cycle_records.h"
#include "ingest/docket/cycles/cycle_store.h"
#include "ingest/docket/ledger.h"
#include "ingest/docket/log_order.h"
#include "ingest/file_hash.h"
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

/// A row of a block as the case reader takes it. Its texts lie in the block and in the words.
LoggedRow row_of(const CycleBlock& block, const CycleWords& words, std::size_t at) {
  const auto word = [&](CycleWordKind kind) {
    const std::uint32_t code = block.codes(kind)[at];
    return LoggedWord{code, words[static_cast<std::size_t>(kind)].words[code]};
  };
  LoggedRow row;
  row.started_at = Instant(Instant::duration(block.started_at[at]));
  row.cycle = time_at(block.cycle, at).value_or(Seconds(0));
  row.wait = time_at(block.wait, at);
  row.helped = time_at(block.helped, at);
  row.unit = block.unit.at(at);
  row.variant = word(CycleWordKind::variant);
  row.station = word(CycleWordKind::station);
  row.shift = word(CycleWordKind::shift);
  row.op = word(CycleWordKind::op);
  row.marks = Marks{block.marks[at]};
  row.is_line_time = block.is_line_time[at] != 0;
  row.row = block.row[at];
  return row;
}

/// What the declaration of the table asks of times. It was true when the row was stored.
bool is_sound(const LoggedRow& row) {
  constexpr Seconds longest{86400};
  const auto holds = [&](std::optional<Seconds> time) { return !time || (*time >= Seconds(0) && *time <= longest); };
  return row.cycle > Seconds(0) && row.cycle <= longest && holds(row.wait) && holds(row.helped) &&
         (row.op.code == 0 || is_operator_code(row.op.text));
}

/// Cycles that are kept, with what their codes stand for.
struct KeptCycles {
  CycleBlock block;
  CycleWords words;
};

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

LargeLogStored store_large_log(Database& docket, std::int64_t source, const std::string& path,
                               const std::function<void(std::int64_t, std::int64_t, std::int64_t)>& progress,
                               const std::atomic<bool>* stop) {
  constexpr std::size_t most_samples = 50'000;
  CycleWriter writer(docket.connection(), source, docket.path());
  LogOrder order;
  const auto samples = std::make_shared<KeptCycles>();
  CycleReading reading;
  reading.take = [&](CycleBatch& batch) {
    writer.write(batch);
    order.look_at(batch.block);
    if (order.new_together().empty() || samples->block.rows > most_samples) return;
    const CycleWords words = read_cycle_words(docket.connection(), docket.path());
    for (const std::size_t at : order.new_together())
      if (samples->block.rows <= most_samples) append(samples->block, samples->words, row_at(batch.block, words, at));
  };
  reading.progress = progress;
  reading.stop = stop;
  CycleLogRead read = read_cycle_csv(path, reading);
  LargeLogStored stored{std::move(read.issues), read.rows, read.bytes, std::move(read.sha256), std::nullopt};
  if (!order.in_order() || samples->block.rows > most_samples) return stored;
  stored.samples = {static_cast<std::int64_t>(samples->block.rows),
                    [samples](const std::function<void(const LoggedRow&)>& take) {
                      for (std::size_t at = 0; at < samples->block.rows; ++at)
                        take(row_of(samples->block, samples->words, at));
                    }};
  return stored;
}

bool has_cycles(Database& docket, std::int64_t source) {
  SqlStatement any(docket, "SELECT 1 FROM cycle_chunk WHERE source = ? LIMIT 1");
  any.bind(source);
  return any.next();
}

LoggedRows cycles_of(Database& docket, std::int64_t source) {
  SqlStatement count(docket, "SELECT sum(min(65536, max(0, cycles))) FROM cycle_chunk WHERE source = ?");
  count.bind(source);
  LoggedRows rows;
  rows.count = count.next() ? count.whole(0) : 0;
  rows.each = [&docket, source](const std::function<void(const LoggedRow&)>& take) {
    const CycleWords words = read_cycle_words(docket.connection(), docket.path());
    scan_cycles(docket.connection(), {CycleColumns::all(), source, {}, {}}, docket.path(),
                [&](const CycleBlock& block) {
                  for (std::size_t at = 0; at < block.rows; ++at) {
                    const LoggedRow row = row_of(block, words, at);
                    if (!is_sound(row))
                      throw Error(ErrorKind::verification_failed, docket.path(),
                                  "The docket is damaged: the cycle of line " + std::to_string(row.row) +
                                      " is none that was taken in.",
                                  "Take a copy of it from before the damage. Nothing was changed.");
                    take(row);
                  }
                });
  };
  return rows;
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
