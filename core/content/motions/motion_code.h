// A motion code: the trade notation of one basic motion, as textbooks of work measurement write it.
//
// Model     what a code says: R10A is a reach of 10 in, case A; M10B5 a move of 10 in, case B, of 5 lb; a small m before
//           or after: the hand is already moving there (mR10A, R10Am, M10B5m); f: 3/4 in or less (RfA);
//           /2 after the weight: two hands share it (M10B20/2)
// Source    textbooks and handbooks of work measurement that reprint the table of the basic motions; the place of the m
//           and the /2 from memory, to be confirmed
// Method    read from left to right; capital and small letters are the same, but m, which is never M; blanks do not
//           count; a comma is a point
// Assumes   inches and pounds. The notation carries no unit, so a code made for centimetres reads the same: R30B is
//           taken as 30 in. Codes with a unit in them are not read
// Checked   tests/core/content/motions/motion_code_test.cpp
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace docket {

inline constexpr double fractional_distance = 0.75; ///< [in] what `f` stands for: 3/4 in or less

enum class MotionKind : std::uint8_t {
  reach,
  move,
  turn,
  apply_pressure,
  grasp,
  position,
  release,
  disengage,
  eye_travel,
  eye_focus,
  leg,
  side_step,
  walk,
  body, ///< foot, bend, stoop, kneel, arise, sit, stand, turn of the body: a fixed time each
};

/// Where the hand is already moving in a reach or move.
struct InMotion {
  bool before = false, after = false;
};

struct MotionCode {
  MotionKind kind = MotionKind::body;
  std::string text;                     ///< The code as it is usually written, without blanks.
  double distance = 0;                  ///< [in] of reach, move, leg motion, side step; 0.75 for f
  char motion_case = ' ';               ///< A to E of a reach, A to C of a move, S, M, L of a turn
  InMotion in_motion;                   ///< of a reach or move
  double weight = 0;                    ///< [lb] of a move, 0 where none is given
  bool weight_shared = false;           ///< two hands share the weight
  double degrees = 0;                   ///< of a turn
  double eye_between = 0, eye_away = 0; ///< eye travel: between the points; from the eye, in the same unit
  double count = 1;                     ///< paces or feet of a walk
};

/// A code, or why it could not be read.
struct ReadMotionCode {
  std::optional<MotionCode> motion;
  std::string wrong; ///< A sentence: what in it was not understood. Empty where it was read.
  std::string right; ///< A sentence: what would be right.
};

ReadMotionCode read_motion_code(std::string_view code);

/// The fewest digits that read back the same, at most six after the point: 12.2.
std::string plain_number(double number);

/// The same code written two ways has one form: its usual spelling where it can be read, else without blanks.
std::string usual_spelling(std::string_view code);

} // namespace docket
