#include "ingest/reading/time_available.h"

#include "core/content/lines/time_available.h"
#include "ingest/reading/cell_values.h"

#include <algorithm>
#include <array>
#include <cstdio>

namespace docket {

namespace {

std::string seconds_text(Seconds time) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.2f s", time.count());
  return text.data();
}

std::string takt_arithmetic(const CaseFacts& facts) {
  return "60 x " + short_number(*facts.working_min_per_day) + " min / " + short_number(*facts.units_per_day) +
         " units = " + seconds_text(*computed_takt(facts)) + " of takt";
}

void report(Draft& draft, std::string_view key, Defect defect) {
  const auto& origins = draft.input.facts.origins;
  const auto given =
      std::find_if(origins.begin(), origins.end(), [&](const auto& origin) { return origin.first == key; });
  if (given != origins.end()) {
    const auto& time = key == "takt_s" ? draft.input.facts.takt : draft.input.facts.line_cycle;
    row_issue(draft, given->second, key, time ? short_number(time->count()) : "", std::move(defect));
    return;
  }
  const std::int32_t source = draft.state(TableName::case_facts).sheets.front().source;
  add_table_issue(draft.issues, std::move(defect), source, TableName::case_facts, 0, key, "");
}

void report_incomplete(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  if (!facts.takt && !facts.oee && !facts.working_min_per_day && !facts.units_per_day) {
    report(draft, "line_cycle_s",
           {IssueGrade::fault, "required_key_not_filled", "The required key line_cycle_s is not filled.",
            "Fill it in, or fill takt_s with oee_percent, or working_min_per_day, units_per_day and oee_percent."});
    return;
  }
  std::string missing;
  const auto lacks = [&](bool lacking, const char* key) {
    if (lacking) missing += (missing.empty() ? "" : " and ") + std::string(key);
  };
  if (!facts.takt && (facts.working_min_per_day || facts.units_per_day)) {
    lacks(!facts.working_min_per_day, "working_min_per_day");
    lacks(!facts.units_per_day, "units_per_day");
  } else {
    lacks(!facts.takt, "takt_s");
  }
  lacks(!facts.oee, "oee_percent");
  report(draft, "line_cycle_s",
         {IssueGrade::fault, "time_available_incomplete",
          "The line cycle time is not given and cannot be worked out: " + missing + " is missing.",
          "Fill in line_cycle_s, or what is missing."});
}

} // namespace

std::optional<Seconds> find_line_cycle(const CaseFacts& facts) {
  if (facts.line_cycle) return facts.line_cycle;
  const auto takt = facts.takt ? facts.takt : computed_takt(facts);
  if (takt && facts.oee) return *takt * *facts.oee;
  return std::nullopt;
}

void check_time_available(Draft& draft) {
  const CaseFacts& facts = draft.input.facts;
  if (!find_line_cycle(facts)) {
    report_incomplete(draft);
    return;
  }
  const std::string right = "They must agree within 0.5 %. Correct the one that is wrong, or leave it blank.";
  const auto takt = computed_takt(facts);
  if (facts.takt && takt && !times_agree(*facts.takt, *takt))
    report(draft, "takt_s",
           {IssueGrade::fault, "time_available_contradicts",
            takt_arithmetic(facts) + ", but takt_s says " + seconds_text(*facts.takt) + ".", right});
  if (!facts.line_cycle) return;
  const auto compare = [&](Seconds of_takt, const std::string& arithmetic) {
    if (facts.oee && !times_agree(*facts.line_cycle, of_takt * *facts.oee)) {
      report(draft, "line_cycle_s",
             {IssueGrade::fault, "time_available_contradicts",
              arithmetic + "; " + seconds_text(of_takt) + " x " + short_number(*facts.oee * 100) +
                  " % OEE = " + seconds_text(of_takt * *facts.oee) + ", but line_cycle_s says " +
                  seconds_text(*facts.line_cycle) + ".",
              right});
    } else if (!facts.oee && *facts.line_cycle > of_takt && !times_agree(*facts.line_cycle, of_takt)) {
      report(draft, "line_cycle_s",
             {IssueGrade::fault, "time_available_contradicts",
              arithmetic + ", but line_cycle_s says " + seconds_text(*facts.line_cycle) +
                  ". A line that is slower than its takt cannot build the units.",
              "The line cycle time is takt times OEE, so at most the takt. Correct the one that is wrong, or leave it "
              "blank."});
    }
  };
  if (facts.takt)
    compare(*facts.takt, "takt_s is " + seconds_text(*facts.takt));
  else if (takt)
    compare(*takt, takt_arithmetic(facts));
}

} // namespace docket
