#include "report/wording/tables.h"

namespace docket::wording {
namespace {

constexpr CodeWords reasons[] = {
    {"no_usable_line", "There is no line of evidence that can be used[ ({})]."},
    {"clash", "Two lines of evidence clash[: {}]. They lie on different sides of the limit, further apart than their "
              "uncertainty allows."},
    {"mean_over", "The mean time for the planned mix is above the limit[ ({})]."},
    {"sequence_over", "The order of units overloads the work zone more often than is tolerated[ ({})]."},
    {"too_few_able", "Too few trained people are estimated to be within the limit[ ({})]."},
    {"zone_not_given", "The work zone is not given: early_start_s or late_finish_s is blank in the table case. Whether "
                       "the order of units fits can't be computed."},
    {"spread_not_known",
     "How much one person's times vary from cycle to cycle is not known. Whether the order of units "
     "fits can't be computed."},
    {"identical_values", "The line that weighs most has the same value every time[ ({})]. Real times vary, so it can't "
                         "carry a finding."},
    {"mean_not_sure", "The mean is not surely on one side of the limit[ ({})]."},
    {"sequence_not_sure", "It is not sure that the order of units keeps within the work zone[ ({})]."},
    {"too_few_within_zone", "It is not sure that enough trained people keep within the work zone[ ({})]."},
    {"with_help_not_sure", "With the help counted in[ ({} cycles)], it is no longer sure. Both must agree."},
    {"help_of_unknown_length", "Somebody helped on[ {}] cycles of the settled operators, and nobody wrote for how "
                               "long. How the station is worked "
                               "without help is not seen."},
    {"with_leavers_not_sure", "With the people who left counted in[ ({})], it is no longer sure. Both must agree."},
    {"leaning_line_needed",
     "The finding would rest on a line with an open question[: {}]. Without that line the rest is "
     "not enough."},
    {"others_object", "Only two operators are settled, and the other lines of evidence object[ ({})]."},
    {"condition_differs", "A condition is not as the standard assumes[: {}]."},
    {"no_evidence_of_restored_state", "Nothing was recorded with the condition restored[ ({})]."},
    {"mean_fits", "The mean time for the planned mix is within the limit[ ({})]."},
    {"sequence_fits", "The order of units keeps within the work zone as often as is asked[ ({})]."},
    {"enough_able", "Enough trained people are estimated to be able[ ({})]."},
    {"average_person_only", "What share of trained people is able is not known. The finding is for the average trained "
                            "person."},
};

constexpr CodeWords would_decide[] = {
    {"ask_what_changed",
     "Times of settled operators have risen over the last days[ ({})]. Ask what changed at the station, and "
     "ask about strain first; then record the days after."},
    {"agree_on_the_mix",
     "Agree on the mix[ ({})]: with the mix as built the finding is another one. No study settles a number "
     "of the plan."},
    {"clear_the_clash", "Find out why the lines disagree[: {}]: the method in use, the conditions, who was timed."},
    {"give_work_zone",
     "Give the work zone in the table case: how many seconds early a person may start (early_start_s) "
     "and how many late they may finish (late_finish_s). A 0 must be written."},
    {"give_cycle_spread",
     "Give how much one person's cycle times vary (cycle_spread_percent in the table settings), or "
     "a log of settled operators."},
    {"more_settled_operators", "Record more settled operators[: {} in all, at the level and spread seen, would decide "
                               "it]. More cycles of the same people do not replace them."},
    {"longer_records",
     "Longer records of people who may be settled already[: {}]. Each needs 200 plain cycles on 3 days "
     "or more, past the own count asked for."},
    {"time_the_station", "Time the station: a log with operators, or readings of settled operators[ ({})]."},
    {"rated_restudy",
     "Make a joint restudy with rated readings of trained operators[. {} of them, coming out where the "
     "other lines lie, would decide it]."},
    {"second_line", "Bring a second, independent line of evidence[ ({})]."},
    {"restore_conditions", "Restore the conditions that differ[: {}]. Then record cycles in that state."},
    {"complete_the_standard",
     "Settle which elements belong to the station[: {}]. Those seen but not in the standard are "
     "added to it, or agreed not to belong."},
    {"seconds_of_help", "Record how many seconds each help took[ ({})]."},
    {"method_as_standard", "Say for each session whether the standard's method was used (method_as_standard)[: {}]."},
    {"no_number_will",
     "No number of cycles will decide it from this line alone. With 5 % on its level it says FITS only "
     "with 10 % of margin[ ({})]. Other, independent lines can."},
    {"no_number_of_these_will", "No number of cycles, days or people of the lines there are will decide it: what is "
                                "uncertain in them is shared by "
                                "all of their numbers[ ({})]. What narrows it: the level of the standard agreed by "
                                "both sides or checked by motion "
                                "times, the pace rated blind, or a change of some seconds."},
    {"leavers_row", "Cycles of the people who left the station[: {}], from the log of that time. With fewer than three "
                    "who stayed, nothing can stand in for them."},
};

constexpr CodeWords leans[] = {
    {"fewer_than_three_operators", "it rests on fewer than three operators[ ({})]"},
    {"exactly_two_operators", "it rests on exactly two settled operators[ ({})]"},
    {"bridged_levels_differ", "some variants are bridged by the standard's ratios, and the times by variant do not "
                              "follow those ratios[ ({})]"},
    {"help_without_seconds", "help was given and its seconds are not recorded[ ({})]"},
    {"leavers_row_not_computed",
     "people left the station whose times are not known, and fewer than three stayed[ ({})]"},
    {"elements_missing", "elements seen at the station are missing from the standard[ ({})]"},
    {"times_all_alike", "times of somebody in it, or of a session, are all the same[ ({})]"},
    {"method_not_known", "it is not known whether the standard's method was used[ ({})]"},
};

constexpr CodeWords none_why[] = {
    {"no_cycles", "There are no cycles of persons in the input."},
    {"line_time_only", "The log holds the line's time, not a person's. It can't say how long the work takes."},
    {"nobody_trained", "No operator is given as trained."},
    {"no_operator_known", "Most cycles of the log name nobody, and no roster row fits them."},
    {"nobody_settled", "No operator can be shown to be settled from the cycles given."},
    {"all_out_by_condition", "Every cycle is touched by a condition that differs from the standard."},
    {"all_marked", "Every cycle carries a mark, so no plain cycle is left."},
    {"no_readings", "There are no stopwatch readings in the input."},
    {"no_rated_readings", "There are no rated readings of trained operators."},
    {"no_whole_cycles", "No reading, or sum of readings, makes a whole cycle."},
};

constexpr CodeWords settings[] = {
    {"confidence_percent", "how sure a finding must be; the rest is split over both sides"},
    {"able_percent", "share of trained people who must be able"},
    {"tolerated_overloads_per_1000", "overloads of the work zone that are tolerated, per 1000 units"},
    {"standard_uncertainty_percent", "uncertainty of the standard's level"},
    {"pace_uncertainty_percent", "uncertainty of the pace of settled operators against normal pace"},
    {"rating_uncertainty_percent", "uncertainty of the rating in a restudy"},
    {"between_people_percent", "spread between people where one or two were studied"},
    {"cycle_spread_percent", "spread of one person's cycles where no settled operators give it"},
    {"improvement_left_percent", "improvement that may still be left in a settled operator"},
    {"equivalence_percent", "difference below which two shifts count as equivalent"},
    {"settled_after_cycles", "own cycles before an operator can count as settled"},
    {"gap_days", "days away that count as a gap"},
    {"seed", "start of the drawn numbers; the same seed gives the same file"},
};

constexpr CodeWords flips[] = {
    {"rating_up", "Every rating [{} % ]higher"},
    {"rating_down", "Every rating [{} % ]lower"},
    {"with_missing_elements", "The elements seen but missing from the standard added to it"},
    {"standard_halved", "The level of the standard more certain[: {} %]"},
    {"standard_doubled", "The level of the standard less certain[: {} %]"},
    {"errors_alike", "The errors of level, pace and rating half alike (correlation 0.5), not independent"},
    {"pace_above_normal", "The settled operators worked faster than normal pace[, by {} %]"},
    {"pace_below_normal", "The settled operators worked slower than normal pace[, by {} %]"},
    {"pace_halved", "The pace of the settled operators more certain[: {} %]"},
    {"pace_doubled", "The pace of the settled operators less certain[: {} %]"},
    {"without_allowance", "Without the allowance[ of {} %]"},
    {"built_mix", "The mix as built, in place of the planned one"},
    {"one_out_lowest", "One settled operator left out, least margin"},
    {"one_out_highest", "One settled operator left out, most margin"},
    {"with_help", "[{} ]helped or cut short cycles counted in"},
    {"with_leavers", "[{} ]of those who left counted in"},
    {"with_too_short", "[{} ]with a short record counted in"},
    {"with_foreign", "[{} ]cycles with foreign work counted in"},
    {"with_differing", "Cycles under differing conditions counted in"},
};

} // namespace

std::span<const CodeWords> flip_table() { return flips; }
std::span<const CodeWords> reason_table() { return reasons; }
std::span<const CodeWords> would_decide_table() { return would_decide; }
std::span<const CodeWords> lean_table() { return leans; }
std::span<const CodeWords> none_why_table() { return none_why; }
std::span<const CodeWords> setting_table() { return settings; }

std::string fill_in(std::string_view words, std::string_view detail) {
  std::string out;
  bool dropped = false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == '[') {
      dropped = detail.empty();
    } else if (words[i] == ']') {
      dropped = false;
    } else if (words[i] == '{' && i + 1 < words.size() && words[i + 1] == '}') {
      if (!dropped) out += detail;
      ++i;
    } else if (!dropped) {
      out += words[i];
    }
  }
  return out;
}

} // namespace docket::wording
