// A docket of a test in a folder that goes away, and the CSV files added to it.
#pragma once

#include "core/error.h"
#include "ingest/docket/addition.h"
#include "ingest/docket/database.h"
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

namespace docket {

class DocketFile : public testing::Test {
protected:
  DocketFile() { std::filesystem::create_directory(folder_); }
  ~DocketFile() override { std::filesystem::remove_all(folder_); }

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string docket() const { return path("case.docket"); }

  std::string write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories(std::filesystem::path(path(name)).parent_path());
    std::ofstream(path(name), std::ios::binary) << text;
    return path(name);
  }

  std::string read(const std::string& name) const {
    std::ifstream in(path(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  /// The files of a case by table, each a CSV file.
  std::vector<std::string> write_case(const Texts& texts) const {
    std::vector<std::string> files;
    for (const auto& [table, text] : texts) files.push_back(write(table + ".csv", text));
    return files;
  }

  AddOutcome add(const std::vector<std::string>& inputs, const std::string& supersedes = "") const {
    Addition addition;
    addition.inputs = inputs;
    addition.at = "2026-11-03T14:30:00Z";
    addition.by_role = "industrial engineering";
    addition.supersedes = supersedes;
    return add_to_docket(docket(), addition);
  }

  /// What lies in the folder beside the folders, by name.
  std::vector<std::string> files() const {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder_))
      if (entry.is_regular_file()) names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
  }

private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() /
      ("docket-test-" + std::to_string(getpid()) + "-" + testing::UnitTest::GetInstance()->current_test_info()->name());
};

/// The Error that something throws; absent where it throws none.
inline std::optional<Error> error_of(const std::function<void()>& doing) {
  try {
    doing();
  } catch (const Error& error) {
    return error;
  }
  return std::nullopt;
}

/// The same for a test that goes on with it.
inline Error thrown_by(const std::function<void()>& doing) {
  if (auto error = error_of(doing)) return *std::move(error);
  ADD_FAILURE() << "nothing was thrown";
  return {ErrorKind::wrong_usage, "", "", ""};
}

} // namespace docket
