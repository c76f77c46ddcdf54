#include "core/error.h"
#include "ingest/docket/history.h"
#include "report/cli/commands.h"
#include "report/findings_json/json_tree.h"
#include "report/format.h"

#include <algorithm>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

namespace docket {
namespace {

using Line = std::vector<std::string>;

/// Columns of equal width with two blanks between; the last one is as long as it is.
std::string in_columns(const std::vector<Line>& lines) {
  std::vector<std::size_t> widths;
  for (const Line& line : lines) {
    widths.resize(std::max(widths.size(), line.size()));
    for (std::size_t i = 0; i < line.size(); ++i) widths[i] = std::max(widths[i], columns_of(line[i]));
  }
  std::string text;
  for (const Line& line : lines) {
    for (std::size_t i = 0; i < line.size(); ++i)
      text += "  " + line[i] + (i + 1 < line.size() ? std::string(widths[i] - columns_of(line[i]), ' ') : "");
    text += "\n";
  }
  return text;
}

std::string state_of(const History& history, const StoredSource& source) {
  const StoredSource* successor = find_successor(history.sources, source.source);
  return successor == nullptr ? "in use" : "superseded by " + std::to_string(successor->source);
}

std::string_view kept_of(const StoredSource& source) {
  if (source.form == "recoded") return "with codes for names";
  if (source.form == "cycles_only") return "its cycles and its hash";
  return "as it came";
}

std::string in_words(const std::string& path, const History& history) {
  std::vector<Line> entries{{"entry", "at", "by", "act", "what"}};
  for (const LedgerEntry& entry : history.entries)
    entries.push_back({std::to_string(entry.number), entry.at, entry.by_role, entry.act, entry.what});
  std::vector<Line> sources{{"source", "file", "entry", "rows", "state", "kept", "SHA-256 of the file as it came"}};
  for (const StoredSource& source : history.sources)
    sources.push_back({std::to_string(source.source), source.file, std::to_string(source.entry),
                       format_count(source.rows), state_of(history, source), std::string(kept_of(source)),
                       source.sha256});
  return path + "\n\nWhat was done\n" + in_columns(entries) + "\nWhat is in it\n" + in_columns(sources);
}

std::string as_json(const std::string& path, const History& history) {
  JsonArray entries, sources;
  for (const LedgerEntry& entry : history.entries)
    entries.append(JsonObject{{"number", entry.number},
                              {"at", entry.at},
                              {"by_role", entry.by_role},
                              {"act", entry.act},
                              {"what", entry.what},
                              {"details", entry.details},
                              {"previous", entry.previous},
                              {"sha256", entry.sha256}});
  for (const StoredSource& source : history.sources) {
    const StoredSource* successor = find_successor(history.sources, source.source);
    sources.append(JsonObject{{"source", source.source},
                              {"entry", source.entry},
                              {"place", source.place},
                              {"file", source.file},
                              {"reading", source.reading},
                              {"form", source.form},
                              {"bytes", source.bytes},
                              {"sha256", source.sha256},
                              {"stored_bytes", source.stored_bytes},
                              {"stored_sha256", source.stored_sha256},
                              {"rows", source.rows},
                              {"supersedes", source.supersedes ? JsonValue(*source.supersedes) : JsonValue()},
                              {"superseded_by", successor != nullptr ? JsonValue(successor->source) : JsonValue()}});
  }
  return write_json(
      JsonObject{{"schema", "station-docket/history/1"}, {"docket", path}, {"entries", entries}, {"sources", sources}});
}

} // namespace

int run_history(const CommandLine& line) {
  if (line.inputs.size() != 1)
    throw Error(ErrorKind::wrong_usage, "docket history",
                line.inputs.empty() ? "The name of the docket is missing." : "It shows one docket at a time.",
                "For example: docket history st-07.docket");
  const std::string& path = line.inputs.front();
  const History history = read_history(path);
  std::cout << (line.has("json") ? as_json(path, history) : in_words(path, history));
  return 0;
}

} // namespace docket
