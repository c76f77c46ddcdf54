#include "report/case_document/restudy_rows.h"

#include "report/format.h"
#include "report/wording/wording.h"

namespace docket {
namespace {

std::vector<Runs> row_of(Runs what, const Restudy& line) {
  const LineAgainstLimit& against = line.level.against;
  return {std::move(what),
          runs(format_count(static_cast<std::int64_t>(line.operators.size()))),
          runs(format_count(line.cycles)),
          runs(format_bare_seconds(line.level.time)),
          runs(format_signed_bare_seconds(against.margin) + " (" +
               format_signed_interval(against.margin_low, against.margin_high) + ")"),
          runs(format_chance(against.p_fits))};
}

Table table_of_rows(const CaseView& view) {
  const RestudyResult& restudy = view.findings.content.restudy;
  Table table;
  table.caption = "The restudy, and what it would be otherwise";
  table.columns = {{"Counted", Align::left, true},
                   {"Operators", Align::right},
                   {"n cycles", Align::right},
                   {"Level, s", Align::right},
                   {"Margin of this line, s (from, to)", Align::right, true},
                   {"Chance that it fits, by this line alone", Align::right}};
  table.rows.push_back(row_of({strong("As it stands")}, *restudy.line));
  for (const RestudyWithoutOne& out : restudy.left_out_one)
    table.rows.push_back(row_of(runs("Without " + operator_code(view.input, out.op)), out.line));
  for (const RestudyRow& row : restudy.rows)
    table.rows.push_back(
        row_of(runs("Second observer's sheet for " + counted(row.changed, "cycle", "cycles") + ": " + row.sessions),
               row.line));
  return table;
}

Table table_of_operators(const CaseView& view) {
  Table table;
  table.caption = "The restudy by operator, in order of code";
  table.columns = {{"Operator", Align::left, true},
                   {"Sessions", Align::right},
                   {"n cycles", Align::right},
                   {"As read, for the planned mix, s", Align::right},
                   {"At normal pace, s", Align::right}};
  for (const RestudiedOperator& person : view.findings.content.restudy.line->per_operator)
    table.rows.push_back({runs(operator_code(view.input, person.op)), runs(format_count(person.sessions)),
                          runs(format_count(person.n)), runs(format_bare_seconds(person.observed)),
                          runs(format_bare_seconds(person.normal))});
  return table;
}

} // namespace

void add_restudy_rows(CasePages& pages, const CaseView& view) {
  const RestudyResult& restudy = view.findings.content.restudy;
  if (!restudy.line || (restudy.left_out_one.empty() && restudy.rows.empty())) return;
  pages.part("The restudy by operator and by observer");
  pages.add(table_of_operators(view));
  pages.add(table_of_rows(view));
  pages.paragraph("These rows decide nothing. One that lies far from the restudy as it stands says that it hangs on "
                  "one person, or on "
                  "who held the watch. The order of the operators is that of their codes and says nothing.",
                  ParagraphRole::small);
}

} // namespace docket
