// Quantities: time is chrono.
#pragma once

#include <chrono>

namespace docket {

/// A duration as measured or computed. Printed only by the formatter in report/.
using Seconds = std::chrono::duration<double>;

/// A calendar day of the plant. The plant's own clock; there is no time zone anywhere.
using Date = std::chrono::local_days;

/// A point in time on the plant's own clock, to the millisecond.
using Instant = std::chrono::local_time<std::chrono::milliseconds>;

} // namespace docket
