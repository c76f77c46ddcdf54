// A bag whose PDF is not what this machine makes: sealed soundly, so no damage, but it is said.
#include "core/error.h"
#include "ingest/bag/bag.h"
#include "report/cli/commands.h"
#include "report/wording/bag.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <iostream>
#include <sstream>

namespace docket {
namespace {

namespace fs = std::filesystem;

/// Sends a stream elsewhere while this lives.
class Redirected {
public:
  Redirected(std::ostream& stream, std::ostream& to) : stream_(stream), former_(stream.rdbuf(to.rdbuf())) {}
  Redirected(const Redirected&) = delete;
  Redirected& operator=(const Redirected&) = delete;
  ~Redirected() { stream_.rdbuf(former_); }

private:
  std::ostream& stream_;
  std::streambuf* former_;
};

/// What a command prints, on both channels, behind its exit status.
std::string said_by(int (*command)(const CommandLine&), std::vector<std::string> inputs,
                    std::map<std::string, std::string> options = {}) {
  std::ostringstream said;
  const Redirected out(std::cout, said), err(std::cerr, said);
  CommandLine line;
  line.inputs = std::move(inputs);
  for (auto& [name, value] : options) line.options.emplace(name, value);
  const int status = command(line);
  return std::to_string(status) + "\n" + said.str();
}

class VerifyPdf : public testing::Test {
protected:
  void SetUp() override {
    place_ = fs::path(testing::TempDir()) /
             ("verify_pdf_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(place_);
    fs::create_directories(place_);
    const std::string input = std::string(DOCKET_TESTS_DIR) + "/golden/seal_joint/in/case";
    const std::map<std::string, std::string> act{{"by", "review board"}, {"at", "2026-11-05T08:00:00Z"}};
    said_by(run_add, {at("st-07.docket"), input}, act);
    said_by(run_seal, {at("st-07.docket"), at("st-07.zip")}, act);
  }
  void TearDown() override { fs::remove_all(place_); }

  std::string at(const std::string& name) const { return (place_ / name).string(); }

  /// The same bag once more, with other bytes for one file, or without it.
  void seal_again(const std::string& changed, bool leave_out) const {
    const OpenBag sealed = open_bag(at("st-07.zip"));
    ASSERT_TRUE(sealed.damage.empty());
    Bag bag;
    bag.folder = sealed.folder;
    for (const auto& [label, value] : sealed.info)
      if (label != "Payload-Oxum") bag.info.emplace_back(label, value);
    for (const auto& [name, sha256] : sealed.sha256) {
      if (name == changed && leave_out) continue;
      BagFile file = bag_file_of_bytes(name, read_from_bag(sealed, name) + (name == changed ? "\n" : ""));
      if (name.starts_with("data/")) bag.payload.push_back(std::move(file));
      if (name == "HOW-TO-CHECK.txt") bag.notes.push_back(std::move(file));
    }
    write_bag(at("again.zip"), bag);
  }

  fs::path place_;
};

TEST_F(VerifyPdf, TheSameIsSaid) {
  const std::string said = said_by(run_verify, {at("st-07.zip")});
  EXPECT_TRUE(said.starts_with("0\n")) << said;
  EXPECT_NE(said.find(wording::same_pdf), std::string::npos) << said;
}

TEST_F(VerifyPdf, AnotherIsSaidAndNoDamage) {
  seal_again("data/casefile/casefile.pdf", false);
  const std::string said = said_by(run_verify, {at("again.zip")});
  EXPECT_TRUE(said.starts_with("0\n")) << said;
  EXPECT_NE(said.find(wording::other_pdf), std::string::npos) << said;
  EXPECT_EQ(said.find(wording::same_pdf), std::string::npos) << said;
}

TEST_F(VerifyPdf, AnotherPageIsDamage) {
  seal_again("data/casefile/casefile.html", false);
  const std::string said = said_by(run_verify, {at("again.zip")});
  EXPECT_TRUE(said.starts_with("4\n")) << said;
  EXPECT_EQ(said.find("casefile.pdf"), std::string::npos) << said;
}

TEST_F(VerifyPdf, ABagFromBeforeHasNone) {
  seal_again("data/casefile/casefile.pdf", true);
  const std::string said = said_by(run_verify, {at("again.zip")});
  EXPECT_TRUE(said.starts_with("0\n")) << said;
  EXPECT_EQ(said.find("casefile.pdf"), std::string::npos) << said;
}

} // namespace
} // namespace docket
