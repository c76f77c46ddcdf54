// The points of the bench: each kind of learner at the centre, with more or less left and the limit on either side;
// corners drawn with a seed; then one factor at a time at the boundary, where G is just delta and wrong words are most
// frequent.
#pragma once

#include "tests/bench/curve_coverage/curve_tally.h"

#include <vector>

namespace docket::bench {

/// In the order in which they are run. `seed` draws the corners.
std::vector<LearnerPoint> make_learner_grid(std::uint64_t seed);

} // namespace docket::bench
