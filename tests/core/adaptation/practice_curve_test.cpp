// The curves against R, textbook tables and closed forms.
//
// NIST's DanWood, Misra1a and BoxBOD certify least squares on the times themselves; these curves are fitted on logarithms,
// so their certified values don't belong here. Misra1a and BoxBOD rise, which these curves can't; DanWood rises too, and is
// used as noise-free falling data with its exponent turned.
#include "core/adaptation/curve_profile.h"
#include "core/adaptation/practice_curve.h"
#include "core/statistics/distributions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <limits>
#include <map>
#include <numeric>
#include <sstream>
#include <string>

namespace docket {
namespace {

const std::string reference = std::string(DOCKET_TESTS_DIR) + "/reference/";

/// What R printed; tests/reference/r_practice_curves/ORIGIN.
const std::map<std::string, double>& printed_by_r() {
  static const std::map<std::string, double> values = [] {
    std::map<std::string, double> read;
    std::ifstream file(reference + "r_practice_curves/values.csv");
    for (std::string line; std::getline(file, line);) {
      const std::size_t comma = line.find(',');
      read[line.substr(0, comma)] = std::stod(line.substr(comma + 1));
    }
    return read;
  }();
  return values;
}

double by_r(const std::string& key) { return printed_by_r().at(key); }

struct Times {
  std::vector<double> n, seconds;
};

Times made_times() {
  Times times;
  std::ifstream file(reference + "r_practice_curves/made.csv");
  for (double y = 0; file >> y;) {
    times.seconds.push_back(y);
    times.n.push_back(static_cast<double>(times.seconds.size()));
  }
  return times;
}

/// R's Indometh, subject 1, in quarters of an hour.
Times indometh() {
  return {{1, 2, 3, 4, 5, 8, 12, 16, 20, 24, 32}, {1.50, 0.94, 0.78, 0.48, 0.37, 0.19, 0.12, 0.11, 0.08, 0.07, 0.05}};
}

CurveData group(const Times& times) { return group_cycles(times.n, times.seconds); }

Times from_curve(int last, double (*curve)(double)) {
  Times times;
  for (int n = 1; n <= last; ++n) {
    times.n.push_back(n);
    times.seconds.push_back(curve(n));
  }
  return times;
}

/// The factor that a curve of so many percent, written as the table's column, has at unit n.
double unit_factor(int n, int percent) {
  std::ifstream file(reference + "unit_factors/unit_factors.csv");
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    std::string cell;
    std::getline(cells, cell, ',');
    if (std::stoi(cell) != n) continue;
    for (int column = 70; column <= percent; column += 5) std::getline(cells, cell, ',');
    return std::stod(cell);
  }
  return std::numeric_limits<double>::quiet_NaN();
}

/// R's AIC and log-likelihood count the spread as a parameter too.
void expect_quality(const CurveFit& fit, const std::string& key) {
  EXPECT_NEAR(fit.rss / by_r(key + ".rss"), 1, 1e-8) << key;
  EXPECT_NEAR(fit.log_likelihood, by_r(key + ".log_likelihood"), 1e-6) << key;
  EXPECT_NEAR(2 * fit.parameters - 2 * fit.log_likelihood, by_r(key + ".aic"), 1e-6) << key;
}

struct RSet {
  std::string name;
  Times times;
};

std::vector<RSet> r_sets() { return {{"made", made_times()}, {"indometh", indometh()}}; }

// Constant and power are linear on logarithms: R's lm.
TEST(PracticeCurve, ConstantAndPowerAgreeWithLm) {
  for (const RSet& set : r_sets()) {
    const CurveData data = group(set.times);
    ASSERT_EQ(data.n.size(), set.times.n.size()); // a block a cycle, as in R
    const CurveFit flat = fit_curve(data, CurveModel::constant);
    expect_quality(flat, set.name + ".constant");
    EXPECT_NEAR(flat.c / by_r(set.name + ".constant.c"), 1, 1e-10);
    const CurveFit power = fit_curve(data, CurveModel::power);
    expect_quality(power, set.name + ".power");
    EXPECT_NEAR(power.excess / by_r(set.name + ".power.a"), 1, 1e-6); // n = 1 is the first cycle
    EXPECT_NEAR(power.shape / by_r(set.name + ".power.b"), 1, 1e-6);
    EXPECT_EQ(power.c, 0);
  }
}

// The plateaus: R's nls on ln y. Five to six digits: a minimum is known to the root of the precision of its value.
TEST(PracticeCurve, PlateausAgreeWithNls) {
  const CurveData data = group(made_times());
  const CurveFit power = fit_curve(data, CurveModel::power_plateau);
  expect_quality(power, "made.power_plateau");
  EXPECT_NEAR(power.c / by_r("made.power_plateau.c"), 1, 1e-5);
  EXPECT_NEAR(power.excess / by_r("made.power_plateau.a"), 1, 1e-5);
  EXPECT_NEAR(power.shape / by_r("made.power_plateau.shape"), 1, 1e-5);
  for (const RSet& set : r_sets()) {
    const std::string key = set.name + ".exponential_plateau";
    const CurveFit fit = fit_curve(group(set.times), CurveModel::exponential_plateau);
    expect_quality(fit, key);
    EXPECT_NEAR(fit.c / by_r(key + ".c"), 1, 1e-5);
    // a exp(-n / tau) at the first cycle, n = 1
    EXPECT_NEAR(fit.excess / (by_r(key + ".a") * std::exp(-1 / by_r(key + ".shape"))), 1, 1e-5);
    EXPECT_NEAR(fit.shape / by_r(key + ".shape"), 1, 1e-5);
  }
}

/// Signed root of the profile deviance as a probability.
double by_profile(double rss_held, double least_rss, double count, bool above) {
  return normal_cdf((above ? 1 : -1) * std::sqrt(count * std::log(std::max(rss_held, least_rss) / least_rss)));
}

// A mean held d away from the best one adds n d^2 to the residual sum.
TEST(PracticeCurve, ProfileOfAConstantIsAClosedForm) {
  const CurveData data = group(made_times());
  const CurveFit fit = fit_curve(data, CurveModel::constant);
  const CurveProfile profile(data, fit, 1);
  for (const double d : {-0.06, -0.03, -0.01, 0.0, 0.02, 0.05}) {
    const double expected = by_profile(fit.rss + 40 * d * d, fit.rss, 40, d >= 0);
    EXPECT_NEAR(profile.probability_level_within(data, 80, fit.level(80) * std::exp(d)), expected, 1e-9) << d;
    const double wider = normal_cdf((d >= 0 ? 1 : -1) * std::sqrt(40 * std::log1p(40 * d * d / fit.rss) / 2.5));
    EXPECT_NEAR(CurveProfile(data, fit, 2.5).probability_level_within(data, 80, fit.level(80) * std::exp(d)), wider,
                1e-9)
        << d;
  }
}

// For a line on logarithms a level held t standard errors away multiplies the residual sum by 1 + t^2/(n - 2); the standard
// errors are R's (predict, summary of lm).
TEST(PracticeCurve, ProfileOfThePowerAgreesWithTheStandardErrorsOfLm) {
  for (const RSet& set : r_sets()) {
    const CurveData data = group(set.times);
    const CurveFit fit = fit_curve(data, CurveModel::power);
    const CurveProfile profile(data, fit, 1);
    const double n = data.count, ahead = 2 * data.n.back();
    for (const double t : {-2.5, -1.96, -1.0, -0.3, 0.0, 0.5, 1.5, 2.0, 3.0}) {
      const double expected = by_profile(fit.rss * (1 + t * t / (n - 2)), fit.rss, n, t >= 0);
      const double ln_m = by_r(set.name + ".power.ln_m_ahead") + t * by_r(set.name + ".power.se_ln_m_ahead");
      const double seconds = std::exp(ln_m + fit.sigma * fit.sigma / 2 + (t == 0 ? 1e-9 : 0));
      EXPECT_NEAR(profile.probability_level_within(data, ahead, seconds), expected, 1e-3) << set.name << " " << t;
      const double b = by_r(set.name + ".power.b") + t * by_r(set.name + ".power.se_b");
      const double improvement = 1 - std::exp2(-b) + (t == 0 ? 1e-9 : 0);
      EXPECT_NEAR(profile.probability_improvement_within(data, data.n.back(), ahead, improvement), expected, 1e-3)
          << set.name << " " << t;
    }
  }
}

// The residual sum with the level at cycle 80, or the improvement from 40 to 80, held: R's optim and optimize.
TEST(PracticeCurve, ProfilesOfThePlateausAgreeWithConstrainedOptim) {
  const CurveData data = group(made_times());
  int compared = 0;
  for (const CurveModel model : {CurveModel::power_plateau, CurveModel::exponential_plateau}) {
    const CurveFit fit = fit_curve(data, model);
    const CurveProfile profile(data, fit, 1);
    const std::string key = "made." + std::string(name_of(model));
    const std::string level = key + ".rss_with_m80_", improvement = key + ".rss_with_improvement_";
    for (const auto& [name, rss] : printed_by_r()) {
      if (name.starts_with(level)) {
        const double m = std::stod(name.substr(level.size()));
        const double seconds = m * std::exp(fit.sigma * fit.sigma / 2);
        EXPECT_NEAR(profile.probability_level_within(data, 80, seconds),
                    by_profile(rss, by_r(key + ".rss"), 40, m >= fit.at(80)), 1e-3)
            << name;
        ++compared;
      } else if (name.starts_with(improvement)) {
        const double left = std::stod(name.substr(improvement.size()));
        EXPECT_NEAR(profile.probability_improvement_within(data, 40, 80, left),
                    by_profile(rss, by_r(key + ".rss"), 40, left >= 1 - fit.at(80) / fit.at(40)), 1e-3)
            << name;
        ++compared;
      }
    }
  }
  EXPECT_EQ(compared, 15);
}

// Textbook unit factors, four printed digits: tests/reference/unit_factors/ORIGIN.
TEST(PracticeCurve, APercentCurveHasItsUnitFactors) {
  const CurveFit eighty =
      fit_curve(group(from_curve(60, [](double n) { return 90 * std::pow(n, std::log2(0.8)); })), CurveModel::power);
  EXPECT_NEAR(eighty.shape, 0.321928, 1e-5); // -ln 0.8 / ln 2
  for (const int n : {1, 2, 4, 8, 10, 20, 50, 100}) EXPECT_NEAR(eighty.at(n) / 90, unit_factor(n, 80), 0.5e-4) << n;
  const CurveFit ninety =
      fit_curve(group(from_curve(60, [](double n) { return 90 * std::pow(n, std::log2(0.9)); })), CurveModel::power);
  EXPECT_NEAR(ninety.at(20) / 90, 0.634, 0.5e-3); // Stevenson, Operations Management, Table 7S.1
  EXPECT_NEAR(ninety.at(100) / 90, unit_factor(100, 90), 0.5e-4);
}

// De Jong 1957, Ergonomics 1, 51: T = T1 [M + (1 - M) n^b]. T1 = 10, M = 0.25, 80 %: 10, 8.5, 7.3, 6.34 at 1, 2, 4, 8.
TEST(PracticeCurve, DeJongsIncompressibleShareIsThePlateau) {
  const auto de_jong = [](double n) { return 10 * (0.25 + 0.75 * std::pow(n, std::log2(0.8))); };
  const CurveFit fit = fit_curve(group(from_curve(40, de_jong)), CurveModel::power_plateau);
  EXPECT_NEAR(fit.c, 2.5, 1e-3);
  EXPECT_NEAR(fit.excess, 7.5, 1e-3);
  EXPECT_NEAR(fit.shape, 0.321928, 1e-4);
  EXPECT_NEAR(fit.at(2), 8.5, 1e-5);
  EXPECT_NEAR(fit.at(8), 6.34, 1e-5);
  EXPECT_NEAR(fit.at(1000), 3.3115, 1e-3);
}

// Parameters of NIST DanWood (b1 0.76886226176, b2 3.8604055871): noise-free; its power is beyond what practice does, so
// half of its exponent is asked for, falling.
TEST(PracticeCurve, NoiseFreePowerIsRecovered) {
  const auto falling = [](double n) { return 0.76886226176 * std::pow(n, -3.8604055871 / 2); };
  const CurveFit fit = fit_curve(group(from_curve(40, falling)), CurveModel::power);
  EXPECT_NEAR(fit.excess, 0.76886226176, 1e-6);
  EXPECT_NEAR(fit.shape, 3.8604055871 / 2, 1e-6);
}

// Small made residuals that sum to nothing, so that the spread is not zero.
double ripple(int i) { return 1 + 0.04 * (i % 5 - 2); }

TEST(PracticeCurve, GroupingChangesTheFitByLessThanOneInTenThousand) {
  CurveData plain;
  Times times;
  for (int i = 1; i <= 600; ++i) {
    const double y = (46 + 30 * std::exp(-i / 150.0) + 15 * std::pow(i, -0.5)) * ripple(i);
    times.n.push_back(i);
    times.seconds.push_back(y);
    plain.n.push_back(i);
    plain.ln_y.push_back(std::log(y));
    plain.weight.push_back(1);
    plain.count += 1;
  }
  const CurveData grouped = group(times);
  EXPECT_LT(grouped.n.size(), 300U);
  EXPECT_EQ(grouped.count, 600);
  EXPECT_NEAR(std::accumulate(grouped.weight.begin(), grouped.weight.end(), 0.0), 600, 1e-9);
  for (const CurveModel model : curve_models) {
    const CurveFit a = fit_curve(grouped, model), b = fit_curve(plain, model);
    EXPECT_NEAR(a.sigma / b.sigma, 1, 1e-3) << name_of(model);
    for (const double n : {50.0, 300.0, 600.0, 1200.0})
      EXPECT_NEAR(a.level(n) / b.level(n), 1, 1e-4) << name_of(model) << " at " << n;
  }
}

// Somebody with 5,000 cycles behind them learns a changed method within a hundred: blocks of 2 % of n would hide it.
TEST(PracticeCurve, AQuickChangeAfterALongTimeIsNotLostInTheBlocks) {
  Times times;
  for (int i = 1; i <= 400; ++i) {
    times.n.push_back(5000 + i);
    times.seconds.push_back((50 + 20 * std::exp(-i / 60.0)) * ripple(i));
  }
  const CurveFit fit = fit_curve(group(times), CurveModel::exponential_plateau);
  EXPECT_NEAR(fit.c, 50, 0.3);
  EXPECT_NEAR(fit.shape, 60, 3);
  EXPECT_NEAR(fit.at(5001), 50 + 20 * std::exp(-1 / 60.0), 0.5);
}

// Burnham & Anderson 2002, 2.4: AICc = AIC + 2K(K + 1)/(n - K - 1); from 2.2 the constant n(ln 2 pi + 1) is left out.
TEST(PracticeCurve, CorrectedAicByHand) {
  const CurveData data = group(made_times());
  for (const auto& [model, k] : {std::pair{CurveModel::constant, 2.0}, std::pair{CurveModel::power, 3.0},
                                 std::pair{CurveModel::power_plateau, 4.0}}) {
    const CurveFit fit = fit_curve(data, model);
    const double aic_of_r = by_r("made." + std::string(name_of(model)) + ".aic");
    const double left_out = 40 * (std::log(2 * 3.14159265358979) + 1);
    EXPECT_NEAR(corrected_aic(fit, 40, 1), aic_of_r - left_out + 2 * k * (k + 1) / (40 - k - 1), 1e-6);
  }
  CurveFit fit;
  fit.parameters = 4;
  fit.cost = 40 * std::log(2.0 / 40);
  // phi 2: 20 independent cycles of 40; 20 ln(2/40) + 8 + 40/15
  EXPECT_NEAR(corrected_aic(fit, 40, 2), 20 * std::log(0.05) + 8 + 40.0 / 15, 1e-12);
  EXPECT_TRUE(std::isinf(corrected_aic(fit, 5, 1)));
}

// Burnham & Anderson 2002, 2.9: the weight of a model falls as exp(-delta/2). Differences of 0, 2 and 4 give 0.6652, 0.2447
// and 0.0900 (1, e^-1 and e^-2 over their sum); a difference of 0 gives equal weights.
TEST(PracticeCurve, AkaikeWeights) {
  const std::vector<double> aicc{-100, -102, -98, std::numeric_limits<double>::infinity()};
  const std::vector<double> weights = akaike_weights(aicc);
  EXPECT_NEAR(weights[0], 0.2447, 0.5e-4);
  EXPECT_NEAR(weights[1], 0.6652, 0.5e-4);
  EXPECT_NEAR(weights[2], 0.0900, 0.5e-4);
  EXPECT_EQ(weights[3], 0);
  const std::vector<double> far{50000, 0}, even = akaike_weights(std::vector<double>{7, 7});
  EXPECT_EQ(akaike_weights(far)[1], 1);
  EXPECT_EQ(even[0], 0.5);
  const double infinite = std::numeric_limits<double>::infinity();
  EXPECT_EQ(akaike_weights(std::vector<double>{infinite, infinite})[1], 0.5);
}

std::vector<Times> hard_cases() {
  Times early, late, short_span, flat;
  for (int i = 1; i <= 300; ++i) {
    early.n.push_back(i);
    early.seconds.push_back((45 + 40 * std::pow(i, -0.5)) * ripple(i));
    late.n.push_back(50000 + i);
    late.seconds.push_back((50 - i / 300.0) * ripple(i));
    flat.n.push_back(i);
    flat.seconds.push_back(50 * ripple(i));
  }
  for (int i = 1; i <= 60; ++i) { // no shorter record is fitted
    short_span.n.push_back(900 + i);
    short_span.seconds.push_back(50 * ripple(i));
  }
  return {early, late, short_span, flat};
}

// 1e-3: a profile is searched to about half a percent of a step, so it may waver that much.
TEST(PracticeCurve, ProbabilitiesRiseAndStayBetweenNothingAndOne) {
  for (const Times& times : hard_cases()) {
    const CurveData data = group(times);
    const double last = times.n.back();
    for (const CurveModel model : curve_models) {
      const CurveFit fit = fit_curve(data, model);
      const CurveProfile profile(data, fit, 1.5);
      EXPECT_TRUE(std::isfinite(fit.rss) && std::isfinite(fit.c) && std::isfinite(fit.excess) &&
                  std::isfinite(fit.level(2 * last)))
          << name_of(model);
      double before = 0;
      for (double seconds = 30; seconds <= 90; seconds += 1) {
        const double p = profile.probability_level_within(data, last + 300, seconds);
        EXPECT_GE(p, before - 1e-3) << name_of(model) << " n " << last << " s " << seconds;
        EXPECT_TRUE(p >= 0 && p <= 1);
        before = p;
      }
      EXPECT_GT(before, 0.99) << name_of(model);
      before = 0;
      for (double improvement = 0; improvement < 0.95; improvement += 0.01) {
        const double p = profile.probability_improvement_within(data, last, last + 300, improvement);
        EXPECT_GE(p, before - 1e-3) << name_of(model) << " n " << last << " G " << improvement;
        EXPECT_TRUE(p >= 0 && p <= 1) << name_of(model) << " n " << last << " G " << improvement << " p " << p;
        before = p;
      }
    }
  }
}

TEST(PracticeCurve, TheLevelAtInfinityIsThePlateau) {
  const CurveData data = group(made_times());
  const double infinite = std::numeric_limits<double>::infinity();
  for (const CurveModel model : {CurveModel::constant, CurveModel::power_plateau, CurveModel::exponential_plateau}) {
    const CurveFit fit = fit_curve(data, model);
    const CurveProfile profile(data, fit, 1);
    EXPECT_DOUBLE_EQ(fit.level(infinite), fit.c * std::exp(fit.sigma * fit.sigma / 2)) << name_of(model);
    EXPECT_NEAR(profile.probability_level_within(data, infinite, fit.level(infinite) * 1.000001), 0.5, 0.01)
        << name_of(model);
    EXPECT_LT(profile.probability_level_within(data, infinite, fit.level(infinite) * 0.8), 0.025) << name_of(model);
  }
}

} // namespace
} // namespace docket
