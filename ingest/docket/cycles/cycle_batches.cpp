#include "ingest/docket/cycles/cycle_batches.h"

#include "core/error.h"
#include "ingest/csv.h"
#include "ingest/reading/table_rows.h"
#include "ingest/text_encoding.h"

#include <algorithm>

namespace docket {

namespace {

constexpr std::size_t longest_record = std::size_t{1} << 20; // [byte]
constexpr std::size_t most_waiting = std::size_t{4} << 20;   // [byte] of records for the plain reader in one block
constexpr std::size_t header_rows_looked_at = 20;            // as in reading/table_rows

std::int64_t line_of(std::string_view text, RecordPlace place, std::size_t at) {
  for (std::size_t i = place.at; i < at; ++i)
    if (text[i] == '\r' || (text[i] == '\n' && (i == place.at || text[i - 1] != '\r'))) ++place.line;
  return place.line;
}

} // namespace

CycleBatches::CycleBatches(std::string_view text, const std::string& file, std::size_t block_rows)
    : text_(text), file_(file), block_rows_(block_rows) {
  issues_.kept.files = {file};
  issues_.kept.inputs = file;
  const SeparatorFound found = find_separator(text_);
  separator_ = found.separator;
  place_ = found.first;
  read_head();
}

/// Says what parse_csv says of the whole text: first that it is not UTF-8 somewhere, then that zero bytes are in it.
void CycleBatches::refuse(const RecordProblem& problem) const {
  const auto say = [&](const std::string& what, const std::string& remedy) {
    throw Error(ErrorKind::input_has_faults, file_, what, remedy);
  };
  const std::string_view rest = text_.substr(place_.at);
  const std::string save = "Open it in a spreadsheet program and save it as CSV UTF-8.";
  if (const auto bad = find_invalid_utf8(rest))
    say("The text in line " + std::to_string(line_of(text_, place_, place_.at + *bad)) + " is not UTF-8.", save);
  if (rest.find('\0') != std::string_view::npos) say("This is not CSV text: zero bytes are in it.", save);
  say(problem.what, problem.remedy);
  throw;
}

/// The record at the place, split by parse_csv; absent where it is blank all over. The place moves behind it.
std::optional<RawRow> CycleBatches::read_plainly() {
  RecordPlace behind = place_;
  std::size_t cells = 0;
  if (const auto problem = pass_record(text_, separator_, behind, cells)) refuse(*problem);
  const std::string_view record = text_.substr(place_.at, behind.at - place_.at);
  if (find_invalid_utf8(record) || record.find('\0') != std::string_view::npos) refuse({});
  if (record.size() > longest_record)
    refuse({"The record that begins in line " + std::to_string(place_.line) + " is longer than 1 MB.",
            "Close the quotation mark that is open there, or shorten the text."});
  std::string stated = "sep=";
  stated += separator_;
  stated += '\n';
  stated += record;
  RawTable table = parse_csv(stated, file_);
  const std::int64_t line = place_.line;
  place_ = behind;
  if (table.rows.empty()) return std::nullopt;
  table.rows.front().number = line;
  return std::move(table.rows.front());
}

void CycleBatches::read_head() {
  RawTable first_rows;
  first_rows.name = name_of(TableName::cycle_log);
  first_rows.decimal_comma_possible = separator_ != ',';
  std::vector<RecordPlace> behind;
  const auto add_row = [&] {
    auto row = read_plainly();
    if (!row) return;
    first_rows.rows.push_back(*std::move(row));
    behind.push_back(place_);
  };
  while (place_.at < text_.size() && first_rows.rows.size() < header_rows_looked_at) add_row();
  if (is_empty(first_rows)) {
    // Notes alone are an empty table. A row behind them makes them one whose header stands too far down.
    while (place_.at < text_.size() && is_empty(first_rows)) {
      if (first_rows.rows.size() > header_rows_looked_at) first_rows.rows.pop_back();
      add_row();
    }
    if (is_empty(first_rows)) return;
  }
  header_ = find_cycle_header(first_rows, issues_);
  if (header_) {
    place_ = behind[header_->row];
    if (header_->complete) quick_.emplace(*header_, separator_);
    return;
  }
  std::size_t cells = 0;
  for (; place_.at < text_.size();) // is it CSV at all?
    if (const auto problem = pass_record(text_, separator_, place_, cells)) refuse(*problem);
}

bool CycleBatches::next(CycleBatch& batch) {
  if (!header_ || place_.at >= text_.size()) return false;
  begin_batch(batch, block_rows_, *header_);
  if (quick_) quick_->begin();
  std::size_t place = 0, waiting = 0;
  while (place_.at < text_.size() && place < block_rows_ && waiting < most_waiting) {
    const QuickRow outcome = quick_ ? quick_->read(text_, place_, batch, place) : QuickRow::unsure;
    if (outcome == QuickRow::taken) ++place;
    if (outcome != QuickRow::unsure) continue;
    const std::size_t before = place_.at;
    if (auto row = read_plainly()) waiting_.push_back({place++, *std::move(row)});
    waiting += place_.at - before;
  }
  settle(batch, place);
  return true;
}

/// Gives the waiting rows to the plain reader and puts what it takes into their places.
void CycleBatches::settle(CycleBatch& batch, std::size_t rows) {
  const std::size_t sure = rows - waiting_.size();
  std::vector<std::size_t> dropped;
  if (!waiting_.empty()) {
    std::vector<RawRow> plain;
    plain.reserve(waiting_.size());
    for (const Waiting& w : waiting_) plain.push_back(w.row);
    const PlainRows read = read_plain_rows(*header_, std::move(plain), issues_);
    auto used = read.used.begin();
    auto faulty = read.with_issue.begin();
    for (Waiting& w : waiting_) {
      if (used != read.used.end() && used->row == w.row.number) {
        put_row(batch, w.place, *used++);
        continue;
      }
      dropped.push_back(w.place);
      if (faulty != read.with_issue.end() && *faulty == w.row.number) {
        batch.with_issue.push_back(std::move(w.row));
        ++faulty;
      }
    }
    rows_ += static_cast<std::int64_t>(read.used.size() + read.with_issue.size());
    with_issue_ += static_cast<std::int64_t>(read.with_issue.size());
    waiting_.clear();
  }
  rows_ += static_cast<std::int64_t>(sure);
  end_batch(batch, rows, dropped);
}

} // namespace docket
