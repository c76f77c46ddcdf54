#include "core/ergonomics/strain_index.h"

#include <array>
#include <cmath>
#include <cstddef>

namespace docket {

namespace {

// (1). Intensity found; the others from memory, to be confirmed.
constexpr std::array intensity_multiplier{1.0, 3.0, 6.0, 9.0, 13.0};
constexpr std::array posture_multiplier{1.0, 1.0, 1.5, 2.0, 3.0};
constexpr std::array speed_multiplier{1.0, 1.0, 1.0, 1.5, 2.0};

template <std::size_t count, typename Rating>
double of_rating(const std::array<double, count>& multipliers, Rating rating) {
  return multipliers[static_cast<std::size_t>(rating)];
}

double exerted_multiplier(double share) {
  return share < 0.10 ? 0.5 : share < 0.30 ? 1 : share < 0.50 ? 1.5 : share < 0.80 ? 2 : 3;
}

double per_min_multiplier(double per_min) {
  return per_min < 4 ? 0.5 : per_min < 9 ? 1 : per_min < 15 ? 1.5 : per_min < 20 ? 2 : 3;
}

double hours_multiplier(double hours) {
  return hours <= 1 ? 0.25 : hours <= 2 ? 0.5 : hours <= 4 ? 0.75 : hours < 8 ? 1 : 1.5;
}

constexpr double degrees_most = 90;      ///< a wrist bends no further (common practice)
constexpr double revised_hours_most = 8; ///< HM(8) = 1; beyond it nothing confirms the equation

// (2), all from memory, to be confirmed.
double im(double i) {
  return i <= 0.4 ? 30 * i * i * i - 15.6 * i * i + 13 * i + 0.4 : 36 * i * i * i - 33.3 * i * i + 24.77 * i - 1.86;
}

double em(double e) { return e <= 90 ? 0.10 + 0.25 * e : 0.00334 * std::pow(e, 1.96); }

double dm(double d) { return d <= 60 ? 0.45 + 0.31 * d : 19.17 * std::log(d) - 59.44; }

double pm(WristAngle wrist) {
  if (wrist.flexion) return 1.2 * std::exp(0.009 * wrist.degrees) - 0.2;
  const double beyond = wrist.degrees - 30;
  return beyond <= 0 ? 1 : 1 + 0.00028 * beyond * beyond;
}

double hm(double h) { return h <= 0.05 ? 0.20 : 0.042 * h + 0.090 * std::log(h) + 0.477; }

} // namespace

StrainScreening screen_strain(const StrainRatings& ratings) {
  StrainScreening screened;
  if (!(ratings.exerted > 0 && ratings.exerted <= 1)) screened.why_not.push_back({"exerted_out_of_range", {}});
  if (!(ratings.per_min > 0)) screened.why_not.push_back({"per_min_not_positive", {}});
  if (!(ratings.hours > 0)) screened.why_not.push_back({"hours_not_positive", {}});
  if (ratings.hours > 24) screened.why_not.push_back({"hours_beyond_range", {}});
  if (!screened.why_not.empty()) return screened;
  StrainIndex si{.intensity = of_rating(intensity_multiplier, ratings.intensity),
                 .exerted = exerted_multiplier(ratings.exerted),
                 .per_min = per_min_multiplier(ratings.per_min),
                 .posture = of_rating(posture_multiplier, ratings.posture),
                 .speed = of_rating(speed_multiplier, ratings.speed),
                 .hours = hours_multiplier(ratings.hours)};
  si.index = si.intensity * si.exerted * si.per_min * si.posture * si.speed * si.hours;
  screened.result = si;
  return screened;
}

StrainScreening screen_strain(const Effort& effort, double exerted, double per_min) {
  StrainScreening lacking;
  if (!effort.rated_intensity) lacking.why_not.push_back({"intensity_rating_not_given", {}});
  if (!effort.rated_posture) lacking.why_not.push_back({"posture_rating_not_given", {}});
  if (!effort.rated_speed) lacking.why_not.push_back({"speed_rating_not_given", {}});
  if (!effort.hours) lacking.why_not.push_back({"hours_not_given", {}});
  if (!lacking.why_not.empty()) return lacking;
  return screen_strain(StrainRatings{.intensity = *effort.rated_intensity,
                                     .exerted = exerted,
                                     .per_min = per_min,
                                     .posture = *effort.rated_posture,
                                     .speed = *effort.rated_speed,
                                     .hours = *effort.hours});
}

RevisedStrainScreening screen_revised_strain(const RevisedStrainInput& input) {
  RevisedStrainScreening screened;
  std::vector<Reason>& why = screened.why_not;
  if (!(input.intensity > 0 && input.intensity <= 1)) why.push_back({"intensity_out_of_range", {}});
  if (!(input.per_min > 0)) why.push_back({"per_min_not_positive", {}});
  if (!(input.each.count() > 0)) why.push_back({"seconds_not_positive", {}});
  if (!(input.wrist.degrees >= 0 && input.wrist.degrees <= degrees_most)) why.push_back({"angle_out_of_range", {}});
  if (!(input.hours > 0)) why.push_back({"hours_not_positive", {}});
  if (input.hours > revised_hours_most) why.push_back({"hours_beyond_range", {}});
  if (!why.empty()) return screened;
  RevisedStrain rsi{.im = im(input.intensity),
                    .em = em(input.per_min),
                    .dm = dm(input.each.count()),
                    .pm = pm(input.wrist),
                    .hm = hm(input.hours)};
  rsi.index = rsi.im * rsi.em * rsi.dm * rsi.pm * rsi.hm;
  screened.result = rsi;
  return screened;
}

RevisedStrainScreening screen_revised_strain(const HandEffort& effort, Seconds line_cycle,
                                             std::optional<WristAngle> wrist) {
  RevisedStrainScreening lacking;
  lacking.task = effort.task;
  std::vector<Reason>& why = lacking.why_not;
  if (!(line_cycle.count() > 0)) why.push_back({"cycle_not_positive", {}});
  if (!(effort.force_n > 0)) why.push_back({"force_not_positive", {}});
  if (!(effort.times_per_unit > 0)) why.push_back({"times_not_positive", {}});
  if (!(effort.share_of_units > 0 && effort.share_of_units <= 1)) why.push_back({"share_out_of_range", {}});
  if (!effort.strength_n)
    why.push_back({"strength_not_given", {}});
  else if (!(*effort.strength_n > 0))
    why.push_back({"strength_not_positive", {}});
  else if (effort.strength_source.empty())
    why.push_back({"strength_source_not_given", {}});
  if (!effort.hours) why.push_back({"hours_not_given", {}});
  const bool taken_as_straight = !wrist && effort.posture == EffortPosture::neutral;
  if (taken_as_straight) wrist = WristAngle{};
  if (!wrist) why.push_back({"wrist_angle_not_given", {}});
  // While units that have it follow one another.
  if (line_cycle.count() > 0 && effort.times_per_unit * effort.time.count() > line_cycle.count() + 1e-9)
    why.push_back({"duty_above_one", {}});
  if (!why.empty()) return lacking;

  const double per_min = effort.share_of_units * effort.times_per_unit * (Seconds{60} / line_cycle);
  RevisedStrainScreening screened = screen_revised_strain(RevisedStrainInput{
      .intensity = effort.force_n / *effort.strength_n,
      .per_min = per_min,
      .each = effort.time,
      .wrist = *wrist,
      .hours = *effort.hours,
  });
  screened.task = effort.task;
  if (taken_as_straight) screened.notes.push_back({"posture_neutral_taken_as_straight", {}});
  return screened;
}

} // namespace docket
