// The points of the bench: one factor at a time around a centre, at the boundary of each wrong word, then levels away
// from it, then corners drawn with a seed.
#pragma once

#include "tests/bench/decision_error/tally.h"

#include <vector>

namespace docket::bench {

/// In the order in which they are run: the boundaries first. `seed` draws the corners.
std::vector<Point> make_grid(std::uint64_t seed);

} // namespace docket::bench
