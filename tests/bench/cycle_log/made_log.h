// An invented log of a whole line: 24 stations of a plant that assembles heat pumps, in the order of time.
#pragma once

#include <cstdint>
#include <cstdio>

namespace docket {

/// Writes a header and `rows` rows of eight columns: started_at, cycle_s, unit, variant, station, shift, operator, mark.
/// The same rows for the same seed, everywhere.
void write_made_log(std::FILE* file, std::int64_t rows, std::uint64_t seed);

} // namespace docket
