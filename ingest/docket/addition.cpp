#include "ingest/docket/addition.h"

#include "core/error.h"
#include "ingest/docket/addition_plan.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/given_files.h"
#include "ingest/docket/recoded_file.h"
#include "ingest/docket/store.h"
#include "ingest/docket/stored_sheets.h"
#include "ingest/file_hash.h"
#include "ingest/tables.h"

#include <algorithm>
#include <fstream>
#include <memory>
#include <set>
#include <sstream>
#include <utility>

namespace docket {

namespace {

/// The bytes of a log are kept beside its cycles up to this size; packed they would be as much again as its cycles.
constexpr std::int64_t most_bytes_of_log = std::int64_t{64} << 20;

[[noreturn]] void refuse_changed(const std::string& path) {
  throw Error(ErrorKind::could_not_be_done, path, "The file changed while it was read.",
              "Give the command again once nobody writes to it. Nothing was added.");
}

void refuse_if_stopped(const std::string& path, const Addition& addition) {
  if (addition.stop != nullptr && addition.stop->load())
    throw Error(ErrorKind::could_not_be_done, path, "The adding was stopped.",
                "Give the command again to add the files. Nothing was changed.");
}

/// Which rows of a file given were set aside.
std::set<RowPlace> rows_set_aside(const Case& input, std::int32_t source, const RawFile& file) {
  std::set<RowPlace> rows;
  for (const SetAsideRow& row : input.set_aside) {
    if (row.origin.source != source) continue;
    const auto sheet = std::find_if(file.tables.begin(), file.tables.end(),
                                    [&](const RawTable& table) { return find_table(table.name) == row.origin.table; });
    if (sheet != file.tables.end())
      rows.insert({static_cast<std::size_t>(sheet - file.tables.begin()), row.origin.row});
  }
  return rows;
}

/// Reads the case as it would be, and takes its rows into the plan.
void check_case(AdditionPlan& plan, const Present& present, std::vector<GivenFile>& given, bool set_aside) {
  struct Piece {
    std::int64_t place = 0;
    const RawFile* file = nullptr;
    std::optional<std::size_t> given;
  };
  std::vector<Piece> pieces;
  std::vector<StoredSource> all = present.sources;
  for (std::size_t i = 0; i < given.size(); ++i) {
    if (!plan.sources[i]) continue;
    pieces.push_back({plan.sources[i]->place, &given[i].file, i});
    all.push_back(*plan.sources[i]);
  }
  const std::vector<StoredSource> current = current_of(present.sources);
  for (std::size_t i = 0; i < current.size(); ++i)
    if (find_successor(all, current[i].source) == nullptr)
      pieces.push_back({current[i].place, &present.current[i], std::nullopt});
  std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return a.place < b.place; });

  std::vector<RawFile> files;
  for (const Piece& piece : pieces) files.push_back(*piece.file);
  plan.outcome.intake = read_case_from(files, set_aside);
  for (Issue& issue : superseded_issues(all)) plan.outcome.intake.issues.push_back(std::move(issue));
  if (!plan.outcome.intake.input) return;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (!pieces[i].given) continue;
    const std::int64_t rows = plan.outcome.intake.input->sources[i].rows + given[*pieces[i].given].rows_unseen;
    plan.sources[*pieces[i].given]->rows = plan.outcome.files[*pieces[i].given].rows = rows;
    GivenFile& one = given[*pieces[i].given];
    one.set_aside = rows_set_aside(*plan.outcome.intake.input, static_cast<std::int32_t>(i), one.file);
  }
}

/// Bytes and cells of one file; fills in what is known only now.
void write_source(Database& docket, StoredSource& source, const GivenFile& given) {
  std::ifstream in(given.path, std::ios::binary);
  StoredBytes stored;
  if (given.large) {
    source.bytes = given.bytes;
    if (given.bytes > most_bytes_of_log) {
      source.form = "cycles_only";
      stored.sha256 = sha256_of("");
    } else {
      stored = store_bytes(docket, source.source, in);
      if (stored.sha256 != source.sha256) refuse_changed(given.path);
    }
  } else if (given.recoded) {
    const StoredBytes original = hash_bytes(in);
    source.bytes = original.bytes;
    std::istringstream recoded(recoded_bytes(given.file));
    stored = store_bytes(docket, source.source, recoded);
    if (original.sha256 != source.sha256) refuse_changed(given.path);
  } else {
    stored = store_bytes(docket, source.source, in);
    source.bytes = stored.bytes;
    if (stored.sha256 != source.sha256) refuse_changed(given.path);
  }
  source.stored_bytes = stored.bytes;
  source.stored_sha256 = stored.sha256;
  source.cells_sha256 = store_sheets(docket, source.source, given.file.tables, given.set_aside);
}

std::string sentence(const std::vector<AddedFile>& files) {
  std::string text;
  for (const AddedFile& file : files) {
    if (file.already_there) continue;
    text += (text.empty() ? "" : "; ") + file.file;
    if (file.superseded) text += " in place of source " + std::to_string(file.superseded->source);
  }
  return text + ".";
}

void write_plan(DocketChange& change, AdditionPlan& plan, const std::vector<GivenFile>& given,
                const Addition& addition) {
  Database& docket = change.docket();
  const std::int64_t entry_number = docket.whole("SELECT count(*) + 1 FROM ledger");
  std::vector<StoredSource> written;
  for (std::size_t i = 0; i < given.size(); ++i) {
    if (!plan.sources[i]) continue;
    plan.sources[i]->entry = entry_number;
    write_source(docket, *plan.sources[i], given[i]);
    written.push_back(*plan.sources[i]);
  }
  LedgerEntry entry;
  entry.at = addition.at;
  entry.by_role = addition.by_role;
  entry.act = "add";
  entry.what = sentence(plan.outcome.files);
  entry.details = details_of(written);
  refuse_if_stopped(docket.path(), addition); // the last moment: what follows is done in an instant
  plan.outcome.entry = append_to_ledger(docket, entry);
  for (const StoredSource& source : written) insert_source(docket, source);
  change.commit();
}

/// The docket before the addition and, as large logs are read from it, the file itself.
struct Looked {
  std::unique_ptr<Database> docket;
  Present present;
};

Looked look_at(const std::string& path, bool set_aside) {
  Looked looked;
  if (auto docket = open_docket_if_any(path)) {
    looked.docket = std::make_unique<Database>(*std::move(docket));
    looked.present = read_present(*looked.docket, set_aside ? SetAside::with : SetAside::without);
  }
  return looked;
}

/// Stores the cycles of the large logs, which then give them to the case reader: all, or samples of a very large one.
/// Returns the issues of their rows.
Issues store_large_logs(Database& docket, AdditionPlan& plan, const Present& present, std::vector<GivenFile>& given,
                        const Addition& addition) {
  Issues issues;
  for (std::size_t i = 0; i < given.size(); ++i) {
    if (!plan.sources[i] || !given[i].large) continue;
    const std::int64_t source = plan.sources[i]->source;
    RawTable& sheet = given[i].file.tables.front();
    LargeLogStored stored = store_large_log(docket, source, given[i].path, addition.progress, addition.stop);
    refuse_if_stopped(docket.path(), addition);
    if (!given[i].file.sha256.empty() && stored.sha256 != given[i].file.sha256) refuse_changed(given[i].path);
    given[i].file.sha256 = plan.sources[i]->sha256 = plan.outcome.files[i].sha256 = stored.sha256;
    given[i].bytes = stored.bytes;
    for (Issue& issue : stored.issues) issues.push_back(std::move(issue));
    if (stored.rows > addition.very_large_log && stored.samples && is_only_log(plan, present, given, i)) {
      given[i].rows_unseen = stored.rows - stored.samples->count;
      sheet.logged = *std::move(stored.samples);
    } else {
      sheet.logged = cycles_of(docket, source);
    }
  }
  return issues;
}

/// Samples say nothing of how many rows lack something, so warnings and questions of such a log wait for check and brief.
void leave_out_counts_of_samples(Intake& intake, const std::vector<GivenFile>& given) {
  for (const GivenFile& one : given)
    if (one.rows_unseen > 0)
      std::erase_if(intake.issues, [&](const Issue& issue) {
        return issue.file == one.file.file && issue.grade != IssueGrade::fault;
      });
}

/// The faults of rows that were never stored. The other issues are found again where the case is read.
void add_faults(Intake& intake, const Issues& issues) {
  for (const Issue& issue : issues) {
    if (issue.grade != IssueGrade::fault) continue;
    intake.issues.push_back(issue);
    intake.input.reset();
  }
}

} // namespace

AddOutcome add_to_docket(const std::string& path, const Addition& addition) {
  std::vector<GivenFile> given = read_given_files(addition);
  if (given.size() > 1 && !addition.supersedes.empty() && addition.supersedes != "none")
    throw Error(ErrorKind::wrong_usage, "--supersedes " + addition.supersedes, "Several files are given.",
                "Give the one file that supersedes it.");
  // The case is read and checked without the lock. Where somebody else added meanwhile, once more.
  for (;;) {
    Looked looked = look_at(path, addition.reading.set_aside);
    hash_where_it_tells(given, looked.present.sources);
    AdditionPlan plan = plan_addition(looked.present, given, addition);
    if (brings_large_log(plan, given)) {
      // Its cycles are stored while they are read, so the lock comes first; with a fault all of it is undone.
      looked = {};
      DocketChange change(path, addition.at, addition.by_role);
      Present present = read_present(change.docket(), addition.reading.set_aside ? SetAside::with : SetAside::without);
      hash_where_it_tells(given, present.sources);
      plan = plan_addition(present, given, addition);
      if (!brings_large_log(plan, given)) continue; // somebody else brought it meanwhile
      const Issues issues = store_large_logs(change.docket(), plan, present, given, addition);
      check_case(plan, present, given, addition.reading.set_aside);
      leave_out_counts_of_samples(plan.outcome.intake, given);
      add_faults(plan.outcome.intake, issues);
      if (plan.outcome.intake.input && !addition.dry_run) write_plan(change, plan, given, addition);
      return std::move(plan.outcome);
    }
    check_case(plan, looked.present, given, addition.reading.set_aside);
    if (!plan.outcome.intake.input || !anything_new(plan) || addition.dry_run) return std::move(plan.outcome);
    const std::string last_entry = looked.present.last_entry;
    looked = {}; // a reader would stand in the way of the writing
    DocketChange change(path, addition.at, addition.by_role);
    if (change.last_entry() != last_entry) continue;
    write_plan(change, plan, given, addition);
    return std::move(plan.outcome);
  }
}

} // namespace docket
