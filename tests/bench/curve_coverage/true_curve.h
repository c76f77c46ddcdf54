// What is true of a simulated learner: the mean time at every own cycle, and what follows from it.
//
// Model     level(n), the mean of many cycles at own cycle n:
//             constant c;  power a n^-b;  power_plateau c + a n^-b;  exponential_plateau c + a exp(-n/tau);
//             hyperbolic_plateau c + a/(1 + n/h);  two_phase c + a1 exp(-10 n/tau) + a exp(-n/tau);
//             power_then_step c + a1 n^-0.5 + a/(1 + exp((n - m)/s)): early practice by a power, and late a step down
//             of logistic shape around cycle m. No model of core/adaptation has this shape
//           H = max(cycles seen, 5 shifts), but at most 3 times the cycles seen; left G = 1 - level(N + H)/level(N), N
//           the own count of the last cycle; cycles to the limit: the first k with level(N + k) <= limit, never beyond
//           3 times the cycles seen
// Source    the curves: core/adaptation/practice_curve.h; logistic: Verhulst 1838 (from memory); H, G and never: rules.h, section 7
// Method    the amount a is solved in closed form so that G is exactly the one asked for; a1 is 0.4 c, or less where the
//           early phase alone would leave half of G; k by bisection, for every level falls
// Checked   tests/bench/curve_coverage/curve_coverage_test.cpp: closed forms
#pragma once

#include "core/quantity.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace docket::bench {

inline constexpr Seconds limit_of_learners{60};

enum class LearnerKind {
  constant,
  power,
  power_plateau,
  exponential_plateau,
  hyperbolic_plateau,
  two_phase,
  power_then_step,
};

std::string_view name_of(LearnerKind kind);

struct TrueCurve {
  LearnerKind kind = LearnerKind::constant;
  double floor = 0;                 ///< c [s]; none for power
  double excess = 0;                ///< a [s]; none for constant
  double constant = 1;              ///< b [1]; tau, h or m [cycles]
  double early = 0;                 ///< a1 [s], of two_phase and power_then_step
  double width = 1;                 ///< s [cycles], of power_then_step
  double level(double cycle) const; ///< [s]
};

/// How soon practice does what it does, within the record: by a table in true_curve.cpp. Power has only one.
enum class Pace { quick, middle, slow };
/// Where the limit lies against the settled level: that is 10 % above it, the limit is 10 % above that, or the limit is
/// reached in the middle between the last cycle and the horizon.
enum class LimitPlace { below_settled, above_settled, between };
/// To whom help comes: to cycles that turn out long; or to whoever is late at some moment, which the moment alone tells.
enum class HelpComes { to_long_cycles, when_late };

/// Everything that is true of a learner and their record.
struct LearnerShape {
  LearnerKind kind = LearnerKind::exponential_plateau;
  double left = 0.03; ///< G [1]; of no use for constant
  Pace pace = Pace::middle;
  LimitPlace limit = LimitPlace::below_settled;
  std::int64_t cycles = 400; ///< seen
  std::int64_t before = 0;   ///< own cycles before the first one seen; known to the tool
  double sigma = 0.10;       ///< SD of ln cycle around the level
  double lag1 = 0.2;         ///< within a day
  double helped = 0;         ///< [1] of cycles
  HelpComes help = HelpComes::to_long_cycles;
  std::int64_t cycles_per_shift = 100;
};

/// H by the rule of section 7.
double true_horizon(const LearnerShape& shape);

/// Has the tool a model of this shape?
bool is_among_models(LearnerKind kind);

/// The curve with G and the limit where they are asked for. A shape that can not leave so much is a fault of the grid.
TrueCurve make_true_curve(const LearnerShape& shape);

struct LearnerTruth {
  double today = 0, settled = 0;         ///< [s]
  double left = 0;                       ///< G [1]
  std::optional<double> cycles_to_limit; ///< after the last one; absent: never
};

LearnerTruth find_truth(const TrueCurve& curve, const LearnerShape& shape);

} // namespace docket::bench
