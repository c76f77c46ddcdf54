#include "report/case_document/content_facts.h"

#include "report/case_document/pages.h"
#include "report/format.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace docket {
namespace {

struct Fact {
  double p = 0.5; ///< how far it speaks for fitting
  std::string text;
};

void add_line_fact(std::vector<Fact>& facts, const Findings& findings, const LineLevel& level, const std::string& who,
                   const std::string& verb) {
  const Seconds limit = findings.time.limit;
  const LineAgainstLimit& against = level.against;
  facts.push_back({against.p_fits, who + " " + verb + " " + format_seconds(level.time) + " (" +
                                       format_bare_interval(limit - against.margin_high, limit - against.margin_low) +
                                       "); the limit is " + format_seconds(limit) + "."});
}

void add_people_fact(std::vector<Fact>& facts, const Findings& findings) {
  const SettledOperators& line = *findings.content.settled.line;
  const double share =
      line.operators == 0 ? 0.5 : static_cast<double>(line.within_limit) / static_cast<double>(line.operators);
  const ShareAble& able = findings.content.share_able;
  const double p = able.p_able.value_or(share >= able.required ? 0.6 : 0.4);
  facts.push_back({p, format_count(line.within_limit) + " of " +
                          counted(line.operators, "settled operator", "settled operators") +
                          (line.within_limit == 1 ? " has" : " have") +
                          " an own mean within the limit at their own pace (counted; no estimate of others)."});
}

/// Whoever has the most cycles carries a share of all of them.
std::string in_people_words(const Findings& findings) {
  const std::optional<BeyondByPerson>& by_person = findings.content.shifts.overrun.by_person;
  if (!by_person) return "; counted together, whoever worked them";
  return "; " + format_percent(by_person->mean) + " with each person weighing the same, from " +
         format_percent(by_person->least) + " to " + format_percent(by_person->most) + " by person";
}

/// Decides nothing, and so comes last; but it is what people at the station see.
void add_single_cycles_fact(std::vector<Fact>& facts, const Findings& findings) {
  const std::optional<CyclesBeyond>& beyond = findings.content.shifts.overrun.plain;
  constexpr double next_to_none = 0.005;
  if (!beyond || beyond->share < next_to_none) return;
  facts.push_back({std::nextafter(0.5, 0.0), "Single cycles: " + format_count(beyond->k) + " of " +
                                                 format_count(beyond->n) +
                                                 " plain cycles of settled operators took longer than the limit (" +
                                                 format_percent(beyond->share) + in_people_words(findings) + ")."});
}

void add_sequence_facts(std::vector<Fact>& facts, const Findings& findings) {
  const SequenceFindings& sequence = findings.content.sequence;
  if (sequence.given) {
    const GivenSequence& given = *sequence.given;
    facts.push_back({given.overloads == 0 ? std::max(given.p, 0.6) : given.p,
                     "In the build order given, at the standard's own times, " + format_count(given.overloads) +
                         " of " + counted(given.units, "unit overloads", "units overload") + " the work zone."});
  }
  if (sequence.drawn) {
    const DrawnSequence& drawn = *sequence.drawn;
    facts.push_back({drawn.p, "Over drawn shifts of the planned mix, " + format_per_1000(drawn.overloads_per_1000) +
                                  " of 1000 units overload the work zone; " +
                                  format_plain_number(drawn.tolerated_per_1000, 1) +
                                  (drawn.tolerated_per_1000 == 1 ? " is" : " are") + " tolerated."});
  }
}

void add_element_fact(std::vector<Fact>& facts, const StandardTime& standard) {
  if (standard.unmatched.empty()) return;
  const auto count = static_cast<std::int64_t>(standard.unmatched.size());
  facts.push_back({0.3, counted(count, "element was", "elements were") +
                            " seen at the station that the standard does not hold (" +
                            format_seconds(standard.unmatched_per_unit) + " a unit as seen)."});
}

/// What was seen and is in no standard is the first thing people at the station speak of.
void add_missing_element_line(std::vector<MarginLine>& lines, const StandardTime& standard) {
  if (standard.unmatched.empty()) return;
  lines.push_back({"Seen, not in the standard", format_bare_seconds(standard.unmatched_per_unit),
                   counted(static_cast<std::int64_t>(standard.unmatched.size()), "element", "elements") + " a unit"});
}

/// Help as counted; whoever was helped looks for it on page one.
void add_help_line(std::vector<MarginLine>& lines, const Findings& findings) {
  const std::vector<PersonCycle>& cycles = findings.evidence.cycles;
  const auto helped = std::count_if(cycles.begin(), cycles.end(),
                                    [](const PersonCycle& cycle) { return cycle.marks.has(Mark::helped); });
  if (helped == 0) return;
  lines.push_back({"Helped cycles, left out", format_count(helped),
                   "of " + format_count(static_cast<std::int64_t>(cycles.size())) + " of all persons"});
}

} // namespace

std::vector<MarginLine> margin_lines(const Case& input, const Findings& findings) {
  const ContentFindings& content = findings.content;
  std::vector<MarginLine> lines;
  if (!content.combined) {
    lines.push_back({"Mean of the planned mix", "not shown", ""});
    lines.push_back({"Heaviest variant", "not shown", ""});
    lines.push_back({"Order of units", "not shown", ""});
    return lines;
  }
  const CombinedLine& combined = *content.combined;
  const auto range = [](Seconds low, Seconds high) {
    return format_signed_bare_seconds(low) + " to " + format_signed_bare_seconds(high);
  };
  lines.push_back({"Mean of the planned mix", format_signed_bare_seconds(combined.margin),
                   range(combined.margin_low, combined.margin_high)});
  const HeaviestVariant& heaviest = content.heaviest;
  if (heaviest.variant >= 0) {
    const std::string which =
        input.variants.size() > 1 ? "Heaviest, " + variant_name(input, heaviest.variant) : "Only variant";
    lines.push_back({which + (input.facts.late_finish ? ", with zone" : ", without a zone"),
                     format_signed_bare_seconds(heaviest.margin), range(heaviest.margin_low, heaviest.margin_high)});
  }
  if (const SequenceFindings& sequence = content.sequence; sequence.room) {
    const std::string ends = sequence.k_star->at_high_end ? "at least " : sequence.k_star->at_low_end ? "at most " : "";
    lines.push_back({sequence.given ? "Order of units, room" : "Order (drawn only), room",
                     ends + format_signed_bare_seconds(sequence.room->margin),
                     ends.empty() ? range(sequence.room->low, sequence.room->high) : std::string()});
  } else {
    lines.push_back({"Order of units", "not known", content.sequence.zone_given ? "no spread" : "no work zone"});
  }
  if (const auto& settled = content.settled.line; settled && settled->operators > 1)
    lines.push_back({"People within, own pace", format_count(settled->within_limit),
                     "of " + format_count(settled->operators) + " settled"});
  add_missing_element_line(lines, content.standard);
  add_help_line(lines, findings);
  return lines;
}

ContentFacts strongest_facts(const Findings& findings, std::size_t most) {
  const ContentFindings& content = findings.content;
  std::vector<Fact> facts;
  if (content.standard.level.time.count() > 0) {
    add_line_fact(facts, findings, content.standard.level, "The standard", "asks for");
  }
  if (content.settled.line) {
    const SettledOperators& line = *content.settled.line;
    add_line_fact(facts, findings, line.level, counted(line.operators, "settled operator", "settled operators"),
                  line.operators == 1 ? "takes" : "take");
    add_people_fact(facts, findings);
  }
  if (content.restudy.line) {
    add_line_fact(facts, findings, content.restudy.line->level, "The restudy, at normal pace,", "gives");
  }
  add_single_cycles_fact(facts, findings);
  add_sequence_facts(facts, findings);
  add_element_fact(facts, content.standard);
  std::stable_sort(facts.begin(), facts.end(), [](const Fact& a, const Fact& b) { return a.p > b.p; });
  ContentFacts result;
  for (const Fact& fact : facts) {
    if (fact.p >= 0.5 && result.for_fitting.size() < most) result.for_fitting.push_back(fact.text);
  }
  for (auto fact = facts.rbegin(); fact != facts.rend(); ++fact) {
    if (fact->p < 0.5 && result.against.size() < most) result.against.push_back(fact->text);
  }
  return result;
}

} // namespace docket
