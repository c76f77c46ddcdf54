#include "ingest/reading/read_tables.h"

#include <algorithm>

namespace docket {

namespace {

void resolve_affects(Draft& draft, const TableRow& row, Condition& condition) {
  if (!draft.elements.complete || !draft.variants.complete) return;
  for (const std::string& name : value_of(row, "affects").list) {
    const auto element = draft.elements.places.find(name);
    const auto session = draft.sessions.places.find(name);
    const auto variant = draft.variants.places.find(name);
    std::vector<std::string> meanings;
    if (element != draft.elements.places.end()) {
      meanings.emplace_back("an element");
      condition.elements.push_back(element->second);
    }
    if (session != draft.sessions.places.end()) {
      meanings.emplace_back("a session");
      condition.sessions.push_back(session->second);
    }
    if (variant != draft.variants.places.end()) {
      meanings.emplace_back("a variant");
      condition.variants.push_back(variant->second);
    }
    if (meanings.size() == 1) continue;
    if (meanings.empty()) {
      NameIndex all;
      for (const NameIndex* index : {&draft.elements, &draft.sessions, &draft.variants})
        for (const std::string& known : index->names) add_name(all, known, 0);
      row_issue(draft, row.origin, "affects", name,
                {IssueGrade::fault, "affects_unknown", "\"" + name + "\" is no element, session or variant.",
                 suggestion(all, name) +
                     "Name what the condition touches as the other sheets have it, or leave affects "
                     "blank for the whole station."});
    } else {
      row_issue(draft, row.origin, "affects", name,
                {IssueGrade::fault, "affects_ambiguous",
                 "\"" + name + "\" is " + meanings[0] + " and " + meanings[1] + " at once.",
                 "Rename one of them, so that the name means one thing."});
    }
  }
}

} // namespace

void read_conditions(Draft& draft) {
  each_row(draft, TableName::conditions, [&](const TableRow& row) {
    Condition condition;
    condition.origin = row.origin;
    condition.check = value_of(row, "check").text;
    condition.state = static_cast<ConditionState>(value_of(row, "state").whole);
    condition.note = value_of(row, "note").text;
    if (value_of(row, "from").given) condition.from = value_of(row, "from").at;
    const CellValue& to = value_of(row, "to");
    // A day alone counts to its last moment.
    if (to.given) condition.to = to.day_only ? to.at + std::chrono::hours(24) - std::chrono::milliseconds(1) : to.at;
    resolve_affects(draft, row, condition);
    if (row.faulty) return;
    if (condition.from && condition.to && *condition.to < *condition.from)
      row_issue(draft, row, "to",
                {IssueGrade::fault, "end_before_start", "The condition ends before it begins.", "Correct from or to."});
    draft.input.conditions.push_back(std::move(condition));
  });
}

void read_referrals(Draft& draft) {
  each_row(draft, TableName::referrals, [&](const TableRow& row) {
    Referral referral;
    referral.origin = row.origin;
    referral.trigger = value_of(row, "trigger").text;
    if (value_of(row, "reported_on").given)
      referral.reported_on = std::chrono::floor<std::chrono::days>(value_of(row, "reported_on").at);
    if (value_of(row, "referred_on").given)
      referral.referred_on = std::chrono::floor<std::chrono::days>(value_of(row, "referred_on").at);
    referral.to_role = value_of(row, "to_role").text;
    referral.open = !value_of(row, "state").given || value_of(row, "state").whole == 0;
    if (row.faulty) return;
    // In a joint copy the state stands alone; elsewhere what happened has a day.
    if (!referral.reported_on && !referral.trigger.empty())
      row_issue(draft, row, "reported_on",
                {IssueGrade::fault, "cell_blank", "The day it was reported is missing.", "Fill in the day."});
    if (referral.referred_on && referral.reported_on && *referral.referred_on < *referral.reported_on)
      row_issue(draft, row, "referred_on",
                {IssueGrade::question, "referred_before_reported", "The matter was passed on before it was reported.",
                 "Please check both days."});
    draft.input.referrals.push_back(std::move(referral));
  });
}

void read_statements(Draft& draft) {
  each_row(draft, TableName::statements, [&](const TableRow& row) {
    Statement statement;
    statement.origin = row.origin;
    statement.who = value_of(row, "who").text;
    if (value_of(row, "on").given) statement.on = std::chrono::floor<std::chrono::days>(value_of(row, "on").at);
    statement.text = value_of(row, "text").text;
    if (!row.faulty) draft.input.statements.push_back(std::move(statement));
  });
}

void read_unused(Draft& draft, TableName table) {
  each_row(draft, table, [&](const TableRow& row) {
    if (row.faulty) return;
    if (table == TableName::helps) find_element(draft, row, "element");
  });
}

} // namespace docket
