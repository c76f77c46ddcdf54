// The claim and the statements, and the time available.
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace docket {
namespace {

bool says_one_of(std::string who, std::initializer_list<std::string_view> words) {
  std::transform(who.begin(), who.end(), who.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return who.find(word) != std::string::npos; });
}

Box statement_box(const CaseView& view, const Statement& statement) {
  Box box{statement.who + (statement.on ? ", " + format_date(*statement.on) : std::string()), {}};
  box.blocks.push_back(
      block({{plain(statement.text), reference_to(view.input, statement.origin)}, ParagraphRole::quote}));
  return box;
}

Box empty_box(std::string_view who) { return {std::string(who) + ": no statement given yet", {Block{RuledSpace{6}}}}; }

// Operator or representative, supervisor, engineer: each has a page of the same size, written on or not.
Boxes statement_boxes(const CaseView& view) {
  Boxes boxes;
  boxes.side_by_side = false;
  bool worker = false, supervisor = false, engineer = false;
  for (const Statement& statement : view.input.statements) {
    worker = worker || says_one_of(statement.who, {"operator", "worker", "represent", "steward", "union"});
    supervisor = supervisor || says_one_of(statement.who, {"supervisor", "foreman", "manager", "leader"});
    engineer = engineer || says_one_of(statement.who, {"engineer", "analyst", "planner"});
    boxes.boxes.push_back(statement_box(view, statement));
  }
  if (!worker) boxes.boxes.insert(boxes.boxes.begin(), empty_box("Operator or worker's representative"));
  if (!supervisor) boxes.boxes.push_back(empty_box("Supervisor"));
  if (!engineer) boxes.boxes.push_back(empty_box("Engineer"));
  return boxes;
}

std::string joined(const std::vector<std::string>& items) {
  std::string out;
  for (const std::string& item : items) out += (out.empty() ? "" : ", ") + item;
  return out;
}

void add_row(Table& table, const CaseView& view, std::string_view what, const std::string& value,
             const std::string& how, std::string_view key) {
  Runs last{plain(how)};
  if (!key.empty()) last.push_back(reference_to_key(view.input, key));
  table.rows.push_back({runs(what), runs(value), last});
}

// How the takt time came about; where it is given twice, both ways.
std::string takt_from(const CaseFacts& facts) {
  std::string from = facts.takt ? "as given" : "";
  if (facts.working_min_per_day && facts.units_per_day) {
    const Seconds computed{60 * *facts.working_min_per_day / *facts.units_per_day};
    from += (from.empty() ? "" : "; ") + ("60 \u00D7 " + format_plain_number(*facts.working_min_per_day, 1)) +
            " min / " + format_plain_number(*facts.units_per_day, 1) + " units = " + format_seconds(computed);
  }
  return from.empty() ? "line cycle time / OEE" : from;
}

std::string line_cycle_from(const CaseFacts& facts, const TimeAvailable& time) {
  std::string from = facts.line_cycle ? "as given" : "";
  if (time.takt && facts.oee) {
    from += (from.empty() ? "" : "; ") + ("takt time \u00D7 OEE = " + format_seconds(*time.takt)) + " \u00D7 " +
            format_plain_number(*facts.oee, 4) + " = " + format_seconds(*time.takt * *facts.oee);
  }
  return from.empty() ? "as given" : from;
}

} // namespace

void add_claim(CasePages& pages, const CaseView& view) {
  const CaseFacts& facts = view.input.facts;
  pages.section("The claim, and what people say");
  if (facts.complaint_text.empty()) {
    pages.paragraph("The text of the complaint is not given.");
  } else {
    pages.paragraph({plain("\u201C" + facts.complaint_text + "\u201D"), reference_to_key(view.input, "complaint_text")},
                    ParagraphRole::quote);
  }
  const std::string who =
      facts.complainants.empty() ? "Nobody is named as complainant" : "Raised by " + joined(facts.complainants);
  pages.paragraph({plain(who), reference_to_key(view.input, "complainants"),
                   plain(". Raising it is no evidence about performance.")});
  pages.paragraph("Statements stand here in people's own words, each on the same space. Empty lines are for writing by "
                  "hand.",
                  ParagraphRole::small);
  pages.add(statement_boxes(view));
}

void add_time_available(CasePages& pages, const CaseView& view) {
  const CaseFacts& facts = view.input.facts;
  const TimeAvailable& time = view.findings.time;
  pages.section("The time the line gives");
  Table table;
  table.caption = "Time available for one unit";
  table.columns = {{"What", Align::left}, {"Value", Align::right}, {"From", Align::left}};
  if (facts.working_min_per_day) {
    add_row(table, view, "Working time a day", format_plain_number(*facts.working_min_per_day, 1) + " min", "as given",
            "working_min_per_day");
  }
  if (facts.units_per_day) {
    add_row(table, view, "Units a day", format_plain_number(*facts.units_per_day, 1), "as given", "units_per_day");
  }
  if (time.takt) add_row(table, view, "Takt time", format_seconds(*time.takt), takt_from(facts), "takt_s");
  if (time.oee) {
    add_row(table, view, "OEE", format_percent(*time.oee), facts.oee ? "as given" : "line cycle time / takt time",
            "oee_percent");
  }
  add_row(table, view, "Line cycle time", format_seconds(time.line_cycle), line_cycle_from(facts, time),
          "line_cycle_s");
  if (time.over_speed) {
    add_row(table, view, "The line runs faster than takt by", format_percent(*time.over_speed),
            "1 \u2212 line cycle time / takt time", "");
  }
  add_row(table, view, "Allowance", format_percent(time.allowance),
          std::string(wording::allowance_in_words(time.allowance_where)), "allowance_percent");
  const bool in_cycle = time.allowance_where == AllowanceWhere::in_cycle;
  add_row(table, view, "Limit: what every time is compared with", format_seconds(time.limit),
          in_cycle ? "line cycle time / (1 + allowance) = " + format_seconds(time.line_cycle) + " / " +
                         format_plain_number(1 + time.allowance, 4)
                   : "the line cycle time",
          "");
  if (time.measured_factor != 1) {
    add_row(table, view, "Factor on measured times", format_plain_number(time.measured_factor, 4),
            "1 + allowance, because the standard already holds it", "");
  }
  table.rows.back()[0][0].style = TextStyle::strong;
  pages.add(table);
}

} // namespace docket
