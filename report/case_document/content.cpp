// Question A in detail: the lines of evidence and what they make together, the standard, its elements.
#include "report/case_document/pages.h"
#include "report/figures/dot_plot.h"
#include "report/figures/variant_bars.h"
#include "report/format.h"
#include "report/wording/wording.h"

namespace docket {
namespace {

TimeEstimate estimate_of(const LineLevel& level, Seconds limit) {
  return {level.time, limit - level.against.margin_high, limit - level.against.margin_low};
}

TimeEstimate estimate_of(const CombinedLine& combined, Seconds limit) {
  return {combined.time, limit - combined.margin_high, limit - combined.margin_low};
}

std::int64_t elements_in(const CaseView& view) { return static_cast<std::int64_t>(view.input.standard.size()); }

std::string people_and_cycles(std::int64_t operators, std::int64_t cycles) {
  return counted(operators, "operator", "operators") + ", n = " + format_count(cycles);
}

std::int64_t lines_used(const CombinedLine& combined) {
  std::int64_t used = 0;
  for (const double weight : combined.weights) used += weight != 0 ? 1 : 0;
  return used;
}

Figure evidence_ladder(const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  const TimeAvailable& time = view.findings.time;
  DotPlot plot;
  plot.limit = time.limit;
  plot.limit_label = "limit " + format_seconds(time.limit);
  if (format_seconds(time.line_cycle) != format_seconds(time.limit)) {
    plot.second_line = time.line_cycle;
    plot.second_label = "line cycle " + format_seconds(time.line_cycle);
  }
  plot.axis_title = "Seconds a unit, planned mix";
  plot.value_header = "s (from, to)";
  if (content.standard.level.time.count() > 0) {
    plot.rows.push_back({"The standard as it stands", "n = " + counted(elements_in(view), "element", "elements"),
                         estimate_of(content.standard.level, time.limit), false, false});
  }
  if (content.settled.line) {
    const SettledOperators& line = *content.settled.line;
    plot.rows.push_back({"Settled operators", people_and_cycles(line.operators, line.cycles),
                         estimate_of(line.level, time.limit), false, false});
  } else {
    plot.rows.push_back({"Settled operators", "n = 0: no line of evidence", std::nullopt, false, false});
  }
  if (content.restudy.line) {
    const Restudy& line = *content.restudy.line;
    const std::string note = people_and_cycles(static_cast<std::int64_t>(line.operators.size()), line.cycles);
    plot.rows.push_back({"Restudy, as read", note, TimeEstimate{line.observed, {}, {}}, true, false});
    plot.rows.push_back({"Restudy, at normal pace", note, estimate_of(line.level, time.limit), false, false});
  } else {
    plot.rows.push_back({"Restudy", "n = 0: no line of evidence", std::nullopt, false, false});
  }
  if (content.combined) {
    plot.rows.push_back({"All lines together", "n = " + counted(lines_used(*content.combined), "line", "lines"),
                         estimate_of(*content.combined, time.limit), false, true});
  }
  Figure figure;
  figure.title = "Evidence ladder: every estimate of the same time against the limit";
  figure.description = "Dots with ranges on one axis of seconds. ";
  for (const DotRow& row : plot.rows) {
    figure.description += row.label + " (" + row.note + ")";
    if (row.estimate) {
      figure.description +=
          ": " + format_seconds(row.estimate->time) + ", " + format_interval(row.estimate->low, row.estimate->high);
    }
    figure.description += ". ";
  }
  figure.description += "The limit is " + format_seconds(time.limit) + ".";
  figure.caption = runs("Each end of a range is wrong at most " + format_times_wrong(view.input.settings.confidence) +
                        ". Hollow: as read, before rating, without a range of its own. An arrow: the range goes on.");
  figure.drawing = draw_dot_plot(plot);
  return figure;
}

std::string conditions_text(const CaseView& view, Line line) {
  std::int64_t differs = 0;
  for (const Condition& condition : view.input.conditions)
    differs += condition.state == ConditionState::differs ? 1 : 0;
  if (differs == 0) return "none at \"differs\"";
  if (line == Line::standard)
    return "elements named by " + counted(differs, "differing condition", "differing conditions");
  return "without cycles touched by " + counted(differs, "differing condition", "differing conditions");
}

std::string weakness_text(const LineLevel& level, std::string_view usual) {
  std::string text;
  for (const Reason& reason : level.leans) text += (text.empty() ? "" : "; ") + wording::lean_in_words(reason);
  if (level.identical_values) text += std::string(text.empty() ? "" : "; ") + "every value is the same";
  return text.empty() ? std::string(usual) : "leans: " + text;
}

void add_line_row(Table& table, const CaseView& view, Line line, const LineLevel& level, const std::string& seen,
                  std::string_view usual_weakness) {
  const ContentFindings& content = view.findings.content;
  const Seconds limit = view.findings.time.limit;
  const TimeEstimate estimate = estimate_of(level, limit);
  const LineAgainstLimit& against = level.against;
  const double weight = content.combined ? content.combined->weights[static_cast<std::size_t>(line)] : 0;
  table.rows.push_back(
      {runs(wording::line_name(line)),
       runs(seen),
       {strong(format_bare_seconds(estimate.time)),
        plain(" (" + format_bare_interval(estimate.low, estimate.high) + ")")},
       runs(format_signed_bare_seconds(against.margin)),
       runs(format_chance(against.p_fits)),
       runs(content.combined ? format_percent(weight) : "none"),
       runs(weakness_text(level, usual_weakness) + ". Conditions: " + conditions_text(view, line) + ".")});
}

Table table_of_lines(const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  Table table;
  table.caption = "The lines of evidence, in seconds for the planned mix at normal pace";
  table.dense = true;
  table.columns = {{"Line", Align::left},
                   {"Seen", Align::left},
                   {"Result, s (from, to)", Align::left, true},
                   {"Margin, s", Align::right},
                   {"Chance within", Align::right},
                   {"Weight", Align::right},
                   {"Weakness, conditions", Align::left}};
  if (content.standard.level.time.count() > 0) {
    add_line_row(table, view, Line::standard, content.standard.level, counted(elements_in(view), "element", "elements"),
                 "nobody was timed for it here");
  }
  if (content.settled.line) {
    const SettledOperators& line = *content.settled.line;
    add_line_row(table, view, Line::settled, line.level, people_and_cycles(line.operators, line.cycles),
                 "own pace is taken as normal pace, within the pace setting");
  } else {
    table.rows.push_back({runs(wording::line_name(Line::settled)), runs("n = 0"), runs("none"), runs(""), runs(""),
                          runs(""), runs(wording::none_why_in_words(content.settled.none_why))});
  }
  if (content.restudy.line) {
    const Restudy& line = *content.restudy.line;
    add_line_row(table, view, Line::restudy, line.level,
                 people_and_cycles(static_cast<std::int64_t>(line.operators.size()), line.cycles),
                 "rating is a judgement");
  } else {
    table.rows.push_back({runs(wording::line_name(Line::restudy)), runs("n = 0"), runs("none"), runs(""), runs(""),
                          runs(""), runs(wording::none_why_in_words(content.restudy.none_why))});
  }
  if (content.combined) {
    const TimeEstimate estimate = estimate_of(*content.combined, view.findings.time.limit);
    table.rows.push_back({{strong("Together")},
                          runs(counted(lines_used(*content.combined), "line", "lines")),
                          {strong(format_bare_seconds(estimate.time)),
                           plain(" (" + format_bare_interval(estimate.low, estimate.high) + ")")},
                          runs(format_signed_bare_seconds(content.combined->margin)),
                          runs(format_chance(content.combined->p_fits)),
                          runs(""),
                          runs("")});
  }
  return table;
}

void add_combined(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  if (!content.combined) {
    pages.paragraph("No line of evidence can be used, so there is no result for all lines together.");
    return;
  }
  const double guard = (1 - view.input.settings.confidence) / 2;
  pages.paragraph("The chance that the mean is within the limit, from all lines together, is " +
                  format_chance(content.combined->p_fits) + ". FITS asks for " + format_chance(1 - guard) +
                  " or more, DOES NOT FIT for " + format_chance(guard) + " or less: wrong at most " +
                  format_times_wrong(view.input.settings.confidence) + " on each side.");
  pages.paragraph("If both sides agreed on the standard's level and on what normal pace is, that chance would be " +
                  format_chance(content.combined->p_as_agreed) + ". This number decides nothing.");
  pages.paragraph("Every step, with its numbers and its source, stands in \u201CHow the answer to A is computed\u201D.",
                  ParagraphRole::small);
}

void add_clashes_and_leans(CasePages& pages, const CaseView& view) {
  const ContentFindings& content = view.findings.content;
  List list;
  for (const Clash& clash : content.clashes) {
    list.items.push_back(
        {strong(std::string(wording::line_name(clash.a)) + " against " +
                std::string(wording::line_in_sentence(clash.b))),
         plain(". They differ by " + format_signed_seconds(clash.difference) +
               " (standard uncertainty of the difference " + format_seconds(clash.u) + "). " +
               (clash.blocks ? "They lie on different sides of the limit: a clash, and no finding is made."
                             : "They lie on the same side of the limit, so it blocks nothing."))});
  }
  const auto add_leans = [&](Line line, const LineLevel& level) {
    if (level.leans.empty()) return;
    std::string why;
    for (const Reason& reason : level.leans) why += (why.empty() ? "" : "; ") + wording::lean_in_words(reason);
    list.items.push_back({strong(wording::line_name(line)), plain(". This line leans: " + why + ".")});
  };
  add_leans(Line::standard, content.standard.level);
  if (content.settled.line) add_leans(Line::settled, content.settled.line->level);
  if (content.restudy.line) add_leans(Line::restudy, content.restudy.line->level);
  if (list.items.empty()) {
    pages.paragraph("No two lines clash, and no line leans.");
    return;
  }
  pages.add(list);
  pages.paragraph("A line that leans stays in the result, but FITS and DOES NOT FIT must hold without it too.",
                  ParagraphRole::small);
}

Figure variant_figure(const CaseView& view) {
  const StandardTime& standard = view.findings.content.standard;
  const Seconds limit = view.findings.time.limit;
  VariantBars bars;
  bars.limit = limit;
  bars.limit_label = "limit " + format_seconds(limit);
  bars.axis_title = "Seconds a unit, by the standard";
  bars.margin_header = "margin, s";
  for (std::size_t i = 0; i < 3; ++i) bars.class_names[i] = wording::class_name(static_cast<ElementClass>(i));
  Figure figure;
  figure.title = "Time by variant against the limit";
  figure.description = "One bar a variant, as thick as its planned share. ";
  for (const VariantTime& variant : standard.variants) {
    const std::string name = variant_name(view.input, variant.variant);
    const std::string margin = format_signed_bare_seconds(limit - variant.time);
    bars.bars.push_back({name, format_percent(variant.share) + ", " + format_seconds(variant.time), variant.share,
                         variant.by_class, margin, false});
    figure.description += name + ": " + format_percent(variant.share) + " of units, " + format_seconds(variant.time) +
                          ", margin " + margin + " s. ";
  }
  if (standard.variants.size() > 1) {
    bars.bars.push_back({"Planned mix", "mean, " + format_seconds(standard.mean), 0, standard.by_class,
                         format_signed_bare_seconds(limit - standard.mean), true});
  }
  figure.description += "The limit is " + format_seconds(limit) + ".";
  figure.caption =
      runs("A bar is as thick as the variant's planned share of units (rare ones no thinner than a line). n = " +
           counted(elements_in(view), "element", "elements") + " in all. Margin: limit less time.");
  figure.drawing = draw_variant_bars(bars);
  return figure;
}

void add_variant_table(CasePages& pages, const CaseView& view) {
  const StandardTime& standard = view.findings.content.standard;
  Table table;
  table.caption = "The standard by variant";
  table.columns = {{"Variant", Align::left},   {"Share", Align::right},   {"Time, s", Align::right},
                   {"VA, s", Align::right},    {"NNVA, s", Align::right}, {"NVA, s", Align::right},
                   {"Margin, s", Align::right}};
  const auto add_row = [&](Runs name, const std::string& share, Seconds time, const std::array<Seconds, 3>& by_class) {
    std::vector<Runs> row{std::move(name), runs(share), runs(format_fixed(time.count(), 2))};
    for (const Seconds part : by_class) row.push_back(runs(format_bare_seconds(part)));
    row.push_back(runs(format_signed_bare_seconds(view.findings.time.limit - time)));
    table.rows.push_back(std::move(row));
  };
  for (const VariantTime& variant : standard.variants) {
    Runs name{plain(variant_name(view.input, variant.variant))};
    const auto index = static_cast<std::size_t>(variant.variant);
    if (index < view.input.variants.size()) name.push_back(reference_to(view.input, view.input.variants[index].origin));
    add_row(std::move(name), format_percent(variant.share), variant.time, variant.by_class);
  }
  if (standard.variants.size() > 1) add_row({strong("Planned mix")}, "100 %", standard.mean, standard.by_class);
  pages.add(table);
  pages.paragraph("Standard uncertainty of the mean: " + format_seconds(standard.u_random) +
                  " from the single elements, " + format_seconds(standard.u_systematic) +
                  " from the level of the whole standard. The planned mix fills " +
                  format_percent(standard.efficiency) + " of the line cycle; value-adding work fills " +
                  format_percent(standard.utilisation) + ".");
}

/// With as many decimals as were entered, up to three: the sums of the standard close.
std::string as_entered(Seconds time) {
  const std::string digits = format_plain_number(time.count(), 3);
  return digits.find('.') == std::string::npos ? digits + ".0" : digits;
}

std::string seen_text(const CaseView& view, std::int32_t element) {
  for (const SeenElement& seen : view.findings.content.restudy.elements) {
    if (seen.element != element) continue;
    return format_bare_seconds(seen.seen.time) + " (" + format_bare_interval(seen.seen.low, seen.seen.high) +
           "), n = " + format_count(seen.n);
  }
  return "not seen";
}

void add_element_table(CasePages& pages, const CaseView& view) {
  const StandardTime& standard = view.findings.content.standard;
  const bool any_seen = !view.findings.content.restudy.elements.empty();
  Table table;
  table.caption = "The elements of the standard";
  table.dense = true;
  table.columns = {{"Element", Align::left},       {"Class", Align::left},          {"Time, s", Align::right},
                   {"Times a unit", Align::right}, {"Units with it", Align::right}, {"\u00B1 s", Align::right},
                   {"Time from", Align::left}};
  if (any_seen) table.columns.push_back({"Seen, at normal pace, s", Align::left, true});
  for (const ElementTime& time : standard.elements) {
    const auto index = static_cast<std::size_t>(time.element);
    if (time.element < 0 || index >= view.input.standard.size()) continue;
    const StandardElement& element = view.input.standard[index];
    std::string name = element.element;
    if (!element.description.empty()) name += ": " + element.description;
    std::string from(wording::time_source_in_words(element.time_source));
    if (!element.source_note.empty()) from += ", " + element.source_note;
    std::vector<Runs> row{{plain(name), reference_to(view.input, element.origin)},
                          runs(wording::class_in_short(element.element_class)),
                          runs(as_entered(time.time)),
                          runs(format_plain_number(time.times_per_unit, 2)),
                          runs(format_percent(time.share_of_units)),
                          runs(format_fixed(time.u.count(), 3)),
                          runs(from)};
    if (any_seen) row.push_back(runs(seen_text(view, time.element)));
    table.rows.push_back(std::move(row));
  }
  pages.add(table);
  pages.paragraph("\u00B1: one standard uncertainty of the element, as given or 0.10 \u00D7 \u221A(3.6 s \u00D7 time). "
                  "VA, NNVA, NVA: value-adding; necessary, not "
                  "value-adding; waste.",
                  ParagraphRole::small);
  if (!standard.unmatched.empty()) {
    std::string names;
    for (const std::string& name : standard.unmatched) names += (names.empty() ? "" : ", ") + name;
    pages.paragraph(
        {strong("Seen at the station, not in the standard: "),
         plain(names + ". As seen they take " + format_seconds(standard.unmatched_per_unit) +
               " a unit. They are not in the numbers above, so the standard leans until this is settled.")});
  }
}

} // namespace

void add_lines_of_evidence(CasePages& pages, const CaseView& view) {
  pages.part("The lines of evidence");
  pages.add(evidence_ladder(view));
  pages.add(table_of_lines(view));
  pages.part("All lines together");
  add_combined(pages, view);
  add_clashes_and_leans(pages, view);
}

void add_standard(CasePages& pages, const CaseView& view) {
  pages.part("The standard by variant");
  pages.add(variant_figure(view));
  add_variant_table(pages, view);
  pages.part("The standard by element");
  add_element_table(pages, view);
}

} // namespace docket
