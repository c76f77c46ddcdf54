#include "ingest/docket/given_files.h"

#include "ingest/docket/large_log.h"
#include "ingest/docket/recoded_file.h"
#include "ingest/docket/sources.h"
#include "ingest/file_hash.h"
#include "ingest/reading/code_list.h"
#include "ingest/reading/input_files.h"
#include "ingest/reading/prepared_inputs.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <span>
#include <system_error>
#include <utility>

namespace docket {

namespace {

namespace fs = std::filesystem;

std::optional<GivenFile> find_large(const std::string& path, const Addition& addition) {
  auto sheet = find_large_log(path, addition.reading, addition.large_log);
  if (!sheet) return std::nullopt;
  GivenFile log;
  log.path = path;
  log.large = true;
  std::error_code failed;
  log.bytes = static_cast<std::int64_t>(fs::file_size(path, failed));
  log.file = {name_without_folder(path), "", {*std::move(sheet)}};
  return log;
}

} // namespace

std::vector<GivenFile> read_given_files(const Addition& addition) {
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
    std::vector<GivenFile> large;
    const auto leave_out = [&](const std::string& path) {
      auto log = find_large(path, addition);
      const bool is_large = log.has_value();
      if (is_large) large.push_back(*std::move(log));
      return is_large;
    };
    for (RawFile& file : read_input_files(std::span(&input, 1), leave_out)) {
      GivenFile& one = given.emplace_back();
      one.path = folder ? (fs::path(input) / file.file).string() : input;
      places.push_back(given.size() - 1);
      files.push_back(std::move(file));
    }
    std::move(large.begin(), large.end(), std::back_inserter(given));
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

void hash_where_it_tells(std::vector<GivenFile>& given, std::span<const StoredSource> sources) {
  for (GivenFile& one : given) {
    if (!one.large || !one.file.sha256.empty()) continue;
    const bool may_be_there = std::any_of(sources.begin(), sources.end(),
                                          [&](const StoredSource& source) { return source.bytes == one.bytes; });
    const auto alike =
        std::count_if(given.begin(), given.end(), [&](const GivenFile& other) { return other.bytes == one.bytes; });
    if (!may_be_there && alike == 1) continue;
    std::ifstream in(one.path, std::ios::binary);
    one.file.sha256 = hash_bytes(in).sha256;
  }
}

} // namespace docket
