#include "ingest/reading/cross_checks.h"

#include "ingest/reading/cell_dates.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace docket {

namespace {

std::int32_t source_of(const Draft& draft, TableName table) {
  const TableState& state = draft.state(table);
  return state.sheets.empty() ? -1 : state.sheets.front().source;
}

void count_warning(Draft& draft, TableName table, std::string_view column, std::int64_t count, std::int64_t rows,
                   std::string code, const std::string& wrong, std::string right) {
  if (count == 0) return;
  add_table_issue(draft.issues,
                  {IssueGrade::warning, std::move(code),
                   std::to_string(count) + " of " + std::to_string(rows) + " rows " + wrong, std::move(right)},
                  source_of(draft, table), table, 0, column, "");
}

} // namespace

void check_repeated_readings(Draft& draft) {
  struct Cycle {
    std::optional<SourceRow> whole, first_element;
    std::map<std::int32_t, std::pair<std::int64_t, SourceRow>> elements; ///< how often, first row
    bool mixed = false;
  };
  std::map<std::pair<std::int32_t, std::int64_t>, Cycle> cycles;
  const Case& input = draft.input;
  for (const Reading& reading : input.readings) {
    Cycle& cycle = cycles[{reading.session, reading.cycle}];
    const bool whole = reading.element < 0 && reading.seen_element.empty();
    const std::string name = "Cycle " + std::to_string(reading.cycle) + " of session " +
                             input.sessions[static_cast<std::size_t>(reading.session)].session;
    const auto fault = [&](std::string_view column, const SourceRow& other, const std::string& what, std::string code,
                           std::string right) {
      row_issue(draft, reading.origin, column, std::to_string(reading.cycle),
                {IssueGrade::fault, std::move(code), name + what + row_text(draft, other, reading.origin) + ".",
                 std::move(right)});
    };
    if (whole) {
      if (cycle.whole)
        fault("cycle", *cycle.whole, " was read here and in ", "reading_twice",
              "Each cycle has one whole reading. Correct the number of the cycle, or delete one row.");
      else
        cycle.whole = reading.origin;
    } else {
      if (!cycle.first_element) cycle.first_element = reading.origin;
      if (reading.element >= 0) {
        const StandardElement& element = input.standard[static_cast<std::size_t>(reading.element)];
        auto& [count, first] = cycle.elements[reading.element];
        if (count == 0) first = reading.origin;
        if (++count > static_cast<std::int64_t>(std::ceil(element.times_per_unit)))
          fault("element", first,
                ": the element " + element.element + " was read more often than the standard has it, first in ",
                "reading_twice",
                "Each time the element is done has one row. Correct the number of the cycle, or delete one row.");
      }
    }
    if (cycle.whole && cycle.first_element && !cycle.mixed) {
      cycle.mixed = true;
      fault("element", whole ? *cycle.first_element : *cycle.whole, " is read as a whole and by element, see ",
            "whole_and_elements", "One cycle is read either as a whole or by element. Delete one of the two.");
    }
  }
}

void check_gaps(Draft& draft) {
  const Case& input = draft.input;
  const auto readings = static_cast<std::int64_t>(input.readings.size());
  const auto cycles = static_cast<std::int64_t>(input.cycle_log.size());
  const auto count_readings = [&](auto lacks) {
    return static_cast<std::int64_t>(std::count_if(input.readings.begin(), input.readings.end(), lacks));
  };
  const auto count_cycles = [&](auto lacks) {
    return static_cast<std::int64_t>(std::count_if(input.cycle_log.begin(), input.cycle_log.end(), lacks));
  };
  const bool named = draft.state(TableName::variants).present();
  if (named && input.variants.size() > 1) {
    const std::string right =
        "Fill in the variant where it is known. A row without one is not used where variants differ.";
    count_warning(draft, TableName::readings, "variant", count_readings([](const Reading& r) { return r.variant < 0; }),
                  readings, "variant_not_given", "have no variant.", right);
    count_warning(draft, TableName::cycle_log, "variant",
                  count_cycles([](const LoggedCycle& c) { return c.variant < 0; }), cycles, "variant_not_given",
                  "have no variant.", right);
  }
  for (const TableName table : {TableName::readings, TableName::cycle_log, TableName::build_sequence})
    count_warning(draft, table, "variant", draft.variants_named[static_cast<std::size_t>(table)],
                  draft.state(table).row_count(), "variants_not_given",
                  "name a variant, but there is no sheet variants. All units count as one variant.",
                  "Fill in the sheet variants with their shares, so that heavy and light units are told apart.");
  count_warning(draft, TableName::cycle_log, "operator", count_cycles([](const LoggedCycle& c) { return c.op < 0; }),
                cycles, "operator_not_given",
                input.roster.empty() ? "have no operator, and there is no sheet roster."
                                     : "have no operator, and no single row of the roster fits them.",
                "Fill in the operator code, or the sheet roster. A cycle without an operator says nothing about what "
                "trained people take.");
  if (cycles > 0 &&
      std::all_of(input.cycle_log.begin(), input.cycle_log.end(), [](const LoggedCycle& c) { return c.marks.plain(); }))
    add_table_issue(draft.issues,
                    {IssueGrade::warning, "log_without_marks",
                     "The log has no mark: help, stops and skipped steps cannot be seen in it.",
                     "Fill in the column mark where it is known."},
                    source_of(draft, TableName::cycle_log), TableName::cycle_log, 0, "mark", "");
}

void check_safety_answer(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  if (facts.open_safety_matter != YesNo::no) return;
  const auto open = std::find_if(draft.input.referrals.begin(), draft.input.referrals.end(),
                                 [](const Referral& referral) { return referral.open; });
  if (open == draft.input.referrals.end()) return;
  const auto origin = std::find_if(facts.origins.begin(), facts.origins.end(),
                                   [](const auto& given) { return given.first == "open_safety_matter"; });
  row_issue(draft, origin->second, "open_safety_matter", "no",
            {IssueGrade::question, "safety_answer_contradicts",
             "It says that no safety matter is open, but " + row_text(draft, open->origin, origin->second) +
                 " of referrals is open. The finding is held.",
             "Write yes, or close the referral where it is settled."});
}

void check_allowance(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  constexpr double looks_like_a_fraction = 0.01; // [1], one percent
  if (facts.allowance <= 0 || facts.allowance >= looks_like_a_fraction) return;
  const auto origin = std::find_if(facts.origins.begin(), facts.origins.end(),
                                   [](const auto& given) { return given.first == "allowance_percent"; });
  if (origin == facts.origins.end()) return;
  row_issue(draft, origin->second, "allowance_percent", "",
            {IssueGrade::question, "allowance_as_fraction", "The allowance is less than one percent.",
             "Percent is expected: 8, not 0.08. Leave it if it is meant."});
}

void check_work_zone(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  if (facts.early_start.has_value() == facts.late_finish.has_value()) return;
  const std::string given = facts.early_start ? "early_start_s" : "late_finish_s";
  const std::string blank = facts.early_start ? "late_finish_s" : "early_start_s";
  const auto origin =
      std::find_if(facts.origins.begin(), facts.origins.end(), [&](const auto& fact) { return fact.first == given; });
  if (origin == facts.origins.end()) return;
  row_issue(draft, origin->second, given, "",
            {IssueGrade::question, "half_a_work_zone",
             given + " is given, but " + blank +
                 " is blank: the work zone is not known, and nothing is said of heavy units "
                 "in a row.",
             "Give both. Where there is no room on one side, write 0."});
}

void check_station_of_log(Draft& draft) {
  const std::string& station = draft.input.facts.station;
  const LoggedCycle* other = nullptr;
  bool any_here = false;
  // Case, accents and blanks don't make it another station.
  std::vector<bool> is_this_one;
  for (const std::string& word : draft.input.log_words) is_this_one.push_back(plain_word(word) == plain_word(station));
  const std::int32_t here = station.empty() ? -1 : add_log_word(draft.input, station);
  is_this_one.resize(draft.input.log_words.size(), true);
  for (LoggedCycle& cycle : draft.input.cycle_log) {
    if (cycle.station >= 0 && is_this_one[static_cast<std::size_t>(cycle.station)]) cycle.station = here;
    any_here = any_here || cycle.station < 0 || cycle.station == here;
    if (!other && cycle.station != here) other = &cycle;
  }
  if (any_here || !other) return;
  row_issue(draft, other->origin, "station", log_word(draft.input, other->station),
            {IssueGrade::question, "log_of_another_station",
             "No row of the log is of the station \"" + station + "\" that the sheet case names.",
             "Write the station the same way in both, or leave the column blank."});
}

void check_people_asked_about(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  const auto ask = [&](std::string_view key, const std::vector<std::string>& codes) {
    for (const std::string& code : codes) {
      if (draft.operators.places.contains(small_letters(code))) continue;
      const auto origin = std::find_if(facts.origins.begin(), facts.origins.end(),
                                       [&](const auto& given) { return given.first == key; });
      if (origin == facts.origins.end()) continue;
      row_issue(draft, origin->second, key, code,
                {IssueGrade::question, "operator_not_in_data",
                 code + " is named here, but is not in the sheet operators nor in the data.",
                 "Please check the code."});
    }
  };
  const bool people_known = !draft.operators.places.empty() && draft.operators.complete;
  if (!people_known) return;
  ask("complainants", facts.complainants);
  if (facts.b_for) ask("b_for", *facts.b_for);
}

} // namespace docket
