#include "report/findings_json/json_values.h"
#include "report/findings_json/parts.h"
#include "report/stable_words.h"
#include "report/wording/wording.h"

#include <utility>

namespace docket::findings_json {
namespace {

JsonArray affects(const Case& input, const Condition& condition) {
  JsonArray names;
  for (std::int32_t i : condition.elements) names.append(input.standard[static_cast<std::size_t>(i)].element);
  for (std::int32_t i : condition.sessions) names.append(input.sessions[static_cast<std::size_t>(i)].session);
  for (std::int32_t i : condition.variants) names.append(variant_name(input, i));
  return names;
}

} // namespace

JsonArray conditions(const Case& input, const Findings& findings) {
  JsonArray list;
  for (std::size_t i = 0; i < input.conditions.size(); ++i) {
    const Condition& condition = input.conditions[i];
    std::int64_t cycles_out = 0;
    for (const ConditionEffect& effect : findings.conditions)
      if (effect.condition == static_cast<std::int32_t>(i)) cycles_out = effect.cycles_out;
    JsonObject row{{"check", condition.check},
                   {"state", word_of(condition.state)},
                   {"affects", affects(input, condition)},
                   {"cycles_out", number(cycles_out)}};
    put(row, "from", condition.from ? iso(*condition.from) : JsonValue(), not_given);
    put(row, "to", condition.to ? iso(*condition.to) : JsonValue(), "open: no end is given, so it still is so");
    put_origin(row, input, condition.origin);
    list.append(row);
  }
  return list;
}

JsonArray data_faults(const Findings& findings) {
  JsonArray list;
  for (const DataFault& fault : findings.data_faults) {
    const wording::FaultWords in_words = wording::fault_in_words(fault);
    list.append(JsonObject{{"check", fault.check},
                           {"result", in_words.result},
                           {"direction", in_words.direction},
                           {"affects", in_words.affects},
                           {"remedy", in_words.remedy}});
  }
  return list;
}

JsonRows excluded(const Case& input, const Findings& findings) {
  constexpr std::int64_t most_singly =
      100'000; // of a log of millions, rows alike that follow one another are one entry
  const bool singly = rows_excluded(findings.evidence) <= most_singly;
  const auto entry = [&input](const ExcludedRow& excluded) {
    JsonObject row{{"reason", word_of(excluded.why)}, {"mark", words_of(excluded.marks)}};
    if (excluded.condition >= 0)
      row["condition"] = input.conditions[static_cast<std::size_t>(excluded.condition)].check;
    put_origin(row, input, excluded.origin);
    if (excluded.rows > 1) row["last_row"] = number(excluded.origin.row + excluded.rows - 1);
    return row;
  };
  return {[entry, singly, &findings](const std::function<void(const JsonValue&)>& write) {
    for (ExcludedRow excluded : findings.evidence.excluded) {
      const std::int64_t entries = singly ? std::exchange(excluded.rows, 1) : 1;
      for (std::int64_t i = 0; i < entries; ++i, ++excluded.origin.row) write(entry(excluded));
    }
  }};
}

JsonArray evidence(const Case& input) {
  JsonArray list;
  for (const Source& source : input.sources)
    list.append(JsonObject{{"file", source.file}, {"sha256", source.sha256}, {"rows", number(source.rows)}});
  return list;
}

JsonArray counts(const Case& input) {
  JsonArray list;
  for (const TableCounts& table : input.counts)
    list.append(JsonObject{{"table", name_of(table.table)},
                           {"read", number(table.read)},
                           {"used", number(table.used)},
                           {"with_issue", number(table.with_issue)},
                           {"used_now", table.used_now}});
  return list;
}

JsonArray set_aside(const Case& input) {
  JsonArray list;
  for (const SetAsideRow& aside : input.set_aside) {
    JsonObject row{{"column", aside.column}, {"wrong", aside.wrong}, {"raw", aside.raw}};
    put_origin(row, input, aside.origin);
    list.append(row);
  }
  return list;
}

} // namespace docket::findings_json
