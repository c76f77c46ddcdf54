#include "report/wording/wording.h"

#include "report/format.h"
#include "report/wording/adaptation.h"
#include "report/wording/ergonomics.h"
#include "report/wording/excess.h"
#include "report/wording/shifts.h"
#include "report/wording/tables.h"

#include <algorithm>
#include <cmath>

namespace docket::wording {
namespace {

std::string in_words(std::span<const CodeWords> table, std::string_view code, std::string_view detail) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const CodeWords& row) { return row.code == code; });
  if (found != table.end()) return fill_in(found->words, detail);
  return detail.empty() ? std::string(code) : std::string(code) + " (" + std::string(detail) + ")";
}

// A detail may name lines by their codes: "standard, settled".
std::string detail_in_words(const std::string& detail) {
  static constexpr std::array<std::string_view, 3> codes{"standard", "settled", "restudy"};
  std::vector<std::string> parts;
  for (std::size_t from = 0;;) {
    const std::size_t comma = detail.find(", ", from);
    std::string part = detail.substr(from, comma == std::string::npos ? comma : comma - from);
    const auto code = std::find(codes.begin(), codes.end(), part);
    if (code == codes.end()) return detail;
    parts.push_back(std::string(line_in_sentence(static_cast<Line>(code - codes.begin()))));
    if (comma == std::string::npos) break;
    from = comma + 2;
  }
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  }
  return out;
}

std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

} // namespace

std::string standard_as_it_stands(Seconds line_cycle, Seconds standard) {
  const Seconds room = line_cycle - standard;
  const std::string size = format_seconds(Seconds{std::abs(room.count())});
  if (size == "0.0 s") return "Taken as it stands, the plant's own standard equals the line cycle time.";
  return "Taken as it stands, the plant's own standard is " + size + (room.count() > 0 ? " below" : " above") +
         " the line cycle time.";
}

std::string_view finding_word(ContentWord word) {
  switch (word) {
  case ContentWord::fits:
    return "FITS";
  case ContentWord::fits_only_if:
    return "FITS ONLY IF";
  case ContentWord::does_not_fit:
    return "DOES NOT FIT";
  case ContentWord::not_shown:
    return "NOT SHOWN";
  }
  return "NOT SHOWN";
}

std::string status_of(const OperatorLevel& level) {
  if (level.status != OperatorStatus::too_short) return std::string(status_in_words(level.status));
  if (level.n == 0 && level.plain_seen > 0) return "not past the own count asked for";
  if (level.fall_bound) return "could still be improving by more than is asked";
  return std::string(status_in_words(level.status));
}

std::string status_in_short(const OperatorLevel& level) {
  if (level.status == OperatorStatus::not_said) return "not counted";
  if (level.status != OperatorStatus::too_short) return std::string(status_in_words(level.status));
  if (level.n == 0 && level.plain_seen > 0) return "before the own count";
  if (level.fall_bound) return "could still be improving";
  return "record too short";
}

std::string_view lean_sentence(Leaning leans) {
  switch (leans) {
  case Leaning::fits:
    return "Its mean leans to fitting. A lean is no finding.";
  case Leaning::over:
    return "Its mean leans to not fitting. A lean is no finding.";
  case Leaning::neither:
    return "Its mean leans to neither side.";
  }
  return "It leans to neither side.";
}

std::string reason_in_words(const Reason& reason) {
  // Where the spread is not known, the next reason is why nobody counts as settled.
  const auto none_why = none_why_table();
  if (std::any_of(none_why.begin(), none_why.end(), [&](const CodeWords& known) { return known.code == reason.code; }))
    return none_why_in_words(reason.code);
  return in_words(reason_table(), reason.code, detail_in_words(reason.detail));
}

std::string flip_in_words(const Flip& flip) { return with_capital(in_words(flip_table(), flip.code, flip.detail)); }

std::string would_decide_in_words(const Reason& reason) {
  return in_words(would_decide_table(), reason.code, detail_in_words(reason.detail));
}

std::string lean_in_words(const Reason& reason) {
  return in_words(lean_table(), reason.code, detail_in_words(reason.detail));
}

std::string none_why_in_words(std::string_view code) { return in_words(none_why_table(), code, ""); }

FaultWords fault_in_words(const DataFault& fault) {
  const auto table = fault_table();
  const auto row =
      std::find_if(table.begin(), table.end(), [&](const FaultRow& known) { return known.code == fault.check; });
  if (row == table.end()) return {fault.check, fault.detail, "not known", "not known", "not known"};
  return {std::string(row->check), with_capital(fill_in(row->result, fault.detail)), std::string(row->direction),
          std::string(row->affects), std::string(row->remedy)};
}

std::string_view line_in_sentence(Line line) {
  static constexpr std::array<std::string_view, 3> names{"the standard", "the settled operators", "the restudy"};
  return names[static_cast<std::size_t>(line)];
}

std::string_view line_name(Line line) {
  static constexpr std::array<std::string_view, 3> names{"The standard", "Settled operators", "Restudy"};
  return names[static_cast<std::size_t>(line)];
}

std::string_view status_in_words(OperatorStatus status) {
  switch (status) {
  case OperatorStatus::settled:
    return "settled";
  case OperatorStatus::too_short:
    return "record too short to tell";
  case OperatorStatus::falling:
    return "times still falling";
  case OperatorStatus::untrained:
    return "not given as trained";
  case OperatorStatus::left:
    return "left the station";
  case OperatorStatus::not_said:
    return "not counted; no more is said while question B is closed for this person";
  }
  return "";
}

std::string_view class_name(ElementClass element_class) {
  static constexpr std::array<std::string_view, 3> names{"value-adding", "necessary, not value-adding", "waste"};
  return names[static_cast<std::size_t>(element_class)];
}

std::string_view class_in_short(ElementClass element_class) {
  static constexpr std::array<std::string_view, 3> names{"VA", "NNVA", "NVA"};
  return names[static_cast<std::size_t>(element_class)];
}

std::string_view time_source_in_words(TimeSource source) {
  static constexpr std::array<std::string_view, 5> names{"not said", "motion times", "stopwatch", "history",
                                                         "estimate"};
  return names[static_cast<std::size_t>(source)];
}

std::string_view state_in_words(ConditionState state) {
  static constexpr std::array<std::string_view, 3> names{"as the standard assumes", "differs", "not checked"};
  return names[static_cast<std::size_t>(state)];
}

std::string_view allowance_in_words(AllowanceWhere where) {
  switch (where) {
  case AllowanceWhere::none:
    return "no allowance";
  case AllowanceWhere::in_cycle:
    return "inside the cycle: the limit is shorter than the line cycle time";
  case AllowanceWhere::by_relief:
    return "by relief: it takes nothing from the cycle";
  case AllowanceWhere::in_standard:
    return "already in the standard: measured times are raised by it before comparing";
  }
  return "";
}

std::string_view use_in_words(UseOfTime use) {
  switch (use) {
  case UseOfTime::yes:
    return "yes";
  case UseOfTime::second_row:
    return "not in the headline; second row with the helper's seconds added";
  case UseOfTime::lower_bound:
    return "as \"at least this long\"";
  case UseOfTime::beside:
    return "headline without, beside it with";
  case UseOfTime::counted:
    return "no; counted and listed";
  }
  return "";
}

std::string_view mark_meaning(Mark mark) {
  switch (mark) {
  case Mark::helped:
    return "somebody helped";
  case Mark::cut_short:
    return "stopped before the work was done";
  case Mark::starved:
    return "waited for a unit or parts";
  case Mark::blocked:
    return "could not hand the unit on";
  case Mark::foreign:
    return "holds work that does not belong to the station";
  case Mark::defect:
    return "a faulty part or unit";
  case Mark::skipped:
    return "a step was left out";
  case Mark::instrument:
    return "the reading itself failed";
  }
  return "";
}

std::string marks_in_words(Marks marks) {
  std::string out;
  for (const MarkUse& use : mark_uses) {
    if (!marks.has(use.mark)) continue;
    std::string name(use.name);
    std::replace(name.begin(), name.end(), '_', ' ');
    out += (out.empty() ? "" : ", ") + name;
  }
  return out.empty() ? "plain" : out;
}

std::string exclusion_in_words(Exclusion why, Marks marks, std::string_view condition) {
  switch (why) {
  case Exclusion::mark:
    return "marked: " + marks_in_words(marks);
  case Exclusion::condition:
    return "condition differs: " + std::string(condition);
  case Exclusion::line_time:
    return "the line's time, not a person's";
  case Exclusion::other_station:
    return "another station";
  case Exclusion::no_operator:
    return "no operator known";
  case Exclusion::no_variant:
    return "no variant given";
  case Exclusion::in_the_log:
    return "reading of a cycle that the log has too";
  case Exclusion::elements_missing:
    return "elements do not add up to a whole cycle";
  case Exclusion::timed_twice:
    return "second observer's sheet of the same cycle";
  }
  return "";
}

std::string_view exclusion_handling(Exclusion why) {
  switch (why) {
  case Exclusion::mark:
    return "counted; used as the table of marks says";
  case Exclusion::condition:
    return "left out of the finding; the result with them is printed beside";
  case Exclusion::line_time:
  case Exclusion::other_station:
  case Exclusion::no_operator:
  case Exclusion::no_variant:
    return "counted, not used";
  case Exclusion::in_the_log:
    return "the log is used in its place";
  case Exclusion::elements_missing:
    return "not used as a whole cycle; its elements are compared one by one";
  case Exclusion::timed_twice:
    return "compared with the first sheet; the first one counts";
  }
  return "";
}

std::string_view setting_meaning(std::string_view key) {
  for (const CodeWords& row : setting_table()) {
    if (row.code == key) return row.words;
  }
  return "";
}

std::vector<std::string_view> all_texts() {
  std::vector<std::string_view> texts{question_a,  question_b,       fits_second_line,    not_shown_line,
                                      held_line,   local_law_first,  not_assessable_line, nothing_about_why,
                                      b_not_asked, bridge_intervals, log_cannot_show,     settled_rule};
  texts.insert(texts.end(), {what_share_able_is, what_share_counted_is, what_share_at_own_pace_is, how_shares_differ,
                             what_bridged_is});
  texts.insert(texts.end(), {excess_shows_no_intent, excess_decides_nothing, how_excess_by_element_is_made,
                             how_excess_by_variant_is_made, excess_interval});
  texts.insert(texts.end(), {not_assessable_never_which, shifts_rule, beyond_is_no_overload, small_group});
  texts.insert(texts.end(), how_b_is_computed.begin(), how_b_is_computed.end());
  texts.insert(texts.end(), cautions.begin(), cautions.end());
  const std::vector<std::string_view> ergonomics = ergonomics_texts();
  texts.insert(texts.end(), ergonomics.begin(), ergonomics.end());
  texts.insert(texts.end(), not_decided.begin(), not_decided.end());
  for (const auto table : {reason_table(), would_decide_table(), flip_table(), lean_table(), none_why_table(),
                           setting_table(), shift_why_table()}) {
    for (const CodeWords& row : table) texts.push_back(row.words);
  }
  for (const FaultRow& row : fault_table()) {
    texts.insert(texts.end(), {row.check, row.result, row.direction, row.affects, row.remedy});
  }
  for (const Term& term : glossary()) texts.insert(texts.end(), {term.term, term.meaning});
  for (const auto word :
       {ContentWord::fits, ContentWord::fits_only_if, ContentWord::does_not_fit, ContentWord::not_shown}) {
    texts.insert(texts.end(), {finding_word(word), what_the_pair_allows(word, std::nullopt)});
    for (const auto adaptation : adaptation_words) texts.push_back(what_the_pair_allows(word, adaptation));
  }
  for (const auto adaptation : adaptation_words) texts.push_back(finding_word(adaptation));
  for (const auto table : {adaptation_reason_table(), would_decide_adaptation_table(), bridge_absent_table(),
                           no_loss_table(), no_earlier_learners_table(), excess_absent_table()}) {
    for (const CodeWords& row : table) texts.push_back(row.words);
  }
  for (const auto lean : {Leaning::fits, Leaning::over, Leaning::neither}) texts.push_back(lean_sentence(lean));
  for (const auto status : {OperatorStatus::settled, OperatorStatus::too_short, OperatorStatus::falling,
                            OperatorStatus::untrained, OperatorStatus::left, OperatorStatus::not_said}) {
    texts.push_back(status_in_words(status));
  }
  for (const MarkUse& use : mark_uses) {
    texts.insert(texts.end(), {mark_meaning(use.mark), use_in_words(use.in_content), use_in_words(use.in_adaptation)});
  }
  return texts;
}

} // namespace docket::wording
