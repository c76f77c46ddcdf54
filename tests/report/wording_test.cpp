// The words: every code has some, and none of them judges a person or promises safety.
#include "report/figures/drawing.h"
#include "report/wording/tables.h"
#include "report/wording/wording.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace docket {
namespace {

constexpr const char* reason_codes[] = {"no_usable_line",
                                        "clash",
                                        "mean_over",
                                        "sequence_over",
                                        "too_few_able",
                                        "zone_not_given",
                                        "spread_not_known",
                                        "identical_values",
                                        "mean_not_sure",
                                        "sequence_not_sure",
                                        "too_few_within_zone",
                                        "leaning_line_needed",
                                        "others_object",
                                        "with_help_not_sure",
                                        "with_leavers_not_sure",
                                        "help_of_unknown_length",
                                        "condition_differs",
                                        "no_evidence_of_restored_state",
                                        "mean_fits",
                                        "sequence_fits",
                                        "enough_able",
                                        "average_person_only"};
constexpr const char* would_decide_codes[] = {
    "clear_the_clash",        "give_work_zone",   "give_cycle_spread", "more_settled_operators",
    "time_the_station",       "rated_restudy",    "second_line",       "restore_conditions",
    "complete_the_standard",  "ask_what_changed", "agree_on_the_mix",  "seconds_of_help",
    "method_as_standard",     "no_number_will",   "leavers_row",       "longer_records",
    "no_number_of_these_will"};
constexpr const char* lean_codes[] = {
    "fewer_than_three_operators", "exactly_two_operators", "bridged_levels_differ", "help_without_seconds",
    "leavers_row_not_computed",   "elements_missing",      "method_not_known"};
constexpr const char* none_why_codes[] = {"no_cycles",         "line_time_only",       "nobody_trained",
                                          "nobody_settled",    "all_out_by_condition", "all_marked",
                                          "no_rated_readings", "no_whole_cycles",      "no_readings"};
constexpr const char* fault_codes[] = {"log_without_marks",   "log_is_line_time",         "line_time_rows",
                                       "other_station_rows",  "no_operator_rows",         "no_variant_rows",
                                       "readings_in_the_log", "cycles_per_shift_assumed", "one_operator_only",
                                       "one_cycle_only",      "every_cycle_marked",       "identical_values",
                                       "intake_warning",      "intake_question",          "not_used_yet",
                                       "elements_incomplete", "condition_not_checked",    "settled_and_still_learning",
                                       "no_trained_given",    "build_sequence_absent"};

void expect_sentence(const std::string& text, const std::string& code) {
  EXPECT_NE(text, code);
  EXPECT_NE(text.find(' '), std::string::npos) << code;
  for (const char left_over : {'[', ']', '{', '}'}) EXPECT_EQ(text.find(left_over), std::string::npos) << text;
}

TEST(Wording, EveryCodeHasWords) {
  for (const char* detail : {"", "D-1"}) {
    for (const char* code : reason_codes) expect_sentence(wording::reason_in_words({code, detail}), code);
    for (const char* code : would_decide_codes) expect_sentence(wording::would_decide_in_words({code, detail}), code);
    for (const char* code : lean_codes) expect_sentence(wording::lean_in_words({code, detail}), code);
    for (const char* code : fault_codes) {
      const wording::FaultWords words = wording::fault_in_words({code, detail});
      expect_sentence(words.check, code);
      EXPECT_FALSE(words.direction.empty() || words.affects.empty() || words.remedy.empty()) << code;
      const std::string of_the_intake = std::string(code).substr(0, 6);
      if (of_the_intake != "intake") expect_sentence(words.result, code);
    }
  }
  for (const char* code : none_why_codes) expect_sentence(wording::none_why_in_words(code), code);
}

// Nothing is cut beside the rows of the figure of operators: 188 wide at size 10.
TEST(Wording, AShortStatusFitsBesideARow) {
  std::vector<OperatorLevel> levels;
  for (const OperatorStatus status : {OperatorStatus::settled, OperatorStatus::too_short, OperatorStatus::falling,
                                      OperatorStatus::untrained, OperatorStatus::left}) {
    OperatorLevel level;
    level.status = status;
    levels.push_back(level);
  }
  levels.push_back(levels[1]);
  levels.back().plain_seen = 100;
  levels.push_back(levels[1]);
  levels.back().n = 100;
  levels.back().fall_bound = 0.2;
  for (const OperatorLevel& level : levels) {
    const std::string note = wording::status_in_short(level) + ", n = 12345";
    EXPECT_EQ(fit_text(note, 188, 10), note);
  }
}

TEST(Wording, AnUnknownCodeIsPrintedAsItIs) {
  EXPECT_EQ(wording::reason_in_words({"new_code", ""}), "new_code");
  EXPECT_EQ(wording::lean_in_words({"new_code", "7"}), "new_code (7)");
  EXPECT_EQ(wording::none_why_in_words("new_code"), "new_code");
  EXPECT_EQ(wording::fault_in_words({"new_code", "7"}).check, "new_code");
}

TEST(Wording, LinesInADetailAreNamed) {
  EXPECT_NE(wording::reason_in_words({"clash", "standard, settled"}).find("the standard and the settled operators"),
            std::string::npos);
  EXPECT_NE(wording::reason_in_words({"leaning_line_needed", "restudy"}).find(": the restudy."), std::string::npos);
}

TEST(Wording, DetailsAreFilledInOrLeftOut) {
  EXPECT_EQ(wording::fill_in("Over[ ({})].", "2.3 s"), "Over (2.3 s).");
  EXPECT_EQ(wording::fill_in("Over[ ({})].", ""), "Over.");
}

TEST(Wording, FirstLineOfA) {
  EXPECT_EQ(wording::standard_as_it_stands(Seconds{55}, Seconds{53}),
            "Taken as it stands, the plant's own standard is 2.0 s below the line cycle time.");
  EXPECT_EQ(wording::standard_as_it_stands(Seconds{55}, Seconds{56.5}),
            "Taken as it stands, the plant's own standard is 1.5 s above the line cycle time.");
  EXPECT_EQ(wording::standard_as_it_stands(Seconds{55}, Seconds{55.01}),
            "Taken as it stands, the plant's own standard equals the line cycle time.");
}

TEST(Wording, EverySettingAndMarkIsExplained) {
  for (const char* key :
       {"confidence_percent", "able_percent", "tolerated_overloads_per_1000", "standard_uncertainty_percent",
        "pace_uncertainty_percent", "rating_uncertainty_percent", "between_people_percent", "cycle_spread_percent",
        "improvement_left_percent", "equivalence_percent", "settled_after_cycles", "gap_days", "seed"}) {
    EXPECT_FALSE(wording::setting_meaning(key).empty()) << key;
  }
  for (const MarkUse& use : mark_uses) EXPECT_FALSE(wording::mark_meaning(use.mark).empty()) << use.name;
}

TEST(Wording, NoWordJudgesAPersonOrPromisesSafety) {
  for (const std::string_view text : wording::all_texts()) {
    std::string lower(text);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    for (const char* word : {"lazy",       "unwilling", "slow worker",  "slow operator", "restricting",
                             "malinger",   "incapable", "bad attitude", "unfit",         "underperform",
                             "incompeten", "motivat",   "discipline",   "fault of",      "is safe",
                             "are safe",   "no risk",   "safe to ",     "harmless",      "ergonomically sound"}) {
      EXPECT_EQ(lower.find(word), std::string::npos) << word << " in: " << text;
    }
  }
}

} // namespace
} // namespace docket
