#include "ingest/reading/draft.h"

#include "ingest/reading/word_match.h"

#include <algorithm>

namespace docket {

bool TableState::present() const {
  return std::any_of(rows.begin(), rows.end(), [](const SheetRows& r) { return r.rows > 0 || r.broken; });
}

bool TableState::broken() const {
  return std::any_of(rows.begin(), rows.end(), [](const SheetRows& r) { return r.broken; });
}

std::int64_t TableState::row_count() const {
  std::int64_t count = 0;
  for (const SheetRows& r : rows) count += r.rows;
  return count;
}

void each_row_of_sheet(Draft& draft, TableName table, const SheetInFile& sheet,
                       const std::function<void(const TableRow&)>& use) {
  draft.state(table).rows.push_back(read_rows(sheet, declaration_of(table), draft.issues, [&](const TableRow& row) {
    if (row.faulty) draft.faulty_cells[static_cast<std::size_t>(table)] = true;
    use(row);
  }));
}

void each_row(Draft& draft, TableName table, const std::function<void(const TableRow&)>& use) {
  for (const SheetInFile& sheet : draft.state(table).sheets) each_row_of_sheet(draft, table, sheet, use);
}

void row_issue(Draft& draft, const TableRow& row, std::string_view column, Defect defect) {
  row_issue(draft, row.origin, column, value_of(row, column).text, std::move(defect));
}

void row_issue(Draft& draft, const SourceRow& where, std::string_view column, std::string_view raw, Defect defect) {
  if (defect.grade == IssueGrade::fault) draft.faulty_cells[static_cast<std::size_t>(where.table)] = true;
  add_row_issue(draft.issues, std::move(defect), where, column, raw);
}

bool has_faults(const Draft& draft, TableName table) {
  return draft.faulty_cells[static_cast<std::size_t>(table)] || draft.state(table).broken();
}

bool add_name(NameIndex& index, const std::string& name, std::int32_t place) {
  if (!index.places.emplace(name, place).second) return false;
  index.names.push_back(name);
  return true;
}

std::string suggestion(const NameIndex& index, std::string_view written) {
  const std::vector<std::string_view> names(index.names.begin(), index.names.end());
  const auto nearest = nearest_word(written, names);
  return nearest ? "Did you mean " + std::string(*nearest) + "? " : "";
}

std::int32_t find_element(Draft& draft, const TableRow& row, std::string_view column) {
  const CellValue& value = value_of(row, column);
  if (!value.given) return -1;
  const auto found = draft.elements.places.find(value.text);
  if (found != draft.elements.places.end()) return found->second;
  if (draft.elements.complete)
    row_issue(draft, row, column,
              {IssueGrade::fault, "element_unknown", "\"" + value.text + "\" is no element of the sheet standard.",
               suggestion(draft.elements, value.text) +
                   "Write an element as the sheet standard has it. Work that was seen but is not in the standard is "
                   "written with a + in front, for example +untangle hose; that is for the sheet readings."});
  return -1;
}

std::int32_t find_variant(Draft& draft, const TableRow& row, std::string_view column) {
  const CellValue& value = value_of(row, column);
  const bool table_present = draft.state(TableName::variants).present();
  if (!table_present && value.given) ++draft.variants_named[static_cast<std::size_t>(row.origin.table)];
  if (!table_present || !value.given) return draft.input.variants.size() == 1 && draft.variants.complete ? 0 : -1;
  const auto found = draft.variants.places.find(value.text);
  if (found != draft.variants.places.end()) return found->second;
  if (draft.variants.complete)
    row_issue(draft, row, column,
              {IssueGrade::fault, "variant_unknown", "\"" + value.text + "\" is not in the sheet variants.",
               suggestion(draft.variants, value.text) +
                   "Write a variant as the sheet variants has it, or add this name there in also_called."});
  return -1;
}

std::int32_t find_session(Draft& draft, const TableRow& row, std::string_view column) {
  const CellValue& value = value_of(row, column);
  if (!value.given) return -1;
  const auto found = draft.sessions.places.find(value.text);
  if (found != draft.sessions.places.end()) return found->second;
  if (draft.sessions.complete)
    row_issue(
        draft, row, column,
        {IssueGrade::fault, "session_unknown", "\"" + value.text + "\" is not in the sheet sessions.",
         suggestion(draft.sessions, value.text) + "Write a session as the sheet sessions has it, or add it there."});
  return -1;
}

std::int32_t find_operator(Draft& draft, const TableRow& row, std::string_view column) {
  const CellValue& value = value_of(row, column);
  if (!value.given) return -1;
  // Codes are matched without case: a1 and A1 are one person.
  const std::string key = small_letters(value.text);
  const auto found = draft.operators.places.find(key);
  if (found != draft.operators.places.end()) return found->second;
  if (row.faulty) return -1; // Perhaps no code at all; that was reported.
  if (!draft.state(TableName::operators).present()) {
    const auto place = static_cast<std::int32_t>(draft.input.operators.size());
    Operator op;
    op.code = value.text;
    op.origin = row.origin;
    draft.input.operators.push_back(std::move(op));
    add_name(draft.operators, key, place);
    return place;
  }
  if (draft.operators.complete)
    row_issue(draft, row, column,
              {IssueGrade::fault, "operator_unknown", value.text + " is not in the sheet operators.",
               "Add the code to the sheet operators, or correct it."});
  return -1;
}

std::string row_text(const Draft& draft, const SourceRow& row, const SourceRow& spoken_of) {
  std::string text = "row " + std::to_string(row.row);
  if (row.source != spoken_of.source && row.source >= 0)
    text += " of " + draft.issues.files[static_cast<std::size_t>(row.source)];
  return text;
}

} // namespace docket
