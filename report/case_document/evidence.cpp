// The evidence list, the cycles set apart, marks, settings; methods, glossary, sign-off.
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <map>

namespace docket {
namespace {

std::string reason_of(const CaseView& view, const ExcludedRow& row) {
  return wording::exclusion_in_words(row.why, row.marks, condition_name(view.input, row.condition));
}

Table files_table(const CaseView& view) {
  Table table;
  table.caption = "Files as given";
  table.dense = true;
  table.columns = {{"File", Align::left}, {"SHA-256", Align::left}, {"Rows", Align::right}};
  for (const Source& source : view.input.sources) {
    table.rows.push_back({runs(source.file), runs(source.sha256), runs(format_count(source.rows))});
  }
  return table;
}

Table counts_table(const CaseView& view) {
  Table table;
  table.caption = "Rows of each table";
  table.dense = true;
  table.columns = {{"Table", Align::left},
                   {"Read", Align::right},
                   {"Used", Align::right},
                   {"With an issue", Align::right},
                   {"", Align::left}};
  for (const TableCounts& counts : view.input.counts) {
    table.rows.push_back({runs(name_of(counts.table)), runs(format_count(counts.read)), runs(format_count(counts.used)),
                          runs(format_count(counts.with_issue)),
                          runs(counts.used_now ? "" : "taken in, not yet used")});
  }
  return table;
}

/// The table, with its file where there are several.
std::string table_of(const CaseView& view, const SourceRow& origin) {
  const auto source = static_cast<std::size_t>(origin.source);
  const bool many = view.input.sources.size() > 1 && origin.source >= 0 && source < view.input.sources.size();
  return (many ? view.input.sources[source].file + ", " : "") + std::string(name_of(origin.table));
}

/// Rows with a fault that were not taken, on request.
void add_set_aside(CasePages& pages, const CaseView& view) {
  constexpr std::size_t most_listed = 100;
  const std::vector<SetAsideRow>& rows = view.input.set_aside;
  if (rows.empty()) return;
  pages.part("Rows set aside");
  pages.paragraph(counted(static_cast<std::int64_t>(rows.size()), "row", "rows") +
                  " had a fault and, on request, went into no computation. Whoever weighs the finding may ask whether "
                  "these rows lean to one side.");
  Table table;
  table.caption = "Rows set aside, as they stand in the file";
  table.dense = true;
  table.columns = {{"Where", Align::left}, {"Column", Align::left}, {"Fault", Align::left}, {"The row", Align::left}};
  for (std::size_t i = 0; i < std::min(rows.size(), most_listed); ++i)
    table.rows.push_back({runs(table_of(view, rows[i].origin) + ", row " + std::to_string(rows[i].origin.row)),
                          runs(rows[i].column), runs(rows[i].wrong), runs(rows[i].raw)});
  pages.add(table);
  if (rows.size() > most_listed)
    pages.paragraph("And " + counted(static_cast<std::int64_t>(rows.size() - most_listed), "more row", "more rows") +
                    ", listed in findings.json.");
}

Table excluded_summary(const CaseView& view) {
  std::vector<std::pair<std::string, std::pair<std::int64_t, Exclusion>>> counts;
  std::map<std::string, std::size_t> places;
  for (const ExcludedRow& row : view.findings.evidence.excluded) {
    const std::string reason = reason_of(view, row);
    const auto [place, added] = places.emplace(reason, counts.size());
    if (added) counts.push_back({reason, {0, row.why}});
    counts[place->second].second.first += row.rows;
  }
  Table table;
  table.caption = "Cycles set apart, by reason";
  table.columns = {{"Reason", Align::left}, {"Rows", Align::right}, {"What is done with them", Align::left}};
  for (const auto& [reason, entry] : counts) {
    table.rows.push_back(
        {runs(reason), runs(format_count(entry.first)), runs(wording::exclusion_handling(entry.second))});
  }
  return table;
}

// Every row, under its table and reason; rows that follow one another stand as a range. Of a log of millions nobody reads
// them all on a page.
Definitions excluded_list(const CaseView& view) {
  constexpr std::int64_t most_ranges = 5000;
  struct Rows {
    std::string heading, text;
    std::int64_t count = 0, first = 0, last = -1, ranges = 0, not_listed = 0;
    void finish_range() {
      if (last < first) return;
      if (++ranges > most_ranges)
        not_listed += last - first + 1;
      else
        text += (text.empty() ? "" : ", ") + rows_in_words(first, last);
    }
  };
  std::vector<Rows> groups;
  std::map<std::string, std::size_t> places;
  for (const ExcludedRow& row : view.findings.evidence.excluded) {
    const std::string heading = table_of(view, row.origin) + ", " + reason_of(view, row);
    const auto [place, added] = places.emplace(heading, groups.size());
    if (added) groups.push_back({heading, "", 0, row.origin.row, row.origin.row - 1, 0, 0});
    Rows& rows = groups[place->second];
    if (row.origin.row != rows.last + 1) {
      rows.finish_range();
      rows.first = row.origin.row;
    }
    rows.last = row.origin.row + row.rows - 1;
    rows.count += row.rows;
  }
  Definitions list;
  list.dense = true;
  for (Rows& rows : groups) {
    rows.finish_range();
    if (rows.not_listed > 0)
      rows.text += ", and " + counted(rows.not_listed, "more row", "more rows") + ", listed in findings.json";
    list.entries.push_back({rows.heading + ": " + counted(rows.count, "row", "rows"), runs(rows.text)});
  }
  return list;
}

void add_excluded(CasePages& pages, const CaseView& view) {
  const Evidence& evidence = view.findings.evidence;
  pages.part("Cycles set apart");
  pages.paragraph("Nothing is dropped silently. Known from log and readings: " +
                  counted(static_cast<std::int64_t>(evidence.cycles.size()), "cycle", "cycles") + " of persons; " +
                  counted(static_cast<std::int64_t>(evidence.restudy.size()), "cycle", "cycles") +
                  " of the restudy. Set apart or used beside the headline only: " +
                  counted(rows_excluded(evidence), "row", "rows") + ".");
  if (evidence.excluded.empty()) return;
  pages.add(excluded_summary(view));
  const ContentFindings& content = view.findings.content;
  if (content.with_differing) {
    pages.paragraph(
        "Result without the cycles under a differing condition: " + std::string(wording::finding_word(content.word)) +
        ". With them: " + std::string(wording::finding_word(content.with_differing->word)) + ".");
  }
  pages.add(Fold{"The full list: every row set apart, under its table and reason", {Block{excluded_list(view)}}});
}

Table marks_table() {
  Table table;
  table.caption = "Marks, and what each question may do with the time of a marked cycle";
  table.dense = true;
  table.columns = {
      {"Mark", Align::left}, {"Meaning", Align::left}, {"Question A", Align::left}, {"Question B", Align::left}};
  table.rows.push_back({runs("(blank)"), runs("plain"), runs("yes"), runs("yes")});
  for (const MarkUse& use : mark_uses) {
    Marks one;
    one.set(use.mark);
    table.rows.push_back({runs(wording::marks_in_words(one)), runs(wording::mark_meaning(use.mark)),
                          runs(wording::use_in_words(use.in_content)), runs(wording::use_in_words(use.in_adaptation))});
  }
  return table;
}

Table settings_table(const CaseView& view) {
  Table table;
  table.caption = "Settings; changed ones are marked";
  table.dense = true;
  table.columns = {{"Setting", Align::left},
                   {"What it is", Align::left},
                   {"Value", Align::right},
                   {"Changed, and why", Align::left}};
  for (const Settings::Given& setting : view.input.settings.given) {
    Runs changed;
    if (setting.given) {
      changed = {strong("changed"), plain(": " + (setting.reason.empty() ? "no reason given" : setting.reason)),
                 reference_to(view.input, setting.origin)};
    }
    table.rows.push_back({runs(setting.key), runs(wording::setting_meaning(setting.key)),
                          runs(setting.value.empty() ? "none" : setting.value), changed});
  }
  return table;
}

Box sign_off_box(std::string_view who) {
  return {std::string(who),
          {block({runs("Agrees / disagrees (strike out one), and why:")}), Block{RuledSpace{4}},
           block({runs("Date, signature"), ParagraphRole::small})}};
}

} // namespace

void add_evidence(CasePages& pages, const CaseView& view) {
  pages.section("The evidence");
  pages.part("Files and tables");
  const CaseFacts& facts = view.input.facts;
  pages.paragraph({plain("May be read by: " + or_not_given(facts.may_read)), reference_to_key(view.input, "may_read"),
                   plain(". Kept until: " + (facts.retain_until ? format_date(*facts.retain_until) : "not given")),
                   reference_to_key(view.input, "retain_until"),
                   plain(". A code in place of a name is no anonymity in a small group. " +
                         std::string(view.copy == CopyFor::joint ? wording::is_joint_copy : wording::is_review_copy))});
  pages.add(files_table(view));
  pages.add(counts_table(view));
  add_set_aside(pages, view);
  add_excluded(pages, view);
  pages.part("Marks");
  pages.add(marks_table());
  pages.part("Settings");
  pages.add(settings_table(view));
}

void add_reference_pages(CasePages& pages, const CaseView&) {
  pages.section("Methods and sources");
  Table sources;
  sources.dense = true;
  sources.columns = {{"What is computed", Align::left}, {"Source", Align::left}};
  for (const wording::MethodSource& entry : wording::methods_and_sources()) {
    sources.rows.push_back({runs(entry.used_for), runs(entry.source)});
  }
  pages.add(sources);
  pages.section("Words used");
  Table words;
  words.dense = true;
  words.columns = {{"Word", Align::left}, {"Meaning", Align::left}};
  for (const wording::Term& term : wording::glossary()) {
    words.rows.push_back({{strong(term.term)}, runs(term.meaning)});
  }
  pages.add(words);
  pages.section("Sign-off");
  pages.paragraph(
      "Signing says that the file was read. Whoever disagrees writes why, on the same space as the others. " +
      std::string(wording::local_law_first));
  pages.add(Boxes{{sign_off_box("Engineer"), sign_off_box("Supervisor"), sign_off_box("Worker's representative"),
                   sign_off_box("Reviewer")},
                  true});
}

} // namespace docket
