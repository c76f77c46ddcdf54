// The canonical form is written by hand from ledger.h; its hash is from sha256sum (coreutils 9.1).
#include "ingest/docket/ledger.h"
#include "ingest/docket/schema.h"
#include "tests/ingest/docket/docket_file.h"

namespace docket {
namespace {

LedgerEntry first_entry() {
  LedgerEntry entry;
  entry.at = "2026-11-03T14:30:00Z";
  entry.by_role = "industrial engineering";
  entry.act = "add";
  entry.what = "station.xlsx.";
  entry.details = "{}";
  return entry;
}

// printf '23:station-docket/ledger/1,1:1,20:2026-11-03T14:30:00Z,22:industrial engineering,3:add,13:station.xlsx.,2:{},'
// followed by 64:, 64 zeros and a comma, into sha256sum.
constexpr const char* first_hash = "2706c59743dcf22953507d699cb202e4d6e2b7158f23f23acd7a9f452f02558a";

class Ledger : public DocketFile {
protected:
  Database open() const {
    Database database(docket(), Opening::make);
    if (database.whole("PRAGMA user_version") == 0) make_schema(database);
    return database;
  }
};

TEST_F(Ledger, CanonicalFormIsNetstrings) {
  LedgerEntry entry = first_entry();
  entry.number = 1;
  entry.previous = std::string(64, '0');
  EXPECT_EQ(canonical_form(entry),
            "23:station-docket/ledger/1,1:1,20:2026-11-03T14:30:00Z,22:industrial engineering,3:add,13:station.xlsx.,"
            "2:{},64:0000000000000000000000000000000000000000000000000000000000000000,");
  EXPECT_EQ(netstring("B\xC3\xA4nder"), "7:B\xC3\xA4nder,"); // bytes, not letters
  EXPECT_EQ(netstring(""), "0:,");
}

TEST_F(Ledger, EachEntryHoldsTheHashOfTheOneBefore) {
  Database database = open();
  const LedgerEntry first = append_to_ledger(database, first_entry());
  const LedgerEntry second = append_to_ledger(database, first_entry());
  EXPECT_EQ(first.sha256, first_hash);
  EXPECT_EQ(first.previous, std::string(64, '0'));
  EXPECT_EQ(second.number, 2);
  EXPECT_EQ(second.previous, first.sha256);
  const std::vector<LedgerEntry> ledger = read_ledger(database);
  ASSERT_EQ(ledger.size(), 2U);
  EXPECT_EQ(canonical_form(ledger[1]), canonical_form(second));
  EXPECT_EQ(find_break(ledger), std::nullopt);
}

TEST_F(Ledger, EveryChangeBreaksTheChain) {
  Database database = open();
  for (int i = 0; i < 3; ++i) append_to_ledger(database, first_entry());
  const std::vector<LedgerEntry> ledger = read_ledger(database);
  for (std::string LedgerEntry::*part : {&LedgerEntry::at, &LedgerEntry::by_role, &LedgerEntry::act, &LedgerEntry::what,
                                         &LedgerEntry::details, &LedgerEntry::previous, &LedgerEntry::sha256}) {
    std::vector<LedgerEntry> changed = ledger;
    (changed[1].*part)[0] ^= 1;
    EXPECT_EQ(find_break(changed), 2);
  }
  std::vector<LedgerEntry> without = ledger;
  without.erase(without.begin() + 1);
  EXPECT_EQ(find_break(without), 2);
  // A letter moved from one text to the next: the lengths tell.
  std::vector<LedgerEntry> moved = ledger;
  moved[2].act = "ad";
  moved[2].what = "dstation.xlsx.";
  EXPECT_EQ(find_break(moved), 3);
}

TEST_F(Ledger, TheFileItselfRefusesAChange) {
  Database database = open();
  append_to_ledger(database, first_entry());
  append_to_ledger(database, first_entry());
  for (const char* sql :
       {"UPDATE ledger SET what = 'x'", "DELETE FROM ledger",
        "INSERT OR REPLACE INTO ledger SELECT * FROM ledger WHERE number = 1",
        "INSERT INTO ledger SELECT 9, at, by_role, act, what, details, sha256, "
        "'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa' FROM ledger WHERE number = 2",
        "INSERT INTO ledger SELECT 3, at, by_role, act, what, details, previous, "
        "'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa' FROM ledger WHERE number = 2"})
    EXPECT_TRUE(error_of([&] { database.run(sql); })) << sql;
  EXPECT_EQ(read_ledger(database).size(), 2U);
}

} // namespace
} // namespace docket
