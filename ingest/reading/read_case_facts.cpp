#include "ingest/reading/key_values.h"
#include "ingest/reading/read_tables.h"
#include "ingest/reading/time_available.h"

namespace docket {

namespace {

struct Keys {
  const std::vector<KeyValue>& values;

  const KeyValue& operator[](std::string_view key) const {
    return values[find_column(declaration_of(TableName::case_facts), key).value()];
  }
  /// The value, where it is given and sound.
  const CellValue* sound(std::string_view key) const {
    const KeyValue& entry = (*this)[key];
    return entry.value.given && !entry.faulty ? &entry.value : nullptr;
  }
  std::string text(std::string_view key) const {
    const CellValue* value = sound(key);
    return value ? value->text : std::string();
  }
  std::optional<double> number(std::string_view key) const {
    const CellValue* value = sound(key);
    return value ? std::optional(value->number) : std::nullopt;
  }
  std::optional<Seconds> seconds(std::string_view key) const {
    const CellValue* value = sound(key);
    return value ? std::optional(Seconds(value->number)) : std::nullopt;
  }
  std::optional<Date> date(std::string_view key) const {
    const CellValue* value = sound(key);
    return value ? std::optional(std::chrono::floor<std::chrono::days>(value->at)) : std::nullopt;
  }
};

void check_required(Draft& draft, const std::vector<KeyValue>& values) {
  const TableDeclaration& table = declaration_of(TableName::case_facts);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const ColumnDeclaration& key = table.columns[i];
    if (!key.required || values[i].value.given) continue;
    const std::int32_t source = draft.state(TableName::case_facts).sheets.front().source;
    add_table_issue(draft.issues,
                    {IssueGrade::fault, "required_key_not_filled",
                     "The required key " + std::string(key.name) + " is not filled.",
                     "Fill it in. " + std::string(key.note)},
                    source, TableName::case_facts, values[i].blank_row, key.name, "");
  }
}

void check_line_cycle(Draft& draft, const KeyValue& line_cycle) {
  if (!line_cycle.value.given || line_cycle.faulty || line_cycle.value.number > 0) return;
  row_issue(draft, line_cycle.origin, "line_cycle_s", line_cycle.value.text,
            {IssueGrade::fault, "line_cycle_not_positive",
             "The line cycle time is not above 0, so no work can fit into it.",
             "Write how many seconds the line gives for one unit, for example 55."});
}

void check_allowance(Draft& draft, const Keys& keys) {
  const CellValue* allowance = keys.sound("allowance_percent");
  if (!allowance || allowance->number <= 0 || keys["allowance_where"].value.given) return;
  row_issue(draft, keys["allowance_percent"].origin, "allowance_percent", allowance->text,
            {IssueGrade::fault, "allowance_without_place",
             "An allowance of " + short_number(allowance->number) + " % is given, but not how it is given.",
             "Fill in allowance_where: in_cycle, by_relief or in_standard."});
}

void check_fraction(Draft& draft, const KeyValue& oee) {
  if (!oee.value.given || oee.faulty || oee.value.number > 1) return;
  row_issue(draft, oee.origin, "oee_percent", oee.value.text,
            {IssueGrade::fault, "percent_looks_like_fraction",
             "An OEE of " + short_number(oee.value.number) + " % looks like a fraction.",
             "Percent is expected: " + short_number(oee.value.number * 100) + ", not " +
                 short_number(oee.value.number) + "."});
}

} // namespace

void read_case_facts(Draft& draft) {
  const std::vector<KeyValue> values = read_key_values(draft, TableName::case_facts);
  const TableState& state = draft.state(TableName::case_facts);
  if (state.sheets.empty() || state.broken()) return;
  const Keys keys{values};
  check_required(draft, values);
  check_line_cycle(draft, keys["line_cycle_s"]);
  check_allowance(draft, keys);
  check_fraction(draft, keys["oee_percent"]);

  CaseFacts& facts = draft.input.facts;
  facts.case_ref = keys.text("case_ref");
  facts.title = keys.text("title");
  facts.station = keys.text("station");
  facts.line = keys.text("line");
  facts.line_cycle = keys.seconds("line_cycle_s");
  facts.takt = keys.seconds("takt_s");
  if (const auto oee = keys.number("oee_percent")) facts.oee = *oee / 100;
  facts.working_min_per_day = keys.number("working_min_per_day");
  facts.units_per_day = keys.number("units_per_day");
  facts.product = keys.text("product");
  facts.opened_on = keys.date("opened_on");
  facts.complaint_on = keys.date("complaint_on");
  facts.b_told_on = keys.date("b_told_on");
  facts.plan_agreed_on = keys.date("plan_agreed_on");
  facts.retain_until = keys.date("retain_until");
  facts.complaint_shift = keys.text("complaint_shift");
  facts.complaint_text = keys.text("complaint_text");
  facts.data_basis = keys.text("data_basis");
  facts.prepared_by_role = keys.text("prepared_by_role");
  facts.post = keys.text("post");
  facts.standard_revision = keys.text("standard_revision");
  facts.standard_set_by_role = keys.text("standard_set_by_role");
  facts.may_read = keys.text("may_read");
  if (const CellValue* complainants = keys.sound("complainants")) facts.complainants = complainants->list;
  // `none` leaves the list empty: nobody is asked about.
  if (const CellValue* b_for = keys.sound("b_for")) facts.b_for = b_for->list;
  facts.early_start = keys.seconds("early_start_s");
  facts.late_finish = keys.seconds("late_finish_s");
  if (const auto allowance = keys.number("allowance_percent")) facts.allowance = *allowance / 100;
  if (const CellValue* where = keys.sound("allowance_where"))
    facts.allowance_where = static_cast<AllowanceWhere>(where->whole + 1);
  if (const CellValue* cycles = keys.sound("cycles_per_shift")) facts.cycles_per_shift = cycles->whole;
  facts.line_cycle_asked = keys.seconds("line_cycle_asked_s");
  facts.pattern = keys.seconds("pattern_s");
  if (const CellValue* listed = keys.sound("leavers_listed")) facts.leavers_listed = listed->whole == 0;
  if (const CellValue* safety = keys.sound("open_safety_matter"))
    facts.open_safety_matter = safety->whole == 0 ? YesNo::yes : YesNo::no;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (values[i].value.given)
      facts.origins.emplace_back(declaration_of(TableName::case_facts).columns[i].name, values[i].origin);

  const bool sound = !keys["line_cycle_s"].faulty && !keys["takt_s"].faulty && !keys["oee_percent"].faulty &&
                     !keys["working_min_per_day"].faulty && !keys["units_per_day"].faulty &&
                     !(facts.line_cycle && *facts.line_cycle <= Seconds(0)) && !(facts.oee && *facts.oee <= 0.01);
  if (sound) check_time_available(draft);
}

} // namespace docket
