#include "core/error.h"
#include "report/run_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace fs = std::filesystem;
using docket::check_run_folder;
using docket::Error;
using docket::ErrorKind;
using docket::RunFile;
using docket::write_run_folder;

namespace {

const std::string our_json = "{\n    \"schema\": \"station-docket/findings/1\"\n}\n";

class RunFolder : public testing::Test {
protected:
  void SetUp() override {
    place_ = fs::path(testing::TempDir()) /
             ("run_folder_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(place_);
    fs::create_directories(place_);
  }
  void TearDown() override { fs::remove_all(place_); }

  std::string in_place(const std::string& name) const { return (place_ / name).string(); }

  void put(const std::string& name, const std::string& bytes) const {
    fs::create_directories((place_ / name).parent_path());
    std::ofstream(place_ / name, std::ios::binary) << bytes;
  }

  std::string read(const std::string& name) const {
    std::ifstream in(place_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  std::vector<std::string> all_files() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(place_))
      names.push_back(fs::relative(entry.path(), place_).string());
    std::sort(names.begin(), names.end());
    return names;
  }

  fs::path place_;
};

template <class Action>
ErrorKind kind_of_error(Action action) {
  try {
    action();
  } catch (const Error& error) {
    EXPECT_FALSE(error.remedy().empty());
    return error.kind();
  }
  ADD_FAILURE() << "no error";
  return ErrorKind::could_not_be_done;
}

const std::vector<RunFile> run{{"casefile.html", "<p>new"}, {"findings.json", our_json}};

TEST_F(RunFolder, MakesTheFolderAndThoseAboveIt) {
  write_run_folder(in_place("a/b/case"), run);
  EXPECT_EQ(read("a/b/case/casefile.html"), "<p>new");
  EXPECT_EQ(read("a/b/case/findings.json"), our_json);
  EXPECT_EQ(all_files().size(), 5u); // a, a/b, a/b/case and two files: nothing else is left
}

TEST_F(RunFolder, FillsAnEmptyFolderAlsoWithASlashBehindIt) {
  fs::create_directories(place_ / "case");
  write_run_folder(in_place("case/"), run);
  EXPECT_EQ(read("case/casefile.html"), "<p>new");
}

TEST_F(RunFolder, ReplacesAFormerRunAsAWhole) {
  put("case/casefile.html", "<p>old");
  put("case/findings.json", our_json);
  write_run_folder(in_place("case"), std::vector<RunFile>{{"findings.json", our_json}});
  EXPECT_EQ(all_files(), (std::vector<std::string>{"case", "case/findings.json"}));
}

TEST_F(RunFolder, KnowsAFormerRunByItsPageAlone) {
  put("case/casefile.html", "<meta name=\"generator\" content=\"Station Docket\">");
  write_run_folder(in_place("case"), run);
  EXPECT_EQ(read("case/casefile.html"), "<p>new");
}

TEST_F(RunFolder, KnowsAFormerRunByItsPdfAlone) {
  put("case/casefile.pdf", "%PDF-1.4 xmp:CreatorTool=\"Station Docket\"");
  write_run_folder(in_place("case"), run);
  EXPECT_EQ(read("case/casefile.html"), "<p>new");
}

TEST_F(RunFolder, NeverTouchesAFolderThatHoldsSomethingElse) {
  put("case/casefile.html", "<p>old");
  put("case/findings.json", our_json);
  put("case/minutes.txt", "x");
  EXPECT_EQ(kind_of_error([&] { write_run_folder(in_place("case"), run); }), ErrorKind::wrong_usage);
  EXPECT_EQ(read("case/casefile.html"), "<p>old");
  EXPECT_EQ(all_files().size(), 4u);
}

TEST_F(RunFolder, NeverTouchesFilesOfOurNamesWithoutOurMark) {
  put("case/findings.json", "{}");
  EXPECT_EQ(kind_of_error([&] { check_run_folder(in_place("case")); }), ErrorKind::wrong_usage);
  EXPECT_EQ(read("case/findings.json"), "{}");
}

TEST_F(RunFolder, RefusesAFileAndTheFolderOneIsIn) {
  put("case", "x");
  EXPECT_EQ(kind_of_error([&] { check_run_folder(in_place("case")); }), ErrorKind::wrong_usage);
  EXPECT_EQ(kind_of_error([&] { check_run_folder("."); }), ErrorKind::wrong_usage);
  EXPECT_EQ(kind_of_error([&] { check_run_folder("/"); }), ErrorKind::wrong_usage);
}

TEST_F(RunFolder, LeavesNothingBehindWhereItCanNotBeMade) {
  put("file", "x");
  EXPECT_EQ(kind_of_error([&] { write_run_folder(in_place("file/case"), run); }), ErrorKind::could_not_be_done);
  EXPECT_EQ(all_files(), std::vector<std::string>{"file"});
}

TEST_F(RunFolder, LeavesNothingBehindWhereAFileCanNotBeWritten) {
  // A name with a folder that is not there can't be written.
  const std::vector<RunFile> broken{{"findings.json", our_json}, {"missing/part", "x"}};
  EXPECT_EQ(kind_of_error([&] { write_run_folder(in_place("a/case"), broken); }), ErrorKind::could_not_be_done);
  EXPECT_TRUE(all_files().empty());
}

TEST_F(RunFolder, KeepsTheFormerRunWhereAFileCanNotBeWritten) {
  put("case/findings.json", our_json);
  const std::vector<RunFile> broken{{"missing/part", "x"}};
  EXPECT_EQ(kind_of_error([&] { write_run_folder(in_place("case"), broken); }), ErrorKind::could_not_be_done);
  EXPECT_EQ(all_files(), (std::vector<std::string>{"case", "case/findings.json"}));
}

} // namespace
