// Quantities: time is chrono, other look-alike numbers are Strong.
#pragma once

#include <chrono>
#include <compare>

namespace docket {

/// A duration as measured or computed. Printed only by the formatter in report/.
using Seconds = std::chrono::duration<double>;

/// A calendar day of the plant. The plant's own clock; there is no time zone anywhere.
using Date = std::chrono::local_days;

/// A point in time on the plant's own clock, to the millisecond.
using Instant = std::chrono::local_time<std::chrono::milliseconds>;

/// A number that must not be mistaken for another of the same type.
template <class Meaning, class Number = double>
class Strong {
public:
  constexpr Strong() = default;
  constexpr explicit Strong(Number value) : value_(value) {}
  constexpr Number value() const { return value_; }
  constexpr auto operator<=>(const Strong&) const = default;

private:
  Number value_{};
};

} // namespace docket
