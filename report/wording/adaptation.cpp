#include "report/wording/adaptation.h"

#include "report/format.h"
#include "report/wording/tables.h"
#include "report/wording/wording.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace docket::wording {
namespace {

constexpr CodeWords reasons[] = {
    {"not_assessable_now", not_assessable_line},
    {"no_plain_cycle", "There is no plain cycle of this operator in the evidence[ ({})]."},
    {"no_cycle_without_help", "Every cycle seen was helped or cut short. How long the work takes without help was not "
                              "seen[ ({})]."},
    {"too_few_cycles", "The record is too short: it takes 60 plain cycles, on 3 worked days[ ({})]."},
    {"too_few_days", "The plain cycles are from fewer than 3 worked days. What one day does to the times can't be told "
                     "from what practice does[ ({})]."},
    {"cycles_hang_together",
     "Each cycle is much like the one before it[ (likeness {}, of 1 at most)]. So many cycles say "
     "hardly more than a few would."},
    {"helped_too_often", "More than a fifth of the cycles were helped or cut short. How long the work takes without "
                         "help is not known well enough[ ({})]."},
    {"improving",
     "The times still fall with own cycles, by more than the improvement that may be left at the end; so they "
     "do with the help counted in[ ({})]."},
    {"interrupted", "After the last break the times were longer than before it. By the cycles since, that is not made "
                    "good yet[ ({})]."},
    {"late_slope", "By all cycles together little improvement is left. The last half of them alone could still be "
                   "falling[ ({})]."},
    {"at_level", "Little improvement is left to see, in all cycles and in their last half alone. The settled level is "
                 "within the limit, with the help counted in too[ ({})]."},
    {"settled_above", "Little improvement is left to see, in all cycles and in their last half alone. The settled "
                      "level is above the limit, with the help counted in too[ ({})]."},
    {"straddles_limit", "Little improvement is left to see. The settled level is so near the limit that the cycles "
                        "can't tell on which side it lies[ ({})]."},
    {"differs_with_help", "Helped cycles can be counted as at least so long, or with the seconds of help added. The "
                          "two do not give the same answer, and a word must hold by both[ ({})]."},
    {"can_not_tell", "The cycles seen can't tell a level that is reached from one still improving[ ({})]."},
    {"identical_times", "Every plain cycle has the same time. That is a set value or a rounded one, not a person's own "
                        "times[ ({})]."},
    {"count_not_known",
     "How many own cycles came before the first one here is not known. Were it as many as were seen, "
     "the answer would be another."},
    {"count_estimated", "How many own cycles came before the first one here is estimated[: {}]. With half or double "
                        "that number the answer is another."},
    {"learned_or_came_back", "After a break the times were longer, and came back. Whether that was learning again or a "
                             "quicker coming back can't be told, and the two do not give the same answer."},
    {"hole_in_record",
     "In a gap of the record hardly a cycle of anybody is seen. Either nobody worked, or the cycles are "
     "missing; had this person worked on through it, the answer would be another."},
};

constexpr CodeWords would_decide[] = {
    {"cycles_without_help", "Cycles in which no help was needed, as they come. Help is not taken away to get them."},
    {"seconds_of_help", "The seconds of each help recorded (helped_s)."},
    {"more_cycles", "[{} ]more plain cycles, with help and stops marked."},
    {"more_days", "Plain cycles on more worked days[: {} at least]."},
    {"what_ties_cycles", "Finding what ties the cycles together: parts, line speed, the way of timing. More cycles of "
                         "the same kind will not decide it."},
    {"cycles_after_these",
     "Own cycles after these, recorded in the same way: the word ends when little is left to gain or to regain."},
    {"level_near_limit", "More cycles will rarely decide a level that lies at the limit; no number will for sure. A "
                         "second look at the limit, at the help given and at the conditions."},
    {"cycles_to_tell",
     "About [{} ]more plain cycles, in the same conditions, if the times go on as the averaged curves "
     "say. It can take more or fewer."},
    {"no_cycles_within_reach",
     "More plain cycles, in the same conditions: by the averaged curves, [{} ]more would still "
     "not tell. Nothing is said beyond these."},
    {"times_as_measured", "Times as measured, cycle by cycle."},
    {"count_before", "The number of own cycles before the first one here (prior_cycles in the table operators)."},
    {"what_came_in_the_hole", "The cycles of the gap in which nobody is seen; or word from those who know that nobody "
                              "worked then, and how many own cycles this person had by the end of it."},
};

constexpr CodeWords no_loss[] = {
    {"too_few_before", "not estimated: fewer than 60 plain cycles on 3 worked days before it"},
    {"too_few_after", "not estimated: too few plain cycles after it"},
};

constexpr CodeWords no_earlier_learners[] = {
    {"not_asked", "Nobody is asked about."},
    {"not_assessable_now", not_assessable_line},
    {"too_few", "It takes three earlier learners with a record from their beginning, and there are fewer."},
    {"too_few_for_band", "It takes five earlier learners for a band, so that no single one can be read from it."},
    {"no_practice", "No fall with practice is to be seen that the earlier learners share."},
    {"spread_not_seen", "The settled levels of the earlier learners can't be told apart."},
};

constexpr CodeWords bridge_absent[] = {
    {"not_assessable_now", not_assessable_line},
    {"no_estimates", "No practice curve could be fitted, so there is no settled level of this operator."},
    {"too_few_peers", "It takes three other settled operators to compare with, and there are fewer."},
};

// Rows: FITS, FITS ONLY IF, DOES NOT FIT, NOT SHOWN. Columns: at level; still learning or interrupted; not shown or not
// assessable; settled above; not asked.
constexpr std::string_view pairs[4][5] = {
    {"the file can close; agree a follow-up.", "a plan of support with dates, in words without fault.",
     "more data; anything open comes first; no finding about a person.",
     "look at the method shown, the conditions and the help given; no finding about a person.",
     "more data on the complaint; anything open comes first; no finding about a person."},
    {"restore the named conditions and study again.", "restore the named conditions, and support.",
     "restore the named conditions first.", "restore the named conditions first.",
     "restore the named conditions first."},
    {"change the content; a person at level does not cure it.", "change the content; B is no finding about a person.",
     "change the content.", "change the content.", "change the content."},
    {"a better study.", "the support goes on; no finding about a person.",
     "a better study; the help given meanwhile stays.", "a better study; the help given meanwhile stays.",
     "a better study; the help given meanwhile stays."},
};

std::string words_of(std::span<const CodeWords> table, std::string_view code, std::string_view detail) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const CodeWords& row) { return row.code == code; });
  if (found != table.end()) return fill_in(found->words, detail);
  return detail.empty() ? std::string(code) : std::string(code) + " (" + std::string(detail) + ")";
}

} // namespace

std::span<const CodeWords> adaptation_reason_table() { return reasons; }
std::span<const CodeWords> would_decide_adaptation_table() { return would_decide; }
std::span<const CodeWords> bridge_absent_table() { return bridge_absent; }
std::span<const CodeWords> no_loss_table() { return no_loss; }
std::span<const CodeWords> no_earlier_learners_table() { return no_earlier_learners; }

std::string_view finding_word(AdaptationWord word) {
  switch (word) {
  case AdaptationWord::at_level:
    return "AT LEVEL";
  case AdaptationWord::still_learning:
    return "STILL LEARNING";
  case AdaptationWord::settled_above:
    return "SETTLED ABOVE";
  case AdaptationWord::learning_interrupted:
    return "LEARNING INTERRUPTED";
  case AdaptationWord::not_shown:
    return "NOT SHOWN";
  case AdaptationWord::not_assessable_now:
    return "NOT ASSESSABLE NOW";
  }
  return "NOT SHOWN";
}

std::string_view what_the_pair_allows(ContentWord content, std::optional<AdaptationWord> adaptation) {
  std::size_t column = 4;
  if (adaptation == AdaptationWord::at_level) column = 0;
  if (adaptation == AdaptationWord::still_learning || adaptation == AdaptationWord::learning_interrupted) column = 1;
  if (adaptation == AdaptationWord::not_shown || adaptation == AdaptationWord::not_assessable_now) column = 2;
  if (adaptation == AdaptationWord::settled_above) column = 3;
  return pairs[static_cast<std::size_t>(content)][column];
}

std::string grid_sentence(ContentWord content, std::optional<AdaptationWord> adaptation, std::string_view operators) {
  std::string sentence = "A is " + std::string(finding_word(content)) + " and B";
  if (!operators.empty()) sentence += ", for " + std::string(operators) + ",";
  sentence += " is " + std::string(adaptation ? finding_word(*adaptation) : "not asked");
  return sentence + ": " + std::string(what_the_pair_allows(content, adaptation));
}

std::string about_count(double cycles) {
  const double step = cycles < 100 ? 1 : std::pow(10, std::floor(std::log10(cycles)) - 1);
  return format_count(std::llround(std::round(cycles / step) * step));
}

std::string adaptation_reason_in_words(const Reason& reason) { return words_of(reasons, reason.code, reason.detail); }

std::string would_decide_adaptation(const Reason& reason) { return words_of(would_decide, reason.code, reason.detail); }

std::string bridge_absent_in_words(std::string_view code) { return words_of(bridge_absent, code, ""); }

std::string cycles_to_go_in_words(const CyclesToGo& to_go, std::int64_t horizon_cycles) {
  const std::string beyond = format_count(horizon_cycles) + " own cycles after the last one seen";
  if (to_go.median && *to_go.median < 0.5) {
    if (to_go.high && *to_go.high < 0.5) return "None: today's level is within the limit.";
    if (to_go.high)
      return "None, or up to " + about_count(*to_go.high) + " own cycles: today's level is about at the limit.";
    return "Today's level is about at the limit; no upper end can be given.";
  }
  if (to_go.median) {
    const std::string from = to_go.low ? about_count(*to_go.low) : "0";
    if (to_go.high)
      return "About " + about_count(*to_go.median) + " own cycles, " + from + " to " + about_count(*to_go.high) +
             ", until the level is within the limit.";
    return "About " + about_count(*to_go.median) + " own cycles until the level is within the limit, " + from +
           " at least; no upper end can be given.";
  }
  if (to_go.low)
    return "Not within the limit " + beyond + ", by the middle estimate; " + about_count(*to_go.low) +
           " at the earliest.";
  return "Not within the limit " + beyond + ". Nothing is said beyond these.";
}

std::string cycles_to_go_in_short(const CyclesToGo& to_go) {
  const std::string low = to_go.low ? about_count(*to_go.low) : "no lower end";
  const std::string high = to_go.high ? about_count(*to_go.high) : "no upper end";
  if (!to_go.median) return to_go.low ? "no middle estimate (" + low + " at the earliest)" : "no end within reach";
  if (*to_go.median < 0.5 && to_go.high && *to_go.high < 0.5) return "none";
  return "about " + about_count(*to_go.median) + " (" + low + " to " + high + ")";
}

std::string count_before_in_words(const PracticeSeries& series, const std::vector<std::int64_t>& tried) {
  const bool hole = std::any_of(series.breaks.begin(), series.breaks.end(),
                                [](const PracticeBreak& found) { return found.nobody_seen; });
  const std::string at_least = hole ? ", at least: the record has a gap in which hardly anybody is seen" : "";
  if (!series.first_cycle_estimated) return at_least;
  std::string words = series.before == 0
                          ? ", what came before is not known and taken as none"
                          : ", estimated: " + format_count(series.before) + " taken to come before the first one here";
  std::string others;
  for (const std::int64_t before : tried) others += (others.empty() ? "" : " and ") + format_count(before);
  if (!others.empty()) words += "; tried with " + others + " too";
  return words + at_least;
}

std::string in_worked_days(const CyclesToGo& to_go, const PracticeSeries& series) {
  if (!to_go.median || *to_go.median < 0.5 || series.days == 0) return "";
  const double a_day = static_cast<double>(series.last_cycle - series.first_cycle + 1) / series.days;
  const auto days = [&](double cycles) { return std::max<std::int64_t>(1, std::llround(std::ceil(cycles / a_day))); };
  const std::int64_t low = days(to_go.low.value_or(0)), high = to_go.high ? days(*to_go.high) : 0;
  std::string range = format_count(low);
  if (!to_go.high)
    range += " or more";
  else if (high != low)
    range += " to " + format_count(high);
  const std::string unit = to_go.high && high == 1 ? " worked day" : " worked days";
  return " At " + about_count(a_day) + " own cycles a worked day, as seen here: " + range + unit + ".";
}

std::string asked_not_in_data_in_words(const std::vector<std::string>& codes) {
  std::string list;
  for (const std::string& code : codes) list += (list.empty() ? "" : ", ") + code;
  return "B is asked about " + list + ", of whom no cycle stands in the evidence. Please check the code.";
}

std::string break_in_words(const PracticeBreak& found) {
  switch (found.kind) {
  case BreakKind::gap:
    return "gap of " + format_count((found.day - found.last_before).count()) + " days" +
           (found.nobody_seen ? " (hardly a cycle of anybody in it: nobody worked, or the record has a hole)" : "");
  case BreakKind::new_variant:
    return "new variant " + found.what;
  case BreakKind::training:
    return "training" + (found.what.empty() ? std::string() : ": " + found.what);
  }
  return "";
}

std::string signed_percent(double share) { return (share < 0 ? "\u2212" : "+") + format_percent(std::abs(share)); }

std::string no_loss_in_words(std::string_view code) { return words_of(no_loss, code, ""); }

std::string interruption_in_words(const Interruption& interruption) {
  std::string words =
      "Break: " + break_in_words(interruption.at) + ", after own cycle " + format_count(interruption.at.after);
  if (!interruption.loss) return words + "; what was lost is " + no_loss_in_words(interruption.none_why) + ".";
  const Loss& loss = *interruption.loss;
  words += ". Against the level before, the first times after it: " + signed_percent(loss.share) + " (" +
           signed_percent(loss.low) + " to " + signed_percent(loss.high) + ")";
  if (interruption.loss_shown && interruption.cycles_lost)
    words += ", as if about " + about_count(*interruption.cycles_lost) + " own cycles had not been done";
  if (interruption.loss_shown && !interruption.cycles_lost)
    words += ", more than the curve before had ever gained; only the cycles since are looked at";
  return words + ". Own cycles since: " + format_count(interruption.since) + ".";
}

std::string others_above_in_words(const std::optional<OthersAbove>& others) {
  if (!others) return "Others above the limit too: not known, there are fewer than three other settled operators in A.";
  return "Others above the limit too: " + format_count(others->above) + " of the " + format_count(others->of) +
         " other settled operators of A.";
}

std::string borrowed_from(int learners) {
  return "borrowed from " + format_count(learners) + " earlier learners, not this person's own";
}

std::string no_earlier_learners_in_words(std::string_view code) { return words_of(no_earlier_learners, code, ""); }

std::string against_limit(const TimeEstimate& level, Seconds limit) {
  if (level.high && *level.high <= limit) return "within the limit";
  if (level.low && *level.low > limit) return "above the limit";
  return "on either side of the limit, by its interval";
}

std::string_view model_in_words(CurveModel model) {
  switch (model) {
  case CurveModel::constant:
    return "no change: one level throughout";
  case CurveModel::power:
    return "falls by a share with every doubling, without end";
  case CurveModel::power_plateau:
    return "the same, down to a floor";
  case CurveModel::exponential_plateau:
    return "falls to a floor, by the same share of what is left each cycle";
  case CurveModel::hyperbolic_plateau:
    return "falls to a floor, ever more slowly";
  case CurveModel::two_phase:
    return "falls to a floor in two phases, a quick one and a slow one";
  }
  return "";
}

BridgeWords bridge_term_in_words(std::string_view term) {
  static constexpr std::array<BridgeWords, 5> words{{{"The standard, own mix", "against the limit"},
                                                     {"Other settled operators", "against that standard"},
                                                     {"Own settled level", "against those operators"},
                                                     {"Today's level", "against the own settled level"},
                                                     {"Mean of the cycles seen", "against today's level"}}};
  for (std::size_t i = 0; i < bridge_terms.size(); ++i)
    if (bridge_terms[i] == term) return words[i];
  return {term, ""};
}

} // namespace docket::wording
