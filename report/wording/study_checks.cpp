#include "report/wording/study_checks.h"

#include "report/format.h"

#include <cmath>
#include <optional>

namespace docket::wording {
namespace {

constexpr std::string_view observer_absent = "not named";

// code, check, found, passed, affects, remedy, numbers, to_tell
constexpr CheckRow checks[] = {
    {"elements_not_seen", "Elements of the standard that were not seen",
     "{names}: not seen in {cycles} cycles read by element; {seconds_s} a unit in the standard.[ Another "
     "{too_rare_to_tell} come too seldom to tell.] An element is missed where three or more were to be expected "
     "(common "
     "practice).",
     "Every element was seen, of which three or more were to be expected in {cycles} cycles read by element (common "
     "practice).",
     "the standard", "ask whether the method left them out, or the sheet did; then mend the one or the other",
     "Elements not seen that come too seldom to tell: {too_rare_to_tell}. Fewer than three of each were to be expected "
     "in "
     "{cycles} cycles read by element (common practice). Every other one was seen.",
     "read more cycles by element, of the variants that carry these elements"},
    {"elements_not_in_standard", "Elements seen that the standard lacks",
     "{names}: seen, not in the standard; {seconds_s} a unit over {cycles} cycles read by element.",
     "No element was seen that the standard lacks ({cycles} cycles read by element).", "the standard, which leans",
     "put them into the standard, or write why they do not belong to the station"},
    {"elements_off_standard", "Element times against the standard",
     "{names}: the standard's time lies outside the interval seen; {+seconds_s} a unit seen less standard. {elements} "
     "of {compared} compared; about {by_chance} would be so by chance alone.",
     "The standard's time lies inside the interval seen for all {compared} elements compared, and no interval is wider "
     "than 10 % of it either side (common practice).",
     "the standard against the restudy", "look at method, distance and count of these elements first",
     "The standard's time lies inside the interval seen for all {compared} elements compared, but {wide} intervals are "
     "wider than 10 % of it either side (common practice): they could not show a difference of that size.",
     "read more cycles by element"},
    {"stale_mix", "Mix of variants behind the standard",
     "Station time at the planned mix {planned_s}, at the mix of the standard {in_standard_s} (planned less this "
     "{+planned_less_in_standard_s}). More than 0.5 % apart (common practice).",
     "Station time at the planned mix {planned_s}[, at the mix of the standard {in_standard_s}: no more than 0.5 % "
     "apart "
     "(common practice)][. There is only {single} variant].",
     "the plant's own figure; A itself is for the planned mix",
     "agree on the mix the finding is for, and recompute with it"},
    {"mix_built", "Mix of variants that was built",
     "Station time at the planned mix {planned_s}, at the mix built {built_s} (this less planned "
     "{+built_less_planned_s}, n = {units}; by chance up to {chance_s}). More than 0.5 % apart (common practice), and "
     "more than chance.",
     "Station time at the planned mix {planned_s}[, at the mix built {built_s}, n = {units}: no more than 0.5 % apart "
     "(common practice)][. There is only {single} variant].",
     "A, which is for the planned mix", "agree on the mix the finding is for, and recompute with it",
     "Station time at the planned mix {planned_s}, at the mix built {built_s} (this less planned "
     "{+built_less_planned_s}, n = {units}). More than 0.5 % apart (common practice), but so much may come by chance "
     "(up "
     "to {chance_s}).",
     "count the variants built over a longer time"},
    {"allowance_twice", "Breaks counted once only",
     "An allowance of {allowance_share} stands beside a line availability (OEE) of {oee_share}. The same breaks may "
     "be in both.",
     "Nothing shows that breaks are counted twice: no allowance in the time beside an availability (OEE) below 100 %.",
     "the limit, every comparison", "list which breaks are in the availability and which in the allowance"},
    {"allowance_absent", "An allowance for rest and personal needs",
     "No allowance is given anywhere: the limit is the whole line cycle time.",
     "An allowance of {allowance_share} is given.", "the limit, every comparison",
     "say where rest and personal needs are covered: by breaks, by relief, or not at all"},
    {"other_post_elements", "Elements of another person's place",
     "{names}: of another post, counted in this station time; {seconds_s} a unit.",
     "No element of another post is "
     "counted.",
     "the standard", "keep one standard a post; move these elements to theirs"},
    {"waits_on_other_post", "Waiting for another person's work",
     "{names}: must wait for work of another post. The standard holds no time for that waiting.",
     "No element waits for work of another post.", "the standard, sequence",
     "see at the station whether it waits, and how long"},
    {"order_impossible", "Order of the elements",
     "{names}: by the order given each must come before itself. The order can't be worked.",
     "The order given can be worked ({with_after} elements name what comes before).", "the method",
     "mend the column after, and check the written method"},
    {"efficiency_and_utilisation", "What efficiency and utilisation leave out", "", "", // no threshold
     "none", "none needed",
     "Efficiency {efficiency_share}: counts {nva_s} of waste a unit as work. Utilisation {utilisation_share}: leaves "
     "{nnva_s} of necessary work a unit out of sight."},
    {"sources_of_times", "Where the standard's times come from",
     "{share} of the station time is not measured: history {history_share}, estimate {estimate_share}, source not said "
     "{not_said_share}[ (history or estimate: {names})]. Above 10 % (common practice).",
     "{share} of the station time comes from history or estimates, or its source is not said. At most 10 % (common "
     "practice).",
     "the standard", "time these elements, or say where their times come from"},
    {"motions_against_given", "Times given against the motions",
     "{names}: the time given and the sum of the motions are more than 10 % of the time given apart (common practice); "
     "given longer by {given_longer_s} a unit, shorter by {given_shorter_s}. {elements} of {compared} compared.",
     "Time given and sum of the motions are no more than 10 % of the time given apart (common practice) in all "
     "{compared} "
     "elements that have both.",
     "the standard", "look for motions left out, counted twice or done otherwise; then keep one of the two times"},
    {"motion_values_not_confirmed", "Motion values not confirmed in print",
     "{names}: {seconds_s} a unit, {share} of the station time, rest on values of the shipped motion table that are "
     "marked as from memory. Above 10 % (common practice).",
     "{seconds_s} a unit, {share} of the station time, rest on values of the shipped motion table that are marked as "
     "from memory[ ({names})]; {from_motions_s} a unit come from motions. At most 10 % (common practice).",
     "the standard", "compare these values with a printed table, or give the plant's own table"},
    {"standby_seconds", "Machine and waiting time in the standard",
     "{names}: {seconds_s} a unit (machine {machine_s}, waiting {wait_s}). Right only if the person can do nothing "
     "else "
     "in that time.",
     "The standard holds no machine or waiting time.", "the standard",
     "see which work could be done meanwhile; count only the rest"},

    {"flat_rating", "Ratings follow the pace",
     "Observer {names}: slope {slope} ({slope_low} to {slope_high}), n = {n}. 0: rated times do not depend on the raw "
     "time; 1: ratings do not answer to it; below 0: they answer too strongly. Variation that is not pace pulls it "
     "towards 1 too. All of the interval lies beyond 0.5 (common practice).",
     "Observer {names}: slope {slope} ({slope_low} to {slope_high}), n = {n}. 0: ratings follow the pace; 1: they do "
     "not answer to it. All of the interval lies within 0.5 either side of 0 (common practice).",
     "restudy", "let two observers rate the same cycles; carry a larger rating uncertainty",
     "Observer {names}: slope {slope} ({slope_low} to {slope_high}), n = {n}. 0: ratings follow the pace; 1: they do "
     "not answer to it. The interval reaches across 0.5 (common practice): neither is shown.",
     "rate more cycles, at different hours"},
    {"ratings_bunched", "Ratings of one value",
     "Observer {names}: {share} of {n} ratings are {rating_share}; {different} different values. More than half "
     "(common "
     "practice).",
     "Observer {names}: the commonest rating is {rating_share}, {share} of {n}. No more than half (common practice).",
     "restudy", "rate in steps of 5 %, cycle by cycle, from fresh examples of normal pace"},
    {"drift_in_sessions", "Drift inside a session",
     "{names}: times change with the cycle number; {falling} falling, {rising} rising of {sessions} sessions. The "
     "plainest changes by {+change_share} from first to last cycle (p < 0.01, common practice).",
     "In none of {sessions} sessions do times change with the cycle number (p < 0.01), and no session leaves room for "
     "a "
     "change above 5 % from first to last cycle (both common practice).",
     "restudy", "look for what changed: watching, warming up, parts, help; time again on another day",
     "In none of {sessions} sessions do times change plainly with the cycle number (p < 0.01), but a change of up to "
     "{reach_share} from first to last cycle can't be ruled out. Passed at 5 % or less (both common practice).",
     "longer sessions"},
    {"observers_apart", "Two observers of the same cycles: times",
     "{names}: first less second {+difference_s} on {mean_s}, 95 % of differences within {+lower_s} to {+upper_s}, n = "
     "{n}[; agreement {icc}, 1 is full]. Above 2 % of the mean, or 10 % between the limits (common practice).",
     "{names}: first less second {+difference_s} on {mean_s}, 95 % of differences within {+lower_s} to {+upper_s}, n = "
     "{n}[; agreement {icc}, 1 is full]. For sure within 2 % of the mean, and 10 % between the limits (common "
     "practice).",
     "restudy", "agree on the break points of cycle and elements; set both clocks together; keep both results",
     "{names}: first less second {+difference_s} on {mean_s}, 95 % of differences within {+lower_s} to {+upper_s}, n = "
     "{n}[; agreement {icc}, 1 is full]. Within 2 % of the mean and 10 % between the limits (common practice), but not "
     "for sure.",
     "time more cycles together"},
    {"ratings_apart", "Two observers of the same cycles: ratings",
     "{names}: ratings differ by {+rating_difference_share} on average, first less second[, n = {n}][, by {by_session} "
     "rating a session each][; agreement "
     "{rating_icc}, 1 is full]. Above 5 % (common practice).",
     "{names}: ratings differ by {+rating_difference_share} on average, first less second[, n = {n}][, by {by_session} "
     "rating a session each][; agreement "
     "{rating_icc}, 1 is full]. For sure within 5 % on average (common practice), and cycle by cycle they lie within 5 "
     "% or rise and fall together.",
     "restudy", "rate the same films or cycles together until both agree on what normal pace is; keep both results",
     "{names}: ratings differ by {+rating_difference_share} on average, first less second[, n = {n}][, by {by_session} "
     "rating a session each][; agreement "
     "{rating_icc}, 1 is full]. Within 5 % on average (common practice), but not for sure, or cycle by cycle they "
     "neither lie within 5 % nor rise and fall together.",
     "rate more cycles together, cycle by cycle"},
    {"digit_preference", "Last digits of the readings",
     "Observer {names}: some last digits come too often; {on_0_and_5_share} end in 0 or 5, a fifth is usual; read to "
     "{resolution} s, n = {n} (p < 0.01, common practice).",
     "Observer {names}: no last digit comes too often (p < 0.01); {on_0_and_5_share} end in 0 or 5, at most "
     "{on_0_and_5_high_share} for sure, a fifth is usual; read to {resolution} s, n = {n}. Passed at 40 % or less "
     "(both "
     "common practice).",
     "restudy, by the rounding only", "say how the times were read; read a running clock",
     "Observer {names}: no last digit comes plainly too often (p < 0.01), but {on_0_and_5_share} end in 0 or 5 and it "
     "may be {on_0_and_5_high_share}, a fifth is usual; read to {resolution} s, n = {n}. Passed at 40 % or less (both "
     "common practice).",
     "more readings"},
    {"extreme_readings", "Extreme readings",
     "{names}: far out among {n} readings ({shorter} short, {longer} long; by chance alone at most 1 time in 20). "
     "Questions to "
     "ask; nothing is left out.",
     "None of {n} readings lies far out (tried so that chance alone finds one at most 1 time in 20).", "restudy",
     "ask what happened in these cycles; mark them only if it is known"},
    {"closure", "Readings against the time from start to end",
     "{names}: the readings add up to more than the time from start to end, by up to {most_over_share}.[ In all "
     "sessions {unaccounted_share} of the time is in no reading.] Above 1 % (common practice).",
     "Readings, waiting and help go no more than 1 % beyond the time from start to end (common practice) in {sessions} "
     "sessions[; {unaccounted_share} of it is in no reading].",
     "restudy", "compare clock and sheet; time without stopping the clock",
     "Readings, waiting and help go more than 1 % beyond the time from start to end (common practice) in {may_be_over} "
     "of "
     "{sessions} sessions, but start and end are written in whole minutes, and that may be all.",
     "write start and end to the second"},
    {"enough_readings", "Number of readings",
     "{n} rated cycles; {needed} of each person needed for ±5 % of the person's mean at the confidence set, for each "
     "weighs "
     "the same. Fewer: {names}, {fewest} at least.",
     "{n} rated cycles, {fewest} or more of each person; {needed} needed for ±5 % of a person's mean at the confidence "
     "set. "
     "That sizes a mean, not the spread of people.",
     "restudy", "take more cycles of these",
     "{n} rated cycles; by these {needed} are needed for ±5 % at the confidence set. Fewer than 10 do not tell how "
     "many "
     "(common practice).",
     "take ten cycles at least"},
    {"coverage", "Operators, days and shifts seen",
     "{operators} operators, {days} days[, {shifts} shifts][, {parts} of 3 parts of the shift]. Usual: 3 operators, 2 "
     "days, 2 shifts, start, middle and end of a shift (common practice).",
     "{operators} operators, {days} days, {shifts} shifts, {parts} of 3 parts of the shift. Usual: 3 operators, 2 "
     "days, 2 "
     "shifts if there are two, start, middle and end of a shift (common practice).",
     "restudy", "time other people, days and hours too",
     "{operators} operators, {days} days[, {shifts} shifts][, {parts} of 3 parts of the shift]. Usual: 3 operators, 2 "
     "days, 2 shifts if there are two, start, middle and end of a shift (common practice). The shift of the sessions, "
     "or "
     "which part of it they saw, is not known.",
     "fill shift, start and end in the table sessions; give the log of these days"},
    {"variants_seen", "Variants seen",
     "{names}: not timed; {missing_share} of the planned mix. Every variant of 5 % or more and the heaviest should be "
     "(common practice).",
     "Every variant of 5 % of the mix or more and the heaviest were timed ({seen} of {variants}; common practice).",
     "restudy", "time these variants"},
    {"near_a_condition", "Sessions near a condition that differed",
     "{names}: within 14 days of a condition that differed (common practice). It may have begun earlier or lasted "
     "longer than written.",
     "No session lies within 14 days of the edge of a condition that differed (common practice).", "restudy",
     "confirm the dates of the condition"},
    {"planned_cycles", "Cycles planned and taken",
     "{names}: {fewer} sessions with fewer cycles than planned, {more} with more, of {sessions}. Why they stopped is "
     "not said.",
     "All {sessions} sessions with a plan have exactly as many cycles as planned.", "restudy",
     "write why each session stopped when it did"},
    {"blind_rating", "Rated without knowing the time required",
     "{names}: {not_blind} sessions rated with the required time known, {not_said} do not say, of {sessions}.",
     "All {sessions} rated sessions were rated without knowing the required time.", "restudy",
     "rate before the required time is told; write that it was so"},
    {"plan_agreed", "Plan agreed before the study",
     "{names}: {before} of {sessions} sessions lie before the day the plan was agreed.",
     "The plan was agreed on or before the day of the first session ({sessions} sessions).", "restudy",
     "agree on days, operators, exclusions and margin first"},
    {"timed_while_learning", "Timed while possibly still learning",
     "{names}: timed before the own count of {settled_after} from which the settled operators are looked for, or with "
     "a "
     "count that is not known (below it {below}, not known {not_known}, of {operators} operators). The restudy asks "
     "only "
     "for trained; a rating takes out pace, and not what practice still takes away.",
     "All {operators} operators were timed past the own count of {settled_after} from which the settled operators are "
     "looked for.",
     "restudy", "time people past that count; fill first_cycle in the table sessions, or prior_cycles in operators"},
    {"warm_up", "First cycles after a start or a break",
     "The first {first_cycles} cycles after a start or a pause above 10 minutes take {ratio} times the rest "
     "({ratio_low} to {ratio_high}), n = {n} days of settled operators. All of the interval is more than 1 % off "
     "(common practice).",
     "The first {first_cycles} cycles after a start or a pause above 10 minutes take {ratio} times the rest "
     "({ratio_low} to {ratio_high}), n = {n} days of settled operators. All of the interval lies within 1 % (common "
     "practice).",
     "settled operators; a restudy of these minutes only", "spread a study over the shift; keep these cycles in",
     "The first {first_cycles} cycles after a start or a pause above 10 minutes take {ratio} times the rest "
     "({ratio_low} to {ratio_high}), n = {n} days of settled operators. {ratio_in_words} (1 %: common practice).",
     "log more days"},
    {"settled_times_rise", "Times that rise",
     "Over the days looked at, the times of {rising} of {operators} settled operators rose by more than {by_share} "
     "(one-sided "
     "95 %). Nobody is named here: the reason is looked for at the station.",
     "Over the days looked at, the times of none of {operators} settled operators rose by {by_share} (one-sided 95 %).",
     "settled operators: their level is that of all the days, and today's may be longer",
     "ask what changed: parts, tools, fixture, layout, mix, hours; and ask about strain first",
     "Over the days looked at, nobody's times are shown to have risen by {by_share} (one-sided 95 %); for {level} of "
     "{operators} settled operators a rise of that size is ruled out.",
     "log more days"},
    {"one_far_from_the_rest", "One person far from the rest",
     "Of {operators} settled operators one lies further from the others than chance makes (at most 1 time in 20): "
     "{+off_share} against their mean. More than {close_share}, as far as two shifts may lie apart and be equivalent. "
     "Nobody is named here; one exceptional person proves little about the content.",
     "Of {operators} settled operators nobody lies further than {close_share} from the mean of the others.",
     "settled operators: their mean, the spread between people and the share able",
     "look at the table without each person; ask what differs there: variants, shift, conditions, tools, method",
     "Of {operators} settled operators the furthest lies {+off_share} from the mean of the others, no further than "
     "chance "
     "makes of so few (at most 1 time in 20). Passed at {close_share} or less.",
     "more settled operators"},
    {"unlike_days", "How much of a day people work here",
     "Settled operators have from {least} to {most} cycles a worked day, more than {factor} times as many. Times of "
     "short "
     "stints and of whole days are not of one kind.",
     "Settled operators have from {least} to {most} cycles a worked day, no more than {factor} times as many (common "
     "practice).",
     "settled operators: their mean and spread; how many of the others are above the limit too",
     "log everybody over whole days; or compare stints of one length"},
    {"times_all_alike", "Times that are all the same",
     "{names}: every time is the same. That is a set or typed value, no measurement; the line leans.",
     "Nobody's times, and those of no session, are all the same.", "settled operators, restudy",
     "give the times as they were read, or leave these out"},
    {"training_records", "Training records",
     "{names}: counted as trained, with no row in the table training; {without} of {operators}.",
     "Everybody counted as trained has a training record ({operators} operators).", "settled operators, restudy",
     "give the records, or say where they are kept"},
    {"leavers_named", "People who left",
     "The table operators names nobody who left the station, and leavers_listed in the table case does not say that "
     "nobody did. Did anybody?",
     "{left} of {operators} people are listed as having left.", "settled operators, share able",
     "list everybody who had the job in the period, with left_station; no reason is asked. Then write leavers_listed "
     "yes"},
};

constexpr LackRow lacks[] = {
    {"element_readings", "No readings by element.", "read some cycles element by element"},
    {"element_intervals", "No element has two rated readings of a trained person.", "read and rate cycles by element"},
    {"mix_of_standard", "The mix the standard was computed with is not given, or does not add up to 100 %.",
     "give share_in_standard_percent in the table variants"},
    {"mix_built", "Nothing says what was built: no log with variants, no build order.",
     "give a cycle log with variants, or the build order"},
    {"motions", "No element is worked out in motions.", "fill the table motions"},
    {"given_and_motions", "No element has both a time given and a sum of its motions.",
     "keep time_s beside the motions, as the plant has it"},
    {"oee", "The line availability (OEE) is not given.", "give oee_percent in the table case"},
    {"case_post", "The post of this case is not given.", "give post in the table case"},
    {"element_posts", "No element says whose post it is.", "fill post in the table standard"},
    {"after", "No element says what must come before it.", "fill after in the table standard"},
    {"times", "The standard holds no time.", "give the times of the elements"},
    {"readings", "No stopwatch readings that make whole cycles.", "time the station"},
    {"ratings", "No ratings[ of observer {names}].", "rate the readings"},
    {"ratings_by_cycle", "Observer {names}: ratings are given for whole sessions, not cycle by cycle.",
     "rate cycle by cycle"},
    {"enough_ratings", "Observer {names}: {n} ratings; it takes {needs}.", "rate more cycles"},
    {"spread_of_raw_times", "Observer {names}: raw times hardly vary; pace can't be seen in them.",
     "rate at different hours and people"},
    {"long_sessions", "No session has {needs} plain cycles.", "longer sessions"},
    {"second_observer", "No session was timed by two observers at once.",
     "let a second observer time the same cycles, and fill same_as"},
    {"enough_pairs", "[{names}: ]{n} cycles timed by both; it takes {needs}.", "time more cycles together"},
    {"ratings_by_both", "{names}: no cycle was rated by both.", "let both rate the same cycles"},
    {"enough_rated_pairs", "[{names}: ]{n} cycles rated by both; it takes {needs}.", "rate more cycles together"},
    {"resolution", "Observer {names}: readings are no whole steps of 1, 0.1 or 0.01 s.",
     "give the times as they were read"},
    {"enough_digits", "Observer {names}: fewer than {needs} readings.", "more readings"},
    {"wide_readings",
     "Observer {names}: {n} readings spread wide enough for their last digits to tell; it takes {needs}.",
     "read to a finer step"},
    {"enough_readings", "{n} readings; it takes {needs}.", "more readings"},
    {"session_times", "No session has start and end.", "fill start and end in the table sessions"},
    {"rated_readings", "No rated readings of trained operators.", "rate the readings"},
    {"more_than_one_reading", "One reading has no spread.", "more readings"},
    {"conditions", "No conditions are given.", "fill the table conditions"},
    {"planned_cycles", "No session says how many cycles were planned.", "fill planned_cycles in the table sessions"},
    {"plan_date", "The day the plan was agreed is not given.", "give plan_agreed_on in the table case"},
    {"log", "No cycle log.", "give a cycle log of the persons' times"},
    {"settled_operators", "No settled operators in the log.", "log trained people for longer"},
    {"two_settled_operators", "Fewer than two settled operators.", "log more trained people"},
    {"enough_settled_operators", "{n} settled operators; it takes {needs}.", "log more trained people"},
    {"enough_days", "{n} days with first and later cycles; it takes {needs}.", "log more days"},
    {"trained_operators", "Nobody counts as trained in a line of evidence.", "fill trained in the table operators"},
    {"training", "No training records are given.", "fill the table training"},
    {"operators", "No table of operators.", "fill the table operators"},
};

bool ends_with(std::string_view text, std::string_view end) { return text.ends_with(end); }

std::string number_in_words(std::string_view name, double value, bool sign) {
  if (ends_with(name, "_s")) return sign ? format_signed_seconds(Seconds{value}) : format_seconds(Seconds{value});
  if (ends_with(name, "share")) {
    const std::string text = format_percent(std::abs(value));
    if (text == format_percent(0)) return text;
    return (value < 0 ? "\u2212" : sign ? "+" : "") + text;
  }
  if (name == "by_chance") return format_fixed(value, 1);
  if (name.starts_with("ratio")) return format_fixed(value, 3);
  if (name.starts_with("slope") || ends_with(name, "icc")) return format_fixed(value, 2);
  if (name == "resolution") return format_plain_number(value, 2);
  return format_count(std::llround(value));
}

/// What the interval of a ratio shows where it reaches across 1 % off.
std::string ratio_in_words(double low, double high) {
  if (low > 1) return "They take longer, but that it is more than 1 % is not shown";
  if (high < 1) return "They take less time, but that it is more than 1 % is not shown";
  return "Whether they take more or less time is not shown; more than 1 % can't be ruled out";
}

/// The text of one placeholder; nothing where the check does not have it, or has none of it.
std::optional<std::string> value_of(const StudyCheck& check, std::string_view name, bool of_observer) {
  const bool sign = name.starts_with("+");
  if (sign) name.remove_prefix(1);
  if (name == "names") {
    if (!check.names.empty()) return check.names;
    if (of_observer) return std::string(observer_absent);
    return std::nullopt;
  }
  if (name == "ratio_in_words") {
    const auto low = check.numbers.find("ratio_low"), high = check.numbers.find("ratio_high");
    if (low == check.numbers.end() || high == check.numbers.end()) return std::nullopt;
    return ratio_in_words(low->second, high->second);
  }
  const auto found = check.numbers.find(std::string(name));
  if (found == check.numbers.end()) return std::nullopt;
  return number_in_words(name, found->second, sign);
}

bool speaks_of_observer(std::string_view code) {
  return code == "flat_rating" || code == "ratings_bunched" || code == "digit_preference";
}

std::string fill_check(std::string_view words, const StudyCheck& check) {
  std::string text, part;
  bool in_part = false, keep = true;
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::string& to = in_part ? part : text;
    if (words[i] == '[') {
      in_part = keep = true;
      part.clear();
    } else if (words[i] == ']') {
      if (keep) text += part;
      in_part = false;
    } else if (words[i] == '{') {
      const std::size_t end = words.find('}', i);
      const std::string_view name = words.substr(i + 1, end - i - 1);
      const std::optional<std::string> value = value_of(check, name, speaks_of_observer(check.code));
      if (!value) keep = false;
      to += value.value_or("not known");
      i = end;
    } else {
      to += words[i];
    }
  }
  return text;
}

} // namespace

std::span<const CheckRow> check_table() { return checks; }
std::span<const LackRow> lack_table() { return lacks; }

std::string_view outcome_code(CheckOutcome outcome) {
  switch (outcome) {
  case CheckOutcome::passed:
    return "passed";
  case CheckOutcome::found:
    return "found";
  case CheckOutcome::numbers_only:
    return "numbers_only";
  case CheckOutcome::could_not_run:
    return "could_not_run";
  }
  return "";
}

std::string_view bias_in_words(Bias bias) {
  switch (bias) {
  case Bias::none:
    return "none";
  case Bias::too_light:
    return "station looks lighter than it is";
  case Bias::too_heavy:
    return "station looks heavier than it is";
  case Bias::either:
    return "either way";
  }
  return "";
}

CheckWords check_in_words(const StudyCheck& check) {
  CheckWords words{check.code, check.names, "not known", "not known", "not known"};
  for (const CheckRow& row : checks) {
    if (row.code != check.code) continue;
    words.check = row.check;
    if (check.outcome == CheckOutcome::passed)
      return {words.check, fill_check(row.passed, check), "none", "none", "none needed"};
    if (check.outcome == CheckOutcome::found)
      return {words.check, fill_check(row.found, check), std::string(bias_in_words(check.bias)),
              std::string(row.affects), std::string(row.remedy)};
    words.affects = row.affects;
    if (check.outcome == CheckOutcome::numbers_only)
      return {words.check, fill_check(row.numbers, check), row.to_tell.empty() ? "none" : "not shown",
              std::string(row.affects), std::string(row.to_tell.empty() ? row.remedy : row.to_tell)};
  }
  for (const LackRow& row : lacks) {
    if (row.code != check.lacks) continue;
    words.result = fill_check(row.words, check);
    words.remedy = row.remedy;
  }
  return words;
}

} // namespace docket::wording
