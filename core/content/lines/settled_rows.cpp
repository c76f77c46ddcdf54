#include "core/content/lines/settled_rows.h"

#include "core/content/lines/operator_order.h"
#include "core/rules.h"

#include <algorithm>
#include <cmath>

namespace docket {

namespace {

std::vector<double> ratios_of(const std::vector<OperatorLevel>& levels) {
  std::vector<double> ratios;
  for (const OperatorLevel& level : levels) ratios.push_back(level.ratio);
  return ratios;
}

/// What every row needs of the settled operators.
struct Basis {
  const SettledResult& result;
  const std::vector<const OperatorRecord*>& settled;
  const std::vector<OperatorLevel>& levels;
  const Case& input;
  const StandardTime& standard;
  const TimeAvailable& time;

  UncertaintyPart alone() const { return random_part_of_one(*settled.front(), levels.front(), standard, time); }
};

/// The settled operators' own cycles with others of theirs taken in.
std::optional<SettledRow> row_of_cycles(const Basis& basis, std::string code,
                                        std::vector<const PersonCycle*> OperatorRecord::*others, bool help_counts) {
  SettledRow row{std::move(code), *basis.result.line, 0, 0, {}};
  std::vector<double> ratios;
  for (std::size_t o = 0; o < basis.settled.size(); ++o) {
    OperatorRecord record = *basis.settled[o];
    const std::vector<const PersonCycle*>& added = record.*others;
    row.added += static_cast<std::int64_t>(added.size());
    record.cycles.insert(record.cycles.end(), added.begin(), added.end());
    // One operator's cycles stand side by side in the evidence, in time order.
    std::sort(record.cycles.begin(), record.cycles.end());
    record.help_counts = help_counts;
    record.own_ratio = basis.levels[o].ratio;
    for (const PersonCycle* cycle : added)
      if (help_counts && !cycle->helped_given) ++row.unseen;
    ratios.push_back(
        level_of(record, basis.result.line->variant_ratios, basis.input, basis.standard, basis.time).ratio);
  }
  if (row.added == 0) return std::nullopt;
  row.line = with_ratios(row.line, ratios, basis.alone(), basis.input, basis.standard, basis.time);
  row.line.cycles += row.added;
  return row;
}

void add_person(SettledRow& row, const Operator& person) {
  ++row.added;
  row.who += (row.who.empty() ? "" : ", ") + person.code;
}

std::optional<SettledRow> row_of_too_short(const Basis& basis) {
  SettledRow row{"with_too_short", *basis.result.line, 0, 0, {}};
  std::vector<double> ratios = ratios_of(basis.levels);
  for (const OperatorLevel& level : basis.result.per_operator) {
    if (level.status != OperatorStatus::too_short || level.n == 0) continue;
    ratios.push_back(level.ratio);
    row.line.cycles += level.n;
    add_person(row, basis.input.operators[static_cast<std::size_t>(level.op)]);
  }
  if (row.added == 0) return std::nullopt;
  row.line = with_ratios(row.line, ratios, basis.alone(), basis.input, basis.standard, basis.time);
  return row;
}

/// Those who left, are not counted, and were not said to be untrained; in order of code.
std::vector<std::int32_t> leavers_not_counted(const Basis& basis) {
  std::vector<std::int32_t> leavers;
  for (std::size_t i = 0; i < basis.input.operators.size(); ++i) {
    const Operator& person = basis.input.operators[i];
    const auto op = static_cast<std::int32_t>(i);
    const bool counted = std::any_of(basis.levels.begin(), basis.levels.end(),
                                     [&](const OperatorLevel& level) { return level.op == op; });
    if (person.left_station && !counted && person.trained != YesNo::no) leavers.push_back(op);
  }
  std::sort(leavers.begin(), leavers.end(), [&](std::int32_t a, std::int32_t b) {
    return code_before(basis.input.operators[static_cast<std::size_t>(a)].code,
                       basis.input.operators[static_cast<std::size_t>(b)].code);
  });
  return leavers;
}

std::optional<SettledRow> row_of_leavers(const Basis& basis, const Evidence& evidence, bool with_differing,
                                         std::string& not_computed) {
  SettledRow row{"with_leavers", *basis.result.line, 0, 0, {}};
  const std::vector<double> stayers = ratios_of(basis.levels);
  std::vector<double> ratios = stayers;
  for (const std::int32_t op : leavers_not_counted(basis)) {
    const Operator& person = basis.input.operators[static_cast<std::size_t>(op)];
    const OperatorRecord record = find_record(evidence, op, 0, with_differing);
    if (!record.cycles.empty()) {
      const OperatorLevel level =
          level_of(record, basis.result.line->variant_ratios, basis.input, basis.standard, basis.time);
      ratios.push_back(level.ratio);
      row.line.cycles += level.n;
    } else if (basis.result.line->operators >= rules::least_operators) {
      ratios.push_back(*std::max_element(stayers.begin(), stayers.end()) * std::exp(basis.result.line->s));
      ++row.unseen;
    } else {
      not_computed += (not_computed.empty() ? "" : ", ") + person.code;
      continue;
    }
    add_person(row, person);
  }
  if (row.added == 0) return std::nullopt;
  row.line = with_ratios(row.line, ratios, basis.alone(), basis.input, basis.standard, basis.time);
  return row;
}

std::vector<LeftOutOne> leave_one_out(const Basis& basis) {
  std::vector<LeftOutOne> out;
  if (basis.levels.size() < 2) return out;
  for (std::size_t i = 0; i < basis.levels.size(); ++i) {
    std::vector<double> ratios = ratios_of(basis.levels);
    ratios.erase(ratios.begin() + static_cast<std::ptrdiff_t>(i));
    const std::size_t other = i == 0 ? 1 : 0;
    const UncertaintyPart alone =
        random_part_of_one(*basis.settled[other], basis.levels[other], basis.standard, basis.time);
    SettledOperators line = with_ratios(*basis.result.line, ratios, alone, basis.input, basis.standard, basis.time);
    line.cycles -= basis.levels[i].n;
    out.push_back({basis.levels[i].op, line});
  }
  return out;
}

} // namespace

void add_settled_rows(SettledResult& result, const std::vector<const OperatorRecord*>& settled,
                      const std::vector<OperatorLevel>& levels, const Case& input, const Evidence& evidence,
                      const StandardTime& standard, const TimeAvailable& time, bool with_differing) {
  const Basis basis{result, settled, levels, input, standard, time};
  std::string not_computed;
  std::vector<SettledRow> rows;
  for (std::optional<SettledRow>& row :
       std::vector{row_of_cycles(basis, "with_help", &OperatorRecord::helped, true),
                   row_of_leavers(basis, evidence, with_differing, not_computed), row_of_too_short(basis),
                   row_of_cycles(basis, "with_foreign", &OperatorRecord::foreign, false)})
    if (row) rows.push_back(std::move(*row));
  result.left_out_one = leave_one_out(basis);
  result.rows = std::move(rows);
  if (!not_computed.empty()) result.line->level.leans.push_back({"leavers_row_not_computed", not_computed});
}

} // namespace docket
