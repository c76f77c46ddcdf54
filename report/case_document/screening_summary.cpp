#include "report/case_document/screening_summary.h"

#include "report/format.h"
#include "report/wording/ergonomics.h"

#include <algorithm>

namespace docket {
namespace {

constexpr std::size_t shown_by_name = 3;

std::string index_text(double index) { return format_fixed(index, index < 0.095 ? 2 : 1); }

/// The place that counts: the one with the larger index. Null where one of them has no number.
const LiftLimit* limit_that_counts(const LiftScreening& screened) {
  if (!screened.origin.as_printed) return nullptr;
  const LiftLimit* counts = &*screened.origin.as_printed;
  if (screened.destination) {
    if (!screened.destination->as_printed) return nullptr;
    if (screened.destination->as_printed->li > counts->li) counts = &*screened.destination->as_printed;
  }
  return counts;
}

struct NamedValue {
  std::string name;
  std::optional<double> value, asked;
};

/// "compressor 1.2, cover 0.4 (at 50.0 s: 1.3, 0.4)"; many: how many and from where to where.
std::string values_in_words(const std::vector<NamedValue>& values, const std::optional<Seconds>& asked_cycle) {
  std::vector<NamedValue> with;
  std::copy_if(values.begin(), values.end(), std::back_inserter(with),
               [](const NamedValue& one) { return one.value.has_value(); });
  std::string text, asked;
  if (with.size() <= shown_by_name) {
    for (const NamedValue& one : with) {
      text += (text.empty() ? "" : ", ") + one.name + " " + index_text(*one.value);
      asked += (asked.empty() ? "" : ", ") + (one.asked ? index_text(*one.asked) : std::string("no number"));
    }
  } else {
    const auto less = [](const NamedValue& a, const NamedValue& b) { return *a.value < *b.value; };
    const auto [low, high] = std::minmax_element(with.begin(), with.end(), less);
    text = format_count(static_cast<std::int64_t>(with.size())) + " from " + index_text(*low->value) + " to " +
           index_text(*high->value) + " (" + high->name + ")";
    asked = high->name + " " + (high->asked ? index_text(*high->asked) : std::string("no number"));
  }
  if (!with.empty() && asked_cycle) text += " (at " + format_seconds(*asked_cycle) + ": " + asked + ")";
  const auto without = static_cast<std::int64_t>(values.size() - with.size());
  if (without > 0) {
    text += text.empty() ? "" : "; ";
    text += with.empty() && without == 1 ? "no number" : format_count(without) + " without a number";
  }
  return text;
}

void add_row(Table& table, std::string_view what, const std::string& result, const ScreeningMethod& method) {
  const wording::ScreeningWords words = wording::method_in_words(method);
  table.rows.push_back({runs(what), {strong(result)}, runs(words.short_source + "; " + words.short_range)});
}

void add_lifts(Table& table, const Ergonomics& found, const Case& input) {
  if (found.lifts.empty()) return;
  std::vector<NamedValue> values;
  for (const LiftCaution& caution : found.lifts) {
    NamedValue one{input.lifts[static_cast<std::size_t>(caution.lift)].task, {}, {}};
    if (const LiftLimit* limit = limit_that_counts(caution.now.screened)) one.value = limit->li;
    if (caution.asked)
      if (const LiftLimit* limit = limit_that_counts(caution.asked->screened)) one.asked = limit->li;
    values.push_back(one);
  }
  add_row(table, "Lifting: load over limit", values_in_words(values, found.asked_cycle), revised_lifting_equation());
  if (!found.composite) return;
  NamedValue together{"together", {}, {}};
  if (found.composite->as_printed) together.value = found.composite->as_printed->cli;
  if (found.composite_asked && found.composite_asked->as_printed)
    together.asked = found.composite_asked->as_printed->cli;
  add_row(table, "All lifts of the job", values_in_words({together}, found.asked_cycle), composite_lifting_index());
}

void add_efforts(Table& table, const Ergonomics& found, const Case& input) {
  if (found.efforts.empty()) return;
  std::vector<NamedValue> acceptable, strain, revised;
  for (const EffortCaution& caution : found.efforts) {
    const std::string& task = input.efforts[static_cast<std::size_t>(caution.effort)].task;
    NamedValue one{task, caution.now.acceptable.of_acceptable, {}};
    if (caution.asked) one.asked = caution.asked->acceptable.of_acceptable;
    acceptable.push_back(one);
    const auto add_index = [&](std::vector<NamedValue>& list, const auto& screening_of) {
      NamedValue index{task, {}, {}};
      const auto& now = screening_of(caution.now);
      if (!now.result) return;
      index.value = now.result->index;
      if (caution.asked && screening_of(*caution.asked).result)
        index.asked = screening_of(*caution.asked).result->index;
      list.push_back(index);
    };
    add_index(strain, [](const EffortAtCycle& at) -> const StrainScreening& { return at.strain; });
    add_index(revised, [](const EffortAtCycle& at) -> const RevisedStrainScreening& { return at.revised_strain; });
  }
  add_row(table, "Efforts: force over acceptable", values_in_words(acceptable, found.asked_cycle),
          maximum_acceptable_effort_method());
  if (!strain.empty())
    add_row(table, "Strain index, 1995", values_in_words(strain, found.asked_cycle), strain_index_1995());
  if (!revised.empty())
    add_row(table, "Revised strain index", values_in_words(revised, found.asked_cycle), revised_strain_index_2017());
}

std::string repetition_in_words(const RepetitionAtCycle& at) {
  std::string text = "cycle " + format_seconds(at.cycle) + (at.below_30_s ? ", below 30 s" : "");
  if (at.pattern_share) text += ", " + format_percent(*at.pattern_share) + " in one motion pattern";
  if (at.recovery_share) text += ", recovery " + format_percent(*at.recovery_share);
  if (has_code(at.why_not, "busy_beyond_cycle")) text += ", nothing left for recovery";
  if (at.cycles_per_shift)
    text += ", " + format_count(static_cast<std::int64_t>(*at.cycles_per_shift + 0.5)) + " cycles a shift";
  return text;
}

void add_repetition(Table& table, const Ergonomics& found) {
  if (!found.repetition.now) return;
  std::string text = repetition_in_words(*found.repetition.now);
  if (found.repetition.asked) text += "; at the cycle asked about: " + repetition_in_words(*found.repetition.asked);
  add_row(table, "Repetition and recovery", text, repetition_definition());
}

} // namespace

Table screening_summary(const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  Table table;
  table.columns = {{"Screened", Align::left}, {"Result", Align::left}, {"Source; for what", Align::left}};
  add_lifts(table, found, view.input);
  add_efforts(table, found, view.input);
  add_repetition(table, found);
  if (found.lifts.empty()) table.rows.push_back({runs("Lifting"), runs("not screened: no row in table lifts"), {}});
  if (found.efforts.empty())
    table.rows.push_back({runs("Efforts of hand and arm"), runs("not screened: no row in table efforts"), {}});
  return table;
}

} // namespace docket
