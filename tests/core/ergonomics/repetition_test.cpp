#include "core/ergonomics/repetition.h"
#include "tests/core/ergonomics/reason_codes.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

/// A 60 s line: 24 s of one pattern, 54 s of work, 450 cycles a shift.
RepetitionInput sixty_seconds() {
  return {.line_cycle = Seconds{60},
          .pattern_per_unit = Seconds{24},
          .busy_per_unit = Seconds{54},
          .cycles_per_shift = 450,
          .work_per_shift = std::nullopt};
}

// Silverstein, Fine & Armstrong 1986, from memory: below 30 s.
TEST(Repetition, below_thirty_seconds) {
  RepetitionInput input = sixty_seconds();
  input.line_cycle = Seconds{30};
  EXPECT_FALSE(screen_repetition(input).now->below_30_s);
  input.line_cycle = Seconds{29.99};
  EXPECT_TRUE(screen_repetition(input).now->below_30_s);
}

// The same: more than half of the cycle in one pattern; exactly half counts here too.
TEST(Repetition, half_of_the_cycle_in_one_pattern) {
  RepetitionInput input = sixty_seconds();
  EXPECT_DOUBLE_EQ(*screen_repetition(input).now->pattern_share, 0.4);
  EXPECT_EQ(screen_repetition(input).now->half_in_one_pattern, false);
  input.pattern_per_unit = Seconds{30};
  EXPECT_EQ(screen_repetition(input).now->half_in_one_pattern, true);
  input.pattern_per_unit = Seconds{29.99};
  EXPECT_EQ(screen_repetition(input).now->half_in_one_pattern, false);
}

// By hand: 6 of 60 s are a tenth; 450 cycles of 60 s are 27,000 s, which is 7.5 h.
TEST(Repetition, recovery_and_cycles) {
  const RepetitionAtCycle now = *screen_repetition(sixty_seconds()).now;
  EXPECT_NEAR(*now.recovery_share, 0.1, 1e-15);
  EXPECT_DOUBLE_EQ(now.recovery->count(), 6);
  EXPECT_DOUBLE_EQ(*now.cycles_per_shift, 450);
  EXPECT_TRUE(now.why_not.empty());
  RepetitionInput by_hours = sixty_seconds();
  by_hours.cycles_per_shift.reset();
  by_hours.work_per_shift = Seconds{27000};
  EXPECT_DOUBLE_EQ(*screen_repetition(by_hours).now->cycles_per_shift, 450);
}

// Asked for 54 s: 24/54 in the pattern, no second left, 27,000/54 = 500 cycles. Asked for 48 s: 24/48 is half, 562.5
// cycles, and 54 s of work no longer go in. Asked for 29 s, below 30.
TEST(Repetition, at_a_shorter_cycle) {
  const RepetitionScreening at_54 = screen_repetition(sixty_seconds(), Seconds{54});
  EXPECT_DOUBLE_EQ(at_54.now->cycle.count(), 60);
  EXPECT_NEAR(*at_54.asked->pattern_share, 24.0 / 54, 1e-15);
  EXPECT_DOUBLE_EQ(*at_54.asked->recovery_share, 0);
  EXPECT_DOUBLE_EQ(*at_54.asked->cycles_per_shift, 500);
  const RepetitionAtCycle at_48 = *screen_repetition(sixty_seconds(), Seconds{48}).asked;
  EXPECT_EQ(at_48.half_in_one_pattern, true);
  EXPECT_DOUBLE_EQ(*at_48.cycles_per_shift, 562.5);
  EXPECT_FALSE(at_48.recovery_share || at_48.recovery);
  EXPECT_EQ(codes_of(at_48.why_not), Codes{"busy_beyond_cycle"});
  EXPECT_TRUE(screen_repetition(sixty_seconds(), Seconds{29}).asked->below_30_s);
}

TEST(Repetition, what_is_not_given_is_said) {
  const RepetitionAtCycle now = *screen_repetition({.line_cycle = Seconds{60},
                                                    .pattern_per_unit = {},
                                                    .busy_per_unit = {},
                                                    .cycles_per_shift = {},
                                                    .work_per_shift = {}})
                                     .now;
  EXPECT_FALSE(now.pattern_share || now.half_in_one_pattern || now.recovery_share || now.cycles_per_shift);
  EXPECT_EQ(codes_of(now.why_not), (Codes{"pattern_not_given", "busy_not_given", "cycles_per_shift_not_given"}));
}

TEST(Repetition, bad_values_have_their_own_reasons) {
  RepetitionInput input = sixty_seconds();
  input.pattern_per_unit = Seconds{-1};
  input.busy_per_unit = Seconds{-1};
  input.cycles_per_shift = 0;
  EXPECT_EQ(codes_of(screen_repetition(input).now->why_not),
            (Codes{"pattern_negative", "busy_negative", "cycles_per_shift_not_positive"}));
  input = sixty_seconds();
  input.pattern_per_unit = Seconds{61};
  EXPECT_EQ(codes_of(screen_repetition(input).now->why_not), Codes{"pattern_beyond_cycle"});
  input.line_cycle = Seconds{0};
  const RepetitionScreening none = screen_repetition(input, Seconds{50});
  EXPECT_FALSE(none.now || none.asked);
  EXPECT_EQ(codes_of(none.why_not), Codes{"cycle_not_positive"});
  const RepetitionScreening asked = screen_repetition(sixty_seconds(), Seconds{0});
  EXPECT_TRUE(asked.now);
  EXPECT_FALSE(asked.asked);
  EXPECT_EQ(codes_of(asked.why_not), Codes{"asked_cycle_not_positive"});
}

} // namespace
} // namespace docket
