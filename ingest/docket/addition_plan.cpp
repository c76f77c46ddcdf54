#include "ingest/docket/addition_plan.h"

#include "core/error.h"
#include "ingest/docket/docket_case.h"
#include "ingest/tables.h"

#include <algorithm>
#include <charconv>

namespace docket {

namespace {

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

bool holds(const RawFile& file, TableName name) {
  return std::any_of(file.tables.begin(), file.tables.end(),
                     [&](const RawTable& table) { return find_table(table.name) == name; });
}

bool holds_log_or_roster(const RawFile& file) {
  return holds(file, TableName::cycle_log) || holds(file, TableName::roster);
}

} // namespace

Present read_present(Database& docket, SetAside set_aside) {
  Present present;
  present.last_entry = docket.text("SELECT sha256 FROM ledger ORDER BY number DESC LIMIT 1");
  present.sources = read_sources(docket);
  for (const StoredSource& source : current_of(present.sources))
    present.current.push_back(load_file(docket, source, set_aside));
  return present;
}

AdditionPlan plan_addition(const Present& present, const std::vector<GivenFile>& given, const Addition& addition) {
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

  AdditionPlan plan;
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
    const auto twice =
        std::find_if(plan.outcome.files.begin(), plan.outcome.files.end() - 1, [&](const AddedFile& before) {
          return !before.sha256.empty() && before.sha256 == one.file.sha256;
        });
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

bool anything_new(const AdditionPlan& plan) {
  return std::any_of(plan.sources.begin(), plan.sources.end(), [](const auto& source) { return source.has_value(); });
}

bool brings_large_log(const AdditionPlan& plan, const std::vector<GivenFile>& given) {
  for (std::size_t i = 0; i < given.size(); ++i)
    if (plan.sources[i] && given[i].large) return true;
  return false;
}

bool is_only_log(const AdditionPlan& plan, const Present& present, const std::vector<GivenFile>& given,
                 std::size_t log) {
  const std::vector<StoredSource> current = current_of(present.sources);
  for (std::size_t i = 0; i < current.size(); ++i) {
    const bool superseded = plan.sources[log]->supersedes == current[i].source;
    if (!superseded && holds_log_or_roster(present.current[i])) return false;
  }
  for (std::size_t i = 0; i < given.size(); ++i)
    if (i != log && plan.sources[i] && holds_log_or_roster(given[i].file)) return false;
  return true;
}

} // namespace docket
