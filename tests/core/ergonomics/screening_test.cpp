#include "core/ergonomics/screening.h"

#include <gtest/gtest.h>

#include <set>

namespace docket {
namespace {

// Every number travels with its source, its range and how sure its values are; no code twice.
TEST(Screening, every_method_says_where_it_is_from_and_how_far_it_reaches) {
  std::set<std::string_view> codes;
  for (const ScreeningMethod* method :
       {&revised_lifting_equation(), &composite_lifting_index(), &maximum_acceptable_effort_method(),
        &strain_index_1995(), &revised_strain_index_2017(), &repetition_definition()}) {
    EXPECT_TRUE(codes.insert(method->code).second) << method->code;
    EXPECT_FALSE(method->source.empty()) << method->code;
    EXPECT_GE(method->range.size(), 2U) << method->code;
    EXPECT_TRUE(method->certainty == "published" || method->certainty == "published_in_part" ||
                method->certainty == "from_memory")
        << method->code;
  }
  EXPECT_EQ(revised_lifting_equation().source, "waters_putz_anderson_garg_1994");
  EXPECT_EQ(maximum_acceptable_effort_method().certainty, "from_memory");
}

TEST(Screening, a_code_is_found) {
  const std::vector<Reason> reasons{{"h_beyond_range", ""}};
  EXPECT_TRUE(has_code(reasons, "h_beyond_range"));
  EXPECT_FALSE(has_code(reasons, "v_beyond_range"));
}

} // namespace
} // namespace docket
