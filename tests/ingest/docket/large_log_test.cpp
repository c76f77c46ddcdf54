// A log that is packed gives the case that it gives row by row; and nothing of it is kept where it has a fault.
#include "ingest/docket/cycles/cycle_store.h"
#include "ingest/docket/docket_case.h"
#include "ingest/docket/history.h"
#include "ingest/docket/integrity.h"
#include "ingest/docket/large_log.h"
#include "ingest/docket/store.h"
#include "tests/ingest/docket/docket_file.h"

namespace docket {
namespace {

// A title, a column that is not known, minutes, decimal commas, blanks, marks, a quoted unit, a note, no time at midnight.
const char* const awkward_log = "Line 2, from the controller;;;;;;;;\n"
                                "Unit;started_at;cycle_min;variant;operator;wait_s;helped_s;mark;colour\n"
                                "HP-001;2026-11-03 06:00:00;0,875;V1;A1;;;;red\n"
                                "HP-002;2026-11-03 06:01:00,250;0,9;basic;a1;1,5;;;\n"
                                "# the shift begins;;;;;;;;\n"
                                "\"HP;003\";2026-11-03T06:02;0,8333333333333;V2;B2;0;12,25;helped;\n"
                                ";2026-11-03 06:03:00;1;V1;;;;starved;\n"
                                "HP-005;2026-11-04 00:00:00;1,1;;B2;;;helped; cut_short;\n";

class LargeLog : public DocketFile {
protected:
  AddOutcome add_packed(const std::vector<std::string>& inputs, bool dry_run = false) const {
    Addition addition;
    addition.inputs = inputs;
    addition.at = "2026-11-03T14:30:00Z";
    addition.large_log = 1;
    addition.dry_run = dry_run;
    return add_to_docket(docket(), addition);
  }

  std::int64_t stored(const std::string& table) const {
    return open_docket(docket()).whole("SELECT count(*) FROM " + table);
  }
};

void expect_same_cycles(const Case& seen, const Case& right) {
  ASSERT_EQ(seen.cycle_log.size(), right.cycle_log.size());
  for (std::size_t i = 0; i < right.cycle_log.size(); ++i) {
    const LoggedCycle &a = seen.cycle_log[i], &b = right.cycle_log[i];
    EXPECT_EQ(a.started_at, b.started_at) << i;
    EXPECT_EQ(a.cycle, b.cycle) << i; // to the last bit
    EXPECT_EQ(a.is_line_time, b.is_line_time) << i;
    EXPECT_EQ(a.variant, b.variant) << i;
    EXPECT_EQ(log_word(seen, a.station), log_word(right, b.station)) << i;
    EXPECT_EQ(log_word(seen, a.shift), log_word(right, b.shift)) << i;
    EXPECT_EQ(a.op, b.op) << i;
    EXPECT_EQ(a.wait, b.wait) << i;
    EXPECT_EQ(a.helped, b.helped) << i;
    EXPECT_EQ(a.helped_given, b.helped_given) << i;
    EXPECT_EQ(a.marks, b.marks) << i;
    EXPECT_EQ(a.origin, b.origin) << i;
  }
}

void expect_same_issues(const Issues& seen, const Issues& right) {
  ASSERT_EQ(seen.size(), right.size());
  for (std::size_t i = 0; i < right.size(); ++i) {
    EXPECT_EQ(seen[i].code, right[i].code);
    EXPECT_EQ(seen[i].row, right[i].row);
    EXPECT_EQ(seen[i].column, right[i].column);
    EXPECT_EQ(seen[i].raw, right[i].raw);
    EXPECT_EQ(seen[i].wrong, right[i].wrong);
  }
}

TEST_F(LargeLog, GivesTheCaseThatItGivesRowByRow) {
  std::vector<std::string> inputs = write_case(full_case_with({}));
  inputs.push_back(write("cycle_log.csv", awkward_log));
  const Intake loose = read_case(inputs);
  ASSERT_TRUE(loose.input) << codes_of(loose);
  ASSERT_EQ(loose.input->cycle_log.size(), 5U);
  const AddOutcome outcome = add_packed(inputs);
  ASSERT_TRUE(outcome.entry) << codes_of(outcome.intake);
  EXPECT_EQ(stored("cycle_chunk"), 1);
  expect_same_cycles(*outcome.intake.input, *loose.input);
  const Intake kept = read_docket_case(docket());
  ASSERT_TRUE(kept.input) << codes_of(kept);
  expect_same_cycles(*kept.input, *loose.input);
  expect_same_issues(kept.issues, loose.issues);
  EXPECT_EQ(kept.input->sources.back().rows, loose.input->sources.back().rows);
  for (std::size_t i = 0; i < loose.counts.size(); ++i) {
    EXPECT_EQ(kept.counts[i].read, loose.counts[i].read);
    EXPECT_EQ(kept.counts[i].used, loose.counts[i].used);
  }
  Database database = open_docket(docket());
  EXPECT_TRUE(find_damage(database, Thoroughness::full).empty());
}

TEST_F(LargeLog, IsRecognisedAndCorrectedAsAnyFile) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n"));
  ASSERT_TRUE(add_packed(inputs).entry);
  EXPECT_FALSE(add_packed(inputs).entry);
  EXPECT_FALSE(add(inputs).entry); // whichever way it would be read
  const AddOutcome correction =
      add_packed({write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,53,B2\n")});
  ASSERT_TRUE(correction.entry);
  EXPECT_EQ(correction.files[0].superseded->source, 3);
  const Intake kept = read_docket_case(docket());
  ASSERT_TRUE(kept.input);
  ASSERT_EQ(kept.input->cycle_log.size(), 1U);
  EXPECT_EQ(kept.input->cycle_log[0].cycle, Seconds(53));
  EXPECT_EQ(kept.input->operators.at(0).code, "B2");
  EXPECT_EQ(stored("cycle_chunk"), 2); // both are there
}

TEST_F(LargeLog, FaultsOfItsRowsAndAgainstOtherTablesKeepItOut) {
  const std::vector<std::string> inputs = write_case(full_case_with({}));
  ASSERT_TRUE(add(inputs).entry);
  const std::string before = read("case.docket");
  const std::string log = write("cycle_log.csv", "started_at,cycle_s,operator,variant\n"
                                                 "2026-11-03 06:00:00,52.5,A1,V1\n"
                                                 "2026-11-03 06:01:00,fifty,A1,V1\n"
                                                 "2026-11-03 06:02:00,52.5,Z9,V7\n"
                                                 "2026-11-03 06:00:00,52.5,A1,V1\n");
  const Intake loose = read_case(std::vector<std::string>{inputs[0], inputs[1], inputs[2], inputs[3], inputs[4], log});
  const AddOutcome refused = add_packed({log});
  EXPECT_FALSE(refused.entry);
  EXPECT_FALSE(refused.intake.input);
  for (const char* code : {"not_a_number", "operator_unknown", "variant_unknown", "cycle_twice"}) {
    EXPECT_EQ(issues_of(refused.intake, code).size(), 1U) << code;
    EXPECT_EQ(issues_of(loose, code).size(), 1U) << code;
  }
  EXPECT_EQ(read("case.docket"), before);
  // The very first add.
  std::filesystem::remove(docket());
  EXPECT_FALSE(add_packed({inputs[0], inputs[1], log}).entry);
  EXPECT_FALSE(std::filesystem::exists(docket()));
}

TEST_F(LargeLog, InAFolderIsPackedToo) {
  for (const auto& [table, text] : small_case()) write("in/" + table + ".csv", text);
  write("in/cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n");
  const AddOutcome outcome = add_packed({path("in")});
  ASSERT_TRUE(outcome.entry) << codes_of(outcome.intake);
  EXPECT_EQ(stored("cycle_chunk"), 1);
  EXPECT_EQ(outcome.files.size(), 3U);
  EXPECT_FALSE(add_packed({path("in")}).entry);
  EXPECT_EQ(read_docket_case(docket()).input->cycle_log.size(), 1U);
}

TEST_F(LargeLog, GivenTwiceAtOnceIsOne) {
  std::vector<std::string> inputs = write_case(small_case());
  const std::string text = "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n";
  inputs.push_back(write("a/cycle_log.csv", text));
  inputs.push_back(write("b/cycle_log.csv", text));
  const AddOutcome outcome = add_packed(inputs);
  ASSERT_TRUE(outcome.entry) << codes_of(outcome.intake);
  EXPECT_FALSE(outcome.files[2].already_there);
  EXPECT_TRUE(outcome.files[3].already_there);
  EXPECT_EQ(outcome.files[2].sha256.size(), 64U);
}

// Rows are given back without a check of each cell, so values that no cell may hold must still be refused.
TEST_F(LargeLog, CyclesThatNoLogCouldHoldAreDamage) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n"));
  ASSERT_TRUE(add_packed(inputs).entry);
  Database database = open_docket(docket());
  LoggedRows rows = cycles_of(database, 3);
  ASSERT_EQ(rows.count, 1);
  const auto read = [](const std::function<void(CycleRow&)>& change) {
    const std::string place = ":memory:";
    Database other = Database::without_file(place);
    other.run(cycle_chunks_sql());
    CycleRow row;
    row.started_at = Instant(std::chrono::hours(500'000));
    row.cycle = Seconds(50);
    row.op = "A1";
    row.row = 2;
    change(row);
    CycleBatch batch;
    append(batch.block, batch.words, row);
    CycleWriter(other.connection(), 1, place).write(batch);
    cycles_of(other, 1).each([](const LoggedRow&) {});
  };
  read([](CycleRow&) {});
  for (const auto& change : std::vector<std::function<void(CycleRow&)>>{
           [](CycleRow& row) { row.cycle = Seconds(86401); }, [](CycleRow& row) { row.helped = Seconds(-1); },
           [](CycleRow& row) { row.wait = Seconds(90000); }, [](CycleRow& row) { row.op = "no code"; }})
    EXPECT_EQ(thrown_by([&] { read(change); }).kind(), ErrorKind::verification_failed);
}

TEST_F(LargeLog, ADryRunLeavesNothing) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n"));
  const AddOutcome outcome = add_packed(inputs, true);
  EXPECT_TRUE(outcome.intake.input);
  EXPECT_EQ(outcome.files[2].rows, 1);
  EXPECT_FALSE(std::filesystem::exists(docket()));
}

TEST_F(LargeLog, OfAVeryLargeOneInOrderSamplesAreEnough) {
  std::vector<std::string> inputs = write_case(full_case_with({}));
  std::string text = "started_at,cycle_s,operator,variant,unit\n";
  for (int i = 10; i < 60; ++i)
    text +=
        "2026-11-03 06:" + std::to_string(i) + ":00,52.5," + (i % 2 ? "A1" : "B2") + ",V1,U" + std::to_string(i) + "\n";
  Addition addition;
  addition.at = "2026-11-03T14:30:00Z";
  addition.large_log = 1;
  addition.very_large_log = 40;
  const auto add_log = [&](const std::string& log) {
    addition.inputs = inputs;
    addition.inputs.push_back(write("cycle_log.csv", log));
    std::filesystem::remove(docket());
    return add_to_docket(docket(), addition);
  };
  const AddOutcome outcome = add_log(text);
  ASSERT_TRUE(outcome.entry) << codes_of(outcome.intake);
  EXPECT_EQ(outcome.intake.input->cycle_log.size(), 2U); // one of A1, one of B2
  EXPECT_EQ(outcome.files.back().rows, 50);
  EXPECT_EQ(read_docket_case(docket()).input->cycle_log.size(), 50U);
  // A name that only one row has is among the samples; what comes twice or out of order is checked row by row.
  EXPECT_EQ(issues_of(add_log(text + "2026-11-03 07:00:00,52.5,Z9,V1,U60\n").intake, "operator_unknown").size(), 1U);
  EXPECT_EQ(issues_of(add_log(text + "2026-11-03 06:59:00,52.5,A1,V1,U60\n").intake, "cycle_twice").size(), 1U);
  EXPECT_EQ(issues_of(add_log(text + "2026-11-03 07:00:00,52.5,A1,V1,U59\n").intake, "cycle_twice").size(), 1U);
  EXPECT_EQ(add_log(text + "2026-11-02 07:00:00,52.5,A1,V1,U60\n").intake.input->cycle_log.size(), 51U);
}

TEST_F(LargeLog, ACycleChangedOrTakenAwayIsFound) {
  std::vector<std::string> inputs = write_case(small_case());
  inputs.push_back(write("cycle_log.csv", "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n"));
  ASSERT_TRUE(add_packed(inputs).entry);
  const std::string sound = read("case.docket");
  struct Change {
    const char *trigger, *sql;
  };
  for (const Change& change : {Change{"cycle_word_unchanged", "UPDATE cycle_word SET word = 'B2' WHERE word = 'A1'"},
                               Change{"cycle_chunk_kept", "DELETE FROM cycle_chunk"},
                               Change{"cycle_chunk_unchanged", "UPDATE cycle_chunk SET packed = x'01000000'"}}) {
    write("case.docket", sound);
    {
      Database database(docket(), Opening::existing);
      const std::string trigger =
          database.text("SELECT sql FROM sqlite_schema WHERE name = '" + std::string(change.trigger) + "'");
      database.run("DROP TRIGGER " + std::string(change.trigger) + "; " + change.sql + "; " + trigger);
    }
    EXPECT_EQ(thrown_by([&] { read_docket_case(docket()); }).kind(), ErrorKind::verification_failed) << change.sql;
  }
}

TEST_F(LargeLog, OnlyALogThatCanBeReadSo) {
  const std::string text = "started_at,cycle_s,operator\n2026-11-03 06:00:00,52.5,A1\n2026-11-03 06:01:00,52.5,A1\n";
  EXPECT_TRUE(find_large_log(write("cycle_log.csv", text), {}, 3));
  EXPECT_FALSE(find_large_log(write("cycle_log.csv", text), {}, 4)); // not so many lines
  EXPECT_FALSE(find_large_log(write("log.csv", text), {}, 1));
  ReadingOptions as_log;
  as_log.as = TableName::cycle_log;
  EXPECT_TRUE(find_large_log(write("log.csv", text), as_log, 1));
  EXPECT_FALSE(find_large_log(write("readings.csv", text), as_log, 1));
  ReadingOptions aside;
  aside.set_aside = true;
  EXPECT_FALSE(find_large_log(path("cycle_log.csv"), aside, 1));
  EXPECT_FALSE(find_large_log(write("cycle_log.csv", "a,b\n1,2\n"), {}, 1)); // no header: the plain reader says so
  EXPECT_FALSE(find_large_log(path("not_there.csv"), {}, 1));
}

} // namespace
} // namespace docket
