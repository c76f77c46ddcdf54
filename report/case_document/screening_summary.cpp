#include "report/case_document/screening_summary.h"

#include "report/format.h"
#include "report/wording/ergonomics.h"

#include <algorithm>

namespace docket {
namespace {

constexpr std::size_t shown_by_name = 3;

/// Two decimals: a load a little above its limit is not to read as one at it.
std::string index_text(double index) { return format_fixed(index, 2); }

/// The place that counts: the one with the larger index. Null where one of them has no number.
const LiftLimit* limit_that_counts(const LiftScreening& screened) {
  if (!screened.origin.exact) return nullptr;
  const LiftLimit* counts = &*screened.origin.exact;
  if (screened.destination) {
    if (!screened.destination->exact) return nullptr;
    if (screened.destination->exact->li > counts->li) counts = &*screened.destination->exact;
  }
  return counts;
}

struct NamedValue {
  std::string name;
  std::optional<double> value, asked;
};

/// Is a value of 1 a limit reached?
enum class OfLimit : std::uint8_t { yes, no };

/// "compressor 1.20, cover 0.40"; many: how many, from where to where, and how many beyond the limit. `asked`: at the cycle
/// asked about.
std::string values_in_words(const std::vector<NamedValue>& values, bool asked, OfLimit of_limit) {
  const auto value_of = [&](const NamedValue& one) { return asked ? one.asked : one.value; };
  std::vector<NamedValue> with;
  std::copy_if(values.begin(), values.end(), std::back_inserter(with),
               [&](const NamedValue& one) { return value_of(one).has_value(); });
  std::string text;
  if (with.size() <= shown_by_name) {
    for (const NamedValue& one : with)
      text += (text.empty() ? "" : ", ") + one.name + (one.name.empty() ? "" : " ") + index_text(*value_of(one));
  } else {
    const auto less = [&](const NamedValue& a, const NamedValue& b) { return *value_of(a) < *value_of(b); };
    const auto [low, high] = std::minmax_element(with.begin(), with.end(), less);
    text = format_count(static_cast<std::int64_t>(with.size())) + " from " + index_text(*value_of(*low)) + " to " +
           index_text(*value_of(*high)) + " (" + high->name + ")";
    const auto above =
        std::count_if(with.begin(), with.end(), [&](const NamedValue& one) { return *value_of(one) > 1; });
    if (of_limit == OfLimit::yes && above > 0) text += ", " + format_count(above) + " above 1";
  }
  const auto without = static_cast<std::int64_t>(values.size() - with.size());
  if (without > 0)
    text += (text.empty() ? "" : "; ") +
            (with.empty() && without == 1 ? std::string("no number") : format_count(without) + " without a number");
  return text;
}

/// The rows as they are made: what, now, at the cycle asked about, source and range.
class Rows {
public:
  Rows(Table& table, bool asked) : table_(table), asked_(asked) {}

  void add(std::string_view what, const std::string& now, const std::string& then, const ScreeningMethod& method) {
    const wording::ScreeningWords words = wording::method_in_words(method);
    std::vector<Runs> row{runs(what), {strong(now)}};
    if (asked_) row.push_back(runs(then));
    row.push_back(runs(words.short_source + "; " + words.short_range));
    table_.rows.push_back(std::move(row));
  }
  void add(std::string_view what, const std::vector<NamedValue>& values, OfLimit of_limit,
           const ScreeningMethod& method) {
    add(what, values_in_words(values, false, of_limit), values_in_words(values, true, of_limit), method);
  }
  void add_to_source(const std::string& words) { table_.rows.back().back().push_back(plain(words)); }
  void add_absent(std::string_view what, std::string_view why) {
    std::vector<Runs> row{runs(what), runs(why)};
    if (asked_) row.emplace_back();
    row.emplace_back();
    table_.rows.push_back(std::move(row));
  }

private:
  Table& table_;
  bool asked_;
};

void add_lifts(Rows& rows, const Ergonomics& found, const Case& input) {
  if (found.lifts.empty()) return rows.add_absent("Lifting", "not screened: no row in table lifts");
  std::vector<NamedValue> values;
  for (const LiftCaution& caution : found.lifts) {
    NamedValue one{input.lifts[static_cast<std::size_t>(caution.lift)].task, {}, {}};
    if (const LiftLimit* limit = limit_that_counts(caution.now.screened)) one.value = limit->li;
    if (caution.asked)
      if (const LiftLimit* limit = limit_that_counts(caution.asked->screened)) one.asked = limit->li;
    values.push_back(one);
  }
  std::string now = values_in_words(values, false, OfLimit::yes), then = values_in_words(values, true, OfLimit::yes);
  if (found.composite) {
    NamedValue together;
    if (found.composite->exact) together.value = found.composite->exact->cli;
    if (found.composite_asked && found.composite_asked->exact) together.asked = found.composite_asked->exact->cli;
    now += "; together " + values_in_words({together}, false, OfLimit::yes);
    then += "; together " + values_in_words({together}, true, OfLimit::yes);
  }
  rows.add("Load over limit", now, then, revised_lifting_equation());
  if (found.composite)
    rows.add_to_source("; together: " + wording::method_in_words(composite_lifting_index()).short_range);
}

/// All efforts of a hand over the cycle, the largest force against what is acceptable at their sum: the careful reading.
std::string hands_in_words(const std::vector<HandScreening>& hands) {
  std::string text;
  for (const HandScreening& hand : hands) {
    if (hand.efforts < 2) continue;
    text += std::string("; ") + (hand.hand == Hand::left ? "left" : "right") + " hand together ";
    text += hand.mae && hand.largest_force_share ? index_text(*hand.largest_force_share / *hand.mae) : "no number";
  }
  return text;
}

void add_efforts(Rows& rows, const Ergonomics& found, const Case& input) {
  if (found.efforts.empty()) return rows.add_absent("Efforts, hand and arm", "not screened: no row in table efforts");
  std::vector<NamedValue> acceptable, strain, revised;
  for (const EffortCaution& caution : found.efforts) {
    const std::string& task = input.efforts[static_cast<std::size_t>(caution.effort)].task;
    NamedValue one{task, caution.now.acceptable.of_acceptable, {}};
    if (caution.asked) one.asked = caution.asked->acceptable.of_acceptable;
    acceptable.push_back(one);
    const auto add_index = [&](std::vector<NamedValue>& list, const auto& screening_of) {
      NamedValue index{task, {}, {}};
      if (screening_of(caution.now).result) index.value = screening_of(caution.now).result->index;
      if (caution.asked && screening_of(*caution.asked).result)
        index.asked = screening_of(*caution.asked).result->index;
      list.push_back(index);
    };
    add_index(strain, [](const EffortAtCycle& at) -> const StrainScreening& { return at.strain; });
    add_index(revised, [](const EffortAtCycle& at) -> const RevisedStrainScreening& { return at.revised_strain; });
  }
  rows.add("Force over acceptable", values_in_words(acceptable, false, OfLimit::yes) + hands_in_words(found.hands),
           values_in_words(acceptable, true, OfLimit::yes) + hands_in_words(found.hands_asked),
           maximum_acceptable_effort_method());
  const auto any = [](const std::vector<NamedValue>& values) {
    return std::any_of(values.begin(), values.end(), [](const NamedValue& one) { return one.value || one.asked; });
  };
  if (any(strain)) rows.add("Strain index, 1995", strain, OfLimit::no, strain_index_1995());
  if (any(revised)) rows.add("Strain index, 2017", revised, OfLimit::no, revised_strain_index_2017());
}

std::string repetition_in_words(const RepetitionAtCycle& at) {
  std::string text;
  const auto say = [&](const std::string& words) { text += (text.empty() ? "" : ", ") + words; };
  if (at.below_30_s) say("cycle below 30 s");
  if (at.pattern_share) say(format_percent(*at.pattern_share) + " in one pattern");
  if (at.recovery_share) say("recovery " + format_percent(*at.recovery_share));
  if (has_code(at.why_not, "busy_beyond_cycle")) say("no recovery left");
  if (at.cycles_per_shift) say(format_count(static_cast<std::int64_t>(*at.cycles_per_shift + 0.5)) + " cycles a shift");
  return text;
}

} // namespace

Table screening_summary(const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  Table table;
  table.columns = {{"Screened", Align::left}, {"At " + format_seconds(found.line_cycle), Align::left}};
  if (found.asked_cycle) table.columns.push_back({"If " + format_seconds(*found.asked_cycle), Align::left});
  table.columns.push_back({"Source; for what", Align::left});
  Rows rows(table, found.asked_cycle.has_value());
  add_lifts(rows, found, view.input);
  add_efforts(rows, found, view.input);
  if (found.repetition.now)
    rows.add("Repetition, recovery", repetition_in_words(*found.repetition.now),
             found.repetition.asked ? repetition_in_words(*found.repetition.asked) : "", repetition_definition());
  return table;
}

} // namespace docket
