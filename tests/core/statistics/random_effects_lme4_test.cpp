#include "core/statistics/random_effects.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <ostream>
#include <string>
#include <vector>

namespace docket {
namespace {

using Groups = std::map<std::string, std::vector<double>>;

/// By set and group.
std::map<std::string, Groups> read_groups() {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/lme4_random_effects/groups.csv");
  std::map<std::string, Groups> sets;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    const std::size_t first = line.find(','), second = line.find(',', first + 1);
    sets[line.substr(0, first)][line.substr(first + 1, second - first - 1)].push_back(
        std::stod(line.substr(second + 1)));
  }
  return sets;
}

struct FittedSet {
  std::string name;
  std::size_t groups;
  std::size_t smallest, largest; ///< Sizes of groups.
};

void PrintTo(const FittedSet& set, std::ostream* out) { *out << set.name; }

class RandomEffectsByLme4 : public ::testing::TestWithParam<FittedSet> {};

// lme4 stops where its steps get small: its ratio of standard deviations is right to about 1e-7, so 1e-6 for a
// variance.
TEST_P(RandomEffectsByLme4, agrees) {
  const FittedSet& set = GetParam();
  const std::map<std::string, double> by_lme4 = testing::read_reference_values("lme4_random_effects");
  const Groups groups = read_groups()[set.name];
  std::vector<GroupSummary> summaries;
  std::vector<std::size_t> sizes;
  for (const auto& [name, values] : groups) {
    summaries.push_back(summarise_group(values));
    sizes.push_back(values.size());
  }
  ASSERT_EQ(groups.size(), set.groups);
  EXPECT_EQ(*std::ranges::min_element(sizes), set.smallest);
  EXPECT_EQ(*std::ranges::max_element(sizes), set.largest);

  const RandomEffects effects = fit_random_effects(summaries);
  ASSERT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
  const double between = by_lme4.at(set.name + ".variance_between");
  const double within = by_lme4.at(set.name + ".variance_within");
  EXPECT_NEAR(effects.variance_between, between, 1e-6 * between);
  EXPECT_NEAR(effects.variance_within / within, 1, 1e-6);
  EXPECT_NEAR(effects.mean / by_lme4.at(set.name + ".mean"), 1, 1e-8);
  EXPECT_NEAR(effects.mean_se / by_lme4.at(set.name + ".mean_se"), 1, 1e-6);
}

// Dyestuff2 has its variance between at the boundary, 0, whole and with rows dropped.
INSTANTIATE_TEST_SUITE_P(Balanced, RandomEffectsByLme4,
                         ::testing::Values(FittedSet{"rail", 6, 3, 3}, FittedSet{"dyestuff", 6, 5, 5},
                                           FittedSet{"dyestuff2", 6, 5, 5}, FittedSet{"sleepstudy", 18, 10, 10},
                                           FittedSet{"machine_b", 6, 3, 3}));
INSTANTIATE_TEST_SUITE_P(Unbalanced, RandomEffectsByLme4,
                         ::testing::Values(FittedSet{"rail_unbalanced", 6, 1, 3},
                                           FittedSet{"dyestuff_unbalanced", 6, 1, 5},
                                           FittedSet{"dyestuff2_unbalanced", 6, 2, 5},
                                           FittedSet{"sleepstudy_unbalanced", 17, 1, 10},
                                           FittedSet{"machine_b_unbalanced", 6, 1, 3}));

} // namespace
} // namespace docket
