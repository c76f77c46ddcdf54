// A joint copy: the same case, and no note anywhere in the file. All data are invented.
#include "ingest/docket/addition.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/history.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/joint_copy.h"
#include "ingest/docket/store.h"
#include "ingest/file_hash.h"
#include "tests/ingest/docket/docket_file.h"

namespace docket {
namespace {

class JointCopy : public DocketFile {
protected:
  std::string joint() const { return docket() + "-joint.docket"; }

  void copy() const {
    Database full = open_docket(docket());
    write_joint_copy(full, joint(), "2026-11-05T08:00:00Z", "review board");
  }

  std::vector<std::string> damage() const {
    Database database = open_docket(joint());
    return find_damage(database, Thoroughness::full);
  }
};

constexpr const char* secret = "WRITTEN-BESIDE-IT";

TEST_F(JointCopy, TheSameCaseWithoutNotes) {
  const std::string word(secret);
  std::vector<std::string> inputs =
      write_case(full_case_with({{"cycle_log", "started_at,cycle_s,operator,who_saw_it\n2026-11-03 06:00:00,52.5,A1," +
                                                   word + "\n# " + word + "\n2026-11-03 06:01:00,51.9,A1,\n"},
                                 {"conditions", "check,state,note\ntools,differs," + word + "\n"}}));
  ASSERT_TRUE(add(inputs).entry);
  copy();
  const std::string bytes = read_file_bytes(joint());
  EXPECT_EQ(bytes.find(word), std::string::npos);
  {
    Database database = open_docket(joint());
    for (const StoredSource& source : read_sources(database)) {
      EXPECT_EQ(source.form, "recoded");
      EXPECT_TRUE(load_bytes(database, source, [&](std::string_view part) {
        EXPECT_EQ(part.find(word), std::string_view::npos) << source.file;
      }));
    }
  }
  const Intake full = read_docket_case(docket()), joint_case = read_docket_case(joint());
  ASSERT_TRUE(full.input && joint_case.input);
  EXPECT_EQ(full.input->conditions[0].note, word);
  EXPECT_EQ(joint_case.input->conditions[0].note, "");
  ASSERT_EQ(joint_case.input->cycle_log.size(), full.input->cycle_log.size());
  for (std::size_t i = 0; i < full.input->cycle_log.size(); ++i) {
    EXPECT_EQ(joint_case.input->cycle_log[i].cycle, full.input->cycle_log[i].cycle);
    EXPECT_EQ(joint_case.input->cycle_log[i].origin, full.input->cycle_log[i].origin)
        << "the row of the file as it came";
  }
  ASSERT_EQ(joint_case.input->sources.size(), full.input->sources.size());
  for (std::size_t i = 0; i < full.input->sources.size(); ++i) {
    EXPECT_EQ(joint_case.input->sources[i].file, full.input->sources[i].file);
    EXPECT_EQ(joint_case.input->sources[i].sha256, full.input->sources[i].sha256) << "of the full file";
  }
  EXPECT_TRUE(damage().empty()) << damage().front();
  EXPECT_NE(read_history(joint()).entries[0].what.find(read_history(docket()).entries.back().sha256),
            std::string::npos);
}

TEST_F(JointCopy, OfASafetyMatterOnlyThatItIsOpen) {
  const std::string word(secret);
  ASSERT_TRUE(add(write_case(full_case_with(
                      {{"referrals", "trigger,reported_on,to_role,state\n" + word + ",2026-11-02," + word + ",open\n"},
                       {"stops", "started_at,reason\n2026-11-03 06:00:00," + word + "\n"}})))
                  .entry);
  copy();
  EXPECT_EQ(read_file_bytes(joint()).find(word), std::string::npos);
  const Intake joint_case = read_docket_case(joint());
  ASSERT_TRUE(joint_case.input) << codes_of(joint_case);
  ASSERT_EQ(joint_case.input->referrals.size(), 1U);
  EXPECT_TRUE(joint_case.input->referrals[0].open);
  EXPECT_FALSE(joint_case.input->referrals[0].reported_on);
  EXPECT_TRUE(damage().empty());
}

TEST_F(JointCopy, SupersededFilesAreNotInIt) {
  ASSERT_TRUE(
      add(write_case(full_case_with({{"cycle_log", "started_at,cycle_s,operator\n2026-11-03 06:00:00,91.25,A1\n"}})))
          .entry);
  ASSERT_TRUE(add({write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n")}).entry);
  copy();
  EXPECT_EQ(read_file_bytes(joint()).find("91.25"), std::string::npos);
  EXPECT_TRUE(damage().empty());
  const Intake joint_case = read_docket_case(joint());
  ASSERT_TRUE(joint_case.input);
  ASSERT_EQ(joint_case.input->cycle_log.size(), 1U);
  EXPECT_EQ(joint_case.input->cycle_log[0].cycle, Seconds{52.5});
}

} // namespace
} // namespace docket
