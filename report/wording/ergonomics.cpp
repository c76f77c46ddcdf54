#include "report/wording/ergonomics.h"

#include <algorithm>
#include <array>

namespace docket::wording {
namespace {

constexpr CodeWords reasons[] = {
    // Lifting
    {"load_not_positive", "The load is not above 0."},
    {"h_not_positive", "The distance of the hands from the ankles is 0: no such lift can be described."},
    {"h_beyond_range", "The hands are further than 63 cm from the ankles, beyond the range of the method."},
    {"v_negative", "The height of the hands lies below the floor."},
    {"v_beyond_range", "The hands are higher than 175 cm, beyond the range of the method."},
    {"d_not_positive",
     "The load goes neither up nor down: that is no lift, and carrying is not covered by the method."},
    {"d_beyond_range", "The load goes further than 175 cm up or down, beyond the range of the method."},
    {"a_negative", "The turn to the side is negative."},
    {"a_beyond_range", "The body turns more than 135 degrees, beyond the range of the method."},
    {"per_min_not_positive", "The frequency is not above 0."},
    {"per_min_beyond_table",
     "Lifted more often than the table of the method goes for these hours and this height of the hands."},
    {"hours_not_positive", "The hours are not above 0."},
    {"hours_beyond_range", "More than 8 hours a shift, beyond the range of the method."},
    {"h_taken_as_least", "Hands nearer than 25 cm count as 25 cm, as the method says."},
    {"d_taken_as_least", "A way below 25 cm counts as 25 cm, as the method says."},
    {"a_not_given", "No turn of the body is given; taken as none."},
    {"coupling_not_given", "How well the hands hold the load is not given; taken as poor."},
    {"frequency_taken_as_least", "Seldom lifted; counts as once in five minutes, as the method says."},
    {"frequency_between_rows", "The frequency lies between two rows of the table; taken on a straight line (common "
                               "practice)."},
    {"hours_not_given", "Hours a shift are not given."},
    {"recovery_not_given", "What follows these lifts is not given; taken as too little rest or light work for a "
                           "shorter class of hours, so as up to 8 h."},
    {"recovery_too_short", "Rest or light work that follows is too short for the class of these hours; the next class "
                           "counts."},
    {"d_is_not_the_height_difference", "The way of the load is not the difference of its two heights; please check."},
    {"fewer_than_two_tasks", "There are fewer than two lifts."},
    {"task_without_number", "No number for one of the lifts[: {}]."},
    {"sum_of_frequencies_beyond_table",
     "Together they are lifted more often than the table of the method goes[, from {} on]."},
    // Efforts
    {"force_not_positive", "The force is not above 0."},
    {"seconds_not_positive", "The seconds held are not above 0."},
    {"times_not_positive", "How often on a unit is not above 0."},
    {"share_out_of_range", "No unit of the planned mix has it."},
    {"duty_below_range", "Held for less than one second in 8 hours, below the range of the method."},
    {"duty_above_one", "Held longer than the whole cycle: so it can't be done on this line."},
    {"strength_not_given", "Not assessed: no strength value."},
    {"strength_not_positive", "Not assessed: the strength value is not above 0."},
    {"strength_source_not_given", "Not assessed: the strength value has no source."},
    {"few_data_at_this_duty", "Held for half the cycle and more: few of the method's data lie there."},
    {"force_above_strength", "The force is above the strength value itself."},
    {"effort_not_usable", "One effort of this hand has no number[: {}]. Nothing is added up."},
    {"effort_without_strength", "One effort of this hand has no strength value with a source[: {}]."},
    {"equation_is_for_one_effort",
     "The equation is for one kind of effort repeated; here it is used on the sum of several."},
    {"cycle_not_positive", "The line cycle time is not above 0."},
    // Strain indices
    {"exerted_out_of_range", "The share of the time exerted is not between 0 and 1."},
    {"intensity_rating_not_given", "No rating of the effort is given."},
    {"posture_rating_not_given", "No rating of the wrist is given."},
    {"speed_rating_not_given", "No rating of the speed is given."},
    {"intensity_out_of_range", "The force is not between 0 and the strength value."},
    {"angle_out_of_range", "The angle of the wrist is not between 0 and 90 degrees."},
    {"wrist_angle_not_given", "No angle of the wrist is given."},
    {"posture_neutral_taken_as_straight", "Posture \"neutral\" is taken as a straight wrist."},
    // Repetition
    {"pattern_not_given", "Seconds in one motion pattern are not given (pattern_s)."},
    {"pattern_negative", "Seconds in one motion pattern are negative."},
    {"pattern_beyond_cycle", "The seconds in one motion pattern are longer than the cycle."},
    {"busy_not_given", "The work of the average unit is not known."},
    {"busy_negative", "The work of the average unit is negative."},
    {"busy_beyond_cycle", "The work of the average unit is longer than the cycle: nothing of it is left for recovery."},
    {"cycles_per_shift_not_given", "Cycles a shift are not known (cycles_per_shift, or a log)."},
    {"cycles_per_shift_not_positive", "Cycles a shift are not above 0."},
    {"asked_cycle_not_positive", "The line cycle time asked about is not above 0."},
};

constexpr CodeWords ranges[] = {
    {"two_hands_standing", "both hands, standing"},
    {"at_most_8_hours", "at most 8 hours a shift"},
    {"stable_load_in_open_space", "a stable load in open space"},
    {"no_push_pull_carry", "no pushing, pulling or carrying"},
    {"usual_climate_sure_footing", "usual climate, sure footing"},
    {"short_bouts_not_averaged_over_15_minutes", "bouts shorter than 15 minutes are not averaged here"},
    {"as_revised_lifting_equation", "all that holds for each lift"},
    {"one_load_a_task", "one load a lift"},
    {"tasks_of_one_job", "lifts of one job, done in turn by one person"},
    {"upper_limb_repeated_efforts", "repeated efforts of hand and arm"},
    {"few_data_above_half_the_cycle", "few data where an effort is held for half the cycle and more"},
    {"one_kind_of_effort", "one kind of effort"},
    {"models_disagree_widely", "published models differ widely from one another"},
    {"hand_wrist_forearm", "hand, wrist and forearm only"},
    {"no_vibration_or_contact_stress", "no vibration, no pressure on the skin"},
    {"one_task", "one task at a time"},
    {"ratings_are_judgement", "three of its six inputs are judgement"},
    {"defines_exposure_groups_is_no_limit", "it tells exposure groups of a study apart and is no limit"},
    {"hand_and_wrist", "hand and wrist"},
};

struct MethodRow {
  std::string_view code, name, short_source, source, certainty, short_range;
};

constexpr MethodRow methods[] = {
    {"revised_lifting_equation", "Revised lifting equation", "Waters, Putz-Anderson & Garg 1994",
     "T. R. Waters, V. Putz-Anderson, A. Garg, Applications manual for the revised NIOSH lifting equation, DHHS "
     "(NIOSH) "
     "94-110, 1994, revised 2021",
     "published; from memory, to be confirmed: multipliers of 11 and more lifts a minute, of poor hold, and the rule "
     "for "
     "recovery",
     "two hands, standing, at most 8 h"},
    {"composite_lifting_index", "Composite lifting index", "the same manual", "the same manual, section 2.4",
     "the order of the lifts is published; the sum is from memory, to be confirmed", "one job"},
    {"maximum_acceptable_effort", "Maximum acceptable effort", "Potvin 2012",
     "J. R. Potvin, Human Factors 54 (2012), 175-188; spread of 0.07 of the strength: M. W. Sonne, J. R. Potvin, "
     "Ergonomics 58 (2015), 118-127",
     "the equation is from memory, to be confirmed", "repeated efforts of hand and arm"},
    {"strain_index", "Strain index, 1995", "Moore & Garg 1995", "J. S. Moore, A. Garg, AIHA Journal 56 (1995), 443-458",
     "multipliers of intensity are published; the others are from memory, to be confirmed",
     "hand, wrist, forearm; by ratings"},
    {"revised_strain_index", "Revised strain index, 2017", "Garg, Moore & Kapellusch 2017",
     "A. Garg, J. S. Moore, J. M. Kapellusch, Ergonomics 60 (2017), 912-922",
     "its equations are from memory, to be confirmed", "hand, wrist, forearm"},
    {"repetition", "Repetition", "Silverstein, Fine & Armstrong 1986",
     "B. A. Silverstein, L. J. Fine, T. J. Armstrong, British Journal of Industrial Medicine 43 (1986), 779-784",
     "its two thresholds are from memory, to be confirmed", "hand and wrist; no limit"},
};

std::string_view words_of(std::span<const CodeWords> table, std::string_view code) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const CodeWords& row) { return row.code == code; });
  return found == table.end() ? code : found->words;
}

} // namespace

ScreeningWords method_in_words(const ScreeningMethod& method) {
  ScreeningWords words;
  for (const std::string_view code : method.range)
    words.range += (words.range.empty() ? "" : "; ") + std::string(words_of(ranges, code));
  for (const MethodRow& row : methods) {
    if (row.code != method.code) continue;
    words.name = row.name;
    words.source = row.source;
    words.short_source = row.short_source;
    words.certainty = row.certainty;
    words.short_range = row.short_range;
  }
  return words;
}

std::string screening_reason_in_words(const Reason& reason) {
  const std::string_view words = words_of(reasons, reason.code);
  if (words == reason.code) return reason.detail.empty() ? reason.code : reason.code + " (" + reason.detail + ")";
  return fill_in(words, reason.detail);
}

std::string screening_reasons_in_words(std::span<const Reason> all) {
  std::string text;
  for (const Reason& reason : all) text += (text.empty() ? "" : " ") + screening_reason_in_words(reason);
  return text;
}

std::string_view hand_of_effort(Hand hand) {
  switch (hand) {
  case Hand::left:
    return "left";
  case Hand::right:
    return "right";
  case Hand::both:
  case Hand::not_given:
    return "both";
  }
  return "both";
}

std::string_view duration_in_words(LiftDuration duration) {
  switch (duration) {
  case LiftDuration::up_to_1_h:
    return "up to 1 h";
  case LiftDuration::up_to_2_h:
    return "up to 2 h";
  case LiftDuration::up_to_8_h:
    return "up to 8 h";
  }
  return "up to 8 h";
}

std::string ratings_in_words(const Effort& effort) {
  static constexpr std::array<std::string_view, 5> intensities{"light", "somewhat hard", "hard", "very hard",
                                                               "near maximal"};
  static constexpr std::array<std::string_view, 5> postures{"very good", "good", "fair", "bad", "very bad"};
  static constexpr std::array<std::string_view, 5> speeds{"very slow", "slow", "fair", "fast", "very fast"};
  std::string text;
  const auto say = [&](std::string_view what, std::string_view rating) {
    text += (text.empty() ? "" : ", ") + std::string(what) + std::string(rating);
  };
  if (effort.rated_intensity) say("effort ", intensities[static_cast<std::size_t>(*effort.rated_intensity)]);
  if (effort.rated_posture) say("wrist ", postures[static_cast<std::size_t>(*effort.rated_posture)]);
  if (effort.rated_speed) say("speed ", speeds[static_cast<std::size_t>(*effort.rated_speed)]);
  return text;
}

std::string_view coupling_in_words(Coupling coupling) {
  static constexpr std::array<std::string_view, 3> words{"good", "fair", "poor"};
  return words[static_cast<std::size_t>(coupling)];
}

std::vector<std::string_view> ergonomics_texts() {
  std::vector<std::string_view> texts{
      screening_line,        open_matter_first, nothing_is_cleared,        ratings_not_from_sheet,
      what_lifting_index_is, what_composite_is, what_acceptable_effort_is, what_in_a_row_is,
      what_hands_are,        what_recovery_is,  what_strain_indices_are,   what_faster_line_does,
      beyond_the_cycle};
  for (const CodeWords& row : reasons) texts.push_back(row.words);
  for (const CodeWords& row : ranges) texts.push_back(row.words);
  for (const MethodRow& row : methods)
    texts.insert(texts.end(), {row.name, row.source, row.certainty, row.short_range});
  return texts;
}

std::span<const CodeWords> screening_reason_table() { return reasons; }

} // namespace docket::wording
