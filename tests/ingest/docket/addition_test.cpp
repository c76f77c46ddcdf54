// What is added, recognised, superseded; and that a case from a docket is the case from its files.
#include "ingest/docket/addition.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/history.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/store.h"
#include "ingest/file_hash.h"
#include "tests/ingest/docket/docket_file.h"

namespace docket {
namespace {

const char* const log_before =
    "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n2026-11-03 06:01:00,51.9,A1\n";
const char* const log_after = "started_at,cycle_s,operator\n2026-11-03 06:00:00,53.5,A1\n";

class AdditionToDocket : public DocketFile {
protected:
  std::vector<std::string> current_files() const {
    std::vector<std::string> names;
    for (const StoredSource& source : current_of(read_history(docket()).sources)) names.push_back(source.file);
    return names;
  }

  /// Every hash the docket holds, computed again.
  std::vector<std::string> damage() const {
    Database database = open_docket(docket());
    return find_damage(database, Thoroughness::full);
  }
};

TEST_F(AdditionToDocket, ACaseFromADocketIsTheCaseFromItsFiles) {
  const std::vector<std::string> inputs = write_case(full_case_with({{"cycle_log", log_before}}));
  const AddOutcome outcome = add(inputs);
  ASSERT_TRUE(outcome.entry);
  EXPECT_EQ(outcome.entry->number, 1);
  EXPECT_EQ(outcome.entry->by_role, "industrial engineering");
  EXPECT_EQ(outcome.files.size(), inputs.size());
  const Intake loose = read_case(inputs), kept = read_docket_case(docket());
  ASSERT_TRUE(loose.input && kept.input);
  ASSERT_EQ(kept.input->sources.size(), loose.input->sources.size());
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    EXPECT_EQ(kept.input->sources[i].file, loose.input->sources[i].file);
    EXPECT_EQ(kept.input->sources[i].sha256, loose.input->sources[i].sha256);
    EXPECT_EQ(kept.input->sources[i].rows, loose.input->sources[i].rows);
  }
  ASSERT_EQ(kept.input->cycle_log.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(kept.input->cycle_log[i].cycle, loose.input->cycle_log[i].cycle);
    EXPECT_EQ(kept.input->cycle_log[i].started_at, loose.input->cycle_log[i].started_at);
    EXPECT_EQ(kept.input->cycle_log[i].origin, loose.input->cycle_log[i].origin);
  }
  EXPECT_EQ(kept.issues.size(), loose.issues.size());
  EXPECT_TRUE(damage().empty());
}

TEST_F(AdditionToDocket, WhatAReaderCouldNotTakeIsKeptToo) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(std::string(DOCKET_TESTS_DIR) + "/ingest/awkward_files/line.xes.gz");
  const AddOutcome outcome = add(inputs);
  ASSERT_TRUE(outcome.entry);
  const Intake loose = read_case(inputs), kept = read_docket_case(docket());
  ASSERT_FALSE(loose.issues.empty());
  EXPECT_EQ(codes_of(kept), codes_of(loose));
}

TEST_F(AdditionToDocket, SourcesAreKeptAsTheyCame) {
  // 9 MiB, so that there are three parts: a note row that is long.
  std::string log = log_before;
  for (int i = 0; i < 9; ++i) log += "#" + std::string(std::size_t{1} << 20, static_cast<char>('a' + i)) + "\n";
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", log));
  ASSERT_TRUE(add(inputs).entry);
  Database database = open_docket(docket());
  const std::vector<StoredSource> sources = read_sources(database);
  ASSERT_EQ(sources.size(), 3U);
  EXPECT_EQ(sources[2].sha256, sha256_of(log));
  EXPECT_EQ(sources[2].bytes, static_cast<std::int64_t>(log.size()));
  EXPECT_EQ(database.whole("SELECT count(*) FROM source_part WHERE source = 3"), 3);
  std::string again;
  EXPECT_TRUE(load_bytes(database, sources[2], [&](std::string_view part) { again += part; }));
  EXPECT_EQ(again, log);
}

TEST_F(AdditionToDocket, TheSameFileIsRecognised) {
  const std::vector<std::string> inputs = write_case(small_case());
  add(inputs);
  const std::string before = read("case.docket");
  const AddOutcome again = add(inputs);
  EXPECT_FALSE(again.entry);
  EXPECT_TRUE(again.files[0].already_there && again.files[1].already_there);
  EXPECT_EQ(again.files[1].source, 2);
  EXPECT_EQ(read("case.docket"), before);
  // Twice in one command, under another name.
  const std::string log = write("cycle_log.csv", log_before);
  const std::string copy = write("again/cycle_log.csv", log_before);
  const AddOutcome twice = add({log, copy});
  ASSERT_TRUE(twice.entry);
  EXPECT_FALSE(twice.files[0].already_there);
  EXPECT_TRUE(twice.files[1].already_there);
  EXPECT_EQ(twice.files[1].source, 3);
}

TEST_F(AdditionToDocket, ACorrectionTakesThePlaceOfWhatItCorrects) {
  std::vector<std::string> inputs = write_case(small_case_with({{"cycle_log", log_before}}));
  add(inputs);
  ASSERT_EQ(current_files(), (std::vector<std::string>{"case.csv", "cycle_log.csv", "standard.csv"}));
  write("cycle_log.csv", log_after);
  const AddOutcome outcome = add({path("cycle_log.csv")});
  ASSERT_TRUE(outcome.entry);
  ASSERT_TRUE(outcome.files[0].superseded);
  EXPECT_EQ(outcome.files[0].superseded->source, 2);
  EXPECT_EQ(outcome.entry->what, "cycle_log.csv in place of source 2.");
  EXPECT_EQ(current_files(), (std::vector<std::string>{"case.csv", "cycle_log.csv", "standard.csv"}));
  const Intake kept = read_docket_case(docket());
  ASSERT_TRUE(kept.input);
  ASSERT_EQ(kept.input->cycle_log.size(), 1U);
  EXPECT_EQ(kept.input->cycle_log[0].cycle, Seconds(53.5));
  const std::vector<Issue> superseded = issues_of(kept, "source_superseded");
  ASSERT_EQ(superseded.size(), 1U);
  EXPECT_EQ(superseded[0].wrong, "Source 2 of the docket is superseded by source 4 (cycle_log.csv) and is not used.");
  Database database = open_docket(docket());
  EXPECT_EQ(database.whole("SELECT count(*) FROM row_origin WHERE state = 'superseded'"), 3);
  EXPECT_EQ(database.text("SELECT file || ' ' || sheet || ' ' || row FROM row_origin WHERE source = 4 AND row = 2"),
            "cycle_log.csv cycle_log 2");
  EXPECT_TRUE(damage().empty());
}

TEST_F(AdditionToDocket, BackToWhatWasBefore) {
  add(write_case(small_case_with({{"cycle_log", log_before}})));
  add({write("cycle_log.csv", log_after)});
  const AddOutcome back = add({write("cycle_log.csv", log_before)});
  ASSERT_TRUE(back.entry);
  EXPECT_EQ(back.files[0].superseded->source, 4);
  EXPECT_EQ(back.files[0].once_more, 2);
  EXPECT_EQ(read_docket_case(docket()).input->cycle_log.size(), 2U);
}

TEST_F(AdditionToDocket, SupersedesByNumberByNameOrNothing) {
  add(write_case(small_case_with({{"cycle_log", log_before}})));
  const std::string march = write("march/cycle_log.csv", "started_at,cycle_s,operator\n2026-03-03 06:00:00,54,A1\n");
  const AddOutcome beside = add({march}, "none");
  ASSERT_TRUE(beside.entry);
  EXPECT_FALSE(beside.files[0].superseded);
  EXPECT_EQ(read_docket_case(docket()).input->cycle_log.size(), 3U);

  const std::string april = write("april/cycle_log.csv", "started_at,cycle_s,operator\n2026-04-03 06:00:00,55,A1\n");
  const Error which = thrown_by([&] { add({april}); });
  EXPECT_EQ(which.kind(), ErrorKind::wrong_usage);
  EXPECT_EQ(which.what_happened(), "Several files have this name, so it can't be told which one is the correction of "
                                   "which (sources of the docket: 2, 4).");
  const Error name = thrown_by([&] { add({april}, "cycle_log.csv"); });
  EXPECT_EQ(name.what_happened(), "Several sources have this name.");
  EXPECT_EQ(name.remedy(),
            "Give one number of these: 1 (case.csv), 2 (cycle_log.csv), 3 (standard.csv), 4 (cycle_log.csv).");
  const Error unknown = thrown_by([&] { add({april}, "7"); });
  EXPECT_EQ(unknown.what_happened(), "The case has no such source.");
  const Error several = thrown_by([&] { add({april, march}, "4"); });
  EXPECT_EQ(several.what_happened(), "Several files are given.");

  const AddOutcome by_number = add({april}, "4");
  ASSERT_TRUE(by_number.entry);
  EXPECT_EQ(by_number.files[0].superseded->source, 4);
  const AddOutcome by_name =
      add({write("standard2.csv", "element,description,class,time_s\nE10,place fan,va,31\n")}, "standard.csv");
  // Two tables of one name: the file name says the table.
  EXPECT_FALSE(by_name.entry);
  EXPECT_EQ(issues_of(by_name.intake, "required_table_missing").size(), 1U);
}

TEST_F(AdditionToDocket, AFaultKeepsAllOut) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,fifty,Maier\n"));
  const AddOutcome refused = add(inputs);
  EXPECT_FALSE(refused.entry);
  EXPECT_EQ(issues_of(refused.intake, "not_a_number").size(), 1U);
  EXPECT_EQ(issues_of(refused.intake, "operator_not_a_code").size(), 1U); // a name never enters
  EXPECT_FALSE(std::filesystem::exists(docket()));

  add(write_case(small_case()));
  const std::string before = read("case.docket");
  EXPECT_FALSE(add({path("cycle_log.csv")}).entry);
  EXPECT_EQ(read("case.docket"), before);
}

TEST_F(AdditionToDocket, ADryRunWritesNothing) {
  Addition addition;
  addition.inputs = write_case(small_case());
  addition.at = "2026-11-03T14:30:00Z";
  addition.dry_run = true;
  const AddOutcome outcome = add_to_docket(docket(), addition);
  EXPECT_FALSE(outcome.entry);
  EXPECT_EQ(outcome.files[1].source, 2);
  EXPECT_EQ(outcome.files[1].rows, 2);
  EXPECT_EQ(files(), (std::vector<std::string>{"case.csv", "standard.csv"}));
}

TEST_F(AdditionToDocket, AFolderAddedAgainBringsOnlyWhatChanged) {
  for (const auto& [table, text] : small_case_with({{"cycle_log", log_before}})) write("in/" + table + ".csv", text);
  add({path("in")});
  write("in/cycle_log.csv", log_after);
  const AddOutcome outcome = add({path("in")});
  ASSERT_EQ(outcome.files.size(), 3U);
  EXPECT_TRUE(outcome.files[0].already_there && outcome.files[2].already_there);
  EXPECT_EQ(outcome.files[1].superseded->source, 2);
}

TEST_F(AdditionToDocket, NamesAreCodesBeforeAnythingIsStored) {
  const std::vector<std::string> inputs = write_case(small_case());
  ASSERT_TRUE(add(inputs).entry);
  Addition addition;
  // The name stands where an operator does, and in a column that is not read.
  const std::string log =
      "started_at,cycle_s,operator,who was it\n2026-11-03 06:00:00,52.5,Anna Beispiel,Anna Beispiel "
      "for R. Roe\n2026-11-03 06:01:00,51.9,B2,nobody\n";
  addition.inputs = {write("cycle_log.csv", log)};
  addition.at = "2026-11-03T14:30:00Z";
  addition.reading.codes_file = write("codes.csv", "name,code\nAnna Beispiel,A1\nR. Roe,C3\n");
  const AddOutcome outcome = add_to_docket(docket(), addition);
  ASSERT_TRUE(outcome.entry);
  StoredSource source;
  std::string stored;
  {
    Database database = open_docket(docket());
    source = read_sources(database).back();
    EXPECT_TRUE(load_bytes(database, source, [&](std::string_view part) { stored += part; }));
  }
  EXPECT_EQ(source.form, "recoded");
  EXPECT_EQ(source.reading, "--codes");
  EXPECT_EQ(source.sha256, sha256_of(log)); // of the original
  EXPECT_EQ(source.bytes, static_cast<std::int64_t>(log.size()));
  EXPECT_EQ(stored, "[{\"sheet\":\"cycle_log\",\"rows\":[\n"
                    "[1,\"started_at\",\"cycle_s\",\"operator\",\"who was it\"],\n"
                    "[2,\"2026-11-03 06:00:00\",\"52.5\",\"A1\",\"(a name, left out)\"],\n"
                    "[3,\"2026-11-03 06:01:00\",\"51.9\",\"B2\",\"nobody\"]]}]\n");
  EXPECT_EQ(source.stored_sha256, sha256_of(stored));
  const Intake kept = read_docket_case(docket());
  ASSERT_TRUE(kept.input);
  EXPECT_EQ(kept.input->operators[0].code, "A1");
  EXPECT_TRUE(damage().empty());
  const std::string bytes = read("case.docket");
  for (const char* name : {"Anna", "Beispiel", "Roe"}) EXPECT_EQ(bytes.find(name), std::string::npos) << name;
  // A file without a name in it stays as it is, though a list is given.
  addition.inputs = {write("more.csv", "started_at,cycle_s,operator\n2026-11-04 06:00:00,52.5,A1\n")};
  addition.reading.as = TableName::cycle_log;
  ASSERT_TRUE(add_to_docket(docket(), addition).entry);
  const std::vector<StoredSource> sources = read_history(docket()).sources;
  EXPECT_EQ(sources.back().form, "as_given");
  EXPECT_EQ(sources.back().reading, "--as cycle_log --codes");
  EXPECT_EQ(read_docket_case(docket()).input->cycle_log.size(), 3U);
}

TEST_F(AdditionToDocket, RowsSetAsideStaySo) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n"
                                          "2026-11-03 06:01:00,fifty,A1\n"));
  Addition addition;
  addition.inputs = inputs;
  addition.at = "2026-11-03T14:30:00Z";
  addition.reading.set_aside = true;
  ASSERT_TRUE(add_to_docket(docket(), addition).entry);
  const Intake loose = read_case(inputs, addition.reading), kept = read_docket_case(docket());
  ASSERT_TRUE(kept.input);
  ASSERT_EQ(kept.input->set_aside.size(), 1U);
  EXPECT_EQ(kept.input->set_aside[0].raw, loose.input->set_aside[0].raw);
  EXPECT_EQ(codes_of(kept), codes_of(loose));
  {
    Database database = open_docket(docket());
    EXPECT_EQ(database.text("SELECT group_concat(file || ' ' || row) FROM row_origin WHERE state = 'set_aside'"),
              "cycle_log.csv 3");
  }
  // What is added later must be without a fault where it is not asked for.
  const std::string later = write("later/cycle_log.csv", "started_at,cycle_s,operator\n2026-11-04 06:01:00,sixty,A1\n");
  EXPECT_FALSE(add({later}, "none").entry);
  ASSERT_TRUE(
      add({write("later/cycle_log.csv", "started_at,cycle_s,operator\n2026-11-04 06:01:00,60,A1\n")}, "none").entry);
  EXPECT_EQ(read_docket_case(docket()).input->cycle_log.size(), 2U);
  EXPECT_EQ(read_docket_case(docket()).input->set_aside.size(), 1U);
  EXPECT_TRUE(damage().empty());
}

TEST_F(AdditionToDocket, TheSameFileReadOtherwiseIsACorrection) {
  std::vector<std::string> inputs = write_case(small_case());
  const std::string log = write("cycle_log.csv", "started_at,cycle_s,operator\n3/11/2026 06:00:00,52.5,A1\n");
  Addition addition;
  addition.inputs = {inputs[0], inputs[1], log};
  addition.at = "2026-11-03T14:30:00Z";
  addition.reading.dates = DateOrder::month_day_year;
  ASSERT_TRUE(add_to_docket(docket(), addition).entry);
  addition.reading.dates = DateOrder::day_month_year;
  addition.inputs = {log};
  const AddOutcome outcome = add_to_docket(docket(), addition);
  ASSERT_TRUE(outcome.entry);
  EXPECT_EQ(outcome.files[0].superseded->source, 3);
  using std::chrono::November;
  EXPECT_EQ(std::chrono::floor<std::chrono::days>(read_docket_case(docket()).input->cycle_log.at(0).started_at),
            Date(std::chrono::year(2026) / November / 3));
}

TEST_F(AdditionToDocket, EveryChangedByteOfARowOrASourceIsFound) {
  add(write_case(small_case_with({{"cycle_log", log_before}})));
  const std::string sound = read("case.docket");
  struct Change {
    const char *trigger, *sql, *says;
  };
  // The triggers are put back word by word, so that the schema is as it should be.
  for (const Change& change : {
           Change{"sheet_row_unchanged", "UPDATE sheet_row SET cells = '[\"A2\"]' WHERE source = 2 AND place = 3",
                  "the rows of source 2 (cycle_log.csv) are not those that were taken in"},
           Change{"sheet_row_kept", "DELETE FROM sheet_row WHERE source = 2 AND place = 3",
                  "the rows of source 2 (cycle_log.csv) are not those that were taken in"},
           Change{"sheet_row_unchanged", "UPDATE sheet_row SET state = 'set_aside' WHERE source = 2 AND place = 3",
                  "the rows of source 2 (cycle_log.csv) are not those that were taken in"},
           Change{"source_part_unchanged", "UPDATE source_part SET packed = x'00' WHERE source = 1",
                  "the stored bytes of source 1 (case.csv) are not those that were taken in"},
           Change{"source_unchanged", "UPDATE source SET rows = 7 WHERE source = 3",
                  "the sources of entry 1 are not those it names"},
           Change{"ledger_unchanged", "UPDATE ledger SET at = '2026-11-04T14:30:00Z'",
                  "entry 1 of the ledger is not what was written"},
       }) {
    write("case.docket", sound);
    {
      Database database(docket(), Opening::existing);
      const std::string trigger =
          database.text("SELECT sql FROM sqlite_schema WHERE name = '" + std::string(change.trigger) + "'");
      database.run("DROP TRIGGER " + std::string(change.trigger) + "; " + change.sql + "; " + trigger);
      const std::vector<std::string> damage = find_damage(database, Thoroughness::full);
      ASSERT_EQ(damage.size(), 1U) << change.sql;
      EXPECT_EQ(damage.front(), change.says);
    }
    const Error error = thrown_by([&] { read_docket_case(docket()); });
    EXPECT_EQ(error.kind(), ErrorKind::verification_failed) << change.sql;
    EXPECT_EQ(error.what_happened(), "The docket is damaged: " + std::string(change.says) + ".");
    EXPECT_EQ(error.remedy(), "Take a copy of it from before the damage. Nothing was changed.");
  }
}

} // namespace
} // namespace docket
