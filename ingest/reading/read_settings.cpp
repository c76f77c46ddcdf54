#include "ingest/reading/key_values.h"
#include "ingest/reading/read_tables.h"

namespace docket {

namespace {

/// Below this the level of a standard is claimed to be known better than most are, and a reason is due.
constexpr double standard_uncertainty_needs_reason_below = 3; // [%]

void check_reasons(Draft& draft, const std::vector<KeyValue>& values, std::size_t standard, std::size_t pace) {
  const KeyValue& level = values[standard];
  if (level.value.given && !level.faulty && level.reason.empty() &&
      level.value.number < standard_uncertainty_needs_reason_below)
    row_issue(
        draft, level.origin, "standard_uncertainty_percent", level.value.text,
        {IssueGrade::fault, "reason_missing",
         "An uncertainty of the standard of " + short_number(level.value.number) + " % is below 3 % and has no reason.",
         "Write in the column reason why the standard is known that well, or give 3 or more."});
  const KeyValue& blind = values[pace];
  if (blind.value.given && !blind.faulty && blind.value.number == 0)
    row_issue(draft, blind.origin, "pace_uncertainty_percent", blind.value.text,
              {IssueGrade::question, "pace_taken_as_known",
               "The pace of the logged cycles is taken as known without error.",
               "0 holds only for cycles that were rated blind and corrected. Please check it."});
}

} // namespace

void read_settings(Draft& draft) {
  const std::vector<KeyValue> values = read_key_values(draft, TableName::settings);
  const TableDeclaration& table = declaration_of(TableName::settings);
  Settings& settings = draft.input.settings;
  const auto place = [&](std::string_view key) { return find_column(table, key).value(); };
  const auto sound = [&](std::string_view key) -> const CellValue* {
    const KeyValue& entry = values[place(key)];
    return entry.value.given && !entry.faulty ? &entry.value : nullptr;
  };
  const auto share = [&](std::string_view key, double& setting) {
    if (const CellValue* value = sound(key)) setting = value->number / 100;
  };
  share("confidence_percent", settings.confidence);
  share("able_percent", settings.able);
  share("standard_uncertainty_percent", settings.standard_uncertainty);
  share("pace_uncertainty_percent", settings.pace_uncertainty);
  share("rating_uncertainty_percent", settings.rating_uncertainty);
  share("between_people_percent", settings.between_people);
  share("improvement_left_percent", settings.improvement_left);
  share("equivalence_percent", settings.equivalence);
  if (const CellValue* value = sound("tolerated_overloads_per_1000"))
    settings.tolerated_overloads = value->number / 1000;
  if (const CellValue* value = sound("cycle_spread_percent")) settings.cycle_spread = value->number / 100;
  if (const CellValue* value = sound("settled_after_cycles")) settings.settled_after_cycles = value->whole;
  if (const CellValue* value = sound("gap_days")) settings.gap_days = value->whole;
  if (const CellValue* value = sound("seed")) settings.seed = static_cast<std::uint64_t>(value->whole);
  check_reasons(draft, values, place("standard_uncertainty_percent"), place("pace_uncertainty_percent"));

  for (std::size_t i = 0; i < values.size(); ++i) {
    const KeyValue& entry = values[i];
    Settings::Given given;
    given.key = table.columns[i].name;
    given.given = entry.value.given;
    given.value = given.given ? short_number(entry.value.number) : std::string(table.columns[i].preset);
    given.reason = entry.reason;
    if (given.given) given.origin = entry.origin;
    settings.given.push_back(std::move(given));
  }
}

} // namespace docket
