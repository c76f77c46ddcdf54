// Question A in detail: what would bring the station within its limit, and what the line speed costs.
#include "report/wording/alternatives.h"

#include "core/rules.h"
#include "report/case_document/pages.h"
#include "report/format.h"
#include "report/wording/wording.h"

namespace docket {
namespace {

const StandardElement& element_at(const CaseView& view, std::int32_t element) {
  return view.input.standard[static_cast<std::size_t>(element)];
}

Runs element_name(const CaseView& view, std::int32_t index) {
  const StandardElement& element = element_at(view, index);
  std::string name = element.element;
  if (!element.description.empty() && element.description != element.element) name += ": " + element.description;
  return {plain(name), reference_to(view.input, element.origin)};
}

void add_out_of_every_unit(CasePages& pages, const CaseView& view) {
  const OutOfEveryUnit& out = view.findings.content.alternatives.out_of_every_unit;
  const double guard = (1 - view.input.settings.confidence) / 2;
  Table table;
  table.caption = "Seconds that would have to come out of every unit, at the mean";
  table.columns = {{"So that", Align::left}, {"Seconds out", Align::right}};
  const std::string chance = format_chance(1 - guard);
  table.rows.push_back({runs("the mean is within the limit with a chance of " + chance),
                        runs(wording::needed_in_words(out.mean, false))});
  if (out.sequence) {
    const bool end = out.k_star.at_low_end || out.k_star.at_high_end;
    table.rows.push_back({runs("the order of units keeps to the tolerated overloads with a chance of " + chance),
                          runs(wording::needed_in_words(*out.sequence, end))});
    table.rows.push_back({{strong("both")}, {strong(wording::needed_in_words(out.both, end && out.both > out.mean))}});
  }
  pages.add(table);
  std::string text(wording::every_unit_assumes);
  if (!out.sequence) text += " The order of units is not in it: the work zone or the spread of cycles is not known.";
  pages.paragraph(text, ParagraphRole::small);
}

std::string late_finish_text(const CaseView& view, const EnoughForOrder& enough) {
  if (!enough.late_finish.needed) return std::string(wording::no_late_finish_in_words(enough.late_finish.none_why));
  const Seconds now = view.input.facts.late_finish.value_or(Seconds{});
  return format_seconds(*enough.late_finish.needed) + " (" + format_signed_seconds(*enough.late_finish.needed - now) +
         ")";
}

std::string out_of_variant_text(const EnoughForOrder& enough, std::int32_t variant) {
  for (const OutOfVariant& out : enough.out_of_variant) {
    if (out.variant != variant) continue;
    return out.seconds ? wording::needed_in_words(*out.seconds, out.at_least_spare) : "not by this variant alone";
  }
  return "does not occur";
}

bool any_variant_alone(const Alternatives& alternatives) {
  for (const EnoughForOrder& enough : alternatives.enough)
    for (const OutOfVariant& out : enough.out_of_variant)
      if (out.seconds) return true;
  return false;
}

void add_enough(CasePages& pages, const CaseView& view) {
  const Alternatives& alternatives = view.findings.content.alternatives;
  if (alternatives.enough.empty()) return;
  Table table;
  table.caption = "What would bring the overloads to the " + format_plain_number(alternatives.tolerated_per_1000, 1) +
                  " per 1000 tolerated, one change at a time, at the level of all lines together";
  table.columns = {{"One change alone", Align::left}};
  const auto add_row = [&](const std::string& what, auto text_of) {
    std::vector<Runs> row{runs(what)};
    for (const EnoughForOrder& enough : alternatives.enough) row.push_back(runs(text_of(enough)));
    table.rows.push_back(std::move(row));
  };
  for (const EnoughForOrder& enough : alternatives.enough)
    table.columns.push_back(
        {(enough.drawn ? "Drawn order, n = " : "Order given, n = ") + format_count(enough.units), Align::right});
  add_row("As it is: overloads per 1000",
          [](const EnoughForOrder& enough) { return format_per_1000(enough.rate_per_1000); });
  add_row("A late finish of (now " + format_seconds(view.input.facts.late_finish.value_or(Seconds{})) + ")",
          [&](const EnoughForOrder& enough) { return late_finish_text(view, enough); });
  if (!any_variant_alone(alternatives)) {
    add_row("Out of each unit of one variant", [](const EnoughForOrder&) { return "not by any variant alone"; });
  }
  for (std::size_t v = 0; v < view.input.variants.size() && any_variant_alone(alternatives); ++v) {
    const auto variant = static_cast<std::int32_t>(v);
    add_row("Out of each " + variant_name(view.input, variant),
            [&](const EnoughForOrder& enough) { return out_of_variant_text(enough, variant); });
  }
  pages.add(table);
  pages.paragraph(wording::one_change_assumes, ParagraphRole::small);
}

void add_waste(CasePages& pages, const CaseView& view) {
  const Alternatives& alternatives = view.findings.content.alternatives;
  pages.paragraph({strong("First: waste out.")});
  if (alternatives.waste.empty()) {
    pages.paragraph("The standard holds no element of class NVA or NNVA besides waiting and machine time.");
    return;
  }
  Table table;
  table.caption = "Waste and necessary work that adds no value, over the planned mix, by the standard";
  table.dense = true;
  table.columns = {{"Element", Align::left},
                   {"Class", Align::left},
                   {"s a unit", Align::right},
                   {"Sum, s", Align::right},
                   {"Margin by the standard, s", Align::right},
                   {"Margin of all lines, s", Align::right}};
  for (const WasteElement& waste : alternatives.waste) {
    table.rows.push_back({element_name(view, waste.element),
                          runs(wording::class_in_short(element_at(view, waste.element).element_class)),
                          runs(format_bare_seconds(waste.per_unit)), runs(format_bare_seconds(waste.sum)),
                          runs(format_signed_bare_seconds(waste.margin_standard)),
                          runs(format_signed_bare_seconds(waste.margin))});
  }
  pages.add(table);
  pages.paragraph("Margins: limit less the mean, with this element and all above it out. " +
                      std::string(wording::waste_assumes),
                  ParagraphRole::small);
}

std::string change(std::int64_t before, std::int64_t after, std::string_view one, std::string_view many) {
  return format_count(before) + " to " + counted(after, one, many);
}

void add_even_order(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  pages.paragraph({strong("Next: the same units in another order.")});
  if (!content.alternatives.even) {
    pages.paragraph(view.input.build_sequence.empty() ? wording::only_a_drawn_order
                    : view.input.variants.size() < 2  ? std::string_view("With one variant, every order is the same.")
                                                      : std::string_view("The work zone is not given, so overloads "
                                                                          "are not counted in any order."));
    return;
  }
  const EvenOrder& even = *content.alternatives.even;
  std::string text = "Spaced evenly by variant within each run, " + format_count(even.changed) + " of " +
                     counted(even.units, "place", "places") +
                     " would hold another variant. At the standard's own times, without spread, that would take " +
                     change(even.before.overloads, even.after.overloads, "overload", "overloads") +
                     ", the work not finished in the zone from " + format_seconds(even.before.lost) + " to " +
                     format_seconds(even.after.lost) + ", and the longest row of the heaviest variant from " +
                     change(even.before.longest_heaviest, even.after.longest_heaviest, "unit", "units") + ".";
  if (even.p && content.sequence.given) {
    text += " With spread, the chance of keeping to the tolerated overloads would go from " +
            format_chance(content.sequence.given->p) + " to " + format_chance(*even.p) + ".";
  }
  pages.paragraph(text);
  pages.paragraph(wording::even_order_assumes, ParagraphRole::small);
}

void add_moves(CasePages& pages, const CaseView& view) {
  const Alternatives& alternatives = view.findings.content.alternatives;
  pages.paragraph({strong("Then: an element to another station.")});
  if (!alternatives.precedence_given) {
    pages.paragraph(wording::no_precedence);
    return;
  }
  if (alternatives.movable.empty()) {
    pages.paragraph("No element could leave without breaking the order of elements that the standard gives.");
    return;
  }
  Table table;
  table.caption = "Elements that could leave without breaking the order of elements, the most seconds first";
  table.dense = true;
  table.columns = {{"Element", Align::left},
                   {"s a unit", Align::right},
                   {"s in the heaviest variant", Align::right},
                   {"Could go to", Align::left}};
  for (const MovableElement& move : alternatives.movable) {
    const std::string where = move.earlier && move.later ? "an earlier or a later station"
                              : move.later               ? "a later station: nothing here waits for it"
                                                         : "an earlier station: it waits for nothing here";
    table.rows.push_back({element_name(view, move.element), runs(format_bare_seconds(move.per_unit)),
                          runs(format_bare_seconds(move.in_heaviest)), runs(where)});
  }
  pages.add(table);
  pages.paragraph(wording::moves_assume, ParagraphRole::small);
}

void add_posts(CasePages& pages, const PacePrice& price) {
  Table table;
  table.caption = "Posts for this station's content";
  table.columns = {{"Counted", Align::left},
                   {"At the line cycle", Align::right},
                   {"At takt", Align::right},
                   {"What it rewards", Align::left}};
  const auto add_row = [&](const std::string& what, double PostsNeeded::*posts, std::string_view rewards) {
    table.rows.push_back({runs(what), runs(format_fixed(price.at_line_cycle.*posts, 2)),
                          runs(format_fixed(price.at_takt.*posts, 2)), runs(rewards)});
  };
  add_row("Every second filled", &PostsNeeded::filled, "nothing: a bound that leaves no second over");
  add_row(format_percent(rules::target_efficiency) + " efficiency", &PostsNeeded::at_efficiency,
          wording::efficiency_rewards);
  add_row(format_percent(rules::target_utilisation) + " utilisation", &PostsNeeded::at_utilisation,
          wording::utilisation_rewards);
  pages.add(table);
  pages.paragraph(wording::targets_are_common_practice, ParagraphRole::small);
}

void add_pace_price(CasePages& pages, const CaseView& view) {
  pages.part("What the line speed costs");
  const std::optional<PacePrice>& price = view.findings.content.pace_price;
  if (!price) {
    pages.paragraph(wording::no_takt);
    return;
  }
  std::string text = "The line cycle time is " + format_seconds(view.findings.time.line_cycle) + ", takt " +
                     format_seconds(view.findings.time.takt.value_or(Seconds{})) + ": the line runs " +
                     wording::pace_in_words(*price) + ".";
  if (price->per_unit > Seconds::zero()) {
    text += " A faster line makes up for the time it stands. Its price: of every takt, " +
            format_seconds(price->per_unit) +
            " a unit are taken from every station on it. They are waste: no work can be done in them, and the content "
            "has to fit in what is left.";
  }
  pages.paragraph(text);
  add_posts(pages, *price);
}

} // namespace

void add_alternatives(CasePages& pages, const CaseView& view) {
  pages.part("What would bring it within the limit");
  if (view.findings.content.held) pages.paragraph({strong(wording::held_line)});
  pages.paragraph(std::string(wording::alternatives_decide_nothing) + " " + std::string(wording::local_law_first));
  add_out_of_every_unit(pages, view);
  add_enough(pages, view);
  add_waste(pages, view);
  add_even_order(pages, view);
  add_moves(pages, view);
  add_pace_price(pages, view);
}

} // namespace docket
