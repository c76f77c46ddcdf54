// Opening and changing a docket: schema, versions, all or nothing.
#include "ingest/docket/ledger.h"
#include "ingest/docket/schema.h"
#include "ingest/docket/store.h"
#include "tests/ingest/docket/docket_file.h"

#include <array>

namespace docket {
namespace {

class Store : public DocketFile {
protected:
  void make_docket() const { ASSERT_TRUE(add(write_case(small_case())).entry); }

  /// Changes the file past the program.
  void change(const std::string& sql) const {
    Database database(docket(), Opening::existing);
    database.run(sql);
  }
};

TEST_F(Store, NamesOfDockets) {
  EXPECT_TRUE(is_docket_name("a/st-07.docket"));
  EXPECT_FALSE(is_docket_name("st-07.docket.xlsx"));
  EXPECT_FALSE(is_docket_name(".docket")); // a hidden file without a name
}

TEST_F(Store, IsKnownByItsNumberAndVersion) {
  make_docket();
  Database database = open_docket(docket());
  // "Dckt" in ASCII
  EXPECT_EQ(database.whole("PRAGMA application_id"), 0x44636B74);
  EXPECT_EQ(database.whole("PRAGMA user_version"), schema_version);
  EXPECT_EQ(files(), (std::vector<std::string>{"case.csv", "case.docket", "standard.csv"}));
}

TEST_F(Store, RefusesWhatIsNoDocket) {
  const Error absent = thrown_by([&] { open_docket(docket()); });
  EXPECT_EQ(absent.kind(), ErrorKind::could_not_be_done);
  EXPECT_EQ(absent.what_happened(), "There is no such docket.");

  write("case.docket", "");
  const Error empty = thrown_by([&] { open_docket(docket()); });
  EXPECT_EQ(empty.kind(), ErrorKind::input_has_faults);
  EXPECT_EQ(empty.what_happened(), "The docket is empty: nothing was added to it yet.");

  write("case.docket", std::string(4096, 'x'));
  const Error text = thrown_by([&] { open_docket(docket()); });
  EXPECT_EQ(text.kind(), ErrorKind::input_has_faults);
  EXPECT_EQ(text.what_happened(), "This is no docket.");

  std::filesystem::remove(docket());
  Database(docket(), Opening::make).run("CREATE TABLE other (a)");
  const Error other = thrown_by([&] { open_docket(docket()); });
  EXPECT_EQ(other.kind(), ErrorKind::input_has_faults);
  EXPECT_EQ(other.what_happened(), "This is a database, but no docket.");

  std::filesystem::remove(docket());
  std::filesystem::create_directory(docket());
  const Error folder = thrown_by([&] { open_docket(docket()); });
  EXPECT_EQ(folder.kind(), ErrorKind::could_not_be_done);
  EXPECT_EQ(folder.what_happened(), "This is a folder, not a docket.");
}

TEST_F(Store, RefusesANewerSchema) {
  make_docket();
  change("PRAGMA user_version = 99");
  for (const auto& use : {std::function<void()>([&] { open_docket(docket()); }),
                          std::function<void()>([&] { DocketChange(docket(), "", ""); })}) {
    const Error error = thrown_by(use);
    EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
    EXPECT_EQ(error.what_happened(),
              "A newer version of docket wrote this file: its schema is 99, and this program knows " +
                  std::to_string(schema_version) + ".");
    EXPECT_EQ(error.remedy(), "Use the newer version. Nothing was changed.");
  }
}

TEST_F(Store, RefusesTablesThatSomebodyChanged) {
  make_docket();
  change("DROP TRIGGER ledger_unchanged");
  const Error error = thrown_by([&] { open_docket(docket()); });
  EXPECT_EQ(error.kind(), ErrorKind::verification_failed);
  EXPECT_EQ(error.what_happened(),
            "The tables of this docket are not as docket makes them: somebody or something changed the file.");
}

TEST_F(Store, AChangeThatIsNotCommittedLeavesNothing) {
  make_docket();
  const std::string before = read("case.docket");
  {
    DocketChange change_of_it(docket(), "2026-11-03T14:30:00Z", "planner");
    LedgerEntry entry;
    entry.at = "2026-11-03T14:30:00Z";
    entry.act = "add";
    entry.details = "{}";
    append_to_ledger(change_of_it.docket(), entry);
  }
  EXPECT_EQ(read("case.docket"), before);
  std::filesystem::remove(docket());
  { DocketChange made(docket(), "2026-11-03T14:30:00Z", "planner"); }
  EXPECT_EQ(files(), (std::vector<std::string>{"case.csv", "standard.csv"}));
}

TEST_F(Store, OneChangeAtATime) {
  make_docket();
  DocketChange first(docket(), "2026-11-03T14:30:00Z", "planner");
  const Error error = thrown_by([&] { DocketChange(docket(), "2026-11-03T14:30:00Z", "planner"); });
  EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
  EXPECT_EQ(std::string(error.what()), docket() + ": Another program is using this docket. Wait until it is done, then "
                                                  "give the command again. Nothing was changed.");
}

TEST_F(Store, AFileTakenAwayIsNotWrittenTo) {
  make_docket();
  Database database(docket(), Opening::existing);
  EXPECT_FALSE(database.has_moved());
  std::filesystem::rename(docket(), path("moved.docket"));
  EXPECT_TRUE(database.has_moved());
}

// Two steps made up: 1 to 2 adds a table, 2 to 3 a view.
constexpr std::array made_up_steps{
    SchemaStep{1, "CREATE TABLE more (a INTEGER) STRICT;"},
    SchemaStep{2, "CREATE VIEW less AS SELECT a FROM more;"},
};

TEST_F(Store, StepsLeadFromAnyVersionToTheOneAskedFor) {
  for (const std::int64_t from : {1, 2, 3}) {
    Database database = Database::without_file("made up");
    if (from > 1) database.run("CREATE TABLE more (a INTEGER) STRICT;");
    if (from > 2) database.run("CREATE VIEW less AS SELECT a FROM more;");
    database.run("PRAGMA user_version = " + std::to_string(from));
    migrate_schema(database, made_up_steps, 3);
    EXPECT_EQ(database.whole("PRAGMA user_version"), 3);
    EXPECT_EQ(database.whole("SELECT count(*) FROM sqlite_schema"), 2) << from;
  }
  Database old = Database::without_file("made up");
  const Error error = thrown_by([&] { migrate_schema(old, made_up_steps, 3); }); // there is no step from 0
  EXPECT_EQ(error.what_happened(), "A docket this old can't be read any more.");
}

} // namespace
} // namespace docket
