#include "ingest/docket/cycles/cycle_groups.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>
#include <unordered_map>

namespace docket {

namespace {

constexpr std::size_t most_in_a_row = std::size_t{1} << 20;

struct Sums {
  std::int64_t cycles = 0, over_limit = 0;
  std::int64_t millionths = 0; ///< of one unit
  double apart = 0;            ///< [s]
};

/// The greatest number of millionths that is not over the limit.
std::int64_t limit_in(TimeUnit unit, Seconds limit) {
  const double number = std::clamp(limit.count() / seconds_in(unit) * 1e6, 0.0, 1e15);
  auto millionths = static_cast<std::int64_t>(number);
  while (millionths > 0 && seconds_of(millionths, unit) > limit) --millionths;
  while (seconds_of(millionths + 1, unit) <= limit) ++millionths;
  return millionths;
}

/// Sums by operator and shift: in one array where that is not too large, else in a map.
class Table {
public:
  explicit Table(const CycleWords& words)
      : shifts_(words[static_cast<std::size_t>(CycleWordKind::shift)].words.size()) {
    const std::size_t ops = words[static_cast<std::size_t>(CycleWordKind::op)].words.size();
    if (ops * shifts_ <= most_in_a_row) in_a_row_.resize(ops * shifts_);
  }

  Sums& at(std::uint32_t op, std::uint32_t shift) {
    const std::size_t place = op * shifts_ + shift;
    return in_a_row_.empty() ? in_map_[place] : in_a_row_[place];
  }

  template <typename Take>
  void each(const Take& take) const {
    for (std::size_t i = 0; i < in_a_row_.size(); ++i)
      if (in_a_row_[i].cycles > 0) take(i / shifts_, i % shifts_, in_a_row_[i]);
    for (const auto& [place, sums] : in_map_) take(place / shifts_, place % shifts_, sums);
  }

private:
  std::size_t shifts_;
  std::vector<Sums> in_a_row_;
  std::unordered_map<std::size_t, Sums> in_map_;
};

void add(Table& table, const CycleBlock& block, Seconds limit) {
  const std::int64_t longest = limit_in(block.cycle.unit, limit);
  const auto& ops = block.codes(CycleWordKind::op);
  const auto& shifts = block.codes(CycleWordKind::shift);
  const auto& times = block.cycle.millionths;
  for (std::size_t i = 0; i < times.size(); ++i) {
    Sums& sums = table.at(ops[i], shifts[i]);
    ++sums.cycles;
    const std::int64_t time = times[i];
    if (time >= 0) {
      sums.millionths += time;
      sums.over_limit += time > longest ? 1 : 0;
    }
  }
  for (const CycleTimes::Other& other : block.cycle.others) {
    Sums& sums = table.at(ops[other.row], shifts[other.row]);
    sums.apart += other.time.count();
    sums.over_limit += other.time > limit ? 1 : 0;
  }
}

} // namespace

std::vector<CycleGroup> group_cycles(sqlite3* database, Seconds limit, const std::string& where) {
  const CycleWords words = read_cycle_words(database, where);
  std::map<TimeUnit, Table> tables; // millionths of one unit can be added up
  CycleScan scan;
  scan.columns.cycle = true;
  scan.columns.words[static_cast<std::size_t>(CycleWordKind::op)] = true;
  scan.columns.words[static_cast<std::size_t>(CycleWordKind::shift)] = true;
  scan_cycles(database, scan, where, [&](const CycleBlock& block) {
    add(tables.try_emplace(block.cycle.unit, words).first->second, block, limit);
  });

  std::map<std::pair<std::string, std::string>, CycleGroup> groups;
  for (const auto& [unit, table] : tables)
    table.each([&, unit = unit](std::size_t op, std::size_t shift, const Sums& sums) {
      const std::string& op_word = words[static_cast<std::size_t>(CycleWordKind::op)].words[op];
      const std::string& shift_word = words[static_cast<std::size_t>(CycleWordKind::shift)].words[shift];
      CycleGroup& group = groups[{op_word, shift_word}];
      group.op = op_word;
      group.shift = shift_word;
      group.cycles += sums.cycles;
      group.over_limit += sums.over_limit;
      group.sum += seconds_of(sums.millionths, unit) + Seconds(sums.apart);
    });
  std::vector<CycleGroup> result;
  for (auto& [key, group] : groups) result.push_back(std::move(group));
  return result;
}

} // namespace docket
