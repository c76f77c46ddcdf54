// Efforts of hand and arm: what is acceptable for as long as they are held, and two indices of strain.
#include "report/case_document/pages.h"
#include "report/case_document/screening_parts.h"
#include "report/format.h"
#include "report/wording/ergonomics.h"

#include <algorithm>
#include <utility>

namespace docket {
namespace {

const Effort& effort_of(const CaseView& view, const EffortCaution& caution) {
  return view.input.efforts[static_cast<std::size_t>(caution.effort)];
}

Runs named(const CaseView& view, std::string_view task, const SourceRow& origin) {
  return {plain(task), reference_to(view.input, origin)};
}

std::string number_or_none(const std::optional<double>& value, int decimals) {
  return value ? format_fixed(*value, decimals) : "no number";
}

void add_effort_table(CasePages& pages, const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  const bool in_a_row = std::any_of(found.efforts.begin(), found.efforts.end(),
                                    [](const EffortCaution& caution) { return caution.in_a_row.has_value(); });
  Table table;
  table.caption = "Force over acceptable force";
  table.dense = true;
  table.columns = {{"Effort", Align::left},
                   {"Hand", Align::left},
                   {"Units that have it", Align::left},
                   {"Held, of the cycle", Align::right},
                   {"Force, N", Align::right},
                   {"Strength, N", Align::right},
                   {"Acceptable, N", Align::right},
                   {"Force over acceptable", Align::right}};
  if (in_a_row) table.columns.push_back({"Units in a row", Align::right});
  if (found.asked_cycle) table.columns.push_back({"at " + format_seconds(*found.asked_cycle), Align::right});
  for (const EffortCaution& caution : found.efforts) {
    const Effort& effort = effort_of(view, caution);
    const EffortScreening& now = caution.now.acceptable;
    const auto ratio = [](const EffortScreening& at) {
      return at.of_acceptable ? format_fixed(*at.of_acceptable, 2) : std::string("no number");
    };
    std::vector<Runs> row{
        named(view, effort.task, effort.origin),
        runs(wording::hand_of_effort(effort.hand)),
        runs(share_of_units_in_words(caution.share_of_units, effort.element, view.input)),
        runs(now.duty_cycle ? format_percent(*now.duty_cycle) : "no number"),
        runs(format_plain_number(effort.force_n, 1)),
        runs(effort.strength_n ? format_plain_number(*effort.strength_n, 1) : "not given"),
        runs(number_or_none(now.acceptable_n, 0)),
        {strong(ratio(now))},
    };
    if (in_a_row) row.push_back(runs(caution.in_a_row ? ratio(*caution.in_a_row) : "every unit"));
    if (found.asked_cycle) row.push_back(runs(caution.asked ? ratio(caution.asked->acceptable) : ""));
    table.rows.push_back(std::move(row));
  }
  pages.add(table);
  for (const EffortCaution& caution : found.efforts) {
    const Effort& effort = effort_of(view, caution);
    const EffortScreening& now = caution.now.acceptable;
    std::string words = wording::screening_reasons_in_words(now.why_not);
    const std::string notes = wording::screening_reasons_in_words(now.notes);
    if (!notes.empty()) words += (words.empty() ? "" : " ") + notes;
    if (!effort.strength_source.empty())
      words += (words.empty() ? "" : " ") + std::string("Strength from: ") + effort.strength_source + ".";
    add_screening_remarks(pages, view, effort.task, effort.origin, words);
  }
}

void add_hands(CasePages& pages, const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  pages.paragraph(wording::what_hands_are);
  Table table;
  table.caption = "All efforts of a hand, over the cycle";
  table.dense = true;
  table.columns = {{"Hand", Align::left},
                   {"Efforts", Align::right},
                   {"Held, of the cycle", Align::right},
                   {"Acceptable, of the strength", Align::right},
                   {"Largest force, of the strength", Align::right},
                   {"Mean force, of the strength", Align::right}};
  if (found.asked_cycle) {
    table.columns.push_back({"Held at " + format_seconds(*found.asked_cycle), Align::right});
    table.columns.push_back({"Acceptable then", Align::right});
  }
  const auto share = [](const std::optional<double>& value) {
    return runs(value ? format_percent(*value) : "no number");
  };
  for (const HandScreening& hand : found.hands) {
    std::vector<Runs> row{runs(wording::hand_of_effort(hand.hand)),
                          runs(format_count(static_cast<std::int64_t>(hand.efforts))),
                          share(hand.duty_cycle),
                          share(hand.mae),
                          share(hand.largest_force_share),
                          share(hand.mean_force_share)};
    for (const HandScreening& asked : found.hands_asked)
      if (asked.hand == hand.hand) {
        row.push_back(share(asked.duty_cycle));
        row.push_back(share(asked.mae));
      }
    table.rows.push_back(std::move(row));
  }
  pages.add(table);
  for (const HandScreening& hand : found.hands) {
    std::vector<Reason> all = hand.why_not;
    all.insert(all.end(), hand.notes.begin(), hand.notes.end());
    if (!all.empty())
      pages.paragraph({strong("Hand " + std::string(wording::hand_of_effort(hand.hand))),
                       plain(": " + wording::screening_reasons_in_words(all))},
                      ParagraphRole::small);
  }
}

template <class Index, class Inputs>
void add_strain_part(CasePages& pages, const CaseView& view, std::string_view title, const ScreeningMethod& method,
                     std::initializer_list<std::string_view> what, std::initializer_list<const char*> multipliers,
                     const Index& row_of, const Inputs& inputs_of) {
  const Ergonomics& found = view.findings.ergonomics;
  pages.part(std::string(title));
  add_screening_method(pages, what, method);
  Table table;
  table.caption = "Multipliers and their product";
  table.dense = true;
  table.columns = {{"Effort", Align::left}};
  table.columns.push_back({"From", Align::left});
  for (const char* multiplier : multipliers) table.columns.push_back({multiplier, Align::right});
  table.columns.push_back({"Index", Align::right});
  if (found.asked_cycle) table.columns.push_back({"at " + format_seconds(*found.asked_cycle), Align::right});
  for (const EffortCaution& caution : found.efforts) {
    const Effort& effort = effort_of(view, caution);
    const std::vector<double> now = row_of(caution.now);
    if (now.empty()) continue;
    std::vector<Runs> row{named(view, effort.task, effort.origin), runs(inputs_of(effort, caution.now))};
    for (std::size_t i = 0; i + 1 < now.size(); ++i) row.push_back(runs(format_plain_number(now[i], 2)));
    row.push_back({strong(format_fixed(now.back(), 1))});
    if (caution.asked) {
      const std::vector<double> asked = row_of(*caution.asked);
      row.push_back(runs(asked.empty() ? "no number" : format_fixed(asked.back(), 1)));
    }
    table.rows.push_back(std::move(row));
  }
  if (!table.rows.empty()) pages.add(table);
}

std::string rate_and_hours(const Effort& effort, const EffortAtCycle& at) {
  return format_fixed(at.per_min, 2) + "/min, " + format_plain_number(effort.hours.value_or(0), 2) + " h";
}

std::string strain_inputs(const Effort& effort, const EffortAtCycle& at) {
  return wording::ratings_in_words(effort) + "; " +
         (at.acceptable.duty_cycle ? format_percent(*at.acceptable.duty_cycle) + " exerted, " : std::string()) +
         rate_and_hours(effort, at);
}

std::string revised_strain_inputs(const Effort& effort, const EffortAtCycle& at) {
  std::string text = format_percent(effort.force_n / *effort.strength_n) + " of the strength, " +
                     format_seconds(effort.time) + " each, ";
  if (effort.wrist_deg)
    text +=
        format_plain_number(*effort.wrist_deg, 1) + "\u00B0 " + (effort.wrist_flexion ? "flexion, " : "extension, ");
  return text + rate_and_hours(effort, at);
}

std::vector<double> strain_of(const EffortAtCycle& at) {
  if (!at.strain.result) return {};
  const StrainIndex& si = *at.strain.result;
  return {si.intensity, si.exerted, si.per_min, si.posture, si.speed, si.hours, si.index};
}

std::vector<double> revised_strain_of(const EffortAtCycle& at) {
  if (!at.revised_strain.result) return {};
  const RevisedStrain& rsi = *at.revised_strain.result;
  return {rsi.im, rsi.em, rsi.dm, rsi.pm, rsi.hm, rsi.index};
}

/// Efforts without a number: the same reasons stand once, with the efforts they hold for.
template <class Screening>
void add_without(CasePages& pages, const CaseView& view, const Screening& screening_of) {
  std::vector<std::pair<std::string, Runs>> groups;
  for (const EffortCaution& caution : view.findings.ergonomics.efforts) {
    const auto& at = screening_of(caution.now);
    if (at.result) continue;
    const std::string why = wording::screening_reasons_in_words(at.why_not);
    auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& known) { return known.first == why; });
    if (group == groups.end()) group = groups.insert(groups.end(), {why, {}});
    const Effort& effort = effort_of(view, caution);
    group->second.push_back(plain((group->second.empty() ? "" : ", ") + effort.task));
    group->second.push_back(reference_to(view.input, effort.origin));
  }
  for (const auto& [why, efforts] : groups) {
    Runs text{strong("No number: ")};
    text.insert(text.end(), efforts.begin(), efforts.end());
    text.push_back(plain(". " + why));
    pages.paragraph(text, ParagraphRole::small);
  }
}

} // namespace

void add_efforts(CasePages& pages, const CaseView& view) {
  const Ergonomics& found = view.findings.ergonomics;
  pages.part("Efforts of hand and arm");
  if (found.efforts.empty()) {
    pages.paragraph("Not screened: table efforts has no row.");
    return;
  }
  add_screening_method(pages, {wording::what_acceptable_effort_is, wording::what_in_a_row_is},
                       maximum_acceptable_effort_method());
  add_effort_table(pages, view);
  add_hands(pages, view);
  add_strain_part(pages, view, "Strain index of 1995", strain_index_1995(),
                  {wording::what_strain_indices_are, wording::ratings_not_from_sheet},
                  {"Intensity", "Share exerted", "Efforts/min", "Posture", "Speed", "Hours"}, strain_of, strain_inputs);
  add_without(pages, view, [](const EffortAtCycle& at) -> const StrainScreening& { return at.strain; });
  add_strain_part(pages, view, "Revised strain index of 2017", revised_strain_index_2017(), {},
                  {"Intensity", "Efforts/min", "Seconds each", "Wrist", "Hours"}, revised_strain_of,
                  revised_strain_inputs);
  add_without(pages, view, [](const EffortAtCycle& at) -> const RevisedStrainScreening& { return at.revised_strain; });
  for (const EffortCaution& caution : found.efforts)
    if (caution.now.revised_strain.result) {
      const Effort& effort = effort_of(view, caution);
      add_screening_remarks(pages, view, effort.task, effort.origin,
                            wording::screening_reasons_in_words(caution.now.revised_strain.notes));
    }
}

} // namespace docket
