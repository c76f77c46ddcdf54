// Where the excess of one operator lies beside the settled operators: two tables of facts, in the order of the input.
#include "report/wording/excess.h"

#include "report/case_document/pages.h"
#include "report/format.h"

namespace docket {
namespace {

std::string ratio_with_range(const ExcessPart& part) {
  return format_fixed(part.ratio, 3) + " (" + format_fixed(part.low, 3) + " to " + format_fixed(part.high, 3) + ")";
}

std::string seconds_with_range(const ExcessPart& part) {
  return format_signed_bare_seconds(part.seconds) + " (" + format_signed_interval(part.seconds_low, part.seconds_high) +
         ")";
}

std::string by_chance(const ExcessParts& parts, std::string_view what) {
  const auto compared = static_cast<std::int64_t>(parts.parts.size());
  return "Of " + counted(compared, what, std::string(what) + "s") + " compared, " + format_count(parts.standing_out) +
         (parts.standing_out == 1 ? " has" : " have") + " an interval without 1. About " +
         format_fixed(parts.by_chance, 2) + " of these would stand out by chance.";
}

template <class Name>
Table table_of(const ExcessParts& parts, std::string caption, std::string what, std::string seconds, Name name) {
  Table table;
  table.caption = std::move(caption);
  table.dense = true;
  table.columns = {{std::move(what), Align::left},
                   {"n", Align::right},
                   {"Others: people, n", Align::right},
                   {"Ratio (from, to)", Align::left, true},
                   {std::move(seconds), Align::left, true}};
  for (const ExcessPart& part : parts.parts)
    table.rows.push_back({runs(name(part.index)), runs(format_count(part.n)),
                          runs(format_count(part.peers) + ", " + format_count(part.peers_n)),
                          runs(ratio_with_range(part)), runs(seconds_with_range(part))});
  return table;
}

} // namespace

void add_excess(CasePages& pages, const CaseView& view, const Excess& excess) {
  const ExcessParts &elements = excess.elements, &variants = excess.variants;
  const auto add_absent = [&](std::string_view what, const ExcessParts& parts) {
    pages.paragraph({strong("Beside the settled operators, " + std::string(what) + ": not compared. "),
                     plain(wording::excess_absent_in_words(parts.absent_why))});
  };
  if (elements.parts.empty()) {
    add_absent("by element", elements);
  } else {
    pages.add(table_of(elements, "Beside the settled operators, by element", "Element", "Seconds a unit (from, to)",
                       [&](std::int32_t e) { return view.input.standard[static_cast<std::size_t>(e)].element; }));
    pages.paragraph(by_chance(elements, "element"));
  }
  if (variants.parts.empty()) {
    add_absent("by variant", variants);
  } else {
    pages.add(table_of(variants, "Beside the settled operators, by variant, against the own overall ratio", "Variant",
                       "Seconds on one (from, to)", [&](std::int32_t v) { return variant_name(view.input, v); }));
    pages.paragraph(by_chance(variants, "variant"));
  }
  if (elements.parts.empty() && variants.parts.empty()) return;
  pages.paragraph({strong(wording::excess_shows_no_intent), plain(" "), plain(wording::excess_decides_nothing)});
  std::string how(wording::excess_interval);
  if (!elements.parts.empty()) how += " " + std::string(wording::how_excess_by_element_is_made);
  if (!variants.parts.empty()) how += " " + std::string(wording::how_excess_by_variant_is_made);
  pages.paragraph(how, ParagraphRole::small);
}

} // namespace docket
