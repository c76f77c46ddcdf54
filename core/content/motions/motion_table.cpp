#include "core/content/motions/motion_table.h"

#include <algorithm>
#include <array>

namespace docket {

namespace {

MotionTime without_time(std::string code, std::string wrong, std::string right) {
  MotionTime time;
  time.code = std::move(code);
  time.wrong = std::move(wrong);
  time.right = std::move(right);
  return time;
}

/// A printed value and its place; `what` begins with the motion.
struct Printed {
  double tmu = 0;
  MotionValueUsed used;
};

std::optional<Printed> find_printed(const MotionTimes& table, const std::string& code) {
  const auto found = table.by_code.find(code);
  if (found == table.by_code.end()) return std::nullopt;
  return Printed{found->second.tmu, {code, found->second.origin}};
}

MotionTime not_in_table(const MotionCode& motion) {
  return without_time("not_in_table", "The table has no time for " + motion.text + ".",
                      "Give the time in the plant's own table, or write the motion as others of the table.");
}

struct Lookup {
  const DistanceTable& table;
  std::size_t column;
  std::string motion, unit, column_name; ///< "move", "in", "B"
};

MotionValueUsed used(const Lookup& lookup, const DistanceRow& row) {
  return {lookup.motion + " " + plain_number(row.distance) + " " + lookup.unit + ", " + lookup.column_name, row.origin};
}

MotionTime time_over_distance(const Lookup& lookup, double distance) {
  const auto& rows = lookup.table.rows;
  const auto tmu = [&](const DistanceRow& row) {
    return lookup.column < row.tmu.size() ? row.tmu[lookup.column] : std::nullopt;
  };
  const auto beyond = [&] {
    return without_time("beyond_table",
                        "The table ends at " + plain_number(rows.back().distance) + " " + lookup.unit + " for " +
                            lookup.motion + " " + lookup.column_name + ".",
                        "Look at the distance again, or describe the motion as several.");
  };
  if (rows.empty()) return without_time("not_in_table", "The table has no " + lookup.motion + ".", "Give the table.");

  MotionTime time;
  const auto upper = std::lower_bound(rows.begin(), rows.end(), distance,
                                      [](const DistanceRow& row, double d) { return row.distance < d; });
  if (upper == rows.end()) {
    const auto last = tmu(rows.back());
    const auto& over = lookup.table.each_inch_over_last;
    const auto each = over ? tmu(*over) : std::nullopt;
    if (!last || !each) return beyond();
    const double further = distance - rows.back().distance;
    time.tmu = *last + further * *each;
    time.formula = plain_number(*last) + " + " + plain_number(further) + " x " + plain_number(*each);
    time.used = {used(lookup, rows.back()),
                 {lookup.motion + ", each further inch, " + lookup.column_name, over->origin}};
    return time;
  }
  const auto above = tmu(*upper);
  if (!above) return beyond();
  if (upper->distance == distance || upper == rows.begin()) {
    time.tmu = above;
    time.formula = plain_number(*above);
    time.used = {used(lookup, *upper)};
    return time;
  }
  const DistanceRow& lower = *(upper - 1);
  const auto below = tmu(lower);
  if (!below) return beyond();
  const double share = (distance - lower.distance) / (upper->distance - lower.distance);
  time.tmu = *below + share * (*above - *below);
  time.formula = plain_number(*below) + " + (" + plain_number(*above) + " - " + plain_number(*below) + ") x (" +
                 plain_number(distance) + " - " + plain_number(lower.distance) + ") / " +
                 plain_number(upper->distance - lower.distance);
  time.used = {used(lookup, lower), used(lookup, *upper)};
  return time;
}

MotionTime no_time_in_motion(const MotionCode& motion) {
  const bool both = motion.in_motion.before && motion.in_motion.after;
  return without_time("not_in_table",
                      both ? "The table has no time for a hand that moves at both ends of it."
                           : std::string("The table has no time for a hand in motion in this case, ") +
                                 motion.motion_case + ".",
                      "It has them for a hand that moves at one end: reach A and B, move B.");
}

std::string column_name(char motion_case, bool in_motion) {
  return (in_motion ? "in motion " : "") + std::string(1, motion_case);
}

MotionTime time_of_reach(const MotionTimes& table, const MotionCode& motion) {
  const bool in_motion = motion.in_motion.before || motion.in_motion.after;
  if (motion.in_motion.before && motion.in_motion.after) return no_time_in_motion(motion);
  if (in_motion && motion.motion_case > 'B') return no_time_in_motion(motion);
  constexpr std::array<std::size_t, 5> at_rest{0, 1, 2, 2, 3}; // C and D share a column
  const auto letter = static_cast<std::size_t>(motion.motion_case - 'A');
  const std::size_t column = in_motion ? 4 + letter : at_rest[letter];
  return time_over_distance({table.reach, column, "reach", "in", column_name(motion.motion_case, in_motion)},
                            motion.distance);
}

MotionTime time_of_move(const MotionTimes& table, const MotionCode& motion, bool in_both_hands) {
  const bool in_motion = motion.in_motion.before || motion.in_motion.after;
  if (motion.in_motion.before && motion.in_motion.after) return no_time_in_motion(motion);
  if (in_motion && motion.motion_case != 'B') return no_time_in_motion(motion);
  const std::size_t column = in_motion ? 3 : static_cast<std::size_t>(motion.motion_case - 'A');
  MotionTime time = time_over_distance({table.move, column, "move", "in", column_name(motion.motion_case, in_motion)},
                                       motion.distance);
  if (!time.tmu || motion.weight == 0) return time;

  const double weight = in_both_hands || motion.weight_shared ? motion.weight / 2 : motion.weight;
  const auto row = std::find_if(table.move_weight.begin(), table.move_weight.end(),
                                [&](const WeightRow& r) { return weight <= r.up_to; });
  if (row == table.move_weight.end())
    return without_time("weight_beyond_table",
                        "The table ends at " +
                            plain_number(table.move_weight.empty() ? 0 : table.move_weight.back().up_to) +
                            " lb a hand; this is " + plain_number(weight) + " lb.",
                        "Look at the weight again. Codes are in pounds.");
  time.used.push_back({"weight up to " + plain_number(row->up_to) + " lb", row->origin});
  if (row->factor == 1 && row->constant == 0) return time;
  time.tmu = row->constant + row->factor * *time.tmu;
  const bool sum = time.formula.find(' ') != std::string::npos;
  time.formula = plain_number(row->constant) + " + " + plain_number(row->factor) + " x " +
                 (sum ? "(" + time.formula + ")" : time.formula);
  if (weight != motion.weight) time.formula += ", " + plain_number(weight) + " lb a hand";
  return time;
}

MotionTime time_of_turn(const MotionTimes& table, const MotionCode& motion) {
  if (!table.turn.rows.empty() && motion.degrees < table.turn.rows.front().distance)
    return without_time("below_table",
                        "The table begins at " + plain_number(table.turn.rows.front().distance) + " degrees.",
                        "Look at the angle again; a smaller turn has no printed time.");
  const std::size_t column = motion.motion_case == 'S' ? 0 : motion.motion_case == 'M' ? 1 : 2;
  return time_over_distance({table.turn, column, "turn", "degrees", std::string(1, motion.motion_case)},
                            motion.degrees);
}

MotionTime time_of_eye_travel(const MotionTimes& table, const MotionCode& motion) {
  const auto factor = find_printed(table, "ET_factor"), most = find_printed(table, "ET_most");
  if (!factor || !most) return not_in_table(motion);
  const double travel = factor->tmu * motion.eye_between / motion.eye_away;
  MotionTime time;
  time.tmu = std::min(travel, most->tmu);
  time.formula =
      plain_number(factor->tmu) + " x " + plain_number(motion.eye_between) + " / " + plain_number(motion.eye_away);
  time.used = {factor->used};
  if (travel > most->tmu) {
    time.formula += ", at most " + plain_number(most->tmu);
    time.used.push_back(most->used);
  }
  return time;
}

/// Leg motion and side step: one printed distance, and the time of each inch over it.
MotionTime time_over_first(const MotionTimes& table, const MotionCode& motion, double first, const std::string& base,
                           const std::string& each_inch) {
  const auto at_first = find_printed(table, base), each = find_printed(table, each_inch);
  if (!at_first || !each) return not_in_table(motion);
  MotionTime time;
  time.tmu = at_first->tmu;
  time.formula = plain_number(at_first->tmu);
  time.used = {at_first->used};
  if (motion.distance > first) {
    const double further = motion.distance - first;
    *time.tmu += further * each->tmu;
    time.formula += " + " + plain_number(further) + " x " + plain_number(each->tmu);
    time.used.push_back(each->used);
  }
  return time;
}

MotionTime time_of_side_step(const MotionTimes& table, const MotionCode& motion) {
  constexpr double first = 12; // [in]
  if (motion.distance < first)
    return without_time("below_table", "A side step begins at 12 in.",
                        "A shorter one is done within the reach or move; write that.");
  const std::string motion_case(1, motion.motion_case);
  return time_over_first(table, motion, first, "SS12C" + motion_case, "SSC" + motion_case + "_each_inch");
}

MotionTime time_of_walk(const MotionTimes& table, const MotionCode& motion) {
  const auto one = find_printed(table, motion.motion_case == 'P' ? "W_P" : motion.motion_case == 'O' ? "W_PO" : "W_FT");
  if (!one) return not_in_table(motion);
  MotionTime time;
  time.tmu = motion.count * one->tmu;
  time.formula = plain_number(motion.count) + " x " + plain_number(one->tmu);
  time.used = {one->used};
  return time;
}

} // namespace

std::string_view words_of(MotionValueStatus status) {
  switch (status) {
  case MotionValueStatus::found:
    return "found in a reprinted handbook table";
  case MotionValueStatus::memory_sure:
    return "from memory, sure";
  case MotionValueStatus::memory_fairly_sure:
    return "from memory, fairly sure";
  }
  return "";
}

MotionTime time_of_motion(const MotionTimes& table, const MotionCode& motion, bool in_both_hands) {
  switch (motion.kind) {
  case MotionKind::reach:
    return time_of_reach(table, motion);
  case MotionKind::move:
    return time_of_move(table, motion, in_both_hands);
  case MotionKind::turn:
    return time_of_turn(table, motion);
  case MotionKind::eye_travel:
    return time_of_eye_travel(table, motion);
  case MotionKind::leg:
    return time_over_first(table, motion, 6, "LM6", "LM_each_inch");
  case MotionKind::side_step:
    return time_of_side_step(table, motion);
  case MotionKind::walk:
    return time_of_walk(table, motion);
  default:
    break;
  }
  const auto printed = find_printed(table, motion.text);
  if (!printed) return not_in_table(motion);
  MotionTime time;
  time.tmu = printed->tmu;
  time.formula = plain_number(printed->tmu);
  time.used = {printed->used};
  return time;
}

} // namespace docket
