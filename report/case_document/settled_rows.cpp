// The settled operators with other cycles or people counted in, and without any one of them.
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

const Flip* flip_of(const std::vector<Flip>& flips, std::string_view code) {
  const auto found = std::find_if(flips.begin(), flips.end(), [&](const Flip& flip) { return flip.code == code; });
  return found == flips.end() ? nullptr : &*found;
}

std::vector<Runs> row_of(Runs what, const SettledOperators& line, const Flip* flip, ContentWord headline) {
  const bool same = flip == nullptr || flip->word == headline;
  return {std::move(what),
          runs(format_count(line.operators)),
          runs(format_count(line.cycles)),
          runs(format_bare_seconds(line.level.time)),
          runs(format_signed_bare_seconds(line.level.against.margin) + " (" +
               format_signed_interval(line.level.against.margin_low, line.level.against.margin_high) + ")"),
          flip == nullptr ? runs("")
          : same          ? runs("the same")
                          : Runs{strong(wording::finding_word(flip->word))}};
}

Runs what_of(const SettledRow& row) {
  std::string what = wording::flip_in_words({row.code, std::to_string(row.added), {}, {}, 0, {}});
  if (!row.who.empty()) what += ": " + row.who;
  if (row.unseen > 0 && row.code == "with_help")
    what += ", at least: " + format_count(row.unseen) +
            " of them were cut short or have no seconds of help, and count as no less than the person's usual time";
  if (row.unseen > 0 && row.code == "with_leavers")
    what += " (" + format_count(row.unseen) +
            " without a cycle here: taken at the longest mean of those who stayed, and one spread more)";
  return runs(what);
}

std::vector<TableColumn> columns(std::string_view what) {
  return {{std::string(what), Align::left},
          {"Operators", Align::right},
          {"n cycles", Align::right},
          {"Level, s", Align::right},
          {"Margin of this line, s (from, to)", Align::right, true},
          {"A would be", Align::left, true}};
}

void add_rows(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  if (content.settled.rows.empty()) {
    pages.paragraph(
        "No other row: no cycle of these operators is marked helped, cut short or foreign, no trained person's "
        "record is too short to tell, and nobody who left is missing.");
    return;
  }
  Table table;
  table.caption = "The same with others counted in";
  table.columns = columns("Counted");
  table.rows.push_back(row_of({strong("As it stands")}, *content.settled.line, nullptr, content.word));
  bool left = false;
  for (const SettledRow& row : content.settled.rows) {
    table.rows.push_back(row_of(what_of(row), row.line, flip_of(content.flips, row.code), content.word));
    left = left || row.code == "with_leavers";
  }
  pages.add(table);
  pages.paragraph(
      "FITS must hold with the help counted in and with the people who left counted in. The other rows decide "
      "nothing.",
      ParagraphRole::small);
  if (left)
    pages.paragraph("People who leave a station are often those for whom it was hardest. Who stays then looks like "
                    "everybody, and is not. That is why those who left are counted in: at the last times known of "
                    "them, or where nothing is known, as the row says.");
}

void add_left_out(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  const std::vector<LeftOutOne>& out = content.settled.left_out_one;
  if (out.empty() || out.size() != content.left_out.size()) return;
  Table table;
  table.caption = "Without any one of them, in order of code";
  table.dense = true;
  table.columns = columns("Left out");
  for (std::size_t i = 0; i < out.size(); ++i)
    table.rows.push_back(
        row_of(runs(operator_code(view.input, out[i].op)), out[i].line, &content.left_out[i], content.word));
  pages.add(table);
  pages.paragraph("A finding that hangs on one person says so here. The order is that of the codes and says nothing.",
                  ParagraphRole::small);
}

} // namespace

void add_settled_rows_pages(CasePages& pages, const CaseView& view) {
  add_rows(pages, view);
  add_left_out(pages, view);
}

} // namespace docket
