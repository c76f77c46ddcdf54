#include "ingest/reading/read_tables.h"
#include "ingest/reading/word_match.h"

namespace docket {

namespace {

YesNo yes_no_unknown(const CellValue& value, YesNo blank) {
  if (!value.given) return blank;
  return value.whole == 0 ? YesNo::yes : value.whole == 1 ? YesNo::no : YesNo::unknown;
}

std::optional<std::int64_t> count(const CellValue& value) {
  return value.given ? std::optional(value.whole) : std::nullopt;
}

std::optional<Date> day(const CellValue& value) {
  return value.given ? std::optional(std::chrono::floor<std::chrono::days>(value.at)) : std::nullopt;
}

std::optional<std::chrono::minutes> minutes(const CellValue& value) {
  return value.given ? std::optional(std::chrono::floor<std::chrono::minutes>(value.time)) : std::nullopt;
}

} // namespace

void read_operators(Draft& draft) {
  each_row(draft, TableName::operators, [&](const TableRow& row) {
    Operator op;
    op.origin = row.origin;
    op.code = value_of(row, "operator").text;
    op.trained = yes_no_unknown(value_of(row, "trained"), YesNo::unknown);
    op.shift = value_of(row, "shift").text;
    op.prior_cycles = count(value_of(row, "prior_cycles"));
    op.on_station_since = day(value_of(row, "on_station_since"));
    op.shifts_before = count(value_of(row, "shifts_before"));
    if (value_of(row, "role").given) op.role = static_cast<Role>(value_of(row, "role").whole + 1);
    op.left_station = day(value_of(row, "left_station"));
    if (op.code.empty()) return;
    const std::string key = small_letters(op.code);
    if (!add_name(draft.operators, key, static_cast<std::int32_t>(draft.input.operators.size()))) {
      const Operator& first = draft.input.operators[static_cast<std::size_t>(draft.operators.places[key])];
      row_issue(draft, row, "operator",
                {IssueGrade::fault, "operator_twice",
                 op.code + " stands here and in " + row_text(draft, first.origin, row.origin) + ".",
                 "Each code has one row, and stands for one person."});
      return;
    }
    if (!row.faulty && op.left_station && op.on_station_since && *op.left_station < *op.on_station_since)
      row_issue(draft, row, "left_station",
                {IssueGrade::question, "left_before_start",
                 "The day of leaving the station lies before the first day there.", "Please check both days."});
    draft.input.operators.push_back(std::move(op));
  });
  draft.operators.complete = !draft.state(TableName::operators).broken();
}

void read_roster(Draft& draft) {
  each_row(draft, TableName::roster, [&](const TableRow& row) {
    RosterEntry entry;
    entry.origin = row.origin;
    entry.op = find_operator(draft, row, "operator");
    if (row.faulty) return;
    entry.date = std::chrono::floor<std::chrono::days>(value_of(row, "date").at);
    entry.shift = value_of(row, "shift").text;
    entry.from = minutes(value_of(row, "from"));
    entry.to = minutes(value_of(row, "to"));
    draft.input.roster.push_back(std::move(entry));
  });
}

void read_training(Draft& draft) {
  each_row(draft, TableName::training, [&](const TableRow& row) {
    if (row.faulty) return;
    Training training;
    training.origin = row.origin;
    training.code = value_of(row, "operator").text;
    // A person who only stands in `training` is no operator of the logs; so none is added here.
    if (draft.state(TableName::operators).present()) {
      training.op = find_operator(draft, row, "operator");
    } else if (const auto known = draft.operators.places.find(small_letters(training.code));
               known != draft.operators.places.end()) {
      training.op = known->second;
    }
    if (training.op >= 0) training.code = draft.input.operators[static_cast<std::size_t>(training.op)].code;
    training.on = std::chrono::floor<std::chrono::days>(value_of(row, "on").at);
    training.given_by_role = value_of(row, "given_by_role").text;
    training.what = value_of(row, "what").text;
    training.signed_off = yes_no_unknown(value_of(row, "signed_off"), YesNo::not_given);
    for (const std::string& name : value_of(row, "variants").list) {
      if (!draft.state(TableName::variants).present() || !draft.variants.complete) break;
      const auto variant = draft.variants.places.find(name);
      if (variant != draft.variants.places.end())
        training.variants.push_back(variant->second);
      else // Perhaps of a variant that is no longer built.
        row_issue(draft, row.origin, "variants", name,
                  {IssueGrade::question, "training_of_another_variant",
                   "\"" + name + "\" is not in the sheet variants.",
                   suggestion(draft.variants, name) + "Leave it if the variant is no longer built."});
    }
    draft.input.training.push_back(std::move(training));
  });
}

} // namespace docket
