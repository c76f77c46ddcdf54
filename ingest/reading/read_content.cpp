#include "ingest/reading/read_tables.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace docket {

namespace {

/// A name that other sheets list between `;` must not hold one.
void check_name(Draft& draft, const TableRow& row, std::string_view column) {
  const std::string& name = value_of(row, column).text;
  if (name.find(';') != std::string::npos)
    row_issue(draft, row, column,
              {IssueGrade::fault, "name_not_usable", "\"" + name + "\" holds a ; and other sheets could not name it.",
               "Choose a name without ;."});
  if (name.starts_with('+'))
    row_issue(draft, row, column,
              {IssueGrade::fault, "name_not_usable",
               "\"" + name + "\" begins with +, which is for work that is not in the standard.",
               "Choose a name without + in front."});
}

/// Blank, `A;B` or `not A`.
void read_option(Draft& draft, const TableRow& row, StandardElement& element) {
  const std::string& text = value_of(row, "option").text;
  const std::string small = small_letters(text);
  if (!small.starts_with("not ")) {
    element.any_option = split_list(text);
    const bool mixed = std::any_of(element.any_option.begin(), element.any_option.end(),
                                   [](const std::string& o) { return small_letters(o).starts_with("not "); });
    if (!mixed) return;
    element.any_option.clear();
  } else {
    const std::vector<std::string> options = split_list(std::string_view(text).substr(4));
    if (options.size() == 1) {
      element.not_option = options.front();
      return;
    }
  }
  row_issue(draft, row, "option",
            {IssueGrade::fault, "option_not_understood", "\"" + text + "\" is no option rule.",
             "Leave it blank for every unit, or write A;B for any of these options, or not A for every unit without "
             "option A."});
}

StandardElement read_element(Draft& draft, const TableRow& row) {
  StandardElement element;
  element.origin = row.origin;
  element.element = value_of(row, "element").text;
  element.description = value_of(row, "description").text;
  element.element_class = static_cast<ElementClass>(value_of(row, "class").whole);
  if (value_of(row, "kind").given) element.kind = static_cast<ElementKind>(value_of(row, "kind").whole);
  if (value_of(row, "time_s").given) element.time = Seconds(value_of(row, "time_s").number);
  if (value_of(row, "times_per_unit").given) element.times_per_unit = value_of(row, "times_per_unit").number;
  read_option(draft, row, element);
  if (value_of(row, "uncertainty_percent").given)
    element.uncertainty = value_of(row, "uncertainty_percent").number / 100;
  element.analyst = value_of(row, "analyst").text;
  if (value_of(row, "source").given) element.time_source = static_cast<TimeSource>(value_of(row, "source").whole + 1);
  element.source_note = value_of(row, "source_note").text;
  element.post = value_of(row, "post").text;
  element.after = value_of(row, "after").list;
  return element;
}

void check_after(Draft& draft) {
  if (!draft.elements.complete) return;
  for (const StandardElement& element : draft.input.standard) {
    for (const std::string& before : element.after) {
      const bool itself = before == element.element;
      if (!itself && draft.elements.places.contains(before)) continue;
      row_issue(draft, element.origin, "after", before,
                {IssueGrade::fault, "element_unknown",
                 itself ? "\"" + before + "\" cannot come before itself."
                        : "\"" + before + "\" is no element of the sheet standard.",
                 (itself ? "" : suggestion(draft.elements, before)) +
                     "Name elements of this sheet that come before, divided by ;."});
    }
  }
}

void check_shares(Draft& draft) {
  constexpr double share_tolerance = 0.1; // [%]
  double sum = 0;
  for (const Variant& variant : draft.input.variants) sum += variant.share * 100;
  if (std::abs(sum - 100) <= share_tolerance + 1e-9) return;
  const std::int32_t source = draft.input.variants.front().origin.source;
  draft.faulty_cells[static_cast<std::size_t>(TableName::variants)] = true;
  const bool fractions = std::abs(sum - 1) <= 0.02;
  Defect defect{IssueGrade::fault, "shares_do_not_sum",
                "The shares of the variants add up to " + short_number(sum) + " %.",
                "They must add up to 100 %. Correct the shares."};
  if (fractions)
    defect = {IssueGrade::fault, "shares_look_like_fractions",
              "The shares add up to " + short_number(sum) + "; shares look like fractions.",
              "Percent is expected: 25, not 0.25."};
  add_table_issue(draft.issues, std::move(defect), source, TableName::variants, 0, "share_percent", short_number(sum));
}

void check_aliases(Draft& draft) {
  std::map<std::string, std::int32_t> aliases;
  for (std::size_t i = 0; i < draft.input.variants.size(); ++i) {
    const Variant& variant = draft.input.variants[i];
    const auto place = static_cast<std::int32_t>(i);
    for (const std::string& alias : variant.also_called) {
      if (alias == variant.variant) continue;
      const auto known = draft.variants.places.find(alias);
      if (known == draft.variants.places.end()) {
        add_name(draft.variants, alias, place);
        continue;
      }
      if (known->second == place) continue;
      const Variant& other = draft.input.variants[static_cast<std::size_t>(known->second)];
      row_issue(draft, variant.origin, "also_called", alias,
                {IssueGrade::fault, "alias_clash",
                 "\"" + alias + "\" means " + variant.variant + " here, and " + other.variant + " in " +
                     row_text(draft, other.origin, variant.origin) + ".",
                 "One name can mean one variant only. Take it out of one of the two rows."});
    }
  }
}

void check_options(Draft& draft) {
  std::set<std::string> carried;
  NameIndex names;
  for (const Variant& variant : draft.input.variants)
    for (const std::string& option : variant.options) {
      carried.insert(option);
      add_name(names, option, 0);
    }
  for (const StandardElement& element : draft.input.standard) {
    std::vector<std::string> used = element.any_option;
    if (!element.not_option.empty()) used.push_back(element.not_option);
    for (const std::string& option : used) {
      if (carried.contains(option)) continue;
      const std::string meant = suggestion(names, option);
      // A slip of the pen would take the element out of every unit; an option nobody builds now is only asked about.
      row_issue(draft, element.origin, "option", option,
                {meant.empty() ? IssueGrade::question : IssueGrade::fault, "option_without_variant",
                 "No variant carries the option \"" + option + "\".",
                 meant + "Add the option to a variant in the sheet variants, or correct it here."});
    }
  }
}

/// A variant without an element would take no time at all.
void check_every_variant_has_work(Draft& draft) {
  for (const Variant& variant : draft.input.variants) {
    const auto& standard = draft.input.standard;
    if (standard.empty() || std::any_of(standard.begin(), standard.end(),
                                        [&](const StandardElement& element) { return carries(variant, element); }))
      continue;
    row_issue(draft, variant.origin, "variant", variant.variant,
              {IssueGrade::fault, "variant_without_work",
               "No element of the standard applies to the variant \"" + variant.variant + "\".",
               "Correct its options here, or the column option in the sheet standard."});
  }
}

/// Shares that sum to 99.9 to 100.1 are taken as parts of their sum.
void make_shares_sum_to_one(std::vector<Variant>& variants) {
  double sum = 0;
  for (const Variant& variant : variants) sum += variant.share;
  for (Variant& variant : variants) variant.share /= sum;
}

void take_the_one_variant(Draft& draft) {
  Variant all;
  all.variant = "all";
  draft.input.variants.push_back(all);
  for (const StandardElement& element : draft.input.standard) {
    if (element.any_option.empty() && element.not_option.empty()) continue;
    const std::string raw = element.not_option.empty() ? element.any_option.front() : "not " + element.not_option;
    row_issue(
        draft, element.origin, "option", raw,
        {IssueGrade::fault, "option_without_variants",
         "The element \"" + element.element + "\" is only for some units, but there is no sheet variants to say which.",
         "Fill in the sheet variants with their options and shares, or leave option blank."});
  }
}

} // namespace

void read_standard(Draft& draft) {
  each_row(draft, TableName::standard, [&](const TableRow& row) {
    StandardElement element = read_element(draft, row);
    if (element.element.empty()) return;
    check_name(draft, row, "element");
    if (!add_name(draft.elements, element.element, static_cast<std::int32_t>(draft.input.standard.size()))) {
      const StandardElement& first =
          draft.input.standard[static_cast<std::size_t>(draft.elements.places[element.element])];
      row_issue(draft, row, "element",
                {IssueGrade::fault, "element_twice",
                 "The element \"" + element.element + "\" stands here and in " +
                     row_text(draft, first.origin, row.origin) + ".",
                 "Each element has one row. Rename one, or delete it; for repeats use times_per_unit."});
      return;
    }
    if (!value_of(row, "time_s").given)
      draft.without_time.push_back(static_cast<std::int32_t>(draft.input.standard.size()));
    draft.input.standard.push_back(std::move(element));
  });
  const TableState& state = draft.state(TableName::standard);
  draft.elements.complete = state.present() && !state.broken();
  check_after(draft);
}

void read_variants(Draft& draft) {
  each_row(draft, TableName::variants, [&](const TableRow& row) {
    Variant variant;
    variant.origin = row.origin;
    variant.variant = value_of(row, "variant").text;
    variant.share = value_of(row, "share_percent").number / 100;
    variant.options = value_of(row, "options").list;
    variant.also_called = value_of(row, "also_called").list;
    if (value_of(row, "share_in_standard_percent").given)
      variant.share_in_standard = value_of(row, "share_in_standard_percent").number / 100;
    if (variant.variant.empty()) return;
    check_name(draft, row, "variant");
    if (!add_name(draft.variants, variant.variant, static_cast<std::int32_t>(draft.input.variants.size()))) {
      const Variant& first = draft.input.variants[static_cast<std::size_t>(draft.variants.places[variant.variant])];
      row_issue(draft, row, "variant",
                {IssueGrade::fault, "variant_twice",
                 "The variant \"" + variant.variant + "\" stands here and in " +
                     row_text(draft, first.origin, row.origin) + ".",
                 "Each variant has one row. Rename one, or delete it."});
      return;
    }
    draft.input.variants.push_back(std::move(variant));
  });
  const TableState& state = draft.state(TableName::variants);
  draft.variants.complete = !state.broken();
  if (!state.present()) {
    take_the_one_variant(draft);
    return;
  }
  if (draft.input.variants.empty()) return;
  check_aliases(draft);
  if (!has_faults(draft, TableName::variants)) check_shares(draft);
  if (!has_faults(draft, TableName::variants)) make_shares_sum_to_one(draft.input.variants);
  if (state.broken()) return;
  check_options(draft);
  if (!has_faults(draft, TableName::standard)) check_every_variant_has_work(draft);
}

void read_build_sequence(Draft& draft) {
  std::map<std::pair<std::string, std::int64_t>, SourceRow> positions;
  std::set<std::int64_t> numbers;
  bool unique = true;
  each_row(draft, TableName::build_sequence, [&](const TableRow& row) {
    SequenceUnit unit;
    unit.origin = row.origin;
    unit.position = value_of(row, "position").whole;
    unit.variant = find_variant(draft, row, "variant");
    unit.run = value_of(row, "run").text;
    if (row.faulty) return;
    const auto [first, added] = positions.emplace(std::pair(unit.run, unit.position), row.origin);
    if (!added)
      row_issue(draft, row, "position",
                {IssueGrade::fault, "position_twice",
                 "The position " + std::to_string(unit.position) + " stands here and in " +
                     row_text(draft, first->second, row.origin) + ".",
                 "Each position of a run has one unit. Number them 1, 2, 3 in the order of building."});
    unique = numbers.insert(unit.position).second && unique;
    draft.input.build_sequence.push_back(std::move(unit));
  });
  // Positions either count through, or anew in every run; then the runs stay in the order of the sheet.
  std::map<std::string, std::size_t> runs;
  if (!unique)
    for (const SequenceUnit& unit : draft.input.build_sequence) runs.emplace(unit.run, runs.size());
  std::stable_sort(draft.input.build_sequence.begin(), draft.input.build_sequence.end(),
                   [&](const SequenceUnit& a, const SequenceUnit& b) {
                     if (!unique && a.run != b.run) return runs[a.run] < runs[b.run];
                     return a.position < b.position;
                   });
}

} // namespace docket
