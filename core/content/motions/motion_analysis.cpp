#include "core/content/motions/motion_analysis.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace docket {

namespace {

constexpr double stated_agrees_within = 0.05; // [TMU] half a unit of the last digit of the table
constexpr double longest_usual_distance = 30; // [in] where the rows of reach and move end

/// One row with what is known of it on the way.
struct Worked {
  std::optional<MotionCode> motion;
  MotionStepTime time;
};

using Problems = std::vector<MotionProblem>;

void time_from_plant(const MotionStep& row, std::size_t at, const PlantMotionTable& plant, Worked& worked,
                     Problems& problems) {
  const auto found = plant.by_code.find(worked.time.code);
  if (found == plant.by_code.end()) {
    problems.push_back({"not_in_plant_table", at, "The plant's own motion table does not hold " + row.code + ".",
                        "Add the code to motion_table, or correct it. The shipped table is not used beside it."});
    return;
  }
  worked.time.tmu = found->second.tmu;
  worked.time.formula = plain_number(found->second.tmu);
  worked.time.plant_row = found->second.origin;
}

void report_memory(std::size_t at, const MotionStepTime& time, Problems& problems) {
  std::string values;
  for (const MotionValueUsed& value : time.used)
    if (value.origin.status != MotionValueStatus::found)
      values += (values.empty() ? "" : "; ") + value.what + " (" + std::string(words_of(value.origin.status)) + ")";
  if (values.empty()) return;
  problems.push_back({"value_from_memory", at, "Of the shipped table, not confirmed in print: " + values + ".",
                      "Compare it with a printed table, or give the plant's own motion_table."});
}

void time_from_shipped(const MotionStep& row, std::size_t at, const MotionTimes& shipped, const ReadMotionCode& read,
                       Worked& worked, Problems& problems) {
  if (!read.motion) {
    problems.push_back({"unreadable_code", at, read.wrong, read.right});
    return;
  }
  MotionTime found = time_of_motion(shipped, *read.motion, row.hand == Hand::both);
  if (!found.tmu) {
    problems.push_back({found.code, at, found.wrong, found.right});
    return;
  }
  worked.time.tmu = found.tmu;
  worked.time.formula = std::move(found.formula);
  worked.time.used = std::move(found.used);
  const bool of_the_arm = read.motion->kind == MotionKind::reach || read.motion->kind == MotionKind::move;
  if (of_the_arm && read.motion->distance > longest_usual_distance)
    problems.push_back({"distance_over_30", at,
                        plain_number(read.motion->distance) + " in is farther than an arm reaches.",
                        "Codes are in inches; 30 in is 76 cm. Is the code made for centimetres?"});
  report_memory(at, worked.time, problems);
}

Worked work_out(const MotionStep& row, std::size_t at, const MotionTimes& shipped, const PlantMotionTable* plant,
                Problems& problems) {
  Worked worked;
  const ReadMotionCode read = read_motion_code(row.code);
  worked.motion = read.motion;
  worked.time.code = usual_spelling(row.code);
  if (!(row.per_element > 0) || !std::isfinite(row.per_element)) {
    problems.push_back({"count_not_positive", at, "per_element is not above 0.",
                        "Give how often the motion is done in the element: 1, 2, or a share such as 0.1."});
    return worked;
  }
  if (plant)
    time_from_plant(row, at, *plant, worked, problems);
  else
    time_from_shipped(row, at, shipped, read, worked, problems);
  if (!worked.time.tmu) return worked;

  worked.time.per_element_tmu = row.per_element * *worked.time.tmu;
  // The tiny part lets a difference of exactly half a digit agree whatever the last bits of a double say.
  if (row.stated_tmu && !(std::abs(*row.stated_tmu - *worked.time.tmu) <= stated_agrees_within + 1e-9))
    problems.push_back({"stated_differs", at,
                        "Stated " + plain_number(*row.stated_tmu) + " TMU, the table gives " +
                            plain_number(*worked.time.tmu) + " (" + worked.time.formula + "): difference " +
                            plain_number(*row.stated_tmu - *worked.time.tmu) + ".",
                        "The table's value is used. Correct the code, or the time stated."});
  return worked;
}

/// Two hands doing the same simple motion need no table of pairs.
bool simple_pair(const std::optional<MotionCode>& a, const std::optional<MotionCode>& b) {
  if (!a || !b || a->kind != b->kind) return false;
  const auto one_of = [](char letter, std::string_view letters) { return letters.find(letter) != letters.npos; };
  switch (a->kind) {
  case MotionKind::reach:
    return one_of(a->motion_case, "ABE") && one_of(b->motion_case, "ABE");
  case MotionKind::move:
    return one_of(a->motion_case, "AB") && one_of(b->motion_case, "AB");
  case MotionKind::release:
    return true;
  case MotionKind::grasp:
    return a->text == "G5" && b->text == "G5";
  default:
    return false;
  }
}

/// One of the two hands alone: what the other hand, both or an unknown one does is not its own.
bool of_two_hands(Hand a, Hand b) { return a != b && a != Hand::both && b != Hand::both; }

/// The rows of one step: which counts, and what is not known about them.
struct StepSum {
  double longest = 0, one_after_another = 0; // [TMU]
};

StepSum close_step(std::span<const MotionStep> rows, std::span<const std::size_t> in_step, std::vector<Worked>& worked,
                   Problems& problems) {
  StepSum sum;
  const auto per_element = [&](std::size_t row) { return worked[row].time.per_element_tmu; };
  std::optional<std::size_t> limiting; // the first of the longest
  std::array<double, 4> of_hand{};
  std::vector<std::size_t> timed;
  for (const std::size_t row : in_step) {
    if (!worked[row].time.tmu) continue;
    timed.push_back(row);
    if (!limiting || per_element(row) > per_element(*limiting)) limiting = row;
    double& hand = of_hand[static_cast<std::size_t>(rows[row].hand)];
    // Of unknown hands each could be the same hand's next motion.
    hand = rows[row].hand == Hand::not_given ? hand + per_element(row) : std::max(hand, per_element(row));
  }
  if (limiting) {
    worked[*limiting].time.counts = true;
    sum.longest = per_element(*limiting);
  }
  sum.one_after_another = sum.longest;

  bool unchecked = false;
  for (std::size_t j = 1; j < timed.size(); ++j)
    for (std::size_t i = 0; i < j; ++i) {
      const MotionStep &a = rows[timed[i]], &b = rows[timed[j]];
      const bool hand_unknown = a.hand == Hand::not_given || b.hand == Hand::not_given;
      if (!of_two_hands(a.hand, b.hand) && !hand_unknown) continue;
      if (!hand_unknown && simple_pair(worked[timed[i]].motion, worked[timed[j]].motion)) continue;
      unchecked = true;
      problems.push_back({"pair_not_checked", timed[j],
                          worked[timed[i]].time.code + " and " + worked[timed[j]].time.code +
                              " are taken as done at the same time. The program has no published table that says "
                              "whether they can be" +
                              (hand_unknown ? ", and the hand is not given." : "."),
                          "Check the pair. If they are done one after the other, give them different step numbers.",
                          timed[i]});
      break; // one pair a row is enough to look at the step
    }
  if (unchecked) {
    double total = 0;
    for (const double hand : of_hand) total += hand;
    sum.one_after_another = total;
  }
  for (std::size_t i = 1; i < in_step.size(); ++i)
    if (rows[in_step[i]].per_element != rows[in_step[0]].per_element) {
      problems.push_back({"counts_differ", in_step[i],
                          "Rows of one step are done " + plain_number(rows[in_step[0]].per_element) + " and " +
                              plain_number(rows[in_step[i]].per_element) + " times in the element.",
                          "The longest of count times time is used. Give motions done at once the same count, or "
                          "different step numbers."});
      break;
    }
  return sum;
}

} // namespace

bool add_motion(PlantMotionTable& table, std::string_view code, double tmu, SourceRow origin) {
  return table.by_code.insert({usual_spelling(code), {tmu, origin}}).second;
}

ElementMotionTime analyse_element(std::span<const MotionStep> rows, const MotionTimes& shipped,
                                  const PlantMotionTable* plant) {
  ElementMotionTime element;
  std::vector<Worked> worked;
  std::map<std::int64_t, std::vector<std::size_t>> steps;
  bool all_timed = !rows.empty();
  for (std::size_t row = 0; row < rows.size(); ++row) {
    worked.push_back(work_out(rows[row], row, shipped, plant, element.problems));
    steps[rows[row].step].push_back(row);
    all_timed = all_timed && worked.back().time.tmu.has_value();
  }
  double sum = 0;
  for (const auto& [step, in_step] : steps) {
    const StepSum of_step = close_step(rows, in_step, worked, element.problems);
    sum += of_step.longest;
    element.tmu_one_after_another += of_step.one_after_another;
  }
  if (all_timed) element.tmu = sum;
  for (Worked& row : worked) element.rows.push_back(std::move(row.time));
  std::stable_sort(element.problems.begin(), element.problems.end(),
                   [](const MotionProblem& a, const MotionProblem& b) { return a.row < b.row; });
  return element;
}

double element_uncertainty_from_second_analysis(double first, double second) {
  return std::abs(first - second) / std::sqrt(2.0);
}

} // namespace docket
