#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>

#include <random>
#include <set>
#include <tuple>

namespace docket {
namespace {

struct Row {
  int minute = 0;
  std::string unit, station, op;
};

using Found = std::set<std::tuple<std::int64_t, std::string, std::string>>; ///< row, column, what is wrong

/// The plain way: every row beside every one before it.
Found repeats_of(const std::vector<Row>& rows) {
  Found found;
  std::vector<bool> at_a_time(rows.size());
  const auto say = [&](std::size_t again, std::size_t first, const std::string& column, const std::string& what) {
    const std::string who = rows[again].op.empty() ? "no operator" : rows[again].op;
    found.emplace(static_cast<std::int64_t>(again) + 2, column,
                  "Row " + std::to_string(again + 2) + " and row " + std::to_string(first + 2) +
                      " have the same operator (" + who + ") and the same " + what + ".");
  };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto first = [&](auto is_same) {
      for (std::size_t j = 0; j < i; ++j)
        if (rows[j].station == rows[i].station && rows[j].op == rows[i].op && is_same(j)) return j;
      return i;
    };
    const std::size_t same_time = first([&](std::size_t j) { return rows[j].minute == rows[i].minute; });
    at_a_time[i] = same_time != i;
    if (at_a_time[i]) {
      say(i, same_time, "started_at", "starting time");
      continue;
    }
    if (rows[i].unit.empty() || rows[i].op.empty()) continue;
    const std::size_t same_unit = first([&](std::size_t j) { return !at_a_time[j] && rows[j].unit == rows[i].unit; });
    if (same_unit != i) say(i, same_unit, "unit", "unit");
  }
  return found;
}

Found seen_in(const std::vector<Row>& rows) {
  std::string log = "started_at,cycle_s,unit,station,operator\n";
  for (const Row& row : rows) {
    const int hour = 6 + row.minute / 60, minute = row.minute % 60;
    log += "2026-11-03 " + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":" +
           std::string(minute < 10 ? "0" : "") + std::to_string(minute) + ":00,50," + row.unit + "," + row.station +
           "," + row.op + "\n";
  }
  Found found;
  for (const Issue& issue : issues_of(read_texts(small_case_with({{"cycle_log", log}})), "cycle_twice"))
    found.emplace(issue.row, issue.column, issue.wrong);
  return found;
}

TEST(RepeatedCycles, AreThoseThatThePlainWayFinds) {
  std::mt19937 draw(1); // its numbers are the same everywhere; a distribution's are not
  std::size_t with_repeats = 0, by_unit = 0;
  for (int round = 0; round < 200; ++round) {
    std::vector<Row> rows(2 + draw() % 40);
    for (Row& row : rows) {
      row.minute = static_cast<int>(draw() % (round % 2 ? 900 : 12));
      if (draw() % 5 != 0) row.unit = (draw() % 4 ? "U-" : "spare ") + std::to_string(draw() % 25);
      if (draw() % 4 != 0) row.station = draw() % 2 ? "ST-07" : "ST-08";
      if (draw() % 6 != 0) row.op = draw() % 2 ? "A1" : "B2";
    }
    if (round % 3 == 0)
      std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.minute < b.minute; });
    const Found right = repeats_of(rows);
    ASSERT_EQ(seen_in(rows), right) << round;
    if (!right.empty()) ++with_repeats;
    for (const auto& [row, column, wrong] : right)
      if (column == "unit") ++by_unit;
  }
  EXPECT_GT(with_repeats, 50U);
  EXPECT_LT(with_repeats, 200U);
  EXPECT_GT(by_unit, 20U);
}

} // namespace
} // namespace docket
