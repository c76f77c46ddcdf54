#include "core/content/checks/timed_cycles.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace docket {

std::vector<TimedCycle> timed_cycles(const Case& input, const Evidence& evidence, const StandardTime& standard) {
  std::map<std::pair<std::int32_t, std::int64_t>, const Reading*> by_row;
  std::map<std::pair<std::int32_t, std::int64_t>, bool> rated_itself;
  for (const Reading& reading : input.readings) {
    by_row[{reading.origin.source, reading.origin.row}] = &reading;
    bool& every = rated_itself.try_emplace({reading.session, reading.cycle}, true).first->second;
    every = every && reading.rating.has_value();
  }
  std::vector<TimedCycle> cycles;
  std::vector<PersonCycle> sheets = evidence.restudy;
  sheets.insert(sheets.end(), evidence.second_sheets.begin(), evidence.second_sheets.end());
  for (const PersonCycle& cycle : sheets) {
    const auto row = by_row.find({cycle.origin.source, cycle.origin.row});
    if (row == by_row.end() || cycle.session < 0 || cycle.variant < 0) continue;
    const Seconds base = standard.variants[static_cast<std::size_t>(cycle.variant)].time;
    if (cycle.work <= Seconds::zero() || base <= Seconds::zero()) continue;
    TimedCycle timed;
    timed.session = cycle.session;
    timed.number = row->second->cycle;
    timed.op = cycle.op;
    timed.observer = input.sessions[static_cast<std::size_t>(cycle.session)].observer;
    timed.work = cycle.work;
    timed.ln_ratio = std::log(cycle.work / base);
    timed.rating = cycle.rating;
    timed.rated_itself = rated_itself[{timed.session, timed.number}];
    timed.marks = cycle.marks;
    cycles.push_back(timed);
  }
  std::sort(cycles.begin(), cycles.end(), [](const TimedCycle& a, const TimedCycle& b) {
    return std::tie(a.session, a.number) < std::tie(b.session, b.number);
  });
  return cycles;
}

} // namespace docket
