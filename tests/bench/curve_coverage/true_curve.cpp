#include "tests/bench/curve_coverage/true_curve.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace docket::bench {

namespace {

constexpr double horizon_shifts = 5,
                 times_observed = 3; // section 7, on its own: a bench does not read the rule it tests
constexpr double limit_gap = 1.10;   // settled level and limit, the larger over the smaller
constexpr double phases_apart = 10;  // tau of the slow phase over that of the early one
constexpr double early_exponent = 0.5;
constexpr double early_share = 0.4;  // a1 over c, or less, so that
constexpr double early_left = 0.5;   // the early phase makes at most half of what is left
constexpr double width_share = 0.15; // s over the own count of the last cycle
constexpr int halvings = 80;

/// By kind: the constant for a quick, a middle and a slow pace; tau, h and m over the own count of the last cycle.
struct PaceOfKind {
  LearnerKind kind;
  std::array<double, 3> constants;
};
constexpr PaceOfKind paces[] = {
    {LearnerKind::power_plateau, {0.6, 0.4, 0.3}},      {LearnerKind::exponential_plateau, {0.25, 1, 3}},
    {LearnerKind::hyperbolic_plateau, {0.05, 0.25, 1}}, {LearnerKind::two_phase, {0.4, 1, 3}},
    {LearnerKind::power_then_step, {0.65, 0.75, 1}},
};

double constant_of(const LearnerShape& shape, double last) {
  for (const PaceOfKind& pace : paces) {
    if (pace.kind != shape.kind) continue;
    const double constant = pace.constants[static_cast<std::size_t>(shape.pace)];
    return shape.kind == LearnerKind::power_plateau ? constant : constant * last;
  }
  return 1;
}

/// What a1 is multiplied by.
double early_part(const TrueCurve& curve, double n) {
  if (curve.kind == LearnerKind::two_phase) return std::exp(-phases_apart * n / curve.constant);
  if (curve.kind == LearnerKind::power_then_step) return std::pow(n, -early_exponent);
  return 0;
}

/// What a is multiplied by.
double part(const TrueCurve& curve, double n) {
  switch (curve.kind) {
  case LearnerKind::constant:
    return 0;
  case LearnerKind::power:
  case LearnerKind::power_plateau:
    return std::pow(n, -curve.constant);
  case LearnerKind::exponential_plateau:
  case LearnerKind::two_phase:
    return std::exp(-n / curve.constant);
  case LearnerKind::hyperbolic_plateau:
    return 1 / (1 + n / curve.constant);
  case LearnerKind::power_then_step:
    return 1 / (1 + std::exp((n - curve.constant) / curve.width));
  }
  return 0;
}

double last_of(const LearnerShape& shape) { return static_cast<double>(shape.before + shape.cycles); }

} // namespace

std::string_view name_of(LearnerKind kind) {
  constexpr std::array<std::string_view, 7> names{"constant",   "power",     "power-plateau",  "exponential",
                                                  "hyperbolic", "two-phase", "power-then-step"};
  return names[static_cast<std::size_t>(kind)];
}

bool is_among_models(LearnerKind kind) { return kind != LearnerKind::power_then_step; }

double TrueCurve::level(double cycle) const {
  return floor + early * early_part(*this, cycle) + excess * part(*this, cycle);
}

double true_horizon(const LearnerShape& shape) {
  const double seen = static_cast<double>(shape.cycles);
  const double shifts = horizon_shifts * static_cast<double>(shape.cycles_per_shift);
  return std::min(std::max(seen, shifts), times_observed * seen);
}

TrueCurve make_true_curve(const LearnerShape& shape) {
  const double last = last_of(shape), horizon = last + true_horizon(shape), left = shape.left;
  TrueCurve curve;
  curve.kind = shape.kind;
  curve.floor = 1;
  curve.constant = constant_of(shape, last);
  curve.width = width_share * last;
  if (shape.kind == LearnerKind::power) {
    // (horizon / last)^-b = 1 - G
    curve.constant = -std::log(1 - left) / std::log(horizon / last);
    curve.floor = 0;
    curve.excess = 1;
  } else if (shape.kind != LearnerKind::constant) {
    const double early_last = early_part(curve, last), early_fall = early_last - early_part(curve, horizon);
    if (early_fall > 0) curve.early = std::min(early_share, early_left * left / early_fall);
    // level(last) - level(horizon) = G level(last), linear in a
    const double fall = part(curve, last) - part(curve, horizon);
    curve.excess =
        (left * (1 + curve.early * early_last) - curve.early * early_fall) / (fall - left * part(curve, last));
    assert(curve.excess >= 0);
  }
  const double at_limit = shape.limit == LimitPlace::below_settled   ? curve.level(horizon) / limit_gap
                          : shape.limit == LimitPlace::above_settled ? curve.level(horizon) * limit_gap
                                                                     : curve.level((last + horizon) / 2);
  const double scale = limit_of_learners.count() / at_limit;
  curve.floor *= scale;
  curve.excess *= scale;
  curve.early *= scale;
  return curve;
}

LearnerTruth find_truth(const TrueCurve& curve, const LearnerShape& shape) {
  const double last = last_of(shape), limit = limit_of_learners.count();
  LearnerTruth truth;
  truth.today = curve.level(last);
  truth.settled = curve.level(last + true_horizon(shape));
  truth.left = 1 - truth.settled / truth.today;
  double outside = 0, inside = times_observed * static_cast<double>(shape.cycles);
  if (truth.today <= limit) {
    truth.cycles_to_limit = 0;
  } else if (curve.level(last + inside) <= limit) {
    for (int i = 0; i < halvings; ++i) {
      const double middle = (outside + inside) / 2;
      (curve.level(last + middle) <= limit ? inside : outside) = middle;
    }
    truth.cycles_to_limit = inside;
  }
  return truth;
}

} // namespace docket::bench
