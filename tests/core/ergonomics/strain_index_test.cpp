#include "core/ergonomics/strain_index.h"
#include "tests/core/ergonomics/reason_codes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

namespace docket {
namespace {

/// The worked example of the paper of 1995.
StrainRatings paper() {
  return {.intensity = ExertionIntensity::somewhat_hard,
          .exerted = 0.60,
          .per_min = 12,
          .posture = WristPosture::fair,
          .speed = WorkSpeed::fair,
          .hours = 6};
}

// Moore & Garg 1995, worked example: somewhat hard, 60 %, 12 a minute, fair, fair, 4 to 8 h: 3 x 2 x 1.5 x 1.5 x 1 x 1 =
// 13.5. From memory, fairly sure.
TEST(StrainIndex, product_worked_in_the_paper) {
  const StrainIndex si = *screen_strain(paper()).result;
  EXPECT_DOUBLE_EQ(si.intensity, 3);
  EXPECT_DOUBLE_EQ(si.exerted, 2);
  EXPECT_DOUBLE_EQ(si.per_min, 1.5);
  EXPECT_DOUBLE_EQ(si.posture, 1.5);
  EXPECT_DOUBLE_EQ(si.speed, 1);
  EXPECT_DOUBLE_EQ(si.hours, 1);
  EXPECT_DOUBLE_EQ(si.index, 13.5);
}

// Slides of a lecture by A. Garg, found: 9 x 3 x 2, 3 x 3 x 2, 1 x 3 x 2 of intensity, efforts a minute (33) and share of
// time (54 %), the others 1.
TEST(StrainIndex, products_of_a_lecture) {
  StrainRatings ratings = paper();
  ratings.exerted = 0.54;
  ratings.per_min = 33;
  ratings.posture = WristPosture::good;
  for (const auto& [intensity, product] :
       {std::pair{ExertionIntensity::very_hard, 54}, std::pair{ExertionIntensity::somewhat_hard, 18},
        std::pair{ExertionIntensity::light, 6}}) {
    ratings.intensity = intensity;
    EXPECT_DOUBLE_EQ(screen_strain(ratings).result->index, product);
  }
}

// The data of a published exercise (hard, 30-49 %, 4-8 a minute, bad, fast, 2-4 h); product by hand:
// 6 x 1.5 x 1 x 2 x 1.5 x 0.75.
TEST(StrainIndex, data_of_an_exercise) {
  EXPECT_DOUBLE_EQ(screen_strain({.intensity = ExertionIntensity::hard,
                                  .exerted = 0.40,
                                  .per_min = 6,
                                  .posture = WristPosture::bad,
                                  .speed = WorkSpeed::fast,
                                  .hours = 3})
                       .result->index,
                   20.25);
}

// The table of multipliers on both sides of each step, from memory but for intensity.
TEST(StrainIndex, steps) {
  const auto with = [](auto change) {
    StrainRatings ratings = paper();
    change(ratings);
    return *screen_strain(ratings).result;
  };
  for (const auto& [share, expected] :
       {std::pair{0.099, 0.5}, std::pair{0.10, 1.0}, std::pair{0.299, 1.0}, std::pair{0.30, 1.5}, std::pair{0.499, 1.5},
        std::pair{0.50, 2.0}, std::pair{0.799, 2.0}, std::pair{0.80, 3.0}})
    EXPECT_DOUBLE_EQ(with([&](StrainRatings& r) { r.exerted = share; }).exerted, expected) << share;
  for (const auto& [per_min, expected] :
       {std::pair{3.9, 0.5}, std::pair{4.0, 1.0}, std::pair{8.0, 1.0}, std::pair{9.0, 1.5}, std::pair{14.0, 1.5},
        std::pair{15.0, 2.0}, std::pair{19.0, 2.0}, std::pair{20.0, 3.0}})
    EXPECT_DOUBLE_EQ(with([&](StrainRatings& r) { r.per_min = per_min; }).per_min, expected) << per_min;
  for (const auto& [hours, expected] :
       {std::pair{1.0, 0.25}, std::pair{1.5, 0.5}, std::pair{2.0, 0.5}, std::pair{3.0, 0.75}, std::pair{4.0, 0.75},
        std::pair{7.9, 1.0}, std::pair{8.0, 1.5}})
    EXPECT_DOUBLE_EQ(with([&](StrainRatings& r) { r.hours = hours; }).hours, expected) << hours;
  EXPECT_DOUBLE_EQ(with([](StrainRatings& r) { r.intensity = ExertionIntensity::near_maximal; }).intensity, 13);
  EXPECT_DOUBLE_EQ(with([](StrainRatings& r) { r.posture = WristPosture::very_bad; }).posture, 3);
  EXPECT_DOUBLE_EQ(with([](StrainRatings& r) { r.speed = WorkSpeed::very_fast; }).speed, 2);
}

TEST(StrainIndex, bad_ratings_have_their_own_reasons) {
  StrainRatings ratings = paper();
  ratings.exerted = 1.1;
  ratings.per_min = 0;
  ratings.hours = 25;
  const StrainScreening screened = screen_strain(ratings);
  EXPECT_FALSE(screened.result);
  EXPECT_EQ(codes_of(screened.why_not), (Codes{"exerted_out_of_range", "per_min_not_positive", "hours_beyond_range"}));
  ratings = paper();
  ratings.hours = 0;
  EXPECT_EQ(codes_of(screen_strain(ratings).why_not), Codes{"hours_not_positive"});
}

// Posture, speed and strength of an effort are no ratings of the paper.
TEST(StrainIndex, an_effort_without_ratings_lacks_them) {
  Effort effort;
  effort.posture = EffortPosture::bent;
  effort.speed = "fast";
  effort.strength_n = 200;
  EXPECT_EQ(
      codes_of(screen_strain(effort, 0.3, 10).why_not),
      (Codes{"intensity_rating_not_given", "posture_rating_not_given", "speed_rating_not_given", "hours_not_given"}));
}

RevisedStrainInput made(double intensity, double per_min, double each, WristAngle wrist, double hours) {
  return {.intensity = intensity, .per_min = per_min, .each = Seconds{each}, .wrist = wrist, .hours = hours};
}

// No published example at hand; the equations are from memory. Worked by hand from them: I 0.3, 10 a minute, 2 s,
// flexion 20 degrees, 8 h; and I 0.2, 15 a minute, 1 s, extension 30 degrees, 8 h.
TEST(RevisedStrainIndex, closed_form) {
  const RevisedStrain a = *screen_revised_strain(made(0.3, 10, 2, {20, true}, 8)).result;
  EXPECT_NEAR(a.im, 3.706, 5e-7);
  EXPECT_NEAR(a.em, 2.6, 1e-12);
  EXPECT_NEAR(a.dm, 1.07, 1e-12);
  EXPECT_NEAR(a.pm, 1.23666, 5e-6);
  EXPECT_NEAR(a.hm, 1.00015, 5e-6);
  EXPECT_NEAR(a.index, 12.752, 5e-4);
  EXPECT_NEAR(screen_revised_strain(made(0.2, 15, 1, {30, false}, 8)).result->index, 7.656, 5e-4);
}

// A mistyped coefficient would not join: at I 0.4 both pieces give 5.024, at 90 a minute 22.60, at 60 s 19.05, at 30
// degrees of extension 1, at 8 hours 1, at 0 degrees of flexion 1. The steps show to the digits of the coefficients.
TEST(RevisedStrainIndex, no_number_for_what_is_longer_than_the_cycle) {
  HandEffort effort;
  effort.task = "hold";
  effort.force_n = 50;
  effort.strength_n = 200;
  effort.strength_source = "invented";
  effort.time = Seconds{20};
  effort.times_per_unit = 6;
  effort.hours = 7;
  effort.posture = EffortPosture::neutral;
  const RevisedStrainScreening screened = screen_revised_strain(effort, Seconds{60}, std::nullopt);
  EXPECT_FALSE(screened.result);
  EXPECT_EQ(codes_of(screened.why_not), Codes{"duty_above_one"});
  EXPECT_TRUE(screen_revised_strain(effort, Seconds{120}, std::nullopt).result);
}

TEST(RevisedStrainIndex, pieces_join) {
  const auto at = [](RevisedStrainInput input) { return *screen_revised_strain(input).result; };
  EXPECT_NEAR(at(made(0.4, 10, 2, {}, 8)).im, 5.024, 1e-9);
  EXPECT_NEAR(at(made(0.4 + 1e-9, 10, 2, {}, 8)).im, 5.024, 1e-6);
  EXPECT_NEAR(at(made(0.3, 90, 2, {}, 8)).em, 22.60, 1e-9);
  EXPECT_NEAR(at(made(0.3, 90 + 1e-9, 2, {}, 8)).em, 22.60, 0.01);
  EXPECT_NEAR(at(made(0.3, 10, 60, {}, 8)).dm, 19.05, 1e-9);
  EXPECT_NEAR(at(made(0.3, 10, 60 + 1e-9, {}, 8)).dm, 19.05, 0.01);
  EXPECT_DOUBLE_EQ(at(made(0.3, 10, 2, {30, false}, 8)).pm, 1);
  EXPECT_NEAR(at(made(0.3, 10, 2, {40, false}, 8)).pm, 1.028, 1e-12);
  EXPECT_DOUBLE_EQ(at(made(0.3, 10, 2, {0, true}, 8)).pm, 1);
  EXPECT_NEAR(at(made(0.3, 10, 2, {}, 8)).hm, 1.000, 5e-4);
  EXPECT_DOUBLE_EQ(at(made(0.3, 10, 2, {}, 0.05)).hm, 0.20);
}

TEST(RevisedStrainIndex, each_bad_value_has_its_own_reason) {
  for (const auto& [code, input] : {std::pair{"intensity_out_of_range", made(1.01, 10, 2, {}, 8)},
                                    std::pair{"intensity_out_of_range", made(0, 10, 2, {}, 8)},
                                    std::pair{"per_min_not_positive", made(0.3, 0, 2, {}, 8)},
                                    std::pair{"seconds_not_positive", made(0.3, 10, 0, {}, 8)},
                                    std::pair{"angle_out_of_range", made(0.3, 10, 2, {200, true}, 8)},
                                    std::pair{"hours_not_positive", made(0.3, 10, 2, {}, 0)},
                                    std::pair{"hours_beyond_range", made(0.3, 10, 2, {}, 9)}}) {
    const RevisedStrainScreening screened = screen_revised_strain(input);
    EXPECT_FALSE(screened.result);
    EXPECT_EQ(codes_of(screened.why_not), Codes{code});
  }
}

HandEffort clamp() {
  HandEffort effort;
  effort.task = "hose clamp";
  effort.force_n = 60;
  effort.time = Seconds{2};
  effort.times_per_unit = 10;
  effort.strength_n = 200;
  effort.strength_source = "measured on 12 people of the plant, 10th percentile";
  effort.posture = EffortPosture::neutral;
  effort.hours = 8;
  return effort;
}

// 10 a unit on a line of 60 s are 10 a minute: the first case worked by hand, with a measured angle and without.
TEST(RevisedStrainIndex, of_an_effort) {
  const RevisedStrainScreening measured = screen_revised_strain(clamp(), Seconds{60}, WristAngle{20, true});
  EXPECT_EQ(measured.task, "hose clamp");
  EXPECT_NEAR(measured.result->index, 12.752, 5e-4);
  EXPECT_TRUE(measured.notes.empty());
  const RevisedStrainScreening straight = screen_revised_strain(clamp(), Seconds{60});
  EXPECT_NEAR(straight.result->index, 3.706 * 2.6 * 1.07 * 1.00015, 5e-4);
  EXPECT_EQ(codes_of(straight.notes), Codes{"posture_neutral_taken_as_straight"});
  // EM at 20 a minute on a line twice as fast: 0.10 + 5.
  EXPECT_NEAR(screen_revised_strain(clamp(), Seconds{30}).result->em, 5.1, 1e-12);
}

TEST(RevisedStrainIndex, says_what_an_effort_lacks) {
  HandEffort effort = clamp();
  effort.posture = EffortPosture::bent;
  EXPECT_EQ(codes_of(screen_revised_strain(effort, Seconds{60}).why_not), Codes{"wrist_angle_not_given"});
  effort = clamp();
  effort.strength_source.clear();
  effort.hours.reset();
  EXPECT_EQ(codes_of(screen_revised_strain(effort, Seconds{60}).why_not),
            (Codes{"strength_source_not_given", "hours_not_given"}));
  effort = clamp();
  effort.strength_n.reset();
  EXPECT_EQ(codes_of(screen_revised_strain(effort, Seconds{60}).why_not), Codes{"strength_not_given"});
  effort.strength_n = -1;
  effort.force_n = 0;
  effort.times_per_unit = 0;
  effort.share_of_units = 0;
  EXPECT_EQ(codes_of(screen_revised_strain(effort, Seconds{0}).why_not),
            (Codes{"cycle_not_positive", "force_not_positive", "times_not_positive", "share_out_of_range",
                   "strength_not_positive"}));
}

} // namespace
} // namespace docket
