#include "ingest/docket/addition.h"

#include "core/error.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/recoded_file.h"
#include "ingest/docket/store.h"
#include "ingest/docket/stored_sheets.h"
#include "ingest/file_hash.h"
#include "ingest/reading/input_files.h"
#include "ingest/reading/prepared_inputs.h"
#include "ingest/tables.h"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <memory>
#include <set>
#include <sstream>
#include <system_error>

namespace docket {

namespace {

namespace fs = std::filesystem;

/// The bytes of a log are kept beside its cycles up to this size; packed they would be as much again as its cycles.
constexpr std::int64_t most_bytes_of_log = std::int64_t{64} << 20;

/// A file given, with where it lies.
struct GivenFile {
  std::string path;
  RawFile file;
  bool recoded = false;         ///< it held names, which are codes in `file`
  bool large = false;           ///< a large log: `file` has no cycles before they are stored
  std::int64_t rows_unseen = 0; ///< rows of it that the case reader was not given
  std::set<RowPlace> set_aside; ///< rows of it
};

/// The docket before the addition. Rows that were set aside are only in it where those of the new files may be too.
struct Present {
  std::string last_entry; ///< hash
  std::vector<StoredSource> sources;
  std::vector<RawFile> current; ///< cells of current_of(sources)
};

/// What is to be written: by file given, its source; absent where the file is there already.
struct Plan {
  std::vector<std::optional<StoredSource>> sources;
  AddOutcome outcome;
};

/// A large log is only hashed here.
std::optional<GivenFile> find_large(const std::string& path, const Addition& addition) {
  auto sheet = find_large_log(path, addition.reading, addition.large_log);
  if (!sheet) return std::nullopt;
  std::ifstream in(path, std::ios::binary);
  GivenFile log;
  log.path = path;
  log.large = true;
  log.file = {name_without_folder(path), hash_bytes(in).sha256, {*std::move(sheet)}};
  return log;
}

std::vector<GivenFile> read_inputs(const Addition& addition) {
  std::vector<GivenFile> given;
  std::vector<RawFile> files; ///< those that are not large
  std::vector<std::size_t> places;
  for (const std::string& input : addition.inputs) {
    if (auto log = find_large(input, addition)) {
      given.push_back(*std::move(log));
      continue;
    }
    std::error_code failed;
    const bool folder = fs::is_directory(input, failed);
    for (RawFile& file : read_input_files(std::span(&input, 1))) {
      GivenFile& one = given.emplace_back();
      one.path = folder ? (fs::path(input) / file.file).string() : input;
      places.push_back(given.size() - 1);
      files.push_back(std::move(file));
    }
  }
  ReadingOptions reading = addition.reading;
  if (files.size() < given.size()) reading.as.reset(); // it was for the large log
  if (!files.empty()) prepare_inputs(files, reading);
  const CodeList codes = reading.codes_file.empty() ? CodeList{} : read_code_list(reading.codes_file);
  for (std::size_t i = 0; i < files.size(); ++i) {
    GivenFile& one = given[places[i]];
    one.file = std::move(files[i]);
    one.recoded = !reading.codes_file.empty() && leave_out_names(one.file, codes);
  }
  return given;
}

/// The options of reading as they are kept; of the list of codes only that there was one.
std::string reading_text(const ReadingOptions& reading) {
  std::string text;
  const auto add = [&](const std::string& words) { text += (text.empty() ? "" : " ") + words; };
  if (reading.as) add("--as " + std::string(name_of(*reading.as)));
  if (!reading.sheet.empty()) add("--sheet " + reading.sheet);
  if (reading.dates != DateOrder::iso_only)
    add(reading.dates == DateOrder::day_month_year ? "--dates dmy" : "--dates mdy");
  if (!reading.codes_file.empty()) add("--codes");
  if (reading.set_aside) add("--set-aside");
  return text;
}

Present read_present(Database& docket, SetAside set_aside) {
  Present present;
  present.last_entry = docket.text("SELECT sha256 FROM ledger ORDER BY number DESC LIMIT 1");
  present.sources = read_sources(docket);
  for (const StoredSource& source : current_of(present.sources))
    present.current.push_back(load_file(docket, source, set_aside));
  return present;
}

std::string numbered(const StoredSource& source) { return std::to_string(source.source) + " (" + source.file + ")"; }

/// The source that `--supersedes` names, by number or by file name.
StoredSource find_named(const std::vector<StoredSource>& current, const std::string& written) {
  std::int64_t number = 0;
  const auto read = std::from_chars(written.data(), written.data() + written.size(), number);
  const bool is_number = read.ec == std::errc() && read.ptr == written.data() + written.size();
  std::vector<StoredSource> found;
  for (const StoredSource& source : current)
    if (is_number ? source.source == number : source.file == written) found.push_back(source);
  if (found.size() == 1) return found.front();
  std::string all;
  for (const StoredSource& source : current) all += (all.empty() ? "" : ", ") + numbered(source);
  throw Error(ErrorKind::wrong_usage, "--supersedes " + written,
              found.empty() ? "The case has no such source." : "Several sources have this name.",
              all.empty() ? "The docket is new: leave the option out." : "Give one number of these: " + all + ".");
}

/// What a file corrects by its name.
std::optional<StoredSource> find_by_name(const std::vector<StoredSource>& current, const RawFile& file,
                                         const std::vector<GivenFile>& given, const std::vector<std::string>& kept) {
  std::vector<StoredSource> found;
  for (const StoredSource& source : current)
    if (source.file == file.file && std::find(kept.begin(), kept.end(), source.sha256) == kept.end())
      found.push_back(source);
  const auto alike = std::count_if(given.begin(), given.end(), [&](const GivenFile& one) {
    return one.file.file == file.file && std::find(kept.begin(), kept.end(), one.file.sha256) == kept.end();
  });
  if (found.empty()) return std::nullopt;
  if (found.size() == 1 && alike == 1) return found.front();
  std::string numbers;
  for (const StoredSource& source : found) numbers += (numbers.empty() ? "" : ", ") + std::to_string(source.source);
  throw Error(ErrorKind::wrong_usage, file.file,
              "Several files have this name, so it can't be told which one is the correction of which (sources of the "
              "docket: " +
                  numbers + ").",
              "Add the files one by one, each with --supersedes and the number, or --supersedes none.");
}

Plan plan_addition(const Present& present, const std::vector<GivenFile>& given, const Addition& addition) {
  const std::vector<StoredSource> current = current_of(present.sources);
  const std::string reading = reading_text(addition.reading);
  const bool names_one = !addition.supersedes.empty() && addition.supersedes != "none";
  const auto is_same = [&](const StoredSource& source, const GivenFile& one) {
    return source.sha256 == one.file.sha256 && source.reading == reading && !names_one;
  };
  // Files given that are in the case already: they stay as they are.
  std::vector<std::string> kept;
  for (const GivenFile& one : given)
    for (const StoredSource& source : current)
      if (is_same(source, one)) kept.push_back(source.sha256);

  Plan plan;
  std::int64_t number = static_cast<std::int64_t>(present.sources.size());
  std::int64_t place = 0;
  for (const StoredSource& source : present.sources) place = std::max(place, source.place);
  for (const GivenFile& one : given) {
    AddedFile& added = plan.outcome.files.emplace_back();
    std::optional<StoredSource>& planned = plan.sources.emplace_back();
    added.file = one.file.file;
    added.sha256 = one.file.sha256;
    const auto same =
        std::find_if(current.begin(), current.end(), [&](const StoredSource& source) { return is_same(source, one); });
    const auto twice = std::find_if(plan.outcome.files.begin(), plan.outcome.files.end() - 1,
                                    [&](const AddedFile& before) { return before.sha256 == one.file.sha256; });
    if (same != current.end() || twice != plan.outcome.files.end() - 1) {
      added.already_there = true;
      added.source = same != current.end() ? same->source : twice->source;
      if (same != current.end()) added.rows = same->rows;
      continue;
    }
    if (addition.supersedes.empty())
      added.superseded = find_by_name(current, one.file, given, kept);
    else if (names_one)
      added.superseded = find_named(current, addition.supersedes);
    for (const StoredSource& source : present.sources)
      if (source.sha256 == one.file.sha256) added.once_more = source.source;
    planned = StoredSource{};
    added.source = planned->source = ++number;
    planned->place = added.superseded ? added.superseded->place : ++place;
    if (added.superseded) planned->supersedes = added.superseded->source;
    planned->file = one.file.file;
    planned->sha256 = one.file.sha256;
    planned->reading = reading;
    if (one.recoded) planned->form = "recoded";
  }
  return plan;
}

[[noreturn]] void refuse_changed(const std::string& path) {
  throw Error(ErrorKind::could_not_be_done, path, "The file changed while it was read.",
              "Give the command again once nobody writes to it. Nothing was added.");
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
void check_case(Plan& plan, const Present& present, std::vector<GivenFile>& given, bool set_aside) {
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
    stored = hash_bytes(in);
    source.bytes = stored.bytes;
    if (stored.sha256 != source.sha256) refuse_changed(given.path);
    if (stored.bytes > most_bytes_of_log) {
      source.form = "cycles_only";
      stored = {0, sha256_of("")};
    } else {
      in.clear();
      in.seekg(0);
      stored = store_bytes(docket, source.source, in);
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

void write_plan(DocketChange& change, Plan& plan, const std::vector<GivenFile>& given, const Addition& addition) {
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

bool brings_large_log(const Plan& plan, const std::vector<GivenFile>& given) {
  for (std::size_t i = 0; i < given.size(); ++i)
    if (plan.sources[i] && given[i].large) return true;
  return false;
}

bool is_log(const RawFile& file) {
  return std::any_of(file.tables.begin(), file.tables.end(),
                     [](const RawTable& table) { return find_table(table.name) == TableName::cycle_log; });
}

bool is_roster(const RawFile& file) {
  return std::any_of(file.tables.begin(), file.tables.end(),
                     [](const RawTable& table) { return find_table(table.name) == TableName::roster; });
}

/// True where no other log and no roster is in the case, so that no row of this log can be another's cycle.
bool is_alone(const Present& present, const Plan& plan, const std::vector<GivenFile>& given, std::size_t log) {
  const std::vector<StoredSource> current = current_of(present.sources);
  for (std::size_t i = 0; i < current.size(); ++i) {
    const bool superseded = plan.sources[log]->supersedes == current[i].source;
    if (!superseded && (is_log(present.current[i]) || is_roster(present.current[i]))) return false;
  }
  for (std::size_t i = 0; i < given.size(); ++i)
    if (i != log && plan.sources[i] && (is_log(given[i].file) || is_roster(given[i].file))) return false;
  return true;
}

/// Stores the cycles of the large logs, which then give them to the case reader: all, or samples of a very large one.
/// Returns the issues of their rows.
Issues store_large_logs(Database& docket, const Plan& plan, const Present& present, std::vector<GivenFile>& given,
                        const Addition& addition) {
  Issues issues;
  for (std::size_t i = 0; i < given.size(); ++i) {
    if (!plan.sources[i] || !given[i].large) continue;
    const std::int64_t source = plan.sources[i]->source;
    RawTable& sheet = given[i].file.tables.front();
    LargeLogStored stored = store_large_log(docket, source, given[i].path, sheet, addition.progress);
    for (Issue& issue : stored.issues) issues.push_back(std::move(issue));
    if (stored.rows > addition.very_large_log && stored.samples && is_alone(present, plan, given, i)) {
      given[i].rows_unseen = stored.rows - static_cast<std::int64_t>(stored.samples->size());
      sheet.more_rows = [samples = *std::move(stored.samples)](const std::function<void(const RawRow&)>& take) {
        for (const RawRow& row : samples) take(row);
      };
    } else {
      give_cycles(sheet, docket, source);
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

bool anything_new(const Plan& plan) {
  return std::any_of(plan.sources.begin(), plan.sources.end(), [](const auto& source) { return source.has_value(); });
}

} // namespace

AddOutcome add_to_docket(const std::string& path, const Addition& addition) {
  std::vector<GivenFile> given = read_inputs(addition);
  if (given.size() > 1 && !addition.supersedes.empty() && addition.supersedes != "none")
    throw Error(ErrorKind::wrong_usage, "--supersedes " + addition.supersedes, "Several files are given.",
                "Give the one file that supersedes it.");
  // The case is read and checked without the lock. Where somebody else added meanwhile, once more.
  for (;;) {
    Looked looked = look_at(path, addition.reading.set_aside);
    Plan plan = plan_addition(looked.present, given, addition);
    if (brings_large_log(plan, given)) {
      // Its cycles are stored while they are read, so the lock comes first; with a fault all of it is undone.
      looked = {};
      DocketChange change(path, addition.at, addition.by_role);
      Present present = read_present(change.docket(), addition.reading.set_aside ? SetAside::with : SetAside::without);
      plan = plan_addition(present, given, addition);
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
