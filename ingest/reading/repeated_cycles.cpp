#include "ingest/reading/repeated_cycles.h"

#include "ingest/reading/cell_dates.h"

#include <algorithm>
#include <numeric>
#include <span>

namespace docket {

namespace {

using Index = std::uint32_t; // of a cycle; a log has fewer than 2^32

/// The cycles by station and operator, each group in the order of the input.
struct Groups {
  std::vector<Index> cycles;
  std::vector<std::size_t> ends; ///< of each group in `cycles`
};

Groups group_cycles(const std::vector<LoggedCycle>& log) {
  std::unordered_map<std::uint64_t, std::uint32_t> places;
  std::vector<std::size_t> sizes;
  const auto key = [](const LoggedCycle& cycle) {
    return std::uint64_t{static_cast<std::uint32_t>(cycle.station)} << 32 | static_cast<std::uint32_t>(cycle.op);
  };
  for (const LoggedCycle& cycle : log) {
    const auto [place, is_new] = places.emplace(key(cycle), static_cast<std::uint32_t>(sizes.size()));
    if (is_new) sizes.push_back(0);
    ++sizes[place->second];
  }
  Groups groups;
  groups.ends.resize(sizes.size());
  std::exclusive_scan(sizes.begin(), sizes.end(), groups.ends.begin(), std::size_t{0});
  groups.cycles.resize(log.size());
  for (std::size_t i = 0; i < log.size(); ++i)
    groups.cycles[groups.ends[places.find(key(log[i]))->second]++] = static_cast<Index>(i);
  return groups;
}

struct Repeat {
  Index first = 0, again = 0;
};

/// Cycles of a group whose value an earlier one has. `take`: a cycle's value, or none.
template <typename Take>
void find_repeats(std::span<const Index> group, const Take& take, std::vector<Repeat>& repeats) {
  using Value = typename decltype(take(Index{}))::value_type;
  std::optional<Value> before;
  bool ascend = true;
  for (const Index i : group) {
    const std::optional<Value> value = take(i);
    if (!value) continue;
    if (before && *value <= *before) {
      ascend = false;
      break;
    }
    before = value;
  }
  if (ascend) return;
  std::vector<std::pair<Value, Index>> values;
  values.reserve(group.size());
  for (const Index i : group)
    if (const std::optional<Value> value = take(i)) values.emplace_back(*value, i);
  std::sort(values.begin(), values.end());
  for (std::size_t i = 1, first = 0; i < values.size(); ++i) {
    if (values[i].first == values[first].first)
      repeats.push_back({values[first].second, values[i].second});
    else
      first = i;
  }
}

} // namespace

void check_repeated_cycles(Draft& draft) {
  const std::vector<LoggedCycle>& log = draft.input.cycle_log;
  const auto report = [&](const Repeat& repeat, std::string_view column, const std::string& raw, const char* what) {
    const LoggedCycle &first = log[repeat.first], &again = log[repeat.again];
    const std::string who =
        again.op < 0 ? "no operator" : draft.input.operators[static_cast<std::size_t>(again.op)].code;
    row_issue(draft, again.origin, column, raw,
              {IssueGrade::fault, "cycle_twice",
               "Row " + std::to_string(again.origin.row) + " and " + row_text(draft, first.origin, again.origin) +
                   " have the same operator (" + who + ") and the same " + what + ".",
               "One cycle has one row. Delete one of the two, or correct it."});
  };
  const Groups groups = group_cycles(log);
  std::vector<Repeat> at_a_time, of_a_unit;
  std::vector<Index> reported; // one that is there twice by its time is no cycle of a unit
  std::size_t begin = 0;
  for (const std::size_t end : groups.ends) {
    const std::span<const Index> group(groups.cycles.data() + begin, end - begin);
    begin = end;
    const std::size_t found = at_a_time.size();
    find_repeats(
        group, [&](Index i) { return std::optional(log[i].started_at.time_since_epoch().count()); }, at_a_time);
    if (log[group.front()].op < 0) continue;
    reported.clear();
    for (std::size_t i = found; i < at_a_time.size(); ++i) reported.push_back(at_a_time[i].again);
    std::sort(reported.begin(), reported.end());
    find_repeats(
        group,
        [&](Index i) {
          const bool counts = draft.units[i] != 0 && !std::binary_search(reported.begin(), reported.end(), i);
          return counts ? std::optional(draft.units[i]) : std::nullopt;
        },
        of_a_unit);
  }
  for (const Repeat& repeat : at_a_time)
    report(repeat, "started_at", date_text({log[repeat.again].started_at, false}), "starting time");
  for (const Repeat& repeat : of_a_unit)
    report(repeat, "unit", unit_of_number(draft.cycle_names, draft.units[repeat.again]), "unit");
  draft.units = {};
}

} // namespace docket
