#include "core/content/motions/motion_code.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>

namespace docket {

namespace {

struct FixedCode {
  std::string_view code;
  MotionKind kind;
  std::string_view also = {}; ///< The code it stands for, where another one is usual.
};

using enum MotionKind;

constexpr auto fixed_codes = std::to_array<FixedCode>({
    {"APA", apply_pressure},
    {"APB", apply_pressure},
    {"AP2", apply_pressure, "APA"},
    {"AP1", apply_pressure, "APB"}, // as the early tables call them
    {"AF", apply_pressure},
    {"DM", apply_pressure},
    {"RLF", apply_pressure},
    {"G1A", grasp},
    {"G1B", grasp},
    {"G1C1", grasp},
    {"G1C2", grasp},
    {"G1C3", grasp},
    {"G2", grasp},
    {"G3", grasp},
    {"G4A", grasp},
    {"G4B", grasp},
    {"G4C", grasp},
    {"G5", grasp},
    {"RL1", release},
    {"RL2", release},
    {"D1E", disengage},
    {"D1D", disengage},
    {"D2E", disengage},
    {"D2D", disengage},
    {"D3E", disengage},
    {"D3D", disengage},
    {"EF", eye_focus},
    {"FM", body},
    {"FMP", body},
    {"B", body},
    {"S", body},
    {"KOK", body},
    {"AB", body},
    {"AS", body},
    {"AKOK", body},
    {"KBK", body},
    {"AKBK", body},
    {"SIT", body},
    {"STD", body},
    {"TBC1", body},
    {"TBC2", body},
});

char capital(char letter) { return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter; }

bool digit(char letter) { return letter >= '0' && letter <= '9'; }

std::string without_blanks(std::string_view code) {
  std::string text;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char letter = code[i];
    if (letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r') continue;
    if (code.substr(i, 2) == "\xC2\xA0") { // no-break space
      ++i;
      continue;
    }
    text += letter;
  }
  return text;
}

std::string capitals(std::string_view text) {
  std::string all(text);
  std::transform(all.begin(), all.end(), all.begin(), capital);
  return all;
}

ReadMotionCode unreadable(std::string wrong, std::string right) {
  return {std::nullopt, std::move(wrong), std::move(right)};
}

/// Reads on through one code.
struct Reading {
  std::string_view text;
  std::size_t at = 0;

  bool done() const { return at >= text.size(); }
  char next() const { return done() ? '\0' : capital(text[at]); }
  char next_as_written() const { return done() ? '\0' : text[at]; }
  std::string rest() const { return std::string(text.substr(std::min(at, text.size()))); }

  bool take(std::string_view letters) {
    for (std::size_t i = 0; i < letters.size(); ++i)
      if (at + i >= text.size() || capital(text[at + i]) != letters[i]) return false;
    at += letters.size();
    return true;
  }

  bool take_small_m() {
    if (next_as_written() != 'm') return false;
    ++at;
    return true;
  }

  /// A number with at most one point or comma, above 0; nothing is taken where none stands here.
  std::optional<double> take_number() {
    std::string digits;
    std::size_t end = at;
    bool point = false;
    for (; end < text.size(); ++end) {
      const char letter = text[end];
      if (digit(letter))
        digits += letter;
      else if ((letter == '.' || letter == ',') && !point) {
        digits += '.';
        point = true;
      } else
        break;
    }
    double value = 0;
    const auto [stop, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (fault != std::errc{} || stop != digits.data() + digits.size() || value <= 0) return std::nullopt;
    at = end;
    return value;
  }
};

ReadMotionCode not_understood_after(const std::string& what, const Reading& reading, const std::string& right) {
  const std::string rest = capitals(reading.rest());
  for (const std::string_view unit : {"CM", "MM", "KG", "LB", "IN", "\""})
    if (rest.starts_with(unit))
      return unreadable("There is a unit in it: \"" + reading.rest() + "\".",
                        "Codes are in inches and pounds, and carry no unit: " + right);
  if (reading.done()) return unreadable("It ends after " + what + ".", right);
  return unreadable("After " + what + " stands \"" + reading.rest() + "\".", right);
}

/// The distance of a reach or move, `f` for 3/4 in or less.
bool read_distance(Reading& reading, MotionCode& motion) {
  if (reading.take("F")) {
    motion.distance = fractional_distance;
    motion.text += 'f';
    return true;
  }
  const auto distance = reading.take_number();
  if (!distance) return false;
  motion.distance = *distance;
  motion.text += plain_number(*distance);
  return true;
}

ReadMotionCode read_reach_or_move(Reading reading) {
  MotionCode motion;
  motion.in_motion.before = reading.take_small_m();
  if (motion.in_motion.before) motion.text = "m";
  const bool reach = reading.take("R");
  if (!reach) reading.take("M");
  motion.kind = reach ? MotionKind::reach : MotionKind::move;
  motion.text += reach ? 'R' : 'M';
  const std::string right = reach ? "A reach is written like R10A: R, inches, a letter from A to E."
                                  : "A move is written like M10B or M10B5: M, inches, a letter from A to C, pounds.";
  if (!read_distance(reading, motion)) return not_understood_after(reach ? "the R" : "the M", reading, right);

  // A small "cm" is the unit, though a c and an m could follow one another.
  const bool centimetres = reading.rest().starts_with("cm");
  const char motion_case = reading.next();
  if (centimetres || motion_case < 'A' || motion_case > (reach ? 'E' : 'C'))
    return not_understood_after("the distance", reading, right);
  ++reading.at;
  motion.motion_case = motion_case;
  motion.text += motion_case;

  if (!reach) {
    if (const auto weight = reading.take_number()) {
      motion.weight = *weight;
      motion.text += plain_number(*weight);
      if (reading.take("/2")) {
        motion.weight_shared = true;
        motion.text += "/2";
      }
    }
  }
  motion.in_motion.after = reading.take_small_m();
  if (motion.in_motion.after) motion.text += 'm';
  if (reading.done()) return {motion, {}, {}};
  if (reading.rest() == "M")
    return unreadable("It ends with a capital M.", "A hand that is already moving is a small m, like R10Am.");
  if (reach && digit(reading.next()))
    return unreadable("After the letter stands \"" + reading.rest() + "\".", "A reach has no weight: " + right);
  return not_understood_after("the letter", reading, right);
}

ReadMotionCode read_turn(Reading reading) {
  const std::string right = "A turn is written like T90S: T, degrees, then S, M or L.";
  MotionCode motion;
  motion.kind = MotionKind::turn;
  reading.take("T");
  const auto degrees = reading.take_number();
  if (!degrees) return not_understood_after("the T", reading, right);
  motion.degrees = *degrees;
  const char size = reading.next();
  if (size != 'S' && size != 'M' && size != 'L') return not_understood_after("the degrees", reading, right);
  ++reading.at;
  motion.motion_case = size;
  motion.text = "T" + plain_number(*degrees) + size;
  if (!reading.done()) return not_understood_after("the letter", reading, right);
  return {motion, {}, {}};
}

ReadMotionCode read_position(Reading reading) {
  const std::string right = "Position is written like P1NSE: P, 1 to 3, then S, SS or NS, then E or D.";
  MotionCode motion;
  motion.kind = MotionKind::position;
  reading.take("P");
  const char fit = reading.next();
  if (fit < '1' || fit > '3') return not_understood_after("the P", reading, right);
  ++reading.at;
  const std::string symmetry = reading.take("SS") ? "SS" : reading.take("NS") ? "NS" : reading.take("S") ? "S" : "";
  if (symmetry.empty()) return not_understood_after("the class of fit", reading, right);
  const char handling = reading.next();
  if (handling != 'E' && handling != 'D') return not_understood_after("the symmetry", reading, right);
  ++reading.at;
  if (!reading.done()) return not_understood_after("the handling", reading, right);
  motion.text = std::string("P") + fit + symmetry + handling;
  return {motion, {}, {}};
}

ReadMotionCode read_eye_travel(Reading reading) {
  const std::string right = "Eye travel is written like ET24/18: inches between the points, inches from the eye.";
  MotionCode motion;
  motion.kind = MotionKind::eye_travel;
  reading.take("ET");
  const auto between = reading.take_number();
  if (!between) return not_understood_after("ET", reading, right);
  if (!reading.take("/")) return not_understood_after("the first distance", reading, right);
  const auto away = reading.take_number();
  if (!away) return not_understood_after("the /", reading, right);
  if (!reading.done()) return not_understood_after("the second distance", reading, right);
  motion.eye_between = *between;
  motion.eye_away = *away;
  motion.text = "ET" + plain_number(*between) + "/" + plain_number(*away);
  return {motion, {}, {}};
}

ReadMotionCode read_leg(Reading reading) {
  const std::string right = "A leg motion is written like LM6: LM, inches.";
  MotionCode motion;
  motion.kind = MotionKind::leg;
  reading.take("LM");
  const auto distance = reading.take_number();
  if (!distance || !reading.done()) return not_understood_after(distance ? "the distance" : "LM", reading, right);
  motion.distance = *distance;
  motion.text = "LM" + plain_number(*distance);
  return {motion, {}, {}};
}

ReadMotionCode read_side_step(Reading reading) {
  const std::string right = "A side step is written like SS12C1: SS, inches, then C1 or C2.";
  MotionCode motion;
  motion.kind = MotionKind::side_step;
  reading.take("SS");
  const auto distance = reading.take_number();
  if (!distance) return not_understood_after("SS", reading, right);
  motion.distance = *distance;
  motion.motion_case = reading.take("C1") ? '1' : reading.take("C2") ? '2' : ' ';
  if (motion.motion_case == ' ') return not_understood_after("the distance", reading, right);
  if (!reading.done()) return not_understood_after("the case", reading, right);
  motion.text = "SS" + plain_number(*distance) + "C" + motion.motion_case;
  return {motion, {}, {}};
}

ReadMotionCode read_walk(Reading reading) {
  const std::string right = "Walking is written like W4P (paces), W4PO (paces, hindered or loaded) or W10FT (feet).";
  MotionCode motion;
  motion.kind = MotionKind::walk;
  reading.take("W");
  const auto count = reading.take_number();
  if (!count) return not_understood_after("the W", reading, right);
  motion.count = *count;
  const std::string how = capitals(reading.rest());
  if (how != "P" && how != "PO" && how != "FT") return not_understood_after("the number", reading, right);
  motion.text = "W" + plain_number(*count) + how;
  motion.motion_case = how == "P" ? 'P' : how == "PO" ? 'O' : 'F';
  return {motion, {}, {}};
}

std::optional<MotionCode> find_fixed(const std::string& all_capitals) {
  const auto same = [&](const FixedCode& fixed) { return fixed.code == all_capitals; };
  const auto found = std::find_if(fixed_codes.begin(), fixed_codes.end(), same);
  if (found == fixed_codes.end()) return std::nullopt;
  MotionCode motion;
  motion.kind = found->kind;
  motion.text = std::string(found->also.empty() ? found->code : found->also);
  return motion;
}

/// What the codes that start with these letters look like, where no other rule reads them.
std::string codes_that_start(const std::string& all_capitals) {
  if (all_capitals.starts_with("RL")) return "Release is RL1 or RL2.";
  if (all_capitals.starts_with("TB")) return "A turn of the body is TBC1 or TBC2.";
  switch (all_capitals[0]) {
  case 'G':
    return "Grasp is G1A, G1B, G1C1, G1C2, G1C3, G2, G3, G4A, G4B, G4C or G5.";
  case 'D':
    return "Disengage is D1E, D1D, D2E, D2D, D3E or D3D.";
  case 'A':
    return "Apply pressure is APA, APB or AF; arising is AB, AS, AKOK or AKBK.";
  case 'E':
    return "Eye focus is EF; eye travel is written like ET24/18.";
  case 'F':
    return "A foot motion is FM or FMP.";
  case 'K':
    return "Kneeling is KOK or KBK.";
  case 'L':
    return "A leg motion is written like LM6.";
  case 'B':
    return "Bending is B.";
  case 'S':
    return "S is stoop, SIT is sit, STD is stand; a side step is written like SS12C1.";
  default:
    return "A code starts with the letter of its motion, like R10A, M10B5, G1A, P1NSE or RL1.";
  }
}

} // namespace

ReadMotionCode read_motion_code(std::string_view code) {
  const std::string text = without_blanks(code);
  if (text.empty()) return unreadable("No code stands here.", "A code is written like R10A.");
  if (text.size() > 24) return unreadable("It is too long to be a code.", "One row has one code, like R10A.");
  for (const char letter : text)
    if (letter < ' ' || letter > '~')
      return unreadable("It has a letter or sign that no code has.",
                        "Codes are made of the letters A to Z, digits, a point and /.");

  const std::string all_capitals = capitals(text);
  if (auto fixed = find_fixed(all_capitals)) return {fixed, {}, {}};

  if (text[0] == 'm') {
    if (text.size() > 1 && (capital(text[1]) == 'R' || text[1] == 'M')) return read_reach_or_move({text});
    return unreadable("It starts with a small m.",
                      "A small m says that the hand is already moving (mM10B); the move itself is a capital M.");
  }
  if (text[0] == 'M' && text.size() > 1 && (capital(text[1]) == 'R' || capital(text[1]) == 'M'))
    return unreadable("It starts with a capital M and another motion.",
                      "A hand that is already moving is a small m, like mR10A.");
  if (all_capitals.starts_with("RL") || all_capitals.starts_with("TB"))
    return unreadable("\"" + text + "\" is no code of the table.", codes_that_start(all_capitals));
  if (all_capitals[0] == 'R' || all_capitals[0] == 'M') return read_reach_or_move({text});
  if (all_capitals[0] == 'T') return read_turn({text});
  if (all_capitals[0] == 'P') return read_position({text});
  if (all_capitals.starts_with("ET")) return read_eye_travel({text});
  if (all_capitals.starts_with("LM")) return read_leg({text});
  if (all_capitals.starts_with("SS")) return read_side_step({text});
  if (all_capitals[0] == 'W') return read_walk({text});
  return unreadable("\"" + text + "\" is no code of the table.", codes_that_start(all_capitals));
}

std::string plain_number(double number) {
  // Differences such as 10.1 - 9 would show the last bits of a double.
  const double rounded = std::round(number * 1e6) / 1e6;
  std::array<char, 40> digits{};
  const auto [end, fault] =
      std::to_chars(digits.data(), digits.data() + digits.size(), rounded, std::chars_format::fixed);
  return fault == std::errc{} ? std::string(digits.data(), end) : std::string("a very large number");
}

std::string usual_spelling(std::string_view code) {
  const ReadMotionCode read = read_motion_code(code);
  return read.motion ? read.motion->text : without_blanks(code);
}

} // namespace docket
